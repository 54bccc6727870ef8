using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Files.Pictures;

/// <summary>Plan view in metres round the target, north up: hook's track, contact points, wind, people, scale bar.</summary>
public static class PlanView
{
    private const double Width = 640, Height = 480, Margin = 36;

    /// <summary>Draws deliveries, the first with its number's line style 0, the next 1 and so on.</summary>
    /// <param name="paths">What is laid over each other; each round its own target.</param>
    /// <param name="debrief">Where wind, people and the other contacts come from.</param>
    /// <param name="units">Units of the wind's label.</param>
    /// <param name="withinM">Half-width of what is shown round the target, m; null to fit the whole approaches.</param>
    public static string Draw(IReadOnlyList<DeliveryPath> paths, Debrief debrief, DisplayUnits units, double? withinM = null)
    {
        Window window = withinM is { } within ? Window.Round(within) : Window.Fit(paths);
        string title = withinM is null ? "Plan view of the whole approach, north up" : "Plan view close to the target, north up";
        SvgWriter svg = new(Width, Height, "picture plan", title, window.Attributes);
        DrawRings(svg, window);
        if (withinM is not null && paths.Count > 0)
            DrawOtherContacts(svg, window, paths, debrief);
        for (int i = 0; i < paths.Count; i++)
            DrawPath(svg, window, paths[i], i, withinM is not null);
        DrawPeople(svg, window, paths, debrief);
        MapSigns.North(svg, Width - 28, 18);
        MapSigns.Wind(svg, 34, 34, debrief.Setup.Wind?.Value, units);
        MapSigns.Scale(svg, 16, Height - 16, window.PerMetre, Width / 8);
        for (int i = 0; i < paths.Count; i++)
            MapSigns.Mover(svg, i, 10);
        return svg.Close();
    }

    /// <summary>Half-width that shows how the hook worked over the spot: everything from the stop on, and the contact points.</summary>
    public static double CloseUpM(IReadOnlyList<DeliveryPath> paths)
    {
        double farthest = 0;
        foreach (DeliveryPath path in paths)
        {
            double from = path.Rotation.StopTimeS ?? path.ContactTimeS - 15;
            for (int i = 0; i < path.Count; i++)
                if (path.TimeS[i] >= from && path.TimeS[i] <= path.ContactTimeS)
                    farthest = Math.Max(farthest, Math.Max(Math.Abs(path.East[i]), Math.Abs(path.North[i])));
            farthest = Math.Max(farthest, path.Contact.Horizontal);
        }
        return Math.Clamp(1.5 * farthest, 12, 80);
    }

    private static void DrawRings(SvgWriter svg, Window window)
    {
        double step = RoundStep.AtLeast(window.SpanM / 6);
        (double x, double y) = window.At(0, 0);
        for (int ring = 1; ring <= 3; ring++)
        {
            svg.Circle(x, y, ring * step * window.PerMetre, "ring");
            if (window.Holds(x, y - ring * step * window.PerMetre))
                svg.Text(x + 4, y - ring * step * window.PerMetre - 4, DisplayUnits.Text(ring * step, step < 1 ? 1 : 0) + " m", "faint");
        }
        svg.Line(x - 9, y, x + 9, y, "target").Line(x, y - 9, x, y + 9, "target");
    }

    private static void DrawPath(SvgWriter svg, Window window, DeliveryPath path, int style, bool close)
    {
        int contactAt = Array.FindLastIndex(path.TimeS, t => t <= path.ContactTimeS);
        int from = 0;
        if (close)
            while (from < contactAt && !window.Holds(window.At(path.East[from], path.North[from])))
                from++;
        int[] kept = Thinned(path, Math.Max(0, from - 1));
        if (close && path.HasSwing)
            svg.Path(kept.Where(i => i <= contactAt).Select(i => window.Clip(path.LoadEast[i], path.LoadNorth[i])), $"load-path r{style}");
        svg.Path(kept.Where(i => i <= contactAt).Select(i => window.Clip(path.East[i], path.North[i])), $"track r{style}");
        (double x, double y) = window.At(path.Contact.East, path.Contact.North);
        string number = path.Rotation.Number.ToString(CultureInfo.InvariantCulture);
        svg.Rectangle(x - 5, y - 5, 10, 10, $"contact r{style}");
        if (close)
            svg.Text(x + 9, y + 16, number, $"label r{style}");
        else
        {
            (double startX, double startY) = window.At(path.East[0], path.North[0]);
            svg.Circle(startX, startY, 4, $"start r{style}").Text(startX + 8, startY + 5, number, $"label r{style}");
        }
    }

