using System.Globalization;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Reporting.Printing;

namespace Stillhook.Briefing;

/// <summary>A delivery site from above, north up: the spot, what to stay out of, the crew's side, who stands where, the ways in and out.</summary>
internal static class SiteSketch
{
    private const double Width = 370, Height = 190, CentreX = 185, CentreY = 95, Reach = 84, LeastReachM = 20, MostReachM = 60, WedgeDeg = 30;

    public static PrintedPicture Draw(Site site, IReadOnlyList<StandingSpot> people, double? standOffM, double? escapeDeg, IReadOnlyList<ReceiverWay> ways)
    {
        double reach = Math.Clamp(1.25 * people.Select(p => p.DistanceM).Append(1.4 * (standOffM ?? 0)).Max(), LeastReachM, MostReachM), scale = Reach / reach;
        List<Shape> shapes = [PolygonShape.Box(0.5, 0.5, Width - 1, Height - 1, ShapeStyle.Hollow)];
        LabelPlaces places = new(Width, Height);
        places.Keep(Width - 40, 0, 40, 40);
        places.Keep(0, Height - 24, 120, 24);
        places.Keep(CentreX - 7, CentreY - 7, 14, 14);
        foreach (StandingSpot p in people)
            places.Mark(Person(p, scale), 8);
        if (escapeDeg is { } escape)
            Wedge(shapes, places, escape, (standOffM ?? 8) * scale);
        foreach ((ReceiverWay way, int i) in ways.Take(2).Select((w, i) => (w, i)))
            Way(shapes, places, way, (standOffM ?? 8) * scale, i > 0);
        if (standOffM is { } keep)
            Ring(shapes, keep * scale);
        LocalFrame frame = new(site.Latitude.Degrees, site.Longitude.Degrees, 0);
        foreach (Obstacle obstacle in site.Obstacles)
            Tree(shapes, places, frame.ToEnu(obstacle.Latitude.Degrees, obstacle.Longitude.Degrees, 0), scale, obstacle.Name);
        shapes.AddRange([new LineShape(CentreX - 6, CentreY, CentreX + 6, CentreY, ShapeStyle.Line), new LineShape(CentreX, CentreY - 6, CentreX, CentreY + 6, ShapeStyle.Line)]);
        Label(shapes, places, CentreX, CentreY, "spot", must: true);
        foreach (StandingSpot p in people)
        {
            (double x, double y) = Person(p, scale);
            shapes.Add(new CircleShape(x, y, 6.5, ShapeStyle.Hollow));
            shapes.Add(new WordShape(x, y + 3.2, p.Label, WordAnchor.Middle, 9));
        }
        North(shapes);
        Scale(shapes, scale);
        return new("The site from above, north up", Width, Height, shapes);
    }

    /// <summary>Where a person's sign stands; at the edge when the person stands farther off.</summary>
    private static (double X, double Y) Person(StandingSpot p, double scale) => At(p.BearingDeg, Math.Min(p.DistanceM * scale, Reach + 4));

    private static (double X, double Y) At(double bearingDeg, double radius)
    {
        (double s, double c) = Math.SinCos(double.DegreesToRadians(bearingDeg));
        return (CentreX + radius * s, CentreY - radius * c);
    }

    /// <summary>The crew's side: a sector between two lines, with its words.</summary>
    private static void Wedge(List<Shape> shapes, LabelPlaces places, double deg, double inner)
    {
        foreach (double side in new[] { deg - WedgeDeg, deg + WedgeDeg })
        {
            (double x1, double y1) = At(side, inner + 3);
            (double x2, double y2) = At(side, Reach + 6);
            shapes.Add(new LineShape(x1, y1, x2, y2, ShapeStyle.Line));
            KeepLine(places, (x1, y1), (x2, y2));
        }
        (double x, double y) = At(deg, Reach - 2);
        Label(shapes, places, x, y, "ESCAPE SIDE", must: true);
    }

