namespace Stillhook.Simulating;

/// <summary>A slow-down to a stop as speed over time, on the simulator's own step.</summary>
internal sealed class SlowDown
{
    private readonly double[] speed, distance;

    private SlowDown(double[] speed)
    {
        this.speed = speed;
        distance = new double[speed.Length];
        for (int i = 1; i < speed.Length; i++)
            distance[i] = distance[i - 1] + (speed[i - 1] + speed[i]) / 2 * FlightModel.StepS;
    }

    /// <summary>Way from the first loss of speed to the stop, m.</summary>
    public double DistanceM => distance[^1];

    /// <summary>Time for it, s.</summary>
    public double DurationS => (speed.Length - 1) * FlightModel.StepS;

    /// <summary>Way covered after a time, m.</summary>
    public double Covered(double timeS)
    {
        double at = timeS / FlightModel.StepS;
        if (at <= 0)
            return at * FlightModel.StepS * speed[0];
        int i = (int)at;
        return i >= speed.Length - 1 ? DistanceM : distance[i] + (at - i) * (distance[i + 1] - distance[i]);
    }

    /// <summary>A slow-down from a speed whose largest deceleration is as asked; the duration follows.</summary>
    /// <param name="fromMs">Speed at the start.</param>
    /// <param name="peakMs2">Largest deceleration.</param>
    /// <param name="shape">Shape before its ends are softened.</param>
    /// <param name="softeningS">Width of the softening.</param>
    public static SlowDown WithPeak(double fromMs, double peakMs2, DecelerationShape shape, double softeningS)
    {
        double duration = 1.3 * fromMs / peakMs2;
        double[] profile = [];
        for (int i = 0; i < 6; i++)
        {
            profile = Softened(fromMs, duration, shape, softeningS);
            double peak = 0;
            for (int k = 1; k < profile.Length; k++)
                peak = Math.Max(peak, (profile[k - 1] - profile[k]) / FlightModel.StepS);
            duration *= Math.Clamp(peak / peakMs2, 0.5, 2);
        }
        return new(profile);
    }

    /// <summary>The bare shape, softened by three running means.</summary>
    private static double[] Softened(double fromMs, double durationS, DecelerationShape shape, double softeningS)
    {
        int box = Math.Max(1, (int)(softeningS / 3 / FlightModel.StepS)), margin = 3 * box / 2 + 2;
        int inner = (int)(durationS / FlightModel.StepS);
        double[] v = new double[inner + 2 * margin + 1];
        for (int i = 0; i < v.Length; i++)
            v[i] = fromMs * Bare(shape, Math.Clamp((i - margin) / (double)inner, 0, 1));
        for (int pass = 0; pass < 3; pass++)
            v = RunningMean(v, box, fromMs);
        v[^1] = 0;
        return v;
    }

    /// <summary>Share of the speed left at a share of the time.</summary>
    private static double Bare(DecelerationShape shape, double t) => shape switch
    {
        // V = V0·(1 − t/T)^(1/c − 1), tau-dot c = 0.57 [PADFIELD-TAU].
        DecelerationShape.TauDot => Math.Pow(1 - t, 1 / 0.57 - 1),
        DecelerationShape.Perceived => Perceived(t),
        _ => 1 - t,
    };

    /// <summary>
    /// V = kR/(1 + R/A) (closure on a compressed range, from memory of Heffley's model of 1979), begun at R = 4A, ended where 4 % of the speed is left.
    /// Solved for the range by Newton: ln x + x falls evenly with time.
    /// </summary>
    private static double Perceived(double t)
    {
        const double first = 4, last = 0.033;
        double target = (1 - t) * (Math.Log(first) + first) + t * (Math.Log(last) + last);
        double x = Math.Exp(Math.Min(target, 1));
        for (int i = 0; i < 8; i++)
            x = Math.Max(last / 2, x - (Math.Log(x) + x - target) / (1 / x + 1));
        double End(double y) => 1.25 * y / (1 + y);
        return (End(x) - End(last)) / (1 - End(last));
    }

    private static double[] RunningMean(double[] v, int box, double before)
    {
        double[] result = new double[v.Length];
        double sum = 0;
        int half = box / 2;
        double At(int i) => i < 0 ? before : i >= v.Length ? 0 : v[i];
        for (int k = -half; k < box - half; k++)
            sum += At(k);
        for (int i = 0; i < v.Length; i++)
        {
            result[i] = sum / box;
            sum += At(i + box - half) - At(i - half);
        }
        return result;
    }
}
