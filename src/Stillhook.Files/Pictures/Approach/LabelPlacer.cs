namespace Stillhook.Files.Pictures.Approach;

/// <summary>Finds room for labels once everything else is drawn: next to their point where that is free, else further off with a thin line to it.</summary>
internal sealed class LabelPlacer(double left, double top, double right, double bottom)
{
    private const double TextPx = 13, LinePx = 16;

    private static readonly (double X, double Y)[] Directions = [(1, 0), (1, -0.5), (1, 0.5), (1, -1), (1, 1), (-1, 0), (-1, -0.5), (-1, 0.5), (-1, -1), (-1, 1), (0, -1), (0, 1)];
    private static readonly double[] Further = [0, 8, 16, 24, 34, 44, 56, 70, 85, 105, 130];

    private readonly List<(double X, double Y, double Width, double Height)> taken = [];
    private readonly List<Label> labels = [];

    /// <summary>Width of a text, px: an upper estimate for the fonts the styles name.</summary>
    public static double WidthOf(string text, double sizePx = TextPx) => 0.57 * sizePx * text.Length;

    /// <summary>Keeps labels off a rectangle round a point.</summary>
    public void Take(double x, double y, double halfWidth, double halfHeight) => taken.Add((x - halfWidth, y - halfHeight, 2 * halfWidth, 2 * halfHeight));

    /// <summary>Keeps labels off a line; a point that is not finite breaks it.</summary>
    public void Take(IEnumerable<(double X, double Y)> line)
    {
        (double X, double Y)? last = null;
        foreach ((double X, double Y) p in line)
        {
            bool drawn = double.IsFinite(p.X) && double.IsFinite(p.Y);
            if (drawn && last is { } from)
                Between(from, p);
            last = drawn ? p : null;
        }
    }

    /// <summary>Asks for a label near a point.</summary>
    /// <param name="x">Point.</param>
    /// <param name="y">Point.</param>
    /// <param name="text">Label; none is written when it is empty.</param>
    /// <param name="clearPx">Distance from the point that its sign takes.</param>
    public void Add(double x, double y, string text, double clearPx = 10)
    {
        if (text.Length > 0)
            labels.Add(new([(x, y)], text, clearPx, First: false));
    }

    /// <summary>Asks for a label near any of some points, before the others choose.</summary>
    public void AddNearAny(IReadOnlyList<(double X, double Y)> points, string text, double clearPx) => labels.Add(new(points, text, clearPx, First: true));

    /// <summary>Writes the labels that were asked for.</summary>
    public void Write(SvgWriter svg)
    {
        foreach (Label label in labels.OrderByDescending(l => l.First))
            Write(svg, label);
    }

    private void Write(SvgWriter svg, Label label)
    {
        double width = WidthOf(label.Text);
        foreach (double off in Further.Select(f => f + label.ClearPx))
            foreach (((double x, double y), (double dx, double dy)) in label.Points.SelectMany(p => Directions.Select(d => (p, d))))
            {
                double boxX = x + dx * off - (dx > 0 ? 0 : dx < 0 ? width : width / 2), boxY = y + dy * off - LinePx * (1 - dy) / 2;
                if (!Free(boxX, boxY, width))
                    continue;
                double at = dx > 0 ? boxX : dx < 0 ? boxX + width : boxX + width / 2;
                if (off > label.ClearPx)
                    svg.Line(x, y, at - 2 * dx, Math.Clamp(y, boxY + 2, boxY + LinePx - 2), "leader");
                svg.Text(at, boxY + 12.5, label.Text, "small", dx > 0 ? "start" : dx < 0 ? "end" : "middle");
                taken.Add((boxX - 2, boxY, width + 4, LinePx));
                return;
            }
        (double atX, double atY) = label.Points[0];
        svg.Text(Math.Clamp(atX + label.ClearPx, left, Math.Max(left, right - width)), Math.Clamp(atY, top + LinePx, bottom), label.Text, "small");
    }

    private void Between((double X, double Y) from, (double X, double Y) to)
    {
        int steps = 1 + (int)Math.Min(400, Math.Max(Math.Abs(to.X - from.X), Math.Abs(to.Y - from.Y)) / 5);
        for (int i = 0; i <= steps; i++)
            Take(from.X + (to.X - from.X) * i / steps, from.Y + (to.Y - from.Y) * i / steps, 2, 2);
    }

    private bool Free(double x, double y, double width) =>
        x >= left && x + width <= right && y >= top && y + LinePx <= bottom
        && !taken.Exists(t => x < t.X + t.Width && t.X < x + width && y < t.Y + t.Height && t.Y < y + LinePx);

    private sealed record Label(IReadOnlyList<(double X, double Y)> Points, string Text, double ClearPx, bool First);
}
