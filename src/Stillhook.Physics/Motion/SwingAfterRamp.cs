using Stillhook.Physics.Line;
using Stillhook.Physics.Rotor;

namespace Stillhook.Physics.Motion;

/// <summary>How the acceleration runs over a change of speed; x = time over duration, area 1.</summary>
public enum AccelerationPulse
{
    /// <summary>1.</summary>
    Constant,

    /// <summary>(π/2)·sin πx.</summary>
    HalfSine,

    /// <summary>1 − cos 2πx.</summary>
    RaisedCosine,

    /// <summary>30x²(1 − x)²: the quintic blend's speed.</summary>
    Quartic,

    /// <summary>140x³(1 − x)³: the seventh-degree blend's speed.</summary>
    Sextic,
}

/// <summary>Swing left behind by a change of the hook's speed. Linear (small swings), undamped, hook path given, the load at rest before.</summary>
/// <remarks>
/// residual = |∫a·e^(−iωt)dt|/ω, m: ΔV/ω times the spectrum F(n) of the pulse, n = duration over period (closed form; worked in
/// docs/method/stops-and-shapers.md). Against the nonlinear pendulum a stop from 15 m/s on 30 m comes within 0.2° at a zero and 4 % away from one.
/// </remarks>
public static class SwingAfterRamp
{
    private const double LongestSearched = 50;

    /// <summary>Residual swing as a share of that after an instant change of speed.</summary>
    /// <param name="pulse">Form of the acceleration.</param>
    /// <param name="periods">n, duration over swing period; 0 or above.</param>
    public static double Share(AccelerationPulse pulse, double periods) => Math.Abs(Spectrum(pulse, Permitted.From0(periods)));

    /// <summary>Residual swing, amplitude m: ΔV/ω·F(n).</summary>
    /// <param name="pulse">Form of the acceleration.</param>
    /// <param name="speedChangeMs">ΔV, 0 or above.</param>
    /// <param name="durationS">0 or above.</param>
    /// <param name="frequencyRadS">ω of the swing, above 0.</param>
    public static double ResidualM(AccelerationPulse pulse, double speedChangeMs, double durationS, double frequencyRadS) =>
        Permitted.From0(speedChangeMs) / Permitted.Above0(frequencyRadS)
        * Share(pulse, Permitted.From0(durationS) * frequencyRadS / (2 * Math.PI));

    /// <summary>Residual swing, amplitude rad, on a line of a length (hook to load's middle, m): ΔV/√(gL)·F(n).</summary>
    /// <inheritdoc cref="ResidualM"/>
    public static double ResidualRad(AccelerationPulse pulse, double speedChangeMs, double durationS, double lengthM) =>
        ResidualM(pulse, speedChangeMs, durationS, Swing.FrequencyRadS(lengthM)) / lengthM;

    /// <summary>Swing left, amplitude m, when the hook starts at once, moves evenly and stops at once: 2·(v/ω)·|sin(ωt/2)|. None after a whole period (crane trick, [CRANE-TRICK]).</summary>
    /// <param name="speedMs">v, 0 or above.</param>
    /// <param name="durationS">t, 0 or above.</param>
    /// <param name="frequencyRadS">ω, above 0.</param>
    public static double AfterUniformMoveM(double speedMs, double durationS, double frequencyRadS) =>
        2 * Permitted.From0(speedMs) / Permitted.Above0(frequencyRadS) * Math.Abs(Math.Sin(frequencyRadS * Permitted.From0(durationS) / 2));

    /// <summary>Duration that leaves no swing, in swing periods: the n-th zero of the spectrum, by halving; error under 1e-12.</summary>
    /// <param name="pulse">Form of the acceleration.</param>
    /// <param name="which">1 for the shortest, 2, 3 ... while below 50 periods.</param>
    public static double ZeroSwingPeriods(AccelerationPulse pulse, int which = 1)
    {
        const double step = 0.1;
        if (which < 1)
            throw new ArgumentOutOfRangeException(nameof(which), which, "Permitted: 1 or above.");
        int found = 0;
        for (double low = step / 2; low < LongestSearched; low += step)
        {
            if (Spectrum(pulse, low) * Spectrum(pulse, low + step) < 0 && ++found == which)
                return Zero(pulse, low, low + step);
        }
        throw new ArgumentOutOfRangeException(nameof(which), which, "Permitted: zeros below 50 periods.");
    }

    private static double Zero(AccelerationPulse pulse, double low, double high)
    {
        for (int i = 0; i < 50; i++)
        {
            double middle = (low + high) / 2;
            if (Spectrum(pulse, low) * Spectrum(pulse, middle) > 0)
                low = middle;
            else
                high = middle;
        }
        return (low + high) / 2;
    }

    /// <summary>The spectrum with its sign. The fractions are written about their removable poles.</summary>
    private static double Spectrum(AccelerationPulse pulse, double n) => pulse switch
    {
        AccelerationPulse.Constant => Sinc(n),
        AccelerationPulse.HalfSine => Math.PI / 4 * Sinc(n - 0.5) / (n + 0.5), // cos(πn)/(1 − 4n²)
        AccelerationPulse.RaisedCosine => n < 0.5 ? Sinc(n) / (1 - n * n) : Sinc(n - 1) / (n * (n + 1)), // sin(πn)/(πn(1 − n²))
        AccelerationPulse.Quartic => ScaledBessel(2, Math.PI * n), // 15·j₂(πn)/(πn)²
        AccelerationPulse.Sextic => ScaledBessel(3, Math.PI * n), // 105·j₃(πn)/(πn)³
        _ => throw new ArgumentOutOfRangeException(nameof(pulse), pulse, "Permitted: one of the pulses listed."),
    };

    private static double Sinc(double n) => n == 0 ? 1 : Math.Sin(Math.PI * n) / (Math.PI * n);

    /// <summary>(2l + 1)!!·j_l(x)/x^l for l = 2 or 3: the power series up to x = 2, elementary functions beyond.</summary>
    private static double ScaledBessel(int l, double x)
    {
        if (x < 2)
        {
            double sum = 1, term = 1;
            for (int k = 1; Math.Abs(term) > 1e-17; k++)
                sum += term *= -x * x / (2 * k * (2 * l + 2 * k + 1));
            return sum;
        }
        double sin = Math.Sin(x), cos = Math.Cos(x), square = x * x;
        double j2 = (3 / square - 1) * sin / x - 3 * cos / square;
        return l == 2 ? 15 * j2 / square
            : 105 * ((15 / square - 6) * sin / square - (15 / square - 1) * cos / x) / (square * x);
    }
}
