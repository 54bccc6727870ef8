using System.Globalization;
using System.Text.RegularExpressions;

namespace Stillhook.Files.Jobs;

/// <summary>Days, clock times and moments as the job file writes them.</summary>
internal static partial class MomentText
{
    public const string DayPattern = "^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$";
    public const string ClockPattern = "^([01][0-9]|2[0-3]):[0-5][0-9]$";
    public const string InstantPattern = "^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])T([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9](\\.[0-9]{1,7})?)?(Z|[+-](0[0-9]|1[0-4]):[0-5][0-9])$";

    /// <summary>The value, or null when the text isn't one.</summary>
    public static object? Read(ShapeKind kind, string text)
    {
        switch (kind)
        {
            case ShapeKind.Date: return DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day : null;
            case ShapeKind.Clock: return TimeOnly.TryParseExact(text, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out TimeOnly clock) ? clock : null;
            default: return Instant().IsMatch(text) && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTimeOffset time) ? time : null;
        }
    }

    public static string Code(ShapeKind kind) => kind == ShapeKind.Date ? "job-date" : "job-time";

    public static string Expected(ShapeKind kind) => kind switch
    {
        ShapeKind.Date => "Write the day as \"2026-06-01\".",
        ShapeKind.Clock => "Write the clock time as \"14:00\".",
        _ => "Write it as \"2026-06-01T08:10:00Z\", or with the offset from UTC: \"2026-06-01T10:10:00+02:00\".",
    };

    [GeneratedRegex(InstantPattern, RegexOptions.CultureInvariant)]
    private static partial Regex Instant();
}
