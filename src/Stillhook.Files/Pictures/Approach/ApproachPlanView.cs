using System.Globalization;
using Stillhook.Approaching;
using Stillhook.Physics.Earth;

namespace Stillhook.Files.Pictures.Approach;

/// <summary>The planned approach from above, north up: the whole of it inside the ring of directions, and the last metres larger beside it.</summary>
public static class ApproachPlanView
{
    private const double Width = 960, Height = 752, MapBottom = 650, RingX = 305, RingY = 345, RingOuter = 262, RingInner = 240, CloseLeft = 624, CloseTop = 34, CloseSide = 312, ScalePx = 48;

    /// <summary>Least and greatest half-width of the close-up, m.</summary>
    private const double CloseLeastM = 25, CloseMostM = 60;

    /// <summary>Draws the way offered; without one the directions, with what rules each out, and the surroundings.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="surroundings">People, obstacles and wires; null when none are known.</param>
    /// <param name="units">Unit of the wind's speed and of heights.</param>
    public static string Draw(ApproachPlan plan, Surroundings? surroundings, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(units);
        IReadOnlyList<(double East, double North)> fallZone = plan is { Way: { } fallen, Situation: { } situation } ? FallOutline.Of(fallen, situation.Rules.PeopleClearanceM.Value, ShownM(plan), surroundings) : [];
        double reachM = fallZone.Select(p => Math.Sqrt(p.East * p.East + p.North * p.North)).Append(ShownM(plan)).Max(), closeM = CloseM(surroundings);
        Panel whole = new(RingX, RingY, (RingInner - 6) / reachM, new(12, 34, 606, MapBottom), RingInner - 14);
        Panel close = new(CloseLeft + CloseSide / 2, CloseTop + CloseSide / 2, CloseSide / 2 / closeM, new(CloseLeft, CloseTop, CloseLeft + CloseSide, CloseTop + CloseSide), double.PositiveInfinity);
        string title = plan.Way is { } way ? string.Create(CultureInfo.InvariantCulture, $"Plan view, north up: course {way.CourseDeg:000}° true") : "Plan view, north up: no approach is offered";
        // Many words on why nothing is offered make the picture longer.
        string[] whyNot = plan.Way is null ? [.. Signs.Lines(Signs.WhyNot(plan), 44)] : [];
        double longer = 18 * Math.Max(0, whyNot.Length - 9);
        SvgWriter svg = new(Width, Height + longer, "picture approach plan", title, whole.Attributes + close.CloseUpAttributes);
        svg.Text(16, 20, title, "caption").Text(CloseLeft, 20, "The last metres, north up", "caption");
        LabelPlacer labels = whole.Labels();
        labels.Take(34, 62, 24, 24);
        labels.Take(120, 62, 65, 10);
        labels.Take(588, 66, 14, 30);
        labels.Take(70, MapBottom + 10, 70, 14);
        double boxPx = closeM * whole.PerMetre;
        labels.Take([(RingX - boxPx, RingY - boxPx), (RingX + boxPx, RingY - boxPx), (RingX + boxPx, RingY + boxPx), (RingX - boxPx, RingY + boxPx), (RingX - boxPx, RingY - boxPx)]);
        DrawPanel(svg, whole, plan, surroundings, fallZone, labels, units, closeUp: false);
        svg.Rectangle(RingX - boxPx, RingY - boxPx, 2 * boxPx, 2 * boxPx, "frame");
        new SectorRing(svg, RingX, RingY, RingInner, RingOuter).Draw(plan, labels);
        MapSigns.North(svg, 588, 44);
        MapSigns.Wind(svg, 36, 62, plan.Situation?.Wind, units);
        MapSigns.Scale(svg, 16, MapBottom + 18, whole.PerMetre, ScalePx);
        labels.Write(svg);
        svg.Rectangle(CloseLeft, CloseTop, CloseSide, CloseSide, "frame");
        LabelPlacer closeLabels = close.Labels();
        closeLabels.Take(CloseLeft + 60, CloseTop + CloseSide - 14, 56, 12);
        DrawPanel(svg, close, plan, surroundings, fallZone, closeLabels, units, closeUp: true);
        MapSigns.Scale(svg, CloseLeft + 12, CloseTop + CloseSide - 14, close.PerMetre, ScalePx);
        closeLabels.Write(svg);
        DrawKey(svg, plan, surroundings, whyNot);
        if (plan.Situation is { } s)
            Signs.Caution(svg, 16, MapBottom + 52 + longer, s, units, altimeter: false);
        return svg.Close();
    }

