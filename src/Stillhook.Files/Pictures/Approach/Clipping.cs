namespace Stillhook.Files.Pictures.Approach;

/// <summary>Cuts lines at the edges of a part of a picture: printers don't clip as screens do.</summary>
internal readonly record struct Clipping(double Left, double Top, double Right, double Bottom)
{
    /// <summary>Whether a point lies inside.</summary>
    public bool Holds((double X, double Y) p) => p.X >= Left && p.X <= Right && p.Y >= Top && p.Y <= Bottom;

    /// <summary>The parts of a line that lie inside, with a point that is not a number between them.</summary>
    public IEnumerable<(double X, double Y)> Line(IEnumerable<(double X, double Y)> points)
    {
        (double X, double Y)? last = null;
        foreach ((double X, double Y) p in points)
        {
            if (last is { } from && Cut(from, p) is { } part)
            {
                yield return part.From;
                yield return part.To;
                if (part.To != p)
                    yield return (double.NaN, double.NaN);
            }
            last = p;
        }
    }

    /// <summary>The part of a segment that lies inside (Liang and Barsky's way); null when none does.</summary>
    private ((double X, double Y) From, (double X, double Y) To)? Cut((double X, double Y) a, (double X, double Y) b)
    {
        double dx = b.X - a.X, dy = b.Y - a.Y, from = 0, to = 1;
        foreach ((double p, double q) in new[] { (-dx, a.X - Left), (dx, Right - a.X), (-dy, a.Y - Top), (dy, Bottom - a.Y) })
        {
            if (p == 0 && q < 0)
                return null;
            if (p < 0)
                from = Math.Max(from, q / p);
            else if (p > 0)
                to = Math.Min(to, q / p);
        }
        return from > to ? null : ((a.X + from * dx, a.Y + from * dy), to == 1 ? b : (a.X + to * dx, a.Y + to * dy));
    }
}
