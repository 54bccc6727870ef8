using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Reporting.Printing;

/// <summary>Maps of the placed loads in metres, north up: one of everything, and one of each delivery site where the first would crowd it.</summary>
public static class MapPictures
{
    private const double FarShare = 2.5; // everything is so many times wider than a site's loads: the site gets a map of its own. Own choice.

    /// <summary>Headings and maps; nothing when no position is known.</summary>
    /// <param name="report">The report.</param>
    /// <param name="shownElsewhere">Sites whose loads have a picture of their own already; null for none.</param>
    public static IReadOnlyList<PrintedPart> Of(CustomerReport report, IReadOnlySet<string>? shownElsewhere = null)
    {
        ArgumentNullException.ThrowIfNull(report);
        List<PlacedLoad> known = [.. report.Placed.Where(p => p.Position is not null)];
        if (known.Count == 0)
            return [];
        LocalFrame frame = new(known[0].Position!.Value.LatitudeDeg, known[0].Position!.Value.LongitudeDeg, 0);
        MapPoint[] loads = [.. known.Select(p => Point(frame, p.Position!.Value, p.Number ?? "", null, p.Site))], sites = [.. report.Sites.Select(s => Point(frame, s.At, s.Name, s.Use, s.Name))];
        IGrouping<string?, MapPoint>[] groups = [.. loads.GroupBy(l => l.Site, StringComparer.OrdinalIgnoreCase)];
        double whole = Spread([.. loads, .. sites]);
        bool apart = groups.Length > 1 && groups.Length <= 12 || whole > FarShare * Math.Max(MapPicture.LeastSpanM, groups.Max(g => Spread([.. g])));
        List<PrintedPart> parts = [new PrintedHeading("Where the loads stand"), MapPicture.Draw("Sites and placed loads, north up", loads, sites, numbered: !apart)];
        if (apart)
            foreach (IGrouping<string?, MapPoint> group in groups.Where(g => g.Key is null || shownElsewhere?.Contains(g.Key) != true))
            {
                MapPoint[] near = [.. group];
                parts.Add(MapPicture.Draw($"Loads placed at {group.Key ?? "no known site"}, north up", near, [.. sites.Where(s => MapPicture.Holds(near, s))], numbered: true));
            }
        return parts;
    }

    private static MapPoint Point(LocalFrame frame, Place at, string name, SiteUse? use, string? site)
    {
        Enu enu = frame.ToEnu(at.LatitudeDeg, at.LongitudeDeg, 0);
        return new(enu.East, enu.North, name, use, site);
    }

    private static double Spread(IReadOnlyList<MapPoint> points) => Math.Max(points.Max(p => p.East) - points.Min(p => p.East), points.Max(p => p.North) - points.Min(p => p.North));
}

/// <summary>A point of a map, m east and north of its origin.</summary>
/// <param name="East">East, m.</param>
/// <param name="North">North, m.</param>
/// <param name="Name">Number of the load, empty when it has none; or name of the site.</param>
/// <param name="Use">Use of a site; null for a load.</param>
/// <param name="Site">Site of a load.</param>
internal readonly record struct MapPoint(double East, double North, string Name, SiteUse? Use, string? Site);
