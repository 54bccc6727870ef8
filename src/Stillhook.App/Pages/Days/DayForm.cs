using Microsoft.Extensions.Primitives;

namespace Stillhook.App.Pages.Days;

/// <summary>A form of the day as it was sent: its texts, and beside each field what is wrong with it.</summary>
/// <param name="Kind">Which form: tally, time, event, fuel, duty, split or withdraw.</param>
/// <param name="Texts">What was typed, by field.</param>
/// <param name="Mistakes">What is wrong, by field, in words.</param>
public sealed record DayForm(string Kind, IReadOnlyDictionary<string, string> Texts, IReadOnlyDictionary<string, string> Mistakes)
{
    /// <summary>A form that nobody filled in yet.</summary>
    public static DayForm Empty(string kind) => new(kind, new Dictionary<string, string>(), new Dictionary<string, string>());

    /// <summary>The form as sent.</summary>
    public static Dictionary<string, string> TextsOf(IEnumerable<KeyValuePair<string, StringValues>> form) =>
        form.Where(f => !f.Key.StartsWith("__", StringComparison.Ordinal)).ToDictionary(f => f.Key, f => f.Value.ToString().Trim());

    /// <summary>What was typed into a field; empty when nothing was.</summary>
    public string Text(string field) => Texts.GetValueOrDefault(field, "");

    /// <summary>What is wrong with a field; null when nothing is.</summary>
    public string? Mistake(string field) => Mistakes.GetValueOrDefault(field);
}
