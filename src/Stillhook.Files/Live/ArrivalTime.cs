namespace Stillhook.Files.Live;

/// <summary>Time of arrival by a clock.</summary>
internal static class ArrivalTime
{
    /// <summary>Now, s since 1970 UTC.</summary>
    public static double Now(TimeProvider clock) => (clock.GetUtcNow() - DateTimeOffset.UnixEpoch).TotalSeconds;
}
