namespace Stillhook.Debriefing;

/// <summary>The start mark: the knee of height over distance. docs/method/delivery.md, 'Start'.</summary>
/// <param name="DistanceM">Distance to go at the knee, m.</param>
/// <param name="HeightOverContactM">Height there over the hook's height at contact, from the fitted lines, m.</param>
/// <param name="GlideDeg">Slope inside the knee, degrees, down towards the target positive.</param>
/// <param name="TimeS">When the knee was passed.</param>
internal readonly record struct ApproachStart(double DistanceM, double HeightOverContactM, double GlideDeg, double TimeS)
{
    private const double GridM = 5;
    private const double FurthestM = 800;
    private const double BackDownM = 20;
    private const double AboveContactM = 10;
    private const double LeastSteeperSlope = 0.02;
    private const int LeastPoints = 8, PointsBeyond = 3; // three points at least on either side of the knee

    /// <summary>Finds the knee in the inbound part that ends at the stop; null where there is none.</summary>
    /// <param name="path">Path of the loaded leg.</param>
    /// <param name="distance">Distance to the delivery point at each sample, m.</param>
    /// <param name="stop">Index of the stop.</param>
    /// <param name="contactHeight">Hook height at contact, m.</param>
    public static ApproachStart? Find(RotationPath path, double[] distance, int stop, double contactHeight)
    {
        (List<double> d, List<double> h, List<int> at) = HeightOverDistance(path, distance, stop, contactHeight);
        if (d.Count < LeastPoints)
            return null;
        (double Knee, double Height, double Inner, double Squares) best = (0, 0, 0, double.PositiveInfinity);
        for (double knee = d[PointsBeyond]; knee <= d[^(PointsBeyond + 1)]; knee += 1)
        {
            if (!Fit(d, h, knee, out double height, out double inner, out double outer, out double squares))
                continue;
            if (inner > outer + LeastSteeperSlope && squares < best.Squares)
                best = (knee, height, inner, squares);
        }
        if (double.IsInfinity(best.Squares))
            return null;
        int sample = at[Math.Clamp(d.FindIndex(x => x >= best.Knee), 0, at.Count - 1)];
        while (sample < stop && distance[sample] > best.Knee)
            sample++;
        return new(best.Knee, best.Height, double.RadiansToDegrees(Math.Atan(best.Inner)), path.Time(sample));
    }

    /// <summary>First sample of the inbound part: back from the stop until the distance falls 20 m below its running maximum, at most 800 m out.</summary>
    public static int InboundFrom(double[] distance, int stop)
    {
        double furthest = distance[stop];
        int from = stop;
        for (int i = stop; i >= 0; i--)
        {
            if (distance[i] > furthest)
                (furthest, from) = (distance[i], i);
            if (distance[i] < furthest - BackDownM || distance[i] > FurthestM)
                break;
        }
        return from;
    }

    private static (List<double> D, List<double> H, List<int> At) HeightOverDistance(RotationPath path, double[] distance, int stop, double contactHeight)
    {
        var d = new List<double>();
        var h = new List<double>();
        var at = new List<int>();
        int from = InboundFrom(distance, stop);
        double next = Math.Ceiling(distance[stop] / GridM) * GridM;
        for (int i = stop - 1; i >= from; i--)
        {
            while (distance[i] >= next && distance[i + 1] < next)
            {
                double s = (next - distance[i + 1]) / (distance[i] - distance[i + 1]);
                double over = path.Height[i + 1] + s * (path.Height[i] - path.Height[i + 1]) - contactHeight;
                if (over > AboveContactM)
                {
                    d.Add(next);
                    h.Add(over);
                    at.Add(i);
                }
                next += GridM;
            }
        }
        return (d, h, at);
    }

    /// <summary>Least squares of h = a + b·d + c·max(d − knee, 0).</summary>
    private static bool Fit(List<double> d, List<double> h, double knee, out double height, out double inner, out double outer, out double squares)
    {
        // x = d − knee keeps the normal equations well scaled; then a is the height at the knee.
        double n = d.Count, sx = 0, sxx = 0, sp = 0, spp = 0, sh = 0, sxh = 0, sph = 0, shh = 0;
        for (int i = 0; i < d.Count; i++)
        {
            double x = d[i] - knee, p = Math.Max(x, 0), y = h[i];
            sx += x;
            sxx += x * x;
            sp += p;
            spp += p * p;
            sh += y;
            sxh += x * y;
            sph += p * y;
            shh += y * y;
        }
        // Unknowns a, b, c; x·p = p² because p is 0 where x < 0.
        double m11 = sxx - sx * sx / n, m12 = spp - sx * sp / n, m22 = spp - sp * sp / n;
        double r1 = sxh - sx * sh / n, r2 = sph - sp * sh / n;
        double det = m11 * m22 - m12 * m12;
        (height, inner, outer, squares) = (0, 0, 0, 0);
        if (det < 1e-6 * m11 * m22 || m22 <= 0)
            return false;
        double b = (r1 * m22 - r2 * m12) / det, c = (m11 * r2 - m12 * r1) / det, a = (sh - b * sx - c * sp) / n;
        (height, inner, outer) = (a, b, b + c);
        squares = shh - a * sh - b * sxh - c * sph;
        return true;
    }
}
