using System.Globalization;
using Stillhook.Approaching;
using Stillhook.Physics.Earth;

namespace Stillhook.Files.Pictures.Approach;

/// <summary>The planned approach from the side, one scale both ways: hook and load on their way from left to right, the line at the marks, ground, obstacles and wires.</summary>
public static class ApproachSideView
{
    private const double Width = 960, Left = 60, Right = 24, LabelTop = 22, PlotTop = LabelTop + MarkLabels.HeightPx + 34, TallestPlot = 520, KeyHeight = 112, NamesHeight = 56;

    /// <summary>How far to the side of the course something still is drawn, m. Own choice: what a crew asks about.</summary>
    public const double BesideM = 40;

    /// <summary>Draws the way offered; in words why there is none when there is none.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="surroundings">Ground, obstacles and wires; null when none are known.</param>
    /// <param name="units">Unit of heights.</param>
    public static string Draw(ApproachPlan plan, Surroundings? surroundings, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(units);
        if (plan.Way is not { } way)
            return Signs.NoApproach("picture approach side", "Side view: no approach is offered", plan);
        Neighbour[] neighbours = [.. Neighbours(way, surroundings)];
        Window window = Window.Of(way, neighbours, surroundings);
        neighbours = [.. neighbours.Where(n => n.DistanceM <= window.FarM && n.DistanceM >= window.NearM)];
        string title = string.Create(CultureInfo.InvariantCulture, $"Side view along course {way.CourseDeg:000}° true, the same scale both ways");
        double keyTop = window.BottomY + 60 + (neighbours.Length > 0 ? NamesHeight : 0);
        SvgWriter svg = new(Width, keyTop + KeyHeight, "picture approach side", title, window.Attributes);
        svg.Text(16, 20, title, "caption").Text(Width - 12, 20, "m before the spot; heights over the spot's ground", "axis", "end");
        (double X, double Y)[] ground = [.. Ground(window, way, surroundings)];
        DrawEarth(svg, window, ground);
        NameNeighbours(svg, window, neighbours, units);
        DrawGrid(svg, window, units);
        svg.Path(new Clipping(0, PlotTop, Width, window.BottomY + 1).Line(ground), "ground");
        DrawPath(svg, window, plan);
        DrawAircraft(svg, window, plan, surroundings);
        foreach (Neighbour neighbour in neighbours)
            DrawNeighbour(svg, window, neighbour);
        DrawMarks(svg, window, plan);
        DrawKey(svg, keyTop, neighbours, surroundings);
        if (plan.Situation is { } s)
            Signs.Caution(svg, Left, keyTop + 68, s, units, altimeter: true);
        return svg.Close();
    }

    private static IEnumerable<Neighbour> Neighbours(WayIn way, Surroundings? surroundings)
    {
        if (surroundings is null)
            yield break;
        CourseFrame course = new(way.CourseDeg);
        foreach ((string name, Enu place, double height) in surroundings.Obstacles)
            if (course.FromEnu(place) is var p && Math.Abs(p.North) <= BesideM)
                yield return new(name, -p.East, p.North, surroundings.GroundM(place) ?? 0, height, null);
        foreach ((string name, Enu from, Enu to, double? height, double keep) in surroundings.Wires)
            if (NearestToCourse(course.FromEnu(from), course.FromEnu(to)) is var p && Math.Abs(p.North) <= BesideM)
                yield return new(name, -p.East, p.North, 0, height, keep);
    }

    /// <summary>Where a span crosses the line of the course; else its end that is nearer to it.</summary>
    private static Enu NearestToCourse(Enu a, Enu b) =>
        a.North * b.North < 0 ? a + (a.North / (a.North - b.North)) * (b - a) : Math.Abs(a.North) <= Math.Abs(b.North) ? a : b;

