using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Reporting;

namespace Stillhook.App.Pages.Days;

/// <summary>The sites' clock of a day, read the way a person types it.</summary>
internal static class DayClock
{
    /// <summary>How a clock time is typed.</summary>
    public const string Expected = "a clock time of the site such as 14:05 or 14:05:30";

    /// <summary>The moment of a clock time on the day, s since 1970 UTC. False when it is no clock time, or one that the clocks skip on this day.</summary>
    public static bool TryRead(DayWork work, string text, out double timeS)
    {
        ArgumentNullException.ThrowIfNull(work);
        return new SiteClock("the sites' own", work.Clock).TryRead(text, work.Day, out timeS);
    }

    /// <summary>A moment as it is typed: without seconds where there are none.</summary>
    public static string Text(DayWork work, double timeS)
    {
        ArgumentNullException.ThrowIfNull(work);
        DateTimeOffset at = work.Clock(Math.Round(timeS));
        return at.ToString(at.Second == 0 ? "HH:mm" : "HH:mm:ss", CultureInfo.InvariantCulture);
    }
}
