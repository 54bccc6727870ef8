using System.Globalization;
using System.Text.RegularExpressions;

namespace Stillhook.Files.Jobs.Editing;

/// <summary>Moments as people type them: a clock time of the job's day, or day, time and offset from UTC.</summary>
internal static partial class FieldMoment
{
    /// <summary>2025-09-16T08:10:00+02:00 as 2025-09-16 08:10 +02:00; anything else as it is.</summary>
    public static string Shown(string written) =>
        Written().Match(written) is { Success: true } m ? $"{m.Groups["day"].Value} {m.Groups["clock"].Value} {(m.Groups["zone"].Value == "Z" ? "UTC" : m.Groups["zone"].Value)}" : written;

    /// <summary>What was typed as the file has it; what can't be read stays as typed.</summary>
    /// <param name="typed">Such as 08:10, 2025-09-16 08:10 or 2025-09-16 08:10 +02:00.</param>
    /// <param name="day">Day of the job, for a clock time alone.</param>
    /// <param name="zone">Time zone of the sites, where no offset was typed.</param>
    public static string Written(string typed, string? day, string? zone)
    {
        if (Typed().Match(typed) is not { Success: true } m)
            return typed;
        string date = m.Groups["day"].Success ? m.Groups["day"].Value : day ?? "";
        if (!DateTime.TryParseExact($"{date} {m.Groups["clock"].Value.PadLeft(5, '0')}", "yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime local))
            return typed;
        string offset = m.Groups["zone"].Value.Trim();
        if (offset.Length == 0)
        {
            if (zone is null || !TimeZoneInfo.TryFindSystemTimeZoneById(zone, out TimeZoneInfo? found) || found.IsInvalidTime(local))
                return typed;
            TimeSpan from = found.GetUtcOffset(local);
            offset = (from < TimeSpan.Zero ? "-" : "+") + from.ToString("hh\\:mm", CultureInfo.InvariantCulture);
        }
        return local.ToString("yyyy-MM-dd'T'HH:mm':00'", CultureInfo.InvariantCulture) + (offset.Equals("UTC", StringComparison.OrdinalIgnoreCase) ? "Z" : offset);
    }

    [GeneratedRegex("^(?<day>[0-9]{4}-[0-9]{2}-[0-9]{2})T(?<clock>[0-9]{2}:[0-9]{2})(:00)?(?<zone>Z|[+-][0-9]{2}:[0-9]{2})$", RegexOptions.CultureInvariant)]
    private static partial Regex Written();

    [GeneratedRegex("^((?<day>[0-9]{4}-[0-9]{2}-[0-9]{2})[ T])?(?<clock>[0-9]{1,2}:[0-9]{2})(?<zone>\\s*(Z|UTC|[+-][0-9]{2}:[0-9]{2}))?$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Typed();
}