    private static double ShownM(ApproachPlan plan) =>
        plan.Way is { } way ? Math.Min(1.1 * way.Path.Shape.StartM, -way.Path.Hook[0].East) : 300;

    private static double CloseM(Surroundings? surroundings)
    {
        IEnumerable<double> near = surroundings is null ? [] : [.. surroundings.People.Select(p => Reach(p.Place)), .. surroundings.Obstacles.Select(o => Reach(o.Place))];
        return Math.Max(CloseLeastM, 1.2 * near.Where(m => m <= CloseMostM / 1.2).DefaultIfEmpty(0).Max());
    }

    private static double Reach(Enu place) => Math.Max(Math.Abs(place.East), Math.Abs(place.North));

    private static void DrawPanel(SvgWriter svg, Panel panel, ApproachPlan plan, Surroundings? surroundings, IReadOnlyList<(double East, double North)> fallZone, LabelPlacer labels, DisplayUnits units, bool closeUp)
    {
        Signs.Spot(svg, panel.CentreX, panel.CentreY);
        labels.Take(panel.CentreX, panel.CentreY, 10, 10);
        if (fallZone.Count > 0)
            DrawFallZone(svg, panel, fallZone, labels);
        if (plan.Way is { } way)
            DrawWay(svg, panel, plan, way, labels, closeUp);
        if (plan.Situation?.Site.CrewClearSide is { } side && closeUp)
            DrawCrewSide(svg, panel, side.Degrees, labels);
        if (surroundings is not null)
            DrawSurroundings(svg, panel, surroundings, labels, units, closeUp);
        if (plan.Way is not null)
            NameMarks(svg, panel, plan, labels, closeUp);
    }

    private static void DrawFallZone(SvgWriter svg, Panel panel, IReadOnlyList<(double East, double North)> outline, LabelPlacer labels)
    {
        (double X, double Y)[] shown = [.. panel.Clip.Line(outline.Append(outline[0]).Select(p => panel.At(p.East, p.North)))];
        svg.Path(shown, "fall-zone");
        labels.Take(shown);
    }

    private static void DrawWay(SvgWriter svg, Panel panel, ApproachPlan plan, WayIn way, LabelPlacer labels, bool closeUp)
    {
        CourseFrame course = new(way.CourseDeg);
        double shownM = closeUp ? double.PositiveInfinity : ShownM(plan);
        (double, double)[] hook = [.. Track(way.Path.Hook)], load = [.. Track(way.Path.Load)];
        svg.Path(panel.Clip.Line(load), "load-path").Path(panel.Clip.Line(hook), "track");
        labels.Take(panel.Clip.Line(hook));
        labels.Take(panel.Clip.Line(load));
        if (plan.Reject is { } reject)
            DrawWayOut(svg, panel, plan, way, reject, labels, closeUp);

        IEnumerable<(double X, double Y)> Track(IReadOnlyList<Enu> places)
        {
            for (int i = 0; i < places.Count; i += 5)
                if (-places[i].East <= shownM && course.ToEnu(places[i]) is var p)
                    yield return panel.At(p.East, p.North);
        }
    }

