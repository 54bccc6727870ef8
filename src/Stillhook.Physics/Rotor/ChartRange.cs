namespace Stillhook.Physics.Rotor;

/// <summary>The area a chart covers: the convex hull of its points over pressure altitude and temperature.</summary>
internal sealed class ChartRange
{
    private const double EdgeM = 1, EdgeK = 0.05;
    private readonly (double X, double Y)[] _hull;
    private readonly (double X, double Y) _low, _high; // needed where all points lie on one line

    public ChartRange(IReadOnlyList<HoverChartPoint> chart)
    {
        (double X, double Y)[] sorted = [.. chart.Select(p => (p.PressureAltitudeM / EdgeM, p.TemperatureK / EdgeK)).Order()];
        _hull = [.. HalfHull(sorted), .. HalfHull([.. Enumerable.Reverse(sorted)])];
        _low = (sorted.Min(p => p.X) - 1, sorted.Min(p => p.Y) - 1);
        _high = (sorted.Max(p => p.X) + 1, sorted.Max(p => p.Y) + 1);
    }

    /// <summary>Whether a point lies inside or within 1 m or 0.05 K of the edge.</summary>
    public bool Holds(double pressureAltitudeM, double temperatureK)
    {
        (double X, double Y) p = (pressureAltitudeM / EdgeM, temperatureK / EdgeK);
        if (p.X < _low.X || p.X > _high.X || p.Y < _low.Y || p.Y > _high.Y)
            return false;
        for (int i = 0; i < _hull.Length; i++)
        {
            (double X, double Y) a = _hull[i], b = _hull[(i + 1) % _hull.Length];
            double length = double.Hypot(b.X - a.X, b.Y - a.Y);
            if (Cross(a, b, p) < -length)
                return false;
        }
        return true;
    }

    // Andrew's monotone chain, one half; the last point opens the other half.
    private static List<(double X, double Y)> HalfHull((double X, double Y)[] sorted)
    {
        List<(double X, double Y)> hull = [];
        foreach ((double X, double Y) p in sorted)
        {
            while (hull.Count > 1 && Cross(hull[^2], hull[^1], p) <= 0)
                hull.RemoveAt(hull.Count - 1);
            hull.Add(p);
        }
        hull.RemoveAt(hull.Count - 1);
        return hull;
    }

    private static double Cross((double X, double Y) a, (double X, double Y) b, (double X, double Y) p) =>
        (b.X - a.X) * (p.Y - a.Y) - (b.Y - a.Y) * (p.X - a.X);
}
