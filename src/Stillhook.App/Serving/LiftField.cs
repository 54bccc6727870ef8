using System.Globalization;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Files.Reports;
using Stillhook.Reporting;
using Stillhook.Store;
using UnitsNet;

namespace Stillhook.App.Serving;

/// <summary>One thing about a lift that people may correct on the page.</summary>
/// <param name="Key">Name in the form.</param>
/// <param name="Member">Name under which the store keeps its corrections.</param>
/// <param name="Label">What the crew calls it.</param>
/// <param name="Example">How it is typed.</param>
/// <param name="Text">What a lift holds, as it is typed; empty when not known.</param>
/// <param name="Put">A lift with what was typed, or why it can't be.</param>
/// <param name="Copy">The first lift with the second one's value.</param>
internal sealed record LiftField(
    string Key, string Member, string Label, string Example, Func<KeptLift, DisplayUnits, string> Text, Func<KeptLift, string, (KeptLift Lift, string? Mistake)> Put, Func<KeptLift, KeptLift, KeptLift> Copy)
{
    /// <summary>Value of <see cref="Text"/> for what is no lift of a load.</summary>
    public const string NoLift = "no lift of a load";

    /// <summary>Value of <see cref="Text"/> for a lift.</summary>
    public const string ALift = "a lift of a load";

    private const int LongestText = 60;
    private const double LeastKg = 5, MostKg = 15000;

    /// <summary>All of them in the order of the form.</summary>
    public static IReadOnlyList<LiftField> All { get; } =
    [
        Time("pickup", "pickUpTimeS", "Picked up, UTC", l => l.PickUpTimeS, (l, t) => l with { PickUpTimeS = t }),
        Time("delivered", "deliveryTimeS", "Delivered, UTC", l => l.DeliveryTimeS, (l, t) => l with { DeliveryTimeS = t }),
        new("weight", "loadKg", "Weight of the load", "780kg", (l, u) => l.LoadKg is { } kg ? u.Mass(kg) : "", PutWeight, (l, from) => l with { LoadKg = from.LoadKg, LoadMeasured = from.LoadMeasured }),
        Words("number", "loadNumber", "Load number", "12", l => l.LoadNumber, (l, v) => l with { LoadNumber = v }),
        Words("kind", "family", "Kind of load", "bag of gravel", l => l.Family, (l, v) => l with { Family = v }),
        new("was", "struckOut", "This rotation was", ALift, (l, _) => l.StruckOut ? NoLift : ALift, (l, text) => (l with { StruckOut = text == NoLift }, null), (l, from) => l with { StruckOut = from.StruckOut }),
    ];

    /// <summary>Which one a correction is of; null for what can't be corrected on the page.</summary>
    public static LiftField? Of(Correction correction) => All.FirstOrDefault(f => correction.Of.EndsWith(" " + f.Member, StringComparison.Ordinal));

    private static LiftField Time(string key, string member, string label, Func<KeptLift, double?> get, Func<KeptLift, double?, KeptLift> set) => new(
        key, member, label, "10:05:30", (l, _) => get(l) is { } t ? UtcText.Clock(t) : "",
        (l, text) =>
        {
            if (text.Length == 0)
                return (set(l, null), null);
            if (!TimeOnly.TryParseExact(text, ["HH:mm:ss", "H:mm:ss", "HH:mm", "H:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out TimeOnly time))
                return (l, $"'{text}' was not understood; type hours, minutes and seconds UTC, such as 10:05:30.");
            if ((get(l) ?? l.DeliveryTimeS ?? l.PickUpTimeS ?? l.ReleaseTimeS) is not { } near)
                return (l, "The day of this lift is not known, so no time can be given.");
            // The day that brings it nearest to what is known of the lift: a lift at midnight keeps its side.
            double sameDay = Math.Floor(near / 86400) * 86400 + time.ToTimeSpan().TotalSeconds;
            return (set(l, sameDay + 86400 * Math.Round((near - sameDay) / 86400)), null);
        },
        (l, from) => set(l, get(from)));

    private static LiftField Words(string key, string member, string label, string example, Func<KeptLift, string?> get, Func<KeptLift, string?, KeptLift> set) => new(
        key, member, label, example, (l, _) => get(l) ?? "",
        (l, text) => text.Length > LongestText ? (l, $"That is {DisplayUnits.Text(text.Length, 0)} characters; type at most {DisplayUnits.Text(LongestText, 0)}.") : (set(l, text.Length == 0 ? null : text), null),
        (l, from) => set(l, get(from)));

    private static (KeptLift, string?) PutWeight(KeptLift lift, string text)
    {
        if (text.Length == 0)
            return (lift with { LoadKg = null, LoadMeasured = false }, null);
        if (!QuantityText.TryMass(text, out Mass mass, out string expected))
            return (lift, $"'{text}' was not understood; type {expected}.");
        return mass.Kilograms is < LeastKg or > MostKg ? (lift, $"'{text}' is outside 5 to 15000 kg.") : (lift with { LoadKg = mass.Kilograms, LoadMeasured = false }, null);
    }
}
