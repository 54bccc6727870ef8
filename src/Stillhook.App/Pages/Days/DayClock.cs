using System.Globalization;
using Stillhook.Reporting;

namespace Stillhook.App.Pages.Days;

/// <summary>The sites' clock of a day, read the way a person types it.</summary>
internal static class DayClock
{
    /// <summary>How a clock time is typed.</summary>
    public const string Expected = "a clock time of the site such as 14:05 or 14:05:30";

    private static readonly string[] Forms = ["H:mm", "HH:mm", "H:mm:ss", "HH:mm:ss"];

    /// <summary>The moment of a clock time on the day, s since 1970 UTC. False when it is no clock time, or one that the clocks skip on this day.</summary>
    /// <remarks>Of a time that comes twice, where clocks are put back, the first one is taken.</remarks>
    public static bool TryRead(DayWork work, string text, out double timeS)
    {
        ArgumentNullException.ThrowIfNull(work);
        timeS = double.NaN;
        if (!TimeOnly.TryParseExact(text, Forms, CultureInfo.InvariantCulture, DateTimeStyles.None, out TimeOnly time))
            return false;
        DateTime local = work.Day.ToDateTime(time);
        double asUtc = (local - DateTime.UnixEpoch).TotalSeconds;
        // The offset in force is one of those some hours before and after.
        foreach (double offset in new[] { -43200.0, 43200.0 }.Select(o => work.Clock(asUtc + o).Offset.TotalSeconds).Distinct().OrderDescending())
            if (work.Clock(asUtc - offset).DateTime == local)
            {
                timeS = asUtc - offset;
                return true;
            }
        return false;
    }

    /// <summary>A moment as it is typed: without seconds where there are none.</summary>
    public static string Text(DayWork work, double timeS)
    {
        ArgumentNullException.ThrowIfNull(work);
        DateTimeOffset at = work.Clock(Math.Round(timeS));
        return at.ToString(at.Second == 0 ? "HH:mm" : "HH:mm:ss", CultureInfo.InvariantCulture);
    }
}
