using System.Globalization;

namespace Stillhook.Reporting.Printing;

/// <summary>Lifts of each clock hour as bars, and the moving average of lifts per hour flown as a line over them.</summary>
public static class PacePicture
{
    private const double Width = 500, Height = 124, Left = 34, Right = 8, Top = 12, Bottom = 26, GapS = 1200, ClearOfLine = 11;

    /// <summary>The picture; null when no lift has a time.</summary>
    public static PrintedPicture? Of(DaySheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        LiftTotals totals = sheet.Totals;
        if (totals.Pace.Count == 0)
            return null;
        ClockAxis axis = ClockAxis.Of(sheet.Work, totals.Pace.Min(p => p.AtS), totals.Pace.Max(p => p.AtS), Left, Width - Right);
        int[] counts = [.. axis.Hours.Select(h => totals.Pace.Count(p => p.AtS >= h && p.AtS < h + 3600))];
        LiftPace[] line = [.. totals.Pace.Where(p => p.OfLastLifts is not null)];
        double most = Math.Max(counts.Max(), line.Select(p => p.OfLastLifts!.Value).DefaultIfEmpty().Max()), step = Step(most), top = step * Math.Ceiling(most * 1.08 / step);
        double Y(double perHour) => Height - Bottom - (Height - Bottom - Top) * perHour / top;
        List<Shape> shapes = [];
        for (double v = step; v <= top + 1e-9; v += step)
            shapes.AddRange([new LineShape(Left, Y(v), Width - Right, Y(v), ShapeStyle.Grid), new WordShape(Left - 5, Y(v) + 3, v.ToString("0", CultureInfo.InvariantCulture), WordAnchor.End, 8)]);
        for (int i = 0; i < counts.Length; i++)
            shapes.AddRange(Bar(axis.X(axis.Hours[i]), axis.X(axis.Hours[i] + 3600), Y(counts[i]), counts[i], Y(0)));
        for (int i = 1; i < line.Length; i++)
            if (line[i].AtS - line[i - 1].AtS <= GapS)
                shapes.Add(new LineShape(axis.X(line[i - 1].AtS), Y(line[i - 1].OfLastLifts!.Value), axis.X(line[i].AtS), Y(line[i].OfLastLifts!.Value), ShapeStyle.Line));
        shapes.AddRange(line.Select(p => new CircleShape(axis.X(p.AtS), Y(p.OfLastLifts!.Value), 1.8, ShapeStyle.Solid)));
        shapes.AddRange([new LineShape(Left, Y(0), Width - Right, Y(0), ShapeStyle.Line), .. axis.Ticks(Y(0))]);
        string average = line.Length > 0 ? string.Create(CultureInfo.InvariantCulture, $"; dots and line: average over the last {totals.WindowLifts} lifts, per hour flown") : string.Create(CultureInfo.InvariantCulture, $"; fewer than {totals.WindowLifts} lifts, so no moving average");
        return new($"Bars: lifts set down in each clock hour, local time{average}", Width, Height, shapes);
    }

    // The number stands at the foot of its bar, where the line does not come.
    private static IEnumerable<Shape> Bar(double from, double to, double y, int count, double ground)
    {
        double inset = 0.14 * (to - from);
        if (count == 0)
            return [];
        return [PolygonShape.Box(from + inset, y, to - from - 2 * inset, ground - y, ShapeStyle.Pale), new WordShape((from + to) / 2, ground - ClearOfLine / 2, count.ToString(CultureInfo.InvariantCulture), WordAnchor.Middle)];
    }

    private static double Step(double most)
    {
        double step = 1;
        foreach (double next in (ReadOnlySpan<double>)[2, 5, 10, 20, 50, 100])
            if (most / step > 5)
                step = next;
        return step;
    }
}