    private static IEnumerable<(double X, double Y)> Ground(Window window, WayIn way, Surroundings? surroundings)
    {
        CourseFrame course = new(way.CourseDeg);
        for (double d = window.FarM; d >= window.NearM; d -= (window.FarM - window.NearM) / 400)
            yield return surroundings is null ? (window.X(d), window.Y(0)) : surroundings.GroundM(course.ToEnu(new(-d, 0, 0))) is { } up ? (window.X(d), window.Y(up)) : (double.NaN, double.NaN);
    }

    private static void DrawEarth(SvgWriter svg, Window window, IEnumerable<(double X, double Y)> ground)
    {
        (double X, double Y)[] known = [.. ground.Where(p => double.IsFinite(p.Y)).Select(p => (p.X, Math.Clamp(p.Y, PlotTop, window.BottomY)))];
        if (known.Length > 1)
            svg.Path([(known[0].X, window.BottomY + 10), .. known, (known[^1].X, window.BottomY + 10)], "earth", closed: true);
    }

    private static void DrawGrid(SvgWriter svg, Window window, DisplayUnits units)
    {
        double from = window.X(window.FarM), to = window.X(window.NearM);
        double step = RoundStep.AtLeast(Math.Max(34 / window.PerMetre, (window.TopM - window.BottomM) / 8) * units.HeightPerMetre) / units.HeightPerMetre;
        for (double h = Math.Ceiling(window.BottomM / step) * step; h <= window.TopM; h += step)
            svg.Line(from, window.Y(h), to, window.Y(h), "grid").Text(from - 8, window.Y(h) + 5, DisplayUnits.Text(h * units.HeightPerMetre, 0), "axis", "end");
        svg.Text(from - 8, PlotTop - 14, units.HeightUnit, "axis", "end");
        double along = RoundStep.AtLeast(Math.Max(60 / window.PerMetre, (window.FarM - window.NearM) / 10));
        for (double d = Math.Ceiling(window.NearM / along) * along; d <= window.FarM; d += along)
            svg.Line(window.X(d), window.BottomY + 10, window.X(d), window.BottomY + 16, "ground").Text(window.X(d), window.BottomY + 32, DisplayUnits.Text(d, 0), "axis", "middle");
        svg.Line(from, window.BottomY + 10, to, window.BottomY + 10, "frame");
    }

    private static void DrawPath(SvgWriter svg, Window window, ApproachPlan plan)
    {
        LoadPath path = plan.Way!.Path;
        int[] shown = [.. Thinning.MinMax([.. path.Hook.Select(p => p.East)], (int)Width, [.. path.Hook.Select(p => p.Up)], path.LoadHeightM).Where(i => -path.Hook[i].East <= window.FarM)];
        (double, double)[] hook = [.. shown.Select(i => (window.X(-path.Hook[i].East), window.Y(path.Hook[i].Up)))], load = [.. shown.Where(i => path.DistanceM[i] <= window.FarM).Select(i => (window.X(path.DistanceM[i]), window.Y(path.LoadHeightM[i])))];
        foreach (ApproachGate gate in plan.Gates)
            DrawLine(svg, window, path, gate.DistanceM > 0 ? RobustnessTrial.SampleAt(path, gate.DistanceM) : path.Count - 1);
        if (plan.Gates.Count == 0)
            DrawLine(svg, window, path, path.Count - 1);
        svg.Path(load, "load-path").Path(hook, "track");
    }

    /// <summary>The aircraft with its line and load, half-way between the first two marks, as long as its rotor is wide.</summary>
    private static void DrawAircraft(SvgWriter svg, Window window, ApproachPlan plan, Surroundings? surroundings)
    {
        LoadPath path = plan.Way!.Path;
        double from = plan.Gates.Count > 0 ? plan.Gates[0].DistanceM : path.Shape.StartM, to = plan.Gates.Count > 1 ? plan.Gates[1].DistanceM : 0;
        int i = RobustnessTrial.SampleAt(path, (from + to) / 2);
        DrawLine(svg, window, path, i);
        Signs.Aircraft(svg, window.X(-path.Hook[i].East), window.Y(path.Hook[i].Up), (surroundings?.RotorRadiusM ?? Surroundings.AssumedRotorRadiusM) * window.PerMetre);
    }

