using Stillhook.Physics.Rotor;

namespace Stillhook.Physics.Motion;

/// <summary>A visual approach in which the speed follows the range as the pilot perceives it, far ranges looking shorter than they are: V = k·R/(1 + R/A).</summary>
/// <remarks>
/// The law is from memory of [HEFFLEY-1979]; what is worked from it here is exact. Far out V tends to k·A (cruise); the deceleration
/// a = k²·R/(1 + R/A)³ is largest at R = A/2, there V = k·A/3 and a = (4/27)·k²·A; close in the speed dies away with time constant 1/k, so
/// the spot itself is never reached. R is the distance to the spot, m.
/// </remarks>
/// <param name="RatePerS">k, above 0.</param>
/// <param name="ScaleM">A, range at which perception has halved it; above 0.</param>
public readonly record struct PerceivedRangeStop(double RatePerS, double ScaleM)
{
    /// <summary>k, 1/s.</summary>
    public double RatePerS { get; } = Permitted.Above0(RatePerS);

    /// <summary>A, m.</summary>
    public double ScaleM { get; } = Permitted.Above0(ScaleM);

    /// <summary>The stop from a cruise speed (m/s) with a largest deceleration (m/s²): k = 27·a/(4·V), A = V/k.</summary>
    /// <exception cref="ArgumentOutOfRangeException">One of them not above 0.</exception>
    public static PerceivedRangeStop From(double cruiseSpeedMs, double peakDecelerationMs2)
    {
        double k = 27.0 / 4 * Permitted.Above0(peakDecelerationMs2) / Permitted.Above0(cruiseSpeedMs);
        return new(k, cruiseSpeedMs / k);
    }

    /// <summary>Speed far out, m/s: k·A.</summary>
    public double CruiseSpeedMs => RatePerS * ScaleM;

    /// <summary>Range of the largest deceleration, m: A/2.</summary>
    public double PeakRangeM => ScaleM / 2;

    /// <summary>Largest deceleration, m/s²: (4/27)·k²·A.</summary>
    public double PeakDecelerationMs2 => 4.0 / 27 * RatePerS * RatePerS * ScaleM;

    /// <summary>Speed at a range, m/s.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Range below 0.</exception>
    public double SpeedMs(double rangeM) => RatePerS * Permitted.From0(rangeM) / (1 + rangeM / ScaleM);

    /// <summary>Deceleration at a range, m/s², positive.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Range below 0.</exception>
    public double DecelerationMs2(double rangeM) => RatePerS * RatePerS * Permitted.From0(rangeM) / Math.Pow(1 + rangeM / ScaleM, 3);

    /// <summary>Time from one range to a nearer one, s: [ln(R₁/R₂) + (R₁ − R₂)/A]/k.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The nearer range not above 0 or beyond the farther one.</exception>
    public double TimeS(double fromM, double toM)
    {
        if (!(toM > 0 && toM <= Permitted.Above0(fromM)))
            throw new ArgumentOutOfRangeException(nameof(toM), toM, "Permitted: above 0, up to the farther range.");
        return (Math.Log(fromM / toM) + (fromM - toM) / ScaleM) / RatePerS;
    }
}
