using System.Globalization;

namespace Stillhook.Files.Reports;

/// <summary>Times as text, UTC, the same under every culture.</summary>
public static class UtcText
{
    /// <summary>ISO 8601 to the millisecond, such as 2026-06-01T08:10:00.250Z. Rounds to the nearest millisecond.</summary>
    public static string Iso(double timeS) => Instant(timeS).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    /// <summary>Hours, minutes, seconds: 08:10:00.</summary>
    public static string Clock(double timeS) => Instant(timeS).ToString("HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>Calendar day: 2026-06-01.</summary>
    public static string Day(double timeS) => Instant(timeS).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static DateTime Instant(double timeS) => DateTime.UnixEpoch.AddTicks((long)Math.Round(timeS * 1000) * TimeSpan.TicksPerMillisecond);
}
