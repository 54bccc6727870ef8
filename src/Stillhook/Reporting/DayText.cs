using System.Globalization;

namespace Stillhook.Reporting;

/// <summary>Times and numbers of a day as words, the same under every culture.</summary>
public static class DayText
{
    /// <summary>The sites' own clock, to the second.</summary>
    public static string Clock(DayWork work, double timeS) => work.Clock(timeS).ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>Date and the sites' own clock, to the minute, with its offset from UTC.</summary>
    public static string DateAndClock(DayWork work, double timeS) => work.Clock(timeS).ToString("yyyy-MM-dd HH:mm zzz", CultureInfo.InvariantCulture);

    /// <summary>A length of time as hours and minutes.</summary>
    public static string Hours(double seconds)
    {
        int minutes = (int)Math.Round(seconds / 60, MidpointRounding.AwayFromZero);
        return minutes < 60 ? string.Create(CultureInfo.InvariantCulture, $"{minutes} min") : string.Create(CultureInfo.InvariantCulture, $"{minutes / 60} h {minutes % 60:00} min");
    }
}
