using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
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
    string Key, string Member, string Label, string Example, Func<KeptLift, DisplayUnits, SiteClock, string> Text, Func<KeptLift, string, SiteClock, (KeptLift Lift, string? Mistake)> Put, Func<KeptLift, KeptLift, KeptLift> Copy)
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
        Time("pickup", "pickUpTimeS", "Picked up", l => l.PickUpTimeS, (l, t) => l with { PickUpTimeS = t }),
        Time("delivered", "deliveryTimeS", "Delivered", l => l.DeliveryTimeS, (l, t) => l with { DeliveryTimeS = t }),
        new("weight", "loadKg", "Weight of the load", "780kg", (l, u, _) => l.LoadKg is { } kg ? u.Mass(kg) : "", (l, text, _) => PutWeight(l, text), (l, from) => l with { LoadKg = from.LoadKg, LoadMeasured = from.LoadMeasured }),
        Words("number", "loadNumber", "Load number", "12", l => l.LoadNumber, (l, v) => l with { LoadNumber = v }),
        Words("kind", "family", "Kind of load", "bag of gravel", l => l.Family, (l, v) => l with { Family = v }),
        new("was", "struckOut", "This rotation was", ALift, (l, _, _) => l.StruckOut ? NoLift : ALift, (l, text, _) => (l with { StruckOut = text == NoLift }, null), (l, from) => l with { StruckOut = from.StruckOut }),
    ];

    /// <summary>Which one a correction is of; null for what can't be corrected on the page.</summary>
    public static LiftField? Of(Correction correction) => All.FirstOrDefault(f => correction.Of.EndsWith(" " + f.Member, StringComparison.Ordinal));

    private static LiftField Time(string key, string member, string label, Func<KeptLift, double?> get, Func<KeptLift, double?, KeptLift> set) => new(
        key, member, label, "10:05:30", (l, _, clock) => get(l) is { } t ? clock.Clock(t) : "",
        (l, text, clock) =>
        {
            if (text.Length == 0)
                return (set(l, null), null);
            double? near = get(l) ?? l.DeliveryTimeS ?? l.PickUpTimeS ?? l.ReleaseTimeS;
            if (!clock.TryRead(text, near ?? 0, out double timeS))
                return (l, $"'{text}' was not understood; type hours, minutes and seconds, such as 10:05:30.");
            return near is null ? (l, "The day of this lift is not known, so no time can be given.") : (set(l, timeS), null);
        },
        (l, from) => set(l, get(from)));

    private static LiftField Words(string key, string member, string label, string example, Func<KeptLift, string?> get, Func<KeptLift, string?, KeptLift> set) => new(
        key, member, label, example, (l, _, _) => get(l) ?? "",
        (l, text, _) => text.Length > LongestText ? (l, $"That is {DisplayUnits.Text(text.Length, 0)} characters; type at most {DisplayUnits.Text(LongestText, 0)}.") : (set(l, text.Length == 0 ? null : text), null),
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
