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

    /// <summary>The moment of a clock time as it is typed, on the day that brings it nearest to a known moment: what is near midnight keeps its side. False when it is no clock time.</summary>
    /// <param name="text">Hours and minutes, seconds if wanted.</param>
    /// <param name="nearS">The known moment, s since 1970 UTC.</param>
    /// <param name="timeS">The moment, s since 1970 UTC.</param>
    public bool TryRead(string text, double nearS, out double timeS)
    {
        timeS = double.NaN;
        if (!TimeOnly.TryParseExact(text, Forms, CultureInfo.InvariantCulture, DateTimeStyles.None, out TimeOnly time))
            return false;
        DateTimeOffset near = At(nearS);
        timeS = new[] { -1, 0, 1 }.Select(days => Moment(near.Date.AddDays(days) + time.ToTimeSpan(), near.Offset)).MinBy(t => Math.Abs(t - nearS));
        return true;
    }

    // The offset may change between the known moment and the one typed.
    private double Moment(DateTime local, TimeSpan offset)
    {
        double first = Seconds(local, offset);
        return Seconds(local, At(first).Offset);
    }

    private static double Seconds(DateTime local, TimeSpan offset) => (local - DateTime.UnixEpoch - offset).TotalSeconds;
}
