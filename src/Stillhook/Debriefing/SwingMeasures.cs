namespace Stillhook.Debriefing;

/// <summary>The swing of one delivery in numbers, each with its 90 % band, from the trace of its loaded leg.</summary>
/// <remarks>
/// Offset r from the plumb line, rate r', ω₀ = √(g/L): envelope A = √(r² + (r'/ω₀)²), steady trail included. The trace is an estimate
/// with errors that themselves swing like a pendulum, so the band comes from a set of possible swings around it: each is the estimate plus a
/// free swing as large as the standard errors. Their 5 %, 50 % and 95 % points are the band and the value.
/// </remarks>
public static class SwingMeasures
{
    private const int Possible = 96;

    // Lift-off and contact are themselves found with errors of seconds, which the smoother doesn't know. Own measurement on simulated days.
    private const double Widening = 1.1;

    private static readonly double[] normals = SpreadNormals(Possible);

    /// <summary>The rotation with its swing filled in, or with the reason why there is none.</summary>
    public static Rotation Fill(Rotation rotation, SwingEstimate estimate, Track track)
    {
        if (estimate.Trace is not { } trace)
            return rotation with { NotJudged = [.. rotation.NotJudged, $"Swing: {estimate.Reason}"] };
        if (rotation.Delivery is not { } delivery || rotation.DeliveryTimeS is not { } contact || rotation.DeliveryEnu is not { } place)
            return rotation;
        double? far = LastBeyond(trace, track, place, 50, contact);
        return rotation with
        {
            Delivery = delivery with
            {
                Swing50m = far is { } at ? Envelope(trace, at) : null,
                SwingAfterStopM = rotation.StopTimeS is { } stop ? AfterStop(trace, stop, contact) : null,
                SwingContactM = Envelope(trace, contact),
                SwingMaxM = Largest(trace, far ?? trace.StartTimeS, contact),
                SwingShownM = LargestShown(trace, far ?? trace.StartTimeS, contact),
            },
        };
    }

    /// <summary>Last time before contact that the hook is farther than a distance from the set-down, s.</summary>
    private static double? LastBeyond(SwingTrace trace, Track track, Physics.Earth.Enu place, double distanceM, double contactS)
    {
        for (double t = contactS; t > trace.StartTimeS; t -= trace.StepS)
            if ((track.At(t).Position - place).Horizontal > distanceM)
                return t;
        return null;
    }

    /// <summary>Envelope at a time, m; null outside the trace.</summary>
    public static Banded? Envelope(SwingTrace trace, double timeS)
    {
        if (Position(trace, timeS) is not { } at)
            return null;
        Span<double> values = stackalloc double[Possible];
        double w0 = Math.Sqrt(Physics.Earth.Gravity.Standard / trace.LengthM);
        for (int i = 0; i < Possible; i++)
        {
            (double re, double rn) = Offset(trace, at, i);
            (double se, double sn) = Rate(trace, at, i);
            values[i] = Math.Sqrt(re * re + rn * rn + (se * se + sn * sn) / (w0 * w0));
        }
        return Band(values);
    }

    /// <summary>Largest offset from the plumb line between two times, m, trail and lean included; null when they aren't inside the trace.</summary>
    public static Banded? Largest(SwingTrace trace, double fromS, double toS) => Largest(trace, fromS, toS, trace.EastM, trace.NorthM);

    /// <summary>Largest offset within one period after the stop (at most until contact), m.</summary>
    public static Banded? AfterStop(SwingTrace trace, double stopTimeS, double contactTimeS) =>
        Largest(trace, stopTimeS, Math.Min(contactTimeS, stopTimeS + 2 * Math.PI * Math.Sqrt(trace.LengthM / Physics.Earth.Gravity.Standard)));

    /// <summary>Largest swing a person is shown between two times, m: trail angle and acceleration lean taken off.</summary>
    public static Banded? LargestShown(SwingTrace trace, double fromS, double toS) => Largest(trace, fromS, toS, trace.ShownEastM, trace.ShownNorthM);

