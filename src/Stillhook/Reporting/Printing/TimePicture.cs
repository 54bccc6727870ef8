using System.Globalization;

namespace Stillhook.Reporting.Printing;

/// <summary>How the time went: a bar by the clock for each use, its words and whole minutes beside it.</summary>
public static class TimePicture
{
    private const double Width = 500, Words = 158, Right = 12, Row = 17, Bar = 11, Top = 3, Bottom = 22, RoomForWord = 26;

    /// <summary>The picture. Uses without time have no row.</summary>
    public static PrintedPicture Of(DayWork work, TimeSplit time)
    {
        ArgumentNullException.ThrowIfNull(work);
        ArgumentNullException.ThrowIfNull(time);
        TimeUse[] uses = [.. time.Seconds.Where(s => s.Value > 0).Select(s => s.Key).Order()];
        double height = Top + Row * uses.Length + Bottom, ground = height - Bottom;
        ClockAxis axis = ClockAxis.Of(work, time.Day.FromS, time.Day.ToS, Words, Width - Right);
        List<Shape> shapes = [.. axis.Hours.Select(h => new LineShape(axis.X(h), Top, axis.X(h), ground, ShapeStyle.Grid))];
        for (int i = 0; i < uses.Length; i++)
        {
            double y = Top + Row * i + (Row - Bar) / 2;
            shapes.Add(new WordShape(2, y + Bar - 2, TimeSplit.UseWords(uses[i])));
            shapes.Add(new WordShape(Words - 8, y + Bar - 2, string.Create(CultureInfo.InvariantCulture, $"{time.Minutes[uses[i]]} min"), WordAnchor.End));
            foreach (TimeStretch s in time.Stretches.Where(s => s.Use == uses[i]))
                shapes.AddRange(Box(axis.X(s.When.FromS), axis.X(s.When.ToS), y, s));
        }
        shapes.AddRange([new LineShape(Words, ground, Width - Right, ground, ShapeStyle.Line), .. axis.Ticks(ground)]);
        return new("What the time was for, local time: grey flown, white on the ground", Width, height, shapes);
    }

    private static IEnumerable<Shape> Box(double from, double to, double y, TimeStretch stretch)
    {
        yield return PolygonShape.Box(from, y, Math.Max(0.7, to - from), Bar, stretch.Use == TimeUse.Flown ? ShapeStyle.Grey : ShapeStyle.Hollow);
        if (stretch.IsBreak && to - from >= RoomForWord)
            yield return new WordShape((from + to) / 2, y + Bar - 3, "break", WordAnchor.Middle, 7.5);
    }
}
