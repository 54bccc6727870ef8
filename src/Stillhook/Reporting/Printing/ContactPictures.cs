using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Reporting.Printing;

/// <summary>Where each load touched round the spot of its delivery site, north up, with circles, scale and key in words. Of the loads and not of who flew them.</summary>
public static class ContactPictures
{
    /// <summary>Farther off than this a load is not counted as meant for the spot, m: a wall or a row is on the map instead. Own choice.</summary>
    public const double FarthestM = 25;

    /// <summary>Smallest circle, m: a recorder is good to some metres, and a smaller one would say more than it knows.</summary>
    public const double SmallestCircleM = 5;

    // The plot has the left, its key the right: nothing lies over a load.
    private const double Width = 500, Height = 204, Middle = 101, Reach = 93, KeyLeft = 262, LineHeight = 15, Mark = 2.8, CrossArm = 7;

    private sealed record Contact(string? Number, double East, double North)
    {
        public double DistanceM => Math.Sqrt(East * East + North * North);
    }

    /// <summary>Heading, a picture for each delivery site whose loads lie round its spot, and a caution; nothing where there is none.</summary>
    public static IReadOnlyList<PrintedPart> Of(CustomerReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        PrintedPicture[] pictures = [.. Spots(report).Select(s => Draw(s.Site, s.Contacts))];
        return pictures.Length == 0 ? [] :
        [
            new PrintedHeading("Where each load touched, from its spot"),
            new PrintedParagraph("By the aircraft's recorder as the load touched, against the spot as entered for the site: both are good to some metres."),
            .. pictures,
        ];
    }

    /// <summary>Sites of which the picture shows every load, so that a map of the site's own would tell no more.</summary>
    internal static IReadOnlySet<string> Whole(CustomerReport report) => Spots(report).Where(s => s.Contacts.All(c => c.DistanceM <= FarthestM)).Select(s => s.Site.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);

    private static IEnumerable<(ReportSite Site, Contact[] Contacts)> Spots(CustomerReport report) => report.Sites.Where(s => s.Use == SiteUse.Delivery).Select(s => (s, At(s, report))).Where(s => IsSpot(s.Item2));

    private static Contact[] At(ReportSite site, CustomerReport report)
    {
        LocalFrame frame = new(site.At.LatitudeDeg, site.At.LongitudeDeg, 0);
        return [.. report.Placed.Where(p => p.Position is not null && string.Equals(p.Site, site.Name, StringComparison.OrdinalIgnoreCase)).Select(p =>
        {
            Enu enu = frame.ToEnu(p.Position!.Value.LatitudeDeg, p.Position.Value.LongitudeDeg, 0);
            return new Contact(p.Number, enu.East, enu.North);
        })];
    }

    // Nine in ten: loads along a wall are no misses of a spot. Own choice.
    private static bool IsSpot(Contact[] contacts) => contacts.Length > 0 && contacts.Count(c => c.DistanceM <= FarthestM) >= 0.9 * contacts.Length;

    private static PrintedPicture Draw(ReportSite site, Contact[] contacts)
    {
        Contact[] shown = [.. contacts.Where(c => c.DistanceM <= FarthestM)];
        double[] circles = Circles(shown.Max(c => c.DistanceM));
        double perMetre = Reach / circles[^1];
        (double X, double Y) Place(Contact c) => (Middle + c.East * perMetre, Middle - c.North * perMetre);
        LabelPlaces places = new(KeyLeft - 36, 2 * Middle);
        foreach (Contact c in shown)
            places.Mark(Place(c), Mark);
        places.Mark((Middle, Middle), CrossArm);
        List<Shape> shapes = [.. circles.Reverse().Select(c => new CircleShape(Middle, Middle, c * perMetre, ShapeStyle.Ring)), .. Cross(), .. shown.Select(Place).Select(p => new CircleShape(p.X, p.Y, Mark, ShapeStyle.Solid))];
        Contact[] numbered = [.. shown.Where(c => c.Number is not null)];
        int left = 0;
        foreach (Contact c in numbered)
            if (places.Find(Place(c).X, Place(c).Y, c.Number!, 7.5, must: false) is { } at)
                shapes.Add(new WordShape(at.X, at.Y, c.Number!, WordAnchor.Start, 7.5));
            else
                left++;
        string[] key = [.. Key(contacts, shown, circles), .. left > 0 ? [string.Create(CultureInfo.InvariantCulture, $"{left} of {numbered.Length} numbers left out for want of room.")] : Array.Empty<string>()];
        shapes.AddRange(key.Select((line, i) => new WordShape(KeyLeft, 30 + LineHeight * i, line)));
        shapes.AddRange([.. Scale(SmallestCircleM, perMetre), .. North()]);
        return new($"Where the loads touched at {site.Name}, north up", Width, Height, shapes);
    }

    /// <summary>Radii of the circles, m: the last holds all loads.</summary>
    private static double[] Circles(double farthestM) => farthestM <= SmallestCircleM ? [SmallestCircleM] : farthestM <= 2 * SmallestCircleM ? [SmallestCircleM, 2 * SmallestCircleM] : [2 * SmallestCircleM, FarthestM];

    private static IEnumerable<Shape> Cross() => [new LineShape(Middle - CrossArm, Middle, Middle + CrossArm, Middle, ShapeStyle.Line), new LineShape(Middle, Middle - CrossArm, Middle, Middle + CrossArm, ShapeStyle.Line)];

    private static IEnumerable<string> Key(Contact[] contacts, Contact[] shown, double[] circles)
    {
        string Number(double v) => v.ToString("0", CultureInfo.InvariantCulture);
        double inner = circles[0], farthest = shown.Max(c => c.DistanceM);
        yield return "Cross: the spot. Dot: a load.";
        if (shown.Any(c => c.Number is not null))
            yield return "Numbers: those of the loads, where known.";
        yield return circles.Length == 1 ? $"Circle: {Number(inner)} m from the spot." : $"Circles: {Number(inner)} m and {Number(circles[1])} m from the spot.";
        yield return string.Create(CultureInfo.InvariantCulture, $"{shown.Count(c => c.DistanceM <= inner)} of {contacts.Length} {(contacts.Length == 1 ? "load" : "loads")} touched within {inner:0} m.");
        if (farthest > inner)
            yield return $"The farthest that is shown: {Number(farthest)} m.";
        if (contacts.Length > shown.Length)
            yield return string.Create(CultureInfo.InvariantCulture, $"{contacts.Length - shown.Length} more than {FarthestM:0} m off: see the map.");
    }

    private static IEnumerable<Shape> Scale(double metres, double perMetre)
    {
        const double y = 190;
        double length = metres * perMetre;
        return
        [
            new LineShape(KeyLeft, y, KeyLeft + length, y, ShapeStyle.Line), new LineShape(KeyLeft, y - 4, KeyLeft, y + 4, ShapeStyle.Line), new LineShape(KeyLeft + length, y - 4, KeyLeft + length, y + 4, ShapeStyle.Line),
            new WordShape(KeyLeft + length + 6, y + 3, string.Create(CultureInfo.InvariantCulture, $"{metres:0} m")),
        ];
    }

    private static IEnumerable<Shape> North()
    {
        const double x = 238;
        return [new PolygonShape([(x, 10), (x + 6, 30), (x, 26), (x - 6, 30)], ShapeStyle.Solid), new WordShape(x, 43, "N", WordAnchor.Middle, 10)];
    }
}
