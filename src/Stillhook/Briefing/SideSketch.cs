using Stillhook.Approaching;
using Stillhook.Reporting.Printing;

namespace Stillhook.Briefing;

/// <summary>A small picture of the approach from the side: what goes down where, with the signs of the card's marks. Heights are stretched where the path is flat.</summary>
internal static class SideSketch
{
    private const double Width = 370, Height = 66, Left = 10, Right = 24, Top = 15, Bottom = 13, MostStretch = 2, WordsWidth = 3.7;

    /// <summary>Draws hook, load and marks.</summary>
    public static PrintedPicture Draw(WayIn way, IReadOnlyList<CockpitMark> marks, CockpitMark? powerIn, CockpitMark? reject)
    {
        LoadPath path = way.Path;
        double far = path.Shape.StartM * 1.06, top = path.Hook.Where(p => -p.East <= far).Max(p => p.Up);
        double along = (Width - Left - Right) / far, up = Math.Min((Height - Top - Bottom) / top, MostStretch * along), ground = Height - Bottom;
        double X(double beforeM) => Left + (far - beforeM) * along;
        double Y(double heightM) => ground - heightM * up;
        List<Shape> shapes = [new LineShape(Left, ground, Width - 4, ground, ShapeStyle.Line)];
        int[] shown = [.. Enumerable.Range(0, path.Count).Where(i => -path.Hook[i].East <= far)];
        int[] points = [.. Enumerable.Range(0, 61).Select(i => shown[(int)((long)i * (shown.Length - 1) / 60)])];
        for (int k = 1; k < points.Length; k++)
        {
            (int a, int b) = (points[k - 1], points[k]);
            shapes.Add(new LineShape(X(-path.Hook[a].East), Y(path.Hook[a].Up), X(-path.Hook[b].East), Y(path.Hook[b].Up), ShapeStyle.Line));
            if (k % 2 == 0)
                shapes.Add(new LineShape(X(path.DistanceM[a]), Y(path.LoadHeightM[a]), X(path.DistanceM[b]), Y(path.LoadHeightM[b]), ShapeStyle.Line));
        }
        foreach (int i in marks.Select(m => RobustnessTrial.SampleAt(path, m.DistanceM)).Append(path.Count - 1))
            Hang(shapes, X(-path.Hook[i].East), Y(path.Hook[i].Up), X(path.DistanceM[i]), Y(path.LoadHeightM[i]));
        foreach (CockpitMark m in marks)
            Sign(shapes, m, new CircleShape(X(m.DistanceM), Y(HookAt(path, m.DistanceM)), 3, ShapeStyle.Hollow), X(m.DistanceM), Y(HookAt(path, m.DistanceM)) - 6);
        Gates(shapes, path, powerIn, reject, X, Y, ground);
        shapes.Add(new PolygonShape([(X(0) - 5, ground + 9), (X(0), ground + 1), (X(0) + 5, ground + 9)], ShapeStyle.Solid));
        string words = up > 1.05 * along ? "line: hook; dashes: load; heights stretched" : "line: hook; dashes: load";
        // Where the gates don't stand: their letters are under the ground too.
        double taken = Left + WordsWidth * words.Length;
        bool left = new[] { powerIn, reject }.OfType<CockpitMark>().All(gate => X(gate.DistanceM) > taken + 10);
        shapes.Add(left ? new WordShape(Left, ground + 10, words, WordAnchor.Start, 7) : new WordShape(X(0) - 10, ground + 10, words, WordAnchor.End, 7));
        return new("The approach from the side, the spot at the right", Width, Height, shapes);
    }

    private static void Gates(List<Shape> shapes, LoadPath path, CockpitMark? powerIn, CockpitMark? reject, Func<double, double> x, Func<double, double> y, double ground)
    {
        bool together = powerIn is { } p && reject is { } r && Math.Abs(x(p.DistanceM) - x(r.DistanceM)) < 12;
        foreach (CockpitMark gate in new[] { powerIn, reject }.OfType<CockpitMark>())
        {
            double gx = x(gate.DistanceM), gy = y(HookAt(path, gate.DistanceM));
            shapes.Add(gate == powerIn ? new PolygonShape([(gx - 4, gy + 3), (gx, gy - 4), (gx + 4, gy + 3)], ShapeStyle.Solid) : PolygonShape.Box(gx - 3.5, gy - 3.5, 7, 7, ShapeStyle.Hollow));
            shapes.Insert(0, new LineShape(gx, gy, gx, ground, ShapeStyle.Grid));
            if (!together || gate == reject)
                shapes.Add(new WordShape(Math.Min(gx, x(0) - 16), ground + 11, together ? "P R" : gate.Label, WordAnchor.Middle, 9));
        }
        if (together)
            shapes.Add(new PolygonShape([(x(powerIn!.DistanceM) - 2.5, y(HookAt(path, powerIn.DistanceM)) + 2), (x(powerIn.DistanceM), y(HookAt(path, powerIn.DistanceM)) - 2.5), (x(powerIn.DistanceM) + 2.5, y(HookAt(path, powerIn.DistanceM)) + 2)], ShapeStyle.Solid));
    }

    private static void Hang(List<Shape> shapes, double hookX, double hookY, double loadX, double loadY)
    {
        shapes.Add(new LineShape(hookX, hookY, loadX, loadY - 4, ShapeStyle.Grid));
        shapes.Add(PolygonShape.Box(loadX - 2, loadY - 4, 4, 4, ShapeStyle.Grey));
    }

    private static void Sign(List<Shape> shapes, CockpitMark mark, Shape shape, double x, double y)
    {
        shapes.Add(shape);
        shapes.Add(new WordShape(x, y, mark.Label, WordAnchor.Middle, 9));
    }

    private static double HookAt(LoadPath path, double distanceM) => distanceM >= path.Shape.StartM ? path.Hook[0].Up : path.Hook[RobustnessTrial.SampleAt(path, distanceM)].Up;
}
