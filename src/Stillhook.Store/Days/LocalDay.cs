using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>A local day as a stretch of time: from its first moment to that of the next day, 23 to 25 h where the clock changes.</summary>
internal static class LocalDay
{
    public static Stretch Of(DateOnly day, TimeZoneInfo zone) => new(StartS(day, zone), StartS(day.AddDays(1), zone));

    /// <summary>First moment of a day, s since 1970 UTC. Where midnight was skipped, the first moment after the gap; where it came twice, the earlier one.</summary>
    private static double StartS(DateOnly day, TimeZoneInfo zone)
    {
        DateTime midnight = day.ToDateTime(TimeOnly.MinValue);
        while (zone.IsInvalidTime(midnight))
            midnight = midnight.AddMinutes(1);
        TimeSpan offset = zone.IsAmbiguousTime(midnight) ? zone.GetAmbiguousTimeOffsets(midnight).Max() : zone.GetUtcOffset(midnight);
        return (new DateTimeOffset(midnight, offset) - DateTimeOffset.UnixEpoch).TotalSeconds;
    }
}