    private static void DrawLine(SvgWriter svg, Window window, LoadPath path, int i)
    {
        double x = window.X(path.DistanceM[i]), side = Math.Max(5, path.Hanging.LoadHeightM * window.PerMetre), under = window.Y(path.LoadHeightM[i]);
        svg.Line(window.X(-path.Hook[i].East), window.Y(path.Hook[i].Up), x, under - side, "line").Rectangle(x - side / 2, under - side, side, side, "load");
    }

    private static void DrawNeighbour(SvgWriter svg, Window window, Neighbour n)
    {
        double x = window.X(n.DistanceM), foot = window.Y(Math.Max(n.GroundM, window.BottomM)), top = window.Y(Math.Min(n.HeightM ?? window.TopM, window.TopM));
        if (n.KeepM is not { } keep)
            svg.Path([(x - 4, foot), (x - 1.5, top), (x + 1.5, top), (x + 4, foot)], "obstacle", closed: true);
        else if (n.HeightM is null)
            svg.Line(x, foot, x, PlotTop, "wire keep");
        else
            svg.Line(x - 5, top - 5, x + 5, top + 5, "wire").Line(x - 5, top + 5, x + 5, top - 5, "wire")
                .Path(new Clipping(window.X(window.FarM), PlotTop, window.X(window.NearM), window.BottomY).Line(Ring(x, top, keep * window.PerMetre)), "keep");
    }

    /// <summary>Names and heights in a row under the axis, with a thin line up to each.</summary>
    private static void NameNeighbours(SvgWriter svg, Window window, Neighbour[] neighbours, DisplayUnits units)
    {
        Neighbour[] ordered = [.. neighbours.OrderByDescending(n => n.DistanceM)];
        string[][] lines = [.. ordered.Select(n => new[] { n.Name, (n.HeightM is { } height ? units.Height(height) : "height not entered") + Beside(n) })];
        double[] middles = MarkLabels.Spread([.. ordered.Select(n => window.X(n.DistanceM))], [.. lines.Select(l => l.Max(t => LabelPlacer.WidthOf(t)) + 12)], 8, Width - 8);
        double top = window.BottomY + 48;
        for (int i = 0; i < ordered.Length; i++)
            svg.Path([(window.X(ordered[i].DistanceM), window.Y(Math.Max(ordered[i].GroundM, window.BottomM))), (window.X(ordered[i].DistanceM), window.BottomY + 16), (middles[i], top + 8), (middles[i], top + 12)], "leader")
                .Text(middles[i], top + 25, lines[i][0], "small", "middle").Text(middles[i], top + 41, lines[i][1], "small", "middle");
    }

    private static string Beside(Neighbour n) =>
        Math.Abs(n.RightM) < 1 ? "" : string.Create(CultureInfo.InvariantCulture, $", {Math.Abs(n.RightM):0} m {(n.RightM > 0 ? "right" : "left")}");

    private static IEnumerable<(double X, double Y)> Ring(double x, double y, double radius) =>
        Enumerable.Range(0, 49).Select(i => (x + radius * Math.Cos(i * Math.PI / 24), y + radius * Math.Sin(i * Math.PI / 24)));

    private static void DrawMarks(SvgWriter svg, Window window, ApproachPlan plan)
    {
        MarkLabels.Draw(svg, plan.Gates, g => (window.X(g.DistanceM), window.Y(g.HookHeightM)), LabelTop, 8, Width - 8);
        double x = window.X(0), y = window.Y(0);
        svg.Path([(x - 7, y + 10), (x, y + 1), (x + 7, y + 10)], "spot", closed: true);
        foreach (ApproachGate gate in plan.Gates)
            Signs.Mark(svg, window.X(gate.DistanceM), window.Y(gate.HookHeightM), gate.Name);
    }

