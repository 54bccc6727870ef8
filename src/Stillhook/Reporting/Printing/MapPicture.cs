using System.Globalization;
using Stillhook.Debriefing;

namespace Stillhook.Reporting.Printing;

/// <summary>One map.</summary>
internal static class MapPicture
{
    /// <summary>Least width of ground shown, m: closer up, the recorder's own error would be the picture.</summary>
    public const double LeastSpanM = 20;

    // The ground has the upper left; the strip right of it holds the north arrow, that below it the scale: nothing lies over a load.
    private const double Width = 500, Height = 236, GroundWidth = 464, GroundHeight = 212, Margin = 22, NumberedMark = 3.2, BareMark = 1.8;

    /// <summary>Draws loads as dots and sites as squares, triangles and circles, with a grid in round metres, north arrow and scale bar.</summary>
    public static PrintedPicture Draw(string title, IReadOnlyList<MapPoint> loads, IReadOnlyList<MapPoint> sites, bool numbered)
    {
        Window window = Window.Fit([.. loads, .. sites]);
        List<Shape> shapes = [PolygonShape.Box(0.5, 0.5, GroundWidth - 1, GroundHeight - 1, ShapeStyle.Hollow), .. Grid(window)];
        LabelPlaces places = new(GroundWidth, GroundHeight);
        double mark = numbered ? NumberedMark : BareMark;
        foreach (MapPoint p in loads)
            places.Mark(window.At(p), mark);
        foreach (MapPoint p in sites)
            places.Mark(window.At(p), 5);
        foreach (MapPoint site in sites)
        {
            (double x, double y) = window.At(site);
            shapes.Add(Symbol(x, y, site.Use!.Value));
            if (places.Find(x, y, site.Name, 9, must: true) is { } at)
                shapes.Add(new WordShape(at.X, at.Y, site.Name, WordAnchor.Start, 9));
        }
        shapes.AddRange(loads.Select(window.At).Select(p => new CircleShape(p.X, p.Y, mark, ShapeStyle.Solid)));
        int left = numbered ? Numbers(shapes, places, loads, window) : 0;
        shapes.AddRange([.. North(), .. Scale(window)]);
        string some = left == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"; {left} of {loads.Count(l => l.Name.Length > 0)} numbers left out for want of room");
        return new(title + Key(sites) + some, Width, Height, shapes);
    }

    /// <summary>Whether a point lies on the map of others.</summary>
    public static bool Holds(IReadOnlyList<MapPoint> others, MapPoint point)
    {
        (double x, double y) = Window.Fit(others).At(point);
        return x is > 8 and < GroundWidth - 8 && y is > 8 and < GroundHeight - 8;
    }

    private static string Key(IReadOnlyList<MapPoint> sites)
    {
        string[] uses = [.. sites.Select(s => s.Use).Distinct().Order().Select(u => u switch { SiteUse.PickUp => "square: pick-up", SiteUse.Delivery => "triangle: delivery site", _ => "circle: base" })];
        return string.Join(", ", ["; dot: load", .. uses]);
    }

    private static int Numbers(List<Shape> shapes, LabelPlaces places, IReadOnlyList<MapPoint> loads, Window window)
    {
        int left = 0;
        foreach (MapPoint load in loads.Where(l => l.Name.Length > 0))
        {
            (double x, double y) = window.At(load);
            if (places.Find(x, y, load.Name, 7.5, must: false) is { } at)
                shapes.Add(new WordShape(at.X, at.Y, load.Name, WordAnchor.Start, 7.5));
            else
                left++;
        }
        return left;
    }

    private static Shape Symbol(double x, double y, SiteUse use) => use switch
    {
        SiteUse.PickUp => PolygonShape.Box(x - 5, y - 5, 10, 10, ShapeStyle.Hollow),
        SiteUse.Delivery => new PolygonShape([(x, y - 7), (x + 6.5, y + 5), (x - 6.5, y + 5)], ShapeStyle.Hollow),
        _ => new CircleShape(x, y, 5.5, ShapeStyle.Hollow),
    };

    private static IEnumerable<Shape> Grid(Window window)
    {
        double step = RoundMetres(window.SpanM / 9), size = step * window.PerMetre;
        (double x0, double y0) = window.At(Math.Ceiling(window.WestM / step) * step, Math.Floor(window.NorthM / step) * step);
        for (double x = x0; x < GroundWidth - 1; x += size)
            yield return new LineShape(x, 1, x, GroundHeight - 1, ShapeStyle.Grid);
        for (double y = y0; y < GroundHeight - 1; y += size)
            yield return new LineShape(1, y, GroundWidth - 1, y, ShapeStyle.Grid);
    }

    private static IEnumerable<Shape> North()
    {
        const double x = (Width + GroundWidth) / 2;
        return [new PolygonShape([(x, 10), (x + 6, 30), (x, 26), (x - 6, 30)], ShapeStyle.Solid), new WordShape(x, 43, "N", WordAnchor.Middle, 10)];
    }

    private static IEnumerable<Shape> Scale(Window window)
    {
        const double x = 1, y = Height - 10;
        double metres = RoundMetres(window.SpanM / 9), length = metres * window.PerMetre;
        string text = metres >= 1000 ? ReportWords.Number(metres / 1000, 0) + " km" : ReportWords.Number(metres, metres < 1 ? 1 : 0) + " m";
        return
        [
            new LineShape(x, y, x + length, y, ShapeStyle.Line), new LineShape(x, y - 4, x, y + 4, ShapeStyle.Line), new LineShape(x + length, y - 4, x + length, y + 4, ShapeStyle.Line),
            new WordShape(x + length + 6, y + 3, text),
        ];
    }

    /// <summary>Least of 1, 2, 5 × 10ⁿ m at or above a length.</summary>
    private static double RoundMetres(double atLeastM)
    {
        double decade = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(atLeastM, 0.1))));
        return decade * (atLeastM <= decade ? 1 : atLeastM <= 2 * decade ? 2 : atLeastM <= 5 * decade ? 5 : 10);
    }

    /// <summary>Which part of the ground is shown and where.</summary>
    private sealed record Window(double CentreEast, double CentreNorth, double PerMetre)
    {
        public double SpanM => GroundWidth / PerMetre;

        public double WestM => CentreEast - GroundWidth / 2 / PerMetre;

        public double NorthM => CentreNorth + GroundHeight / 2 / PerMetre;

        public static Window Fit(IReadOnlyList<MapPoint> points)
        {
            double west = points.Min(p => p.East), east = points.Max(p => p.East), south = points.Min(p => p.North), north = points.Max(p => p.North);
            double perMetre = Math.Min((GroundWidth - 2 * Margin) / Math.Max(LeastSpanM, east - west), (GroundHeight - 2 * Margin) / Math.Max(LeastSpanM * GroundHeight / GroundWidth, north - south));
            return new((west + east) / 2, (south + north) / 2, perMetre);
        }

        public (double X, double Y) At(MapPoint p) => At(p.East, p.North);

        public (double X, double Y) At(double east, double north) => (GroundWidth / 2 + (east - CentreEast) * PerMetre, GroundHeight / 2 - (north - CentreNorth) * PerMetre);
    }
}
