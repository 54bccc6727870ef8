using Stillhook.Physics.Earth;

namespace Stillhook.Physics.Line;

/// <summary>Frequency, period and path of a load swinging on a weightless line. Lengths are hook to the load's middle, m; angles rad.</summary>
public static class Swing
{
    /// <summary>Frequency of a small swing about a hook that stays where it is: ω = √(g/L), rad/s.</summary>
    /// <remarks>At 20° to each side the true period is 0.8 % longer: <see cref="PeriodRatio"/>.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">Length not above 0.</exception>
    public static double FrequencyRadS(double lengthM)
    {
        if (!(lengthM > 0 && double.IsFinite(lengthM)))
            throw new ArgumentOutOfRangeException(nameof(lengthM), lengthM, "Hook to load is above 0 m.");
        return Math.Sqrt(Gravity.Standard / lengthM);
    }

    /// <summary>Period of a small swing, s: T₀ = 2π/ω.</summary>
    public static double PeriodS(double lengthM) => 2 * Math.PI / FrequencyRadS(lengthM);

    /// <summary>Period at an amplitude over the small-swing period: T/T₀ = 1/agm(1, cos(α/2)). Exact; α from 0 to under π.</summary>
    /// <remarks>The complete elliptic integral by the arithmetic-geometric mean [DLMF-19.8].</remarks>
    public static double PeriodRatio(double amplitudeRad)
    {
        if (!(amplitudeRad is >= 0 and < Math.PI))
            throw new ArgumentOutOfRangeException(nameof(amplitudeRad), amplitudeRad, "Amplitude is from 0 to under pi.");
        double a = 1, b = Math.Cos(amplitudeRad / 2);
        while (a - b > 1e-15)
            (a, b) = ((a + b) / 2, Math.Sqrt(a * b));
        return 1 / a;
    }

    /// <summary>Frequency when the helicopter floats free under a thrust that keeps size and direction: ω = √((g/L)(1 + m/M)), rad/s.</summary>
    /// <remarks>With the thrust equal to the whole weight the relative motion is exactly a pendulum in gravity g(1 + m/M), at any amplitude. Real flight lies between this and the fixed hook.</remarks>
    public static double FreeFrequencyRadS(double lengthM, double loadKg, double aircraftKg) =>
        FrequencyRadS(lengthM) * Math.Sqrt(1 + loadKg / aircraftKg);

    /// <summary>Period of a load going round in a circle at an angle: T = T₀·√cos α, s. Exact.</summary>
    public static double ConicalPeriodS(double lengthM, double angleRad) => PeriodS(lengthM) * Math.Sqrt(Math.Cos(angleRad));

    /// <summary>Speed of the load in that circle, m/s: v = L·sin α·2π/T.</summary>
    public static double ConicalSpeedMs(double lengthM, double angleRad) =>
        2 * Math.PI * lengthM * Math.Sin(angleRad) / ConicalPeriodS(lengthM, angleRad);

    /// <summary>How fast the ellipse of a swing turns, rad/s, in the sense of travel: Ω = (3/8)·ω·a·b/L².</summary>
    /// <remarks>Airy's result, from memory; leading order in a/L, b/L: on 30 m with a = 5, b = 2 m the full motion turns 0.3 % faster.</remarks>
    /// <param name="lengthM">Hook to load.</param>
    /// <param name="semiMajorM">a, half the long axis.</param>
    /// <param name="semiMinorM">b, half the short axis.</param>
    public static double PrecessionRadS(double lengthM, double semiMajorM, double semiMinorM) =>
        3.0 / 8 * FrequencyRadS(lengthM) * semiMajorM * semiMinorM / (lengthM * lengthM);

    /// <summary>Largest line tension over weight of a swing let go at an angle: 3 − 2cos α. Exact, no drag.</summary>
    public static double LargestTensionRatio(double amplitudeRad) => 3 - 2 * Math.Cos(amplitudeRad);

    /// <summary>Line tension over weight while circling or trailing steadily at an angle: 1/cos α. Exact.</summary>
    public static double SteadyTensionRatio(double angleRad) => 1 / Math.Cos(angleRad);

    /// <summary>Lean of the line under a steady acceleration: tan θ = a/g, rad; the load lags behind. Put on suddenly, the load swings to twice that.</summary>
    public static double LeanRad(double accelerationMs2) => Math.Atan(accelerationMs2 / Gravity.Standard);

    /// <summary>Swing left when hook and load, moving together, lose a speed at once: α = 2·asin(v/(2√(gL))), rad. Exact without drag; v up to 2√(gL).</summary>
    public static double AfterInstantStopRad(double speedMs, double lengthM) =>
        2 * Math.Asin(speedMs / (2 * Math.Sqrt(Gravity.Standard * lengthM)));
}