    /// <summary>The load's way out from the reject gate for as long as it is judged: on for the reaction, then the turn at 6° a second at the speed of the moment, as it is judged; in the close-up a slow one is drawn on to where it shows, in the whole one that would not show is left out.</summary>
    private static void DrawWayOut(SvgWriter svg, Panel panel, ApproachPlan plan, WayIn way, RejectGate reject, LabelPlacer labels, bool closeUp)
    {
        const double stepS = 0.2, leastPx = 70, visiblePx = 25;
        CourseFrame course = new(way.CourseDeg);
        int from = Math.Min(way.Path.Count - 1, reject.Index + (int)(plan.Situation!.Rules.ReactionS.Value / way.Path.StepS));
        Enu at = course.ToEnu(way.Path.Load[from]), begin = at;
        double heading = way.CourseDeg, speed = way.Path.SpeedMs[from];
        List<(double X, double Y)> points = [panel.At(at.East, at.North)];
        for (double t = 0; t < WayOut.AheadS || (closeUp && (at - begin).Horizontal * panel.PerMetre < leastPx); t += stepS)
        {
            double left = way.CourseDeg + reject.TurnDeg - heading, move = t < WayOut.AheadS ? speed * stepS : leastPx / panel.PerMetre / 20;
            heading += Math.Sign(left) * Math.Min(Math.Abs(left), WayOut.TurnRateDeg * stepS);
            at += new CourseFrame(heading).ToEnu(new(move, 0, 0));
            points.Add(panel.At(at.East, at.North));
        }
        if (!closeUp && (at - begin).Horizontal * panel.PerMetre < visiblePx)
            return;
        // The first stretch that shows, with an arrowhead where it ends or leaves the map.
        (double X, double Y)[] shown = [.. points.SkipWhile(p => !panel.ShowsWell(p)).TakeWhile(panel.ShowsWell)];
        if (shown.Length < 2)
            return;
        svg.Path(shown, "way-out");
        labels.Take(shown);
        (double x, double y) = shown[^1];
        double dx = x - shown[^2].X, dy = y - shown[^2].Y, length = Math.Max(1e-9, Math.Sqrt(dx * dx + dy * dy)), sin = dx / length, cos = -dy / length;
        svg.Path([(x + 10 * sin, y - 10 * cos), (x - 6 * cos, y - 6 * sin), (x + 6 * cos, y + 6 * sin)], "way-out-tip", closed: true);
        labels.Add(x + 10 * sin, y - 10 * cos, "way out", 6);
    }

    private static void DrawCrewSide(SvgWriter svg, Panel panel, double deg, LabelPlacer labels)
    {
        const double spreadDeg = 30;
        double radius = 0.62 * CloseSide / 2;
        (double X, double Y) Edge(double d)
        {
            (double s, double c) = Math.SinCos(double.DegreesToRadians(d));
            return (panel.CentreX + radius * s, panel.CentreY - radius * c);
        }
        (double X, double Y)[] wedge = [(panel.CentreX, panel.CentreY), .. Enumerable.Range(0, 11).Select(i => Edge(deg - spreadDeg + 2 * spreadDeg * i / 10)), (panel.CentreX, panel.CentreY)];
        svg.Path(wedge, "crew-side");
        labels.Take(wedge);
        labels.AddNearAny([Edge(deg), Edge(deg + 20), Edge(deg - 20)], "crew stands clear here", 8);
    }

    private static void DrawSurroundings(SvgWriter svg, Panel panel, Surroundings surroundings, LabelPlacer labels, DisplayUnits units, bool closeUp)
    {
        foreach ((string name, Enu from, Enu to, double? height, double keep) in surroundings.Wires)
            DrawWire(svg, panel, name + (height is { } up ? " " + units.Height(up) : ", height not entered"), from, to, keep, labels);
        double closeM = CloseM(surroundings);
        foreach ((string name, Enu place, double height) in surroundings.Obstacles)
            Named(place, name + " " + units.Height(height), Signs.Obstacle);
        foreach ((string name, Enu place) in surroundings.People)
            Named(place, name, MapSigns.Person);

        // What the close-up shows is not shown twice.
        void Named(Enu place, string words, Action<SvgWriter, double, double> sign)
        {
            (double X, double Y) p = panel.At(place.East, place.North);
            if (!panel.Shows(p) || (!closeUp && Reach(place) <= closeM))
                return;
            sign(svg, p.X, p.Y);
            labels.Take(p.X, p.Y, 7, 9);
            labels.Add(p.X, p.Y, words);
        }
    }

