using Stillhook.Approaching;
using Stillhook.Physics.Earth;

namespace Stillhook.Files.Pictures.Approach;

/// <summary>Outline of where a load let go on the way in may come down, with the margin that people keep.</summary>
/// <remarks>
/// Convex hull of a circle of the margin round every point below the load and round the points where it would land from there [FallZone]. The way is straight and the wind's drift grows
/// with the root of the height, so the zone itself is convex but for the rounding of its corners: the hull adds next to nothing, and only outwards. Circles are drawn as 24 corners on
/// a radius larger by 1/cos(π/24), so that no part of the circle lies outside.
/// </remarks>
internal static class FallOutline
{
    private const int Corners = 24;

    /// <summary>Corners of the outline, east and north of the spot, m, going round once.</summary>
    /// <param name="way">The way in.</param>
    /// <param name="marginM">Margin, m.</param>
    /// <param name="withinM">Load's distance to go from where on it is drawn, m.</param>
    /// <param name="surroundings">Ground below; null for level ground.</param>
    public static IReadOnlyList<(double East, double North)> Of(WayIn way, double marginM, double withinM, Surroundings? surroundings)
    {
        CourseFrame course = new(way.CourseDeg);
        LoadPath path = way.Path;
        double radius = marginM / Math.Cos(Math.PI / Corners);
        Enu wind = course.ToEnu(new(path.Hanging.WindAlongMs, path.Hanging.WindRightMs, 0));
        List<(double East, double North)> points = [];
        for (int i = 0; i < path.Count; i += 10)
        {
            if (path.DistanceM[i] > withinM)
                continue;
            Enu under = course.ToEnu(path.Load[i]), velocity = course.ToEnu(new(path.SpeedMs[i], 0, 0));
            FallZone zone = surroundings?.Falls(under, velocity, wind, path.LoadHeightM[i]) ?? FallZone.Of(under, velocity, wind, path.LoadHeightM[i]);
            for (int k = 0; k < Corners; k++)
            {
                (double s, double c) = Math.SinCos(2 * Math.PI * k / Corners);
                foreach (Enu place in new[] { zone.Under, zone.Thrown, zone.Drifted })
                    points.Add((place.East + radius * s, place.North + radius * c));
            }
        }
        return Hull(points);
    }

    /// <summary>Convex hull by Andrew's monotone chain, anticlockwise.</summary>
    public static IReadOnlyList<(double East, double North)> Hull(IEnumerable<(double East, double North)> points)
    {
        (double East, double North)[] sorted = [.. points.Distinct().Order()];
        if (sorted.Length < 3)
            return sorted;
        List<(double East, double North)> lower = Chain(sorted), upper = Chain(sorted.Reverse());
        return [.. lower.SkipLast(1), .. upper.SkipLast(1)];
    }

    private static List<(double East, double North)> Chain(IEnumerable<(double East, double North)> points)
    {
        List<(double East, double North)> chain = [];
        foreach ((double East, double North) p in points)
        {
            while (chain.Count >= 2 && Turn(chain[^2], chain[^1], p) <= 0)
                chain.RemoveAt(chain.Count - 1);
            chain.Add(p);
        }
        return chain;
    }

    private static double Turn((double East, double North) a, (double East, double North) b, (double East, double North) c) =>
        (b.East - a.East) * (c.North - a.North) - (b.North - a.North) * (c.East - a.East);
}