    private static void DrawKey(SvgWriter svg, double top, Neighbour[] neighbours, Surroundings? surroundings)
    {
        PictureKey key = new PictureKey(svg, Left, Width - Right, top).Line("track", "hook").Line("load-path", "underside of the load").Line("line", "line and load at the marks")
            .Sign((x, y) => Signs.Aircraft(svg, x, y + 4, 14), "aircraft, by its rotor").Sign((x, y) => Signs.Mark(svg, x, y, ""), "mark").Sign((x, y) => Signs.Mark(svg, x, y, ApproachGates.PowerInName), "power in, at the latest").Sign((x, y) => Signs.Mark(svg, x, y, ApproachGates.RejectName), "reject, at the latest");
        if (neighbours.Any(n => n.KeepM is not null))
            key.Sign((x, y) => svg.Line(x - 4, y - 4, x + 4, y + 4, "wire").Line(x - 4, y + 4, x + 4, y - 4, "wire").Circle(x, y, 8, "keep"), "wire and the distance kept from it");
        if (surroundings?.HasGround != true)
            key.Line("ground", "ground level with the spot: no elevation grid");
    }

    /// <summary>Something beside or under the way.</summary>
    /// <param name="Name">What it is.</param>
    /// <param name="DistanceM">Before the spot, m.</param>
    /// <param name="RightM">Right of the course, m.</param>
    /// <param name="GroundM">Ground there over the spot's ground, m.</param>
    /// <param name="HeightM">Its height over the spot's ground, m; null when nobody gave it.</param>
    /// <param name="KeepM">Distance kept from a wire, m; null for an obstacle.</param>
    private sealed record Neighbour(string Name, double DistanceM, double RightM, double GroundM, double? HeightM, double? KeepM);

    /// <summary>Which distances and heights are shown and where.</summary>
    private sealed record Window(double FarM, double NearM, double TopM, double BottomM, double PerMetre)
    {
        public static Window Of(WayIn way, Neighbour[] neighbours, Surroundings? surroundings)
        {
            LoadPath path = way.Path;
            double begin = -path.Hook[0].East, far = Math.Min(begin, 1.12 * path.Shape.StartM), near = Math.Min(-0.07 * path.Shape.StartM, -path.Hook.Max(p => p.East) - 5);
            double top = 1.05 * Math.Max(path.Hook.Max(p => p.Up), neighbours.Where(n => n.DistanceM <= far && n.DistanceM >= near).Max(n => n.HeightM) ?? 0), bottom = 0;
            CourseFrame course = new(way.CourseDeg);
            // Ground that falls away is drawn down to half of the highest hook below the spot.
            for (double d = near; d <= far; d += (far - near) / 200)
                if (surroundings?.GroundM(course.ToEnu(new(-d, 0, 0))) is { } up)
                    (bottom, top) = (Math.Max(Math.Min(bottom, up), -top / 2), Math.Max(top, up));
            double wide = Width - Left - Right, perMetre = Math.Min(wide / (far - near), TallestPlot / (top - bottom));
            far = Math.Clamp(wide / perMetre + near, far, Math.Max(far, begin));
            return new(far, near, top, bottom, perMetre);
        }

        public double BottomY => Y(BottomM);

        public string Attributes => string.Create(CultureInfo.InvariantCulture, $" data-x0=\"{X(0):0.##}\" data-y0=\"{Y(0):0.##}\" data-per-metre=\"{PerMetre:0.#####}\"");

        public double X(double beforeM) => Left + (Width - Left - Right - (FarM - NearM) * PerMetre) / 2 + (FarM - beforeM) * PerMetre;

        public double Y(double heightM) => PlotTop + (TopM - heightM) * PerMetre;
    }
}