    private static void Way(List<Shape> shapes, LabelPlaces places, ReceiverWay way, double inner, bool other)
    {
        (double X, double Y) far = At(way.FromDeg, Reach + 8), near = At(way.FromDeg, inner + 8);
        Arrow(shapes, far, near, broken: other);
        KeepLine(places, far, near);
        (double x, double y) = At(way.FromDeg, Reach - 4);
        Label(shapes, places, x, y, other ? "in, other wind" : "comes in", must: !other);
        if (way.OutDeg is not { } goes || other)
            return;
        (far, near) = (At(goes, Reach + 8), At(goes, inner + 8));
        Arrow(shapes, near, far, broken: true);
        KeepLine(places, near, far);
        (double outX, double outY) = At(goes, Reach - 4);
        Label(shapes, places, outX, outY, "way out", must: true);
    }

    /// <summary>Keeps words off a line.</summary>
    private static void KeepLine(LabelPlaces places, (double X, double Y) a, (double X, double Y) b)
    {
        for (int i = 0; i <= 12; i++)
            places.Mark((a.X + (b.X - a.X) * i / 12, a.Y + (b.Y - a.Y) * i / 12), 3);
    }

    private static void Arrow(List<Shape> shapes, (double X, double Y) from, (double X, double Y) to, bool broken)
    {
        double dx = to.X - from.X, dy = to.Y - from.Y, length = Math.Max(1, Math.Sqrt(dx * dx + dy * dy)), ux = dx / length, uy = dy / length;
        for (double s = 0; s < length - 6; s += broken ? 8 : length)
        {
            double e = Math.Min(length - 6, s + (broken ? 5 : length));
            shapes.Add(new LineShape(from.X + s * ux, from.Y + s * uy, from.X + e * ux, from.Y + e * uy, ShapeStyle.Line));
        }
        shapes.Add(new PolygonShape([(to.X, to.Y), (to.X - 8 * ux + 4 * uy, to.Y - 8 * uy - 4 * ux), (to.X - 8 * ux - 4 * uy, to.Y - 8 * uy + 4 * ux)], broken ? ShapeStyle.Hollow : ShapeStyle.Solid));
    }

    private static void Ring(List<Shape> shapes, double radius)
    {
        for (double d = 0; d < 360; d += 12)
        {
            (double x1, double y1) = At(d, radius);
            (double x2, double y2) = At(d + 7, radius);
            shapes.Add(new LineShape(x1, y1, x2, y2, ShapeStyle.Line));
        }
    }

    private static void Tree(List<Shape> shapes, LabelPlaces places, Enu place, double scale, string name)
    {
        if (place.Horizontal * scale > Reach)
            return;
        (double x, double y) = At(ReceiverSheets.Bearing(place), place.Horizontal * scale);
        shapes.Add(new PolygonShape([(x - 4, y + 4), (x, y - 5), (x + 4, y + 4)], ShapeStyle.Grey));
        places.Mark((x, y), 5);
        if (name.Length <= 24)
            Label(shapes, places, x, y, name, must: false);
    }

    private static void Label(List<Shape> shapes, LabelPlaces places, double x, double y, string text, bool must)
    {
        if (places.Find(x, y, text, 9, must) is { } at)
            shapes.Add(new WordShape(at.X, at.Y, text, WordAnchor.Start, 9));
    }

    private static void North(List<Shape> shapes)
    {
        const double x = Width - 18;
        shapes.Add(new LineShape(x, 34, x, 14, ShapeStyle.Line));
        shapes.Add(new PolygonShape([(x, 6), (x - 4, 15), (x + 4, 15)], ShapeStyle.Solid));
        shapes.Add(new WordShape(x - 14, 16, "N", WordAnchor.Start, 10));
    }

    private static void Scale(List<Shape> shapes, double scale)
    {
        double metres = scale * 20 < 90 ? 20 : 10, y = Height - 10;
        shapes.Add(new LineShape(10, y, 10 + metres * scale, y, ShapeStyle.Line));
        shapes.Add(new LineShape(10, y - 3, 10, y + 3, ShapeStyle.Line));
        shapes.Add(new LineShape(10 + metres * scale, y - 3, 10 + metres * scale, y + 3, ShapeStyle.Line));
        shapes.Add(new WordShape(14, y - 4, string.Create(CultureInfo.InvariantCulture, $"{metres:0} m"), WordAnchor.Start, 8));
    }
}
