namespace Stillhook.Debriefing;

/// <summary>Short-term noise and recording steps, worked from the record itself.</summary>
/// <remarks>
/// Third differences of an evenly timed series: white noise of variance s² gives 20·s²; white jerk of density q over a step h gives
/// 11/20·q·h⁵ (the squared quadratic B-spline), and q·h³ when velocity is differenced. Median-based, so manoeuvres and spikes don't count.
/// Slow noise (a position wandering over a second) is met by the same difference of block means a second long. See docs/method/track.md.
/// </remarks>
internal static class QualityNoise
{
    private const double BlockS = 1;

    /// <summary>Shortest and longest steps for which noise can be told from motion.</summary>
    private const double LongestStepS = 2.5;

    private const int FewestDifferences = 30;

    /// <summary>White noise (1 sigma, m) that stands for the short-term position noise of these series; NaN when it can't be told.</summary>
    public static double OfPosition(double[] t, double stepS, double jerkDensity, params double[][] series)
    {
        if (!(stepS <= LongestStepS))
            return double.NaN;
        double native = White(t, series, 1, stepS, 0.55 * jerkDensity * Math.Pow(stepS, 5));
        int m = (int)Math.Round(BlockS / stepS);
        if (m < 2)
            return Math.Sqrt(native);
        double blocks = White(t, series, m, stepS, 0.55 * jerkDensity * Math.Pow(m * stepS, 5));
        return Math.Sqrt(double.IsNaN(blocks) ? native : Math.Max(native, blocks * m));
    }

    /// <summary>White noise of velocity, m/s (1 sigma); NaN when it can't be told.</summary>
    public static double OfVelocity(double[] t, double stepS, double jerkDensity, params double[][] series) =>
        stepS <= LongestStepS ? Math.Sqrt(White(t, series, 1, stepS, jerkDensity * Math.Pow(stepS, 3))) : double.NaN;

    /// <summary>Variance of white noise in the means of m samples.</summary>
    private static double White(double[] t, double[][] series, int m, double stepS, double motionVariance)
    {
        List<double> sizes = [];
        int n = t.Length, stride = Math.Max(m, n / 20_000 * m);
        foreach (double[] x in series)
        {
            for (int i = 0; i + 4 * m <= n; i += stride)
            {
                if (Math.Abs(t[i + 4 * m - 1] - t[i] - (4 * m - 1) * stepS) > 0.2 * stepS * m)
                    continue;
                double d = Mean(x, i + 3 * m, m) - 3 * Mean(x, i + 2 * m, m) + 3 * Mean(x, i + m, m) - Mean(x, i, m);
                if (double.IsFinite(d))
                    sizes.Add(Math.Abs(d));
            }
        }
        if (sizes.Count < FewestDifferences)
            return double.NaN;
        sizes.Sort();
        // 0.6745: median of |z| for a normal variable.
        double sigma = sizes[sizes.Count / 2] / 0.6745;
        return Math.Max(0, sigma * sigma - motionVariance) / 20;
    }

    private static double Mean(double[] x, int start, int count)
    {
        double sum = 0;
        for (int i = start; i < start + count; i++)
            sum += x[i];
        return sum / count;
    }

    /// <summary>The step in which values were recorded: the size of which nine in ten changes are whole multiples; 0 when there is none.</summary>
    public static double StepOf(double[] values)
    {
        int stride = Math.Max(1, values.Length / 20_000);
        List<double> changes = [];
        int repeats = 0;
        for (int i = 1; i < values.Length; i += stride)
        {
            double d = Math.Abs(values[i] - values[i - 1]);
            if (d > 1e-9)
                changes.Add(d);
            else if (!double.IsNaN(d))
                repeats++;
        }
        if (changes.Count < 10)
            return 0;
        changes.Sort();
        // The smallest change may be a rounding artefact; steps given in feet and rounded to decimetres differ by a tenth or so.
        foreach (double candidate in new[] { changes[0], changes[changes.Count / 20], changes[changes.Count / 4] })
        {
            double[] single = [.. changes.Where(d => d > 0.5 * candidate && d < 1.5 * candidate)];
            double step = single.Average();
            long whole = changes.LongCount(d => Math.Abs(d / step - Math.Round(d / step)) <= 0.12 && d > 0.5 * step);
            // Steady motion changes by the same amount each time; a step shows in values that stay, or that change by several steps.
            bool shows = repeats >= 0.05 * changes.Count || changes.LongCount(d => d > 1.5 * step) >= 0.05 * changes.Count;
            if (shows && whole >= 0.9 * changes.Count)
                return step;
        }
        return 0;
    }
}
