using Stillhook.Physics.Earth;

namespace Stillhook.Physics.Line;

/// <summary>Swing frequency of a load on a line that weighs something. Small swings, hook at rest, no drag.</summary>
public static class LineMass
{
    private const double LightestLine = 1e-6, HeaviestLine = 1000; // of the tip's mass: beyond, the integration's steps lose the line or the tip

    /// <summary>The line as a rigid rod: ω² = (g/L)·(m + μL/2)/(m + μL/3), rad/s. An upper bound of the exact value; 0.03 % high for a 100 kg load on 18 kg of line, 0.4 % for a bare hook.</summary>
    public static double RodFrequencyRadS(double lengthM, double lineKgPerM, double tipKg)
    {
        double line = lineKgPerM * lengthM;
        return Swing.FrequencyRadS(lengthM) * Math.Sqrt((tipKg + line / 2) / (tipKg + line / 3));
    }

    /// <summary>The line as a perfectly flexible chain, rad/s: mode 1 is the swing, mode 2 the first wave in the line.</summary>
    /// <remarks>
    /// With u = s + m/μ (s from the tip upward): (u·y')' + (ω²/g)·y = 0, tip g·y' = −ω²y, top y = 0; in closed form
    /// y = A·J₀(2ω√(u/g)) + B·Y₀(…). Solved by integrating from the tip and halving on ω; relative error under 1e-8.
    /// </remarks>
    /// <param name="lengthM">Length of the line, above 0.</param>
    /// <param name="lineKgPerM">μ; the whole line weighs from a millionth of the tip to a thousand times as much.</param>
    /// <param name="tipKg">m, above 0.</param>
    /// <param name="mode">1, 2, 3 ...</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside these.</exception>
    public static double ExactFrequencyRadS(double lengthM, double lineKgPerM, double tipKg, int mode = 1)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(mode, 1);
        if (!(tipKg > 0 && double.IsFinite(tipKg)))
            throw new ArgumentOutOfRangeException(nameof(tipKg), tipKg, "The tip's mass is above 0 kg.");
        if (!(lineKgPerM * lengthM >= LightestLine * tipKg && lineKgPerM * lengthM <= HeaviestLine * tipKg))
            throw new ArgumentOutOfRangeException(nameof(lineKgPerM), lineKgPerM, "The line weighs from a millionth of the tip to a thousand times as much.");
        const double finer = 1.01;
        double low = 0.9 * Swing.FrequencyRadS(lengthM), lowTop = AtTop(low, lengthM, lineKgPerM, tipKg);
        for (int found = 0; ;)
        {
            double high = low * finer, highTop = AtTop(high, lengthM, lineKgPerM, tipKg);
            if (lowTop * highTop <= 0 && ++found == mode)
                return Halved(low, high, lowTop, w => AtTop(w, lengthM, lineKgPerM, tipKg));
            (low, lowTop) = (high, highTop);
        }
    }

    private static double Halved(double low, double high, double lowValue, Func<double, double> f)
    {
        for (int i = 0; i < 45; i++)
        {
            double middle = (low + high) / 2;
            if (f(middle) * lowValue > 0)
                low = middle;
            else
                high = middle;
        }
        return (low + high) / 2;
    }

    /// <summary>Sideways offset at the top when the tip is 1 m off, by RK4 in p = u·y': y' = p/u, p' = −(ω²/g)·y.</summary>
    private static double AtTop(double omega, double lengthM, double lineKgPerM, double tipKg)
    {
        const int steps = 600;
        double k = omega * omega / Gravity.Standard, u = tipKg / lineKgPerM, h = lengthM / steps, y = 1, p = -k * u;
        for (int i = 0; i < steps; i++, u += h)
        {
            double middle = u + h / 2;
            double y1 = p / u, p1 = -k * y;
            double y2 = (p + h / 2 * p1) / middle, p2 = -k * (y + h / 2 * y1);
            double y3 = (p + h / 2 * p2) / middle, p3 = -k * (y + h / 2 * y2);
            double y4 = (p + h * p3) / (u + h), p4 = -k * (y + h * y3);
            y += h / 6 * (y1 + 2 * y2 + 2 * y3 + y4);
            p += h / 6 * (p1 + 2 * p2 + 2 * p3 + p4);
        }
        return y;
    }
}
