using System.Numerics;

namespace Stillhook.Physics.Motion;

/// <summary>Smoothness of a speed profile as the arc length of its normalised amplitude spectrum. Closer to zero is smoother.</summary>
public static class SpectralArcLength
{
    /// <summary>Highest frequency looked at, Hz, as published.</summary>
    public const double CutOffHz = 10;

    /// <summary>Amplitude, as a part of the largest, beyond which the band ends, as published.</summary>
    public const double AmplitudeThreshold = 0.05;

    /// <summary>SPARC = −Σ √((Δf/(f_last − f_first))² + ΔV²), V = |FFT|/max. [SPARC].</summary>
    /// <remarks>
    /// Transform length 2^(⌈log₂N⌉ + 4). Band: frequencies up to the cut-off, from the first to the last bin at or above the threshold.
    /// Because the band ends on a bin, values move by about ±0.005. Made for movements that start and end at rest.
    /// </remarks>
    /// <param name="speed">Speed at an even step, any unit.</param>
    /// <param name="rateHz">Samples a second.</param>
    /// <returns>Zero or below; NaN when the profile is shorter than two samples, nowhere above zero, or holds a value that is not finite.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A rate that is not above 0, or not finite.</exception>
    public static double Of(ReadOnlySpan<double> speed, double rateHz)
    {
        if (!(rateHz > 0 && double.IsFinite(rateHz)))
            throw new ArgumentOutOfRangeException(nameof(rateHz), rateHz, "The rate is above 0 Hz.");
        if (speed.Length < 2)
            return double.NaN;
        double[] amplitude = Amplitudes(speed);
        double max = amplitude.Max();
        if (!(max > 0) || !double.IsFinite(max))
            return double.NaN;
        double binHz = rateHz / amplitude.Length;
        int kept = (int)Math.Min(amplitude.Length, Math.Floor(CutOffHz / binHz * (1 + 1e-12)) + 1);
        int first = Array.FindIndex(amplitude, 0, kept, a => a >= AmplitudeThreshold * max);
        int last = Array.FindLastIndex(amplitude, kept - 1, kept, a => a >= AmplitudeThreshold * max);
        if (first < 0 || last == first)
            return double.NaN;
        double along = 1.0 / (last - first), length = 0;
        for (int i = first + 1; i <= last; i++)
        {
            double step = (amplitude[i] - amplitude[i - 1]) / max;
            length += Math.Sqrt(along * along + step * step);
        }
        return -length;
    }

    private static double[] Amplitudes(ReadOnlySpan<double> speed)
    {
        int bits = (int)Math.Ceiling(Math.Log2(speed.Length)) + 4;
        Complex[] x = new Complex[1 << bits];
        for (int i = 0; i < speed.Length; i++)
            x[i] = speed[i];
        Transform(x, bits);
        return Array.ConvertAll(x, c => c.Magnitude);
    }

    /// <summary>Radix-2 Fourier transform in place (Cooley and Tukey).</summary>
    private static void Transform(Complex[] x, int bits)
    {
        for (uint i = 0; i < x.Length; i++)
        {
            uint j = Reversed(i, bits);
            if (j > i)
                (x[i], x[j]) = (x[j], x[i]);
        }
        for (int half = 1; half < x.Length; half *= 2)
        {
            for (int k = 0; k < half; k++)
            {
                Complex turn = Complex.FromPolarCoordinates(1, -Math.PI * k / half);
                for (int i = k; i < x.Length; i += 2 * half)
                {
                    Complex odd = x[i + half] * turn;
                    (x[i], x[i + half]) = (x[i] + odd, x[i] - odd);
                }
            }
        }
    }

    private static uint Reversed(uint value, int bits)
    {
        uint r = 0;
        for (int b = 0; b < bits; b++)
            r |= ((value >> b) & 1) << (bits - 1 - b);
        return r;
    }
}
