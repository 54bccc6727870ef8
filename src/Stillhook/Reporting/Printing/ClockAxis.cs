using System.Globalization;

namespace Stillhook.Reporting.Printing;

/// <summary>A part of the day from left to right, from full hour to full hour of the sites' clock.</summary>
internal sealed class ClockAxis
{
    private const double LeastApart = 30;

    private readonly DayWork work;
    private readonly double fromS, left, perS;

    private ClockAxis(DayWork work, double fromS, double toS, double left, double right)
    {
        (this.work, this.fromS, this.left) = (work, fromS, left);
        perS = (right - left) / (toS - fromS);
        Hours = [.. Enumerable.Range(0, (int)Math.Round((toS - fromS) / 3600)).Select(i => fromS + 3600 * i)];
    }

    /// <summary>Starts of the hours, s since 1970 UTC.</summary>
    public IReadOnlyList<double> Hours { get; }

    /// <summary>The axis that holds two times.</summary>
    public static ClockAxis Of(DayWork work, double fromS, double toS, double left, double right)
    {
        double start = fromS - work.Clock(fromS).TimeOfDay.TotalSeconds % 3600;
        return new(work, start, start + 3600 * Math.Max(1, Math.Ceiling((toS - start) / 3600 + 1e-9)), left, right);
    }

    /// <summary>Where a time stands.</summary>
    public double X(double timeS) => left + (timeS - fromS) * perS;

    /// <summary>A mark and the clock at as many hours as there is room for.</summary>
    public IEnumerable<Shape> Ticks(double y)
    {
        int every = (int)Math.Ceiling(LeastApart / (3600 * perS));
        for (int i = 0; i <= Hours.Count; i += every)
        {
            double timeS = fromS + 3600 * i;
            yield return new LineShape(X(timeS), y, X(timeS), y + 4, ShapeStyle.Line);
            yield return new WordShape(X(timeS), y + 14, work.Clock(timeS).ToString("HH:mm", CultureInfo.InvariantCulture), i == Hours.Count ? WordAnchor.End : WordAnchor.Middle, 8);
        }
    }
}
