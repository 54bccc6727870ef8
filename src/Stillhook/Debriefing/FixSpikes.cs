namespace Stillhook.Debriefing;

/// <summary>Finds positions and heights that no aircraft can have flown through: second part of the repair.</summary>
/// <remarks>
/// Limits are far above what a helicopter does (about 80 m/s, 0.3 g), so real motion is kept: docs/method/track.md.
/// </remarks>
internal static class FixSpikes
{
    /// <summary>No helicopter is faster over the ground than this, m/s, tail wind included; widened for records of faster craft.</summary>
    private const double TopSpeedMs = 120;

    /// <summary>Climb or sink no helicopter reaches, m/s.</summary>
    private const double TopClimbMs = 60;

    /// <summary>Change of acceleration between neighbouring fixes that is still believed, m/s² (0.6 g).</summary>
    private const double TopAccelerationChange = 6;

    /// <summary>A doubtful run longer than this is a new place, not a spike.</summary>
    private const int LongestRun = 30;

    private const double LongestRunS = 30;

    /// <summary>Marks runs that jump away and back. True in <c>Breaks</c> where the record jumps and stays.</summary>
    public static (bool[] Keep, bool[] Breaks) Jumps(double[] t, double[] x, double[] y, double slackM, double topSpeed)
    {
        int n = t.Length;
        bool[] keep = new bool[n], breaks = new bool[n];
        Array.Fill(keep, true);
        int good = 0;
        for (int i = 1; i < n; i++)
        {
            if (Possible(t, x, y, good, i, slackM, topSpeed))
            {
                good = i;
                continue;
            }
            int back = i + 1;
            while (back < n && back - i < LongestRun && t[back] - t[good] < LongestRunS && !Possible(t, x, y, good, back, slackM, topSpeed))
                back++;
            bool returns = back < n && back - i < LongestRun && t[back] - t[good] < LongestRunS;
            if (returns || back == n)
                Array.Fill(keep, false, i, back - i);
            else
                (breaks[i], back) = (true, i);
            good = Math.Min(back, n - 1);
            i = good;
        }
        return (keep, breaks);
    }

    /// <summary>Speed above which a step is impossible: <see cref="TopSpeedMs"/>, or twice what nine in ten steps of a faster craft show.</summary>
    public static double TopSpeed(double[] t, double[] x, double[] y)
    {
        int stride = Math.Max(1, t.Length / 5000);
        List<double> speeds = [];
        for (int i = 1; i < t.Length; i += stride)
            speeds.Add(Math.Sqrt(Square(x[i] - x[i - 1]) + Square(y[i] - y[i - 1])) / (t[i] - t[i - 1]));
        speeds.Sort();
        return speeds.Count < 10 ? TopSpeedMs : Math.Max(TopSpeedMs, 2 * speeds[speeds.Count * 9 / 10]);
    }

    /// <summary>Height runs that jump and come back, marked not to be kept. Missing heights are passed over.</summary>
    public static long DropHeightJumps(double[] t, double[] height, double slackM)
    {
        int[] present = [.. Enumerable.Range(0, t.Length).Where(i => !double.IsNaN(height[i]))];
        double[] tp = Array.ConvertAll(present, i => t[i]), hp = Array.ConvertAll(present, i => height[i]);
        (bool[] keep, _) = Jumps(tp, hp, new double[hp.Length], slackM, TopClimbMs);
        return Erase(present, keep, height);
    }

    private static long Erase(int[] present, bool[] keep, double[] height)
    {
        long dropped = 0;
        for (int k = 0; k < present.Length; k++)
            if (!keep[k])
            {
                height[present[k]] = double.NaN;
                dropped++;
            }
        return dropped;
    }

    /// <summary>
    /// Single fixes off the cubic through two fixes on each side by more than eight times the usual noise plus what a change of
    /// acceleration of 0.6 g does, and more so than their neighbours.
    /// </summary>
    public static bool[] Singles(double[] t, double[] x, double[] y, double noiseM, double medianStepS)
    {
        int n = t.Length;
        double[] over = new double[n];
        for (int i = 2; i < n - 2; i++)
            over[i] = Over(t, x, y, i, noiseM, medianStepS);
        bool[] keep = new bool[n];
        for (int i = 0; i < n; i++)
            keep[i] = !(over[i] > 1 && over[i] >= over[i - 1] && over[i] >= over[i + 1]);
        return keep;
    }

    private static double Over(double[] t, double[] x, double[] y, int i, double noiseM, double medianStepS)
    {
        double span = t[i + 2] - t[i - 2], near = Math.Max(t[i + 1] - t[i], t[i] - t[i - 1]);
        if (span > 8 * medianStepS)
            return 0;
        double rx = -x[i], ry = -y[i], spread = 1;
        for (int a = -2; a <= 2; a++)
        {
            if (a == 0)
                continue;
            double w = 1;
            for (int b = -2; b <= 2; b++)
                if (b != 0 && b != a)
                    w *= (t[i] - t[i + b]) / (t[i + a] - t[i + b]);
            rx += w * x[i + a];
            ry += w * y[i + a];
            spread += w * w;
        }
        double limit = 8 * noiseM * Math.Sqrt(spread) + TopAccelerationChange / 2 * near * near;
        return Math.Sqrt(rx * rx + ry * ry) / limit;
    }

    private static bool Possible(double[] t, double[] x, double[] y, int a, int b, double slackM, double topSpeed)
    {
        double d2 = Square(x[b] - x[a]) + Square(y[b] - y[a]);
        return d2 <= Square(slackM + topSpeed * (t[b] - t[a]));
    }

    private static double Square(double v) => v * v;
}
