using System.Globalization;

namespace Stillhook.Reporting.Printing;

/// <summary>Bars of the loads placed in each hour, the number over each.</summary>
public static class HourPicture
{
    private const double Width = 500, Height = 130, Left = 8, Top = 16, Bottom = 34, WidestBar = 34;

    /// <summary>Draws the hours side by side; a day starts with its date.</summary>
    public static PrintedPicture Of(IReadOnlyList<HourCount> hours)
    {
        ArgumentNullException.ThrowIfNull(hours);
        List<Shape> shapes = [];
        double ground = Height - Bottom, slot = (Width - 2 * Left) / Math.Max(1, hours.Count), bar = Math.Min(WidestBar, 0.72 * slot), most = Math.Max(1, hours.Max(h => (int?)h.Count) ?? 1);
        int everyHour = Math.Max(1, (int)Math.Ceiling(30 / slot));
        for (int i = 0; i < hours.Count; i++)
        {
            double middle = Left + (i + 0.5) * slot, height = (ground - Top) * hours[i].Count / most;
            if (hours[i].Count > 0)
                shapes.Add(PolygonShape.Box(middle - bar / 2, ground - height, bar, height, ShapeStyle.Grey));
            if (slot >= 11)
                shapes.Add(new WordShape(middle, ground - height - 3, hours[i].Count.ToString(CultureInfo.InvariantCulture), WordAnchor.Middle));
            bool newDay = i == 0 || hours[i].Hour.Date != hours[i - 1].Hour.Date;
            if (newDay && i > 0)
                shapes.Add(new LineShape(middle - slot / 2, Top - 8, middle - slot / 2, Height, ShapeStyle.Grid));
            if (newDay)
                shapes.Add(new WordShape(middle - slot / 2 + 3, Height - 6, hours[i].Hour.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)));
            if (i % everyHour == 0)
                shapes.Add(new WordShape(middle, ground + 12, hours[i].Hour.ToString("HH", CultureInfo.InvariantCulture) + " h", WordAnchor.Middle, 8));
        }
        shapes.Add(new LineShape(Left, ground, Width - Left, ground, ShapeStyle.Line));
        return new("Loads placed in each clock hour, local time", Width, Height, shapes);
    }
}
