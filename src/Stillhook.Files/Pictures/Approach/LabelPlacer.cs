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

    // The first free place; where none is, the one that covers least.
    private void Write(SvgWriter svg, Label label)
    {
        double width = WidthOf(label.Text), least = double.PositiveInfinity;
        Place? best = null;
        foreach (Place place in Places(label, width))
        {
            double covered = Covered(place, width);
            if (covered < least)
                (best, least) = (place, covered);
            if (covered == 0)
                break;
        }
        (double atX, double atY) = label.Points[0];
        if (best is not { } chosen)
        {
            svg.Text(Math.Clamp(atX + label.ClearPx, left, Math.Max(left, right - width)), Math.Clamp(atY, top + LinePx, bottom), label.Text, "small");
            return;
        }
        double at = chosen.Toward > 0 ? chosen.X : chosen.Toward < 0 ? chosen.X + width : chosen.X + width / 2;
        if (chosen.Off > label.ClearPx)
            svg.Line(chosen.FromX, chosen.FromY, at - 2 * chosen.Toward, Math.Clamp(chosen.FromY, chosen.Y + 2, chosen.Y + LinePx - 2), "leader");
        svg.Text(at, chosen.Y + 12.5, label.Text, "small", chosen.Toward > 0 ? "start" : chosen.Toward < 0 ? "end" : "middle");
        taken.Add((chosen.X - 2, chosen.Y, width + 4, LinePx));
    }

    private IEnumerable<Place> Places(Label label, double width)
    {
        foreach (double off in Further.Select(f => f + label.ClearPx))
            foreach (((double x, double y), (double dx, double dy)) in label.Points.SelectMany(p => Directions.Select(d => (p, d))))
            {
                Place place = new(x + dx * off - (dx > 0 ? 0 : dx < 0 ? width : width / 2), y + dy * off - LinePx * (1 - dy) / 2, x, y, dx, off);
                if (place.X >= left && place.X + width <= right && place.Y >= top && place.Y + LinePx <= bottom)
                    yield return place;
            }
    }

    private void Between((double X, double Y) from, (double X, double Y) to)
    {
        int steps = 1 + (int)Math.Min(400, Math.Max(Math.Abs(to.X - from.X), Math.Abs(to.Y - from.Y)) / 5);
        for (int i = 0; i <= steps; i++)
            Take(from.X + (to.X - from.X) * i / steps, from.Y + (to.Y - from.Y) * i / steps, 2, 2);
    }

    private double Covered(Place place, double width) => taken.Sum(t =>
        Math.Max(0, Math.Min(place.X + width, t.X + t.Width) - Math.Max(place.X, t.X)) * Math.Max(0, Math.Min(place.Y + LinePx, t.Y + t.Height) - Math.Max(place.Y, t.Y)));

    /// <summary>Where a label could stand: its corner, the point it names, to which side of it and how far off.</summary>
    private sealed record Place(double X, double Y, double FromX, double FromY, double Toward, double Off);

    private sealed record Label(IReadOnlyList<(double X, double Y)> Points, string Text, double ClearPx, bool First);
}