    private static void DrawWire(SvgWriter svg, Panel panel, string words, Enu from, Enu to, double keepM, LabelPlacer labels)
    {
        (double X, double Y)[] shown = [.. panel.Clip.Line([panel.At(from.East, from.North), panel.At(to.East, to.North)])];
        if (shown.Length < 2)
            return;
        svg.Path(shown, "wire");
        double east = to.East - from.East, north = to.North - from.North, length = Math.Max(1e-9, Math.Sqrt(east * east + north * north)), asideE = keepM * north / length, asideN = -keepM * east / length;
        foreach (double side in new[] { -1.0, 1 })
        {
            (double X, double Y)[] kept = [.. panel.Clip.Line([panel.At(from.East + side * asideE, from.North + side * asideN), panel.At(to.East + side * asideE, to.North + side * asideN)])];
            svg.Path(kept, "keep");
            labels.Take(kept);
        }
        // Small bars across a wire tell it from a path.
        double px = shown[1].X - shown[0].X, py = shown[1].Y - shown[0].Y, span = Math.Max(1e-9, Math.Sqrt(px * px + py * py));
        for (double at = 10; at < span; at += 22)
            svg.Line(shown[0].X + px * at / span - 4 * py / span, shown[0].Y + py * at / span + 4 * px / span, shown[0].X + px * at / span + 4 * py / span, shown[0].Y + py * at / span - 4 * px / span, "wire");
        labels.Take(shown);
        labels.AddNearAny([.. new[] { 0.5, 0.25, 0.75, 0.02, 0.98 }.Select(share => (shown[0].X + share * (shown[1].X - shown[0].X), shown[0].Y + share * (shown[1].Y - shown[0].Y)))], words, 12);
    }

    private static void NameMarks(SvgWriter svg, Panel panel, ApproachPlan plan, LabelPlacer labels, bool closeUp)
    {
        CourseFrame course = new(plan.Way!.CourseDeg);
        (double X, double Y, ApproachGate Gate)[] marks = [.. plan.Gates.Where(g => g.DistanceM > 0).Select(g => (course.ToEnu(plan.Way.Path.Hook[RobustnessTrial.SampleAt(plan.Way.Path, g.DistanceM)] with { East = -g.DistanceM }), g))
            .Select(m => (panel.At(m.Item1.East, m.Item1.North).X, panel.At(m.Item1.East, m.Item1.North).Y, m.g)).Where(m => panel.Clip.Holds((m.X, m.Y)))];
        foreach ((double x, double y, ApproachGate gate) in marks)
        {
            Signs.Mark(svg, x, y, gate.Name);
            labels.Take(x, y, 8, 8);
            if (closeUp || gate.DistanceM > 20)
                labels.Add(x, y, string.Join(", ", new[] { gate.Name, string.Create(CultureInfo.InvariantCulture, $"{gate.DistanceM:0} m"), gate.Landmark is { } seen ? Signs.Shortened(seen, 24) : "" }.Where(t => t.Length > 0)));
        }
    }

