using System.Globalization;

namespace Stillhook.Debriefing;

/// <summary>The clock that a flight's times are shown by: that of the sites. Files keep UTC.</summary>
/// <param name="zone">Name of its time zone, said once where times are shown.</param>
/// <param name="at">From s since 1970 UTC to that clock.</param>
public sealed class SiteClock(string zone, Func<double, DateTimeOffset> at)
{
    private static readonly string[] Forms = ["HH:mm:ss", "H:mm:ss", "HH:mm", "H:mm"];

    /// <summary>The clock where no time zone is known.</summary>
    public static SiteClock Utc { get; } = new("UTC", timeS => DateTimeOffset.UnixEpoch.AddSeconds(timeS));

    /// <summary>Name of the time zone, such as Europe/Vienna.</summary>
    public string Zone => zone;

    /// <summary>A moment, s since 1970 UTC, to the nearest millisecond.</summary>
    public DateTimeOffset At(double timeS) => at(Math.Round(timeS * 1000) / 1000);

    /// <summary>Hours, minutes, seconds: 08:10:00.</summary>
    public string Clock(double timeS) => At(timeS).ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>Hours and minutes: 08:10.</summary>
    public string Minute(double timeS) => At(timeS).ToString("HH:mm", CultureInfo.InvariantCulture);

    /// <summary>Calendar day: 2026-06-01.</summary>
    public string Day(double timeS) => At(timeS).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>A clock time as people type it: hours and minutes, seconds if wanted.</summary>
    public static bool TryTime(string? text, out TimeOnly time) => TimeOnly.TryParseExact(text, Forms, CultureInfo.InvariantCulture, DateTimeStyles.None, out time);

    /// <summary>The moment of a clock time as it is typed, on a day. False when it is no clock time, or one that the clocks skip on this day.</summary>
    /// <remarks>Of a time that comes twice, where clocks are put back, the first one is taken.</remarks>
    /// <param name="text">Hours and minutes, seconds if wanted.</param>
    /// <param name="day">The day at the sites.</param>
    /// <param name="timeS">The moment, s since 1970 UTC; NaN when there is none.</param>
    public bool TryRead(string text, DateOnly day, out double timeS)
    {
        timeS = TryTime(text, out TimeOnly time) ? Moments(day.ToDateTime(time)).DefaultIfEmpty(double.NaN).Min() : double.NaN;
        return !double.IsNaN(timeS);
    }

    /// <summary>The moment of a clock time as it is typed, the one nearest to a known moment: what is near midnight keeps its side. False when it is no clock time, or one that the clocks skip.</summary>
    /// <param name="text">Hours and minutes, seconds if wanted.</param>
    /// <param name="nearS">The known moment, s since 1970 UTC.</param>
    /// <param name="timeS">The moment, s since 1970 UTC; NaN when there is none.</param>
    public bool TryRead(string text, double nearS, out double timeS)
    {
        timeS = double.NaN;
        if (!TryTime(text, out TimeOnly time))
            return false;
        DateTime near = At(nearS).DateTime, typed = new[] { -1, 0, 1 }.Select(days => near.Date.AddDays(days) + time.ToTimeSpan()).MinBy(t => (t - near).Duration());
        timeS = Moments(typed).DefaultIfEmpty(double.NaN).MinBy(t => Math.Abs(t - nearS));
        return !double.IsNaN(timeS);
    }

    // The offset in force is one of those half a day before and after.
    private IEnumerable<double> Moments(DateTime local)
    {
        double asUtc = (local - DateTime.UnixEpoch).TotalSeconds;
        return new[] { -43200.0, 43200.0 }.Select(o => asUtc - At(asUtc + o).Offset.TotalSeconds).Distinct().Where(t => At(t).DateTime == local);
    }
}
