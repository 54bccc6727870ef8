namespace Stillhook.Reporting.Printing;

/// <summary>Finds room for words beside marks so that nothing lies over anything.</summary>
internal sealed class LabelPlaces(double width, double height)
{
    private const double Gap = 3, LetterShare = 0.58; // mean width of a letter over its size, common sans faces

    private readonly List<(double X, double Y, double Width, double Height)> taken = [];

    /// <summary>Keeps a rectangle free of words.</summary>
    public void Keep(double x, double y, double w, double h) => taken.Add((x, y, w, h));

    /// <summary>Keeps a mark free of words.</summary>
    public void Mark((double X, double Y) at, double radius) => Keep(at.X - radius, at.Y - radius, 2 * radius, 2 * radius);

    /// <summary>Left end and base line of words beside a mark; null when there is no room and they may be left out.</summary>
    public (double X, double Y)? Find(double x, double y, string text, double size, bool must)
    {
        double w = LetterShare * size * text.Length, h = size, out0 = 5 + Gap;
        (double X, double Y)[] corners =
        [
            (x + out0, y - h / 2), (x - out0 - w, y - h / 2), (x - w / 2, y - out0 - h), (x - w / 2, y + out0),
            (x + out0 - 2, y - out0 - h + 4), (x + out0 - 2, y + out0 - 4), (x - out0 + 2 - w, y - out0 - h + 4), (x - out0 + 2 - w, y + out0 - 4),
        ];
        foreach ((double cx, double cy) in corners)
            if (cx >= 2 && cy >= 2 && cx + w <= width - 2 && cy + h <= height - 2 && IsFree(cx, cy, w, h))
                return Take(cx, cy, w, h);
        return must ? Take(Math.Clamp(corners[0].X, 2, Math.Max(2, width - 2 - w)), Math.Clamp(corners[0].Y, 2, height - 2 - h), w, h) : null;
    }

    private (double X, double Y) Take(double x, double y, double w, double h)
    {
        Keep(x, y, w, h);
        return (x, y + 0.82 * h);
    }

    private bool IsFree(double x, double y, double w, double h) => !taken.Any(t => x < t.X + t.Width && t.X < x + w && y < t.Y + t.Height && t.Y < y + h);
}