    private static void DrawKey(SvgWriter svg, ApproachPlan plan, Surroundings? surroundings, string[] whyNot)
    {
        const double x = CloseLeft, words = CloseLeft + 46;
        double y = CloseTop + CloseSide + 30;
        void Row(Action<double> draw, string text)
        {
            draw(y);
            svg.Text(words, y + 5, text, "small");
            y += 24;
        }
        void Band(double at, string cssClass)
        {
            svg.Rectangle(x, at - 7, 36, 14, cssClass);
            for (int i = 0; cssClass == "ruled-out" && i < 5; i++)
                svg.Line(x + 7 * i, at + 7, x + 7 * i + 7, at - 7, "hatch");
        }
        if (whyNot.Length > 0)
            y = Signs.Words(svg, x, y, whyNot) + 12;
        if (plan.Way is not null)
        {
            Row(at => svg.Line(x, at, x + 36, at, "track"), "hook over the ground");
            Row(at => svg.Line(x, at, x + 36, at, "load-path"), "load over the ground");
            Row(at => svg.Line(x, at, x + 36, at, "fall-zone"), "fall zone of a load let go, with margin");
            if (plan.Reject is not null)
                Row(at => svg.Line(x, at, x + 36, at, "way-out"), "way out of the reject gate");
            Row(at => svg.Path([(x + 26, at), (x + 8, at - 8), (x + 8, at + 8)], "chosen", closed: true), "direction offered");
            Row(at => Signs.Mark(svg, x + 18, at, ApproachGates.PowerInName), "power in, at the latest");
            Row(at => Signs.Mark(svg, x + 18, at, ApproachGates.RejectName), "reject, at the latest");
        }
        Row(at => Band(at, "flyable"), "can be flown from there (true)");
        Row(at => Band(at, "ruled-out"), "ruled out, with the reason");
        if (surroundings?.Obstacles.Count > 0)
            Row(at => Signs.Obstacle(svg, x + 18, at), "obstacle, height over the spot's ground");
        if (surroundings?.Wires.Count > 0)
            Row(at => svg.Line(x, at, x + 36, at, "wire").Line(x + 7, at - 4, x + 7, at + 4, "wire").Line(x + 29, at - 4, x + 29, at + 4, "wire").Line(x, at + 8, x + 36, at + 8, "keep"), "wire, and the distance kept from it");
        if (surroundings?.People.Count > 0)
            Row(at => MapSigns.Person(svg, x + 18, at - 1), "person");
    }

    /// <summary>One of the two maps.</summary>
    /// <param name="CentreX">Where the spot lies.</param>
    /// <param name="CentreY">Where the spot lies.</param>
    /// <param name="PerMetre">Pixels a metre.</param>
    /// <param name="Clip">What is inside.</param>
    /// <param name="RadiusPx">How far from the spot things are drawn.</param>
    private sealed record Panel(double CentreX, double CentreY, double PerMetre, Clipping Clip, double RadiusPx)
    {
        private const double TipPx = 12;

        /// <summary>Whether a point lies in the map.</summary>
        public bool Shows((double X, double Y) p) => Clip.Holds(p) && (p.X - CentreX) * (p.X - CentreX) + (p.Y - CentreY) * (p.Y - CentreY) <= RadiusPx * RadiusPx;

        /// <summary>Shown with room for an arrowhead.</summary>
        public bool ShowsWell((double X, double Y) p) => Shows(p) && p.X >= Clip.Left + TipPx && p.X <= Clip.Right - TipPx && p.Y >= Clip.Top + TipPx && p.Y <= Clip.Bottom - TipPx;

        public string Attributes => string.Create(CultureInfo.InvariantCulture, $" data-x0=\"{CentreX:0.##}\" data-y0=\"{CentreY:0.##}\" data-per-metre=\"{PerMetre:0.#####}\"");

        public string CloseUpAttributes => string.Create(CultureInfo.InvariantCulture, $" data-close-x0=\"{CentreX:0.##}\" data-close-y0=\"{CentreY:0.##}\" data-close-per-metre=\"{PerMetre:0.#####}\" data-close-half=\"{(Clip.Right - Clip.Left) / 2:0.##}\"");

        public (double X, double Y) At(double east, double north) => (CentreX + east * PerMetre, CentreY - north * PerMetre);

        public LabelPlacer Labels() => new(Clip.Left + 4, Clip.Top + 2, Clip.Right - 4, Clip.Bottom - 2);
    }
}
