namespace Stillhook.Files.Pictures;

/// <summary>Leaves out samples that can't be seen.</summary>
public static class Thinning
{
    /// <summary>
    /// Indices to keep, ascending, so that a line drawn through them covers the same pixels: in each of <paramref name="columns"/> equal
    /// stretches of x the first and last sample and those where any of the series is least or greatest.
    /// </summary>
    /// <param name="x">Ascending or descending positions.</param>
    /// <param name="columns">Pixel columns of the picture.</param>
    /// <param name="series">Series over the same x; values that are not finite never count as least or greatest.</param>
    public static int[] MinMax(ReadOnlySpan<double> x, int columns, params double[][] series)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(columns, 1);
        foreach (double[] y in series)
            if (y.Length != x.Length)
                throw new ArgumentException($"A series has {y.Length} values for {x.Length} positions.", nameof(series));
        if (x.Length <= 4 * columns)
            return [.. Enumerable.Range(0, x.Length)];
        SortedSet<int> kept = [];
        double from = x[0], span = x[^1] - x[0];
        for (int start = 0; start < x.Length;)
        {
            int column = ColumnOf(x[start], from, span, columns);
            int end = start + 1;
            while (end < x.Length && ColumnOf(x[end], from, span, columns) == column)
                end++;
            kept.Add(start);
            kept.Add(end - 1);
            foreach (double[] y in series)
                KeepExtremes(y, start, end, kept);
            start = end;
        }
        return [.. kept];
    }

    private static int ColumnOf(double x, double from, double span, int columns) =>
        span == 0 ? 0 : Math.Clamp((int)((x - from) / span * columns), 0, columns - 1);

    private static void KeepExtremes(double[] y, int start, int end, SortedSet<int> kept)
    {
        int least = -1, greatest = -1;
        for (int i = start; i < end; i++)
        {
            if (!double.IsFinite(y[i]))
                continue;
            if (least < 0 || y[i] < y[least])
                least = i;
            if (greatest < 0 || y[i] > y[greatest])
                greatest = i;
        }
        if (least < 0)
            return;
        kept.Add(least);
        kept.Add(greatest);
    }
}