    private static int[] Thinned(DeliveryPath path, int from)
    {
        double[] time = path.TimeS[from..];
        return [.. Thinning.MinMax(time, (int)Width, path.East[from..], path.North[from..]).Select(i => i + from)];
    }

    private static void DrawOtherContacts(SvgWriter svg, Window window, IReadOnlyList<DeliveryPath> paths, Debrief debrief)
    {
        HashSet<int> drawn = [.. paths.Select(p => p.Rotation.Number)];
        foreach (Rotation rotation in debrief.Rotations.Where(r => !drawn.Contains(r.Number)))
        {
            if (rotation.DeliveryEnu is not { } contact)
                continue;
            Enu fromTarget = contact - paths[0].Target;
            (double x, double y) = window.At(fromTarget.East, fromTarget.North);
            if (window.Holds(x, y))
                svg.Rectangle(x - 3, y - 3, 6, 6, "other-contact");
        }
    }

    private static void DrawPeople(SvgWriter svg, Window window, IReadOnlyList<DeliveryPath> paths, Debrief debrief)
    {
        if (paths.Count == 0 || debrief.Track is not { } track)
            return;
        foreach (PersonPosition person in debrief.Setup.People)
        {
            Enu at = track.Frame.ToEnu(person.LatitudeDeg, person.LongitudeDeg, track.Frame.HeightM) - paths[0].Target;
            (double x, double y) = window.At(at.East, at.North);
            if (!window.Holds(x, y))
                continue;
            MapSigns.Person(svg, x, y);
            svg.Text(x + 9, y + 5, person.Name, "small");
        }
    }

    /// <summary>Which part of the ground is shown and where.</summary>
    private sealed record Window(double CentreEast, double CentreNorth, double PerMetre)
    {
        public static Window Round(double withinM) => new(0, 0, Height / 2 / withinM);

        public static Window Fit(IReadOnlyList<DeliveryPath> paths)
        {
            double[] east = [0, .. paths.SelectMany(p => p.East)], north = [0, .. paths.SelectMany(p => p.North)];
            double wide = Math.Max(east.Max() - east.Min(), 20), high = Math.Max(north.Max() - north.Min(), 20);
            double perMetre = Math.Min((Width - 2 * Margin) / wide, (Height - 2 * Margin) / high);
            return new((east.Max() + east.Min()) / 2, (north.Max() + north.Min()) / 2, perMetre);
        }

        public double SpanM => Width / PerMetre;

        /// <summary>Lets the page move its cursor marks: pixel of the target and pixels a metre.</summary>
        public string Attributes => string.Create(CultureInfo.InvariantCulture, $" data-x0=\"{At(0, 0).X:0.##}\" data-y0=\"{At(0, 0).Y:0.##}\" data-per-metre=\"{PerMetre:0.#####}\"");

        public (double X, double Y) At(double east, double north) => (Width / 2 + (east - CentreEast) * PerMetre, Height / 2 - (north - CentreNorth) * PerMetre);

        public bool Holds((double X, double Y) p) => Holds(p.X, p.Y);

        public bool Holds(double x, double y) => x is >= 0 and <= Width && y is >= 0 and <= Height;

        // A line far outside is broken instead of drawn: printers don't clip as screens do.
        public (double X, double Y) Clip(double east, double north)
        {
            (double x, double y) = At(east, north);
            return x is > -Width and < 2 * Width && y is > -Height and < 2 * Height ? (x, y) : (double.NaN, double.NaN);
        }
    }
}
