using System.Globalization;
using Stillhook.Physics.Earth;
using Stillhook.Planning;

namespace Stillhook.Files.Pictures;

/// <summary>Map of a site in metres round it, north up: what was entered, to check it by eye and to put more on it.</summary>
public static class SiteMap
{
    private const double Size = 560;

    /// <summary>Draws what lies round a site.</summary>
    /// <param name="request">The job.</param>
    /// <param name="site">The site in the middle.</param>
    /// <param name="halfWidthM">Half of the width shown, m.</param>
    public static string Draw(LiftRequest request, Site site, double halfWidthM)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(site);
        double perMetre = Size / 2 / halfWidthM;
        LocalFrame frame = new(site.Latitude.Degrees, site.Longitude.Degrees, 0);
        (double X, double Y) At(UnitsNet.Angle latitude, UnitsNet.Angle longitude)
        {
            Enu p = frame.ToEnu(latitude.Degrees, longitude.Degrees, 0);
            return (Size / 2 + p.East * perMetre, Size / 2 - p.North * perMetre);
        }
        SvgWriter svg = new(Size, Size, "picture site-map", $"Map round {site.Name}, north up", string.Create(CultureInfo.InvariantCulture, $" data-per-metre=\"{perMetre:R}\""));
        double step = RoundStep.AtLeast(halfWidthM / 4);
        for (int ring = 1; ring * step < halfWidthM; ring++)
        {
            svg.Circle(Size / 2, Size / 2, ring * step * perMetre, "ring");
            svg.Text(Size / 2 + 4, Size / 2 - ring * step * perMetre - 4, DisplayUnits.Text(ring * step, 0) + " m", "faint");
        }
        if (site.CrewClearSide is { } side)
            ClearSide(svg, side.Degrees, 0.8 * Size / 2);
        foreach (Wire wire in request.Sites.SelectMany(s => s.Wires).Where(w => w is { From: not null, To: not null }))
        {
            (double x1, double y1) = At(wire.From!.Latitude, wire.From.Longitude);
            (double x2, double y2) = At(wire.To!.Latitude, wire.To.Longitude);
            svg.Line(x1, y1, x2, y2, "wire");
            Label(svg, (x1 + x2) / 2, (y1 + y2) / 2, "wire: " + wire.Name);
        }
        foreach (Site other in request.Sites)
        {
            (double x, double y) = At(other.Latitude, other.Longitude);
            svg.Rectangle(x - 7, y - 7, 14, 14, other == site ? "target" : "site").Circle(x, y, 2, "target");
            Label(svg, x, y, other.Name);
            foreach (Obstacle o in other.Obstacles)
            {
                (x, y) = At(o.Latitude, o.Longitude);
                svg.Path([(x, y - 8), (x - 7, y + 6), (x + 7, y + 6)], "obstacle", closed: true);
                Label(svg, x, y, string.Create(CultureInfo.InvariantCulture, $"{o.Name}, {o.Height.Meters:0} m high"));
            }
            foreach (Spot p in other.People)
            {
                (x, y) = At(p.Latitude, p.Longitude);
                MapSigns.Person(svg, x, y);
                Label(svg, x, y, p.Name ?? "person");
            }
            foreach (Spot p in other.Landmarks)
            {
                (x, y) = At(p.Latitude, p.Longitude);
                svg.Path([(x, y - 7), (x + 7, y), (x, y + 7), (x - 7, y)], "landmark", closed: true);
                Label(svg, x, y, p.Name ?? "landmark");
            }
            foreach (Spot p in other.EmergencySpots)
            {
                (x, y) = At(p.Latitude, p.Longitude);
                svg.Circle(x, y, 7, "emergency").Line(x - 4, y, x + 4, y, "emergency").Line(x, y - 4, x, y + 4, "emergency");
                Label(svg, x, y, "emergency: " + (p.Name ?? "spot"));
            }
        }
        MapSigns.North(svg, Size - 26, 14);
        MapSigns.Scale(svg, 16, Size - 16, perMetre, Size / 8);
        svg.Path([(-20, -30), (-20, -10)], "pick").Path([(-30, -20), (-10, -20)], "pick");
        return svg.Close();
    }

    private static void Label(SvgWriter svg, double x, double y, string text)
    {
        if (x is > 0 and < Size && y is > 0 and < Size)
            svg.Text(x < Size * 0.7 ? x + 11 : x - 11, y + 5, text, "small", x < Size * 0.7 ? "start" : "end");
    }

    private static void ClearSide(SvgWriter svg, double towardsDeg, double radius)
    {
        (double s, double c) = Math.SinCos(double.DegreesToRadians(towardsDeg));
        svg.Line(Size / 2, Size / 2, Size / 2 + radius * s, Size / 2 - radius * c, "clear-side");
        svg.Text(Size / 2 + radius * s, Size / 2 - radius * c, "crew stands this side", "small", s > 0 ? "end" : "start");
    }
}