    private static Banded? Largest(SwingTrace trace, double fromS, double toS, double[] east, double[] north)
    {
        if (Position(trace, fromS) is not { } from || Position(trace, toS) is not { } to || to < from)
            return null;
        int first = (int)Math.Round(from), last = (int)Math.Round(to);
        Span<double> largest = stackalloc double[Possible];
        largest.Clear();
        for (int k = first; k <= last; k++)
        {
            (double s, double c) = Math.SinCos((k - first) * trace.StepS * trace.FrequencyRadS);
            double e = east[k], n = north[k], eastError = Widening * trace.EastErrorM[k], northError = Widening * trace.NorthErrorM[k];
            ReadOnlySpan<double> draw = normals;
            for (int i = 0; i < largest.Length; i++, draw = draw[4..])
            {
                double re = e + (c * draw[0] + s * draw[1]) * eastError, rn = n + (c * draw[2] + s * draw[3]) * northError;
                largest[i] = Math.Max(largest[i], re * re + rn * rn);
            }
        }
        foreach (ref double value in largest)
            value = Math.Sqrt(value);
        return Band(largest);
    }

    /// <summary>Place of a time on the trace's grid; null when more than two steps outside.</summary>
    private static double? Position(SwingTrace trace, double timeS)
    {
        double k = (timeS - trace.StartTimeS) / trace.StepS;
        int last = trace.EastM.Length - 1;
        return k >= -2 && k <= last + 2 ? Math.Clamp(k, 0, last) : null;
    }

    private static (double East, double North) Offset(SwingTrace trace, double at, int draw) =>
        (Between(trace.EastM, at) + Widening * normals[4 * draw] * Between(trace.EastErrorM, at),
         Between(trace.NorthM, at) + Widening * normals[4 * draw + 2] * Between(trace.NorthErrorM, at));

    private static (double East, double North) Rate(SwingTrace trace, double at, int draw)
    {
        double error = Widening * Between(trace.RateErrorMs, at);
        return (Between(trace.EastRateMs, at) + normals[4 * draw + 1] * error, Between(trace.NorthRateMs, at) + normals[4 * draw + 3] * error);
    }

    private static double Between(double[] a, double at)
    {
        int i = Math.Min((int)at, a.Length - 2);
        return a[i] + (at - i) * (a[i + 1] - a[i]);
    }

    private static Banded Band(Span<double> values)
    {
        values.Sort();
        double Quantile(Span<double> sorted, double q)
        {
            double x = q * sorted.Length - 0.5;
            int i = Math.Clamp((int)x, 0, sorted.Length - 2);
            return sorted[i] + (x - i) * (sorted[i + 1] - sorted[i]);
        }
        return new(Quantile(values, 0.5), Quantile(values, 0.05), Quantile(values, 0.95));
    }

    /// <summary>Four standard normal numbers a draw, spread evenly (additive recurrence on the powers of the generalised golden ratio), so that the same input gives the same band.</summary>
    private static double[] SpreadNormals(int draws)
    {
        const double Ratio = 1.1673039782614187; // real root of x⁵ = x + 1
        double[] normals = new double[4 * draws];
        for (int i = 0; i < draws; i++)
            for (int pair = 0; pair < 2; pair++)
            {
                double u = Fraction(0.5 + (i + 1) / Math.Pow(Ratio, 2 * pair + 1)), v = Fraction(0.5 + (i + 1) / Math.Pow(Ratio, 2 * pair + 2));
                double radius = Math.Sqrt(-2 * Math.Log(1 - u)), angle = 2 * Math.PI * v;
                normals[4 * i + 2 * pair] = radius * Math.Cos(angle);
                normals[4 * i + 2 * pair + 1] = radius * Math.Sin(angle);
            }
        return normals;
    }

    private static double Fraction(double x) => x - Math.Floor(x);
}
