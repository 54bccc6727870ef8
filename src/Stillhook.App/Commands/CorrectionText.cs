using System.Globalization;
using Stillhook.Reporting;

namespace Stillhook.App.Commands;

/// <summary>A correction in plain words.</summary>
internal static class CorrectionText
{
    private static readonly Dictionary<string, string> Words = new(StringComparer.Ordinal)
    {
        ["loadKg"] = "mass", ["loadMeasured"] = "how its mass is known", ["loadNumber"] = "load number", ["family"] = "kind", ["pickUpTimeS"] = "lift-off", ["approachStartTimeS"] = "start of the approach",
        ["stopTimeS"] = "stop", ["deliveryTimeS"] = "delivered", ["releaseTimeS"] = "hook opened", ["clearTimeS"] = "clear", ["pickUp"] = "place of pick-up", ["delivery"] = "place where it touched",
        ["pickUpSite"] = "picked up at", ["deliverySite"] = "delivered to", ["lineM"] = "line", ["goArounds"] = "go-arounds", ["struckOut"] = "counts as", ["added"] = "added by hand",
    };

    /// <summary>What was changed, from what to what, by whom, when and why.</summary>
    public static string Of(Correction c, DayWork day)
    {
        string member = c.Of[(c.Of.LastIndexOf(' ') + 1)..];
        DateTimeOffset at = day.Clock(c.At.ToUnixTimeSeconds());
        return string.Create(CultureInfo.InvariantCulture, $"{Words.GetValueOrDefault(member, member)}: {Local(c.Old, day)} -> {Local(c.New, day)}, by {c.By}, {at:yyyy-MM-dd HH:mm}{(c.Why is { Length: > 0 } why ? $": {why}" : "")}");
    }

    /// <summary>Which lift, as the correction says it.</summary>
    public static string Lift(Correction c) => c.Of[..Math.Max(0, c.Of.LastIndexOf(' '))];

    // Moments are kept in UTC; people read their own clock.
    private static string Local(string words, DayWork day) => DateTimeOffset.TryParseExact(words, "yyyy-MM-dd HH:mm:ss'Z'", CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset moment)
        ? day.Clock(moment.ToUnixTimeSeconds()).ToString("HH:mm:ss", CultureInfo.InvariantCulture) : words;
}
