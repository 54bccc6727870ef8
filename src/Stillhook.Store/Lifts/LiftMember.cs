using System.Globalization;
using System.Text.Json;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>A member of a lift that people may correct: its name, how it reads in words, and how it is set.</summary>
internal sealed record LiftMember(string Name, Func<KeptLift, string> Words, Func<KeptLift, string> Json, Func<KeptLift, string, KeptLift> Set, Func<KeptLift, KeptLift, bool> Same)
{
    /// <summary>Every member that may be corrected. What the record alone can tell (measures, how sure, flight and number) is none of them.</summary>
    public static IReadOnlyList<LiftMember> All { get; } =
    [
        Of("loadNumber", l => l.LoadNumber, (l, v) => l with { LoadNumber = v }, v => v),
        Of("family", l => l.Family, (l, v) => l with { Family = v }, v => v),
        Of("loadKg", l => l.LoadKg, (l, v) => l with { LoadKg = v }, v => Number(v, "kg")),
        Of("loadMeasured", l => l.LoadMeasured, (l, v) => l with { LoadMeasured = v }, v => v ? "measured" : "from the list"),
        Of("pickUpTimeS", l => l.PickUpTimeS, (l, v) => l with { PickUpTimeS = v }, Moment),
        Of("approachStartTimeS", l => l.ApproachStartTimeS, (l, v) => l with { ApproachStartTimeS = v }, Moment),
        Of("stopTimeS", l => l.StopTimeS, (l, v) => l with { StopTimeS = v }, Moment),
        Of("deliveryTimeS", l => l.DeliveryTimeS, (l, v) => l with { DeliveryTimeS = v }, Moment),
        Of("releaseTimeS", l => l.ReleaseTimeS, (l, v) => l with { ReleaseTimeS = v }, Moment),
        Of("clearTimeS", l => l.ClearTimeS, (l, v) => l with { ClearTimeS = v }, Moment),
        Of("pickUp", l => l.PickUp, (l, v) => l with { PickUp = v }, Spot),
        Of("delivery", l => l.Delivery, (l, v) => l with { Delivery = v }, Spot),
        Of("pickUpSite", l => l.PickUpSite, (l, v) => l with { PickUpSite = v }, v => v),
        Of("deliverySite", l => l.DeliverySite, (l, v) => l with { DeliverySite = v }, v => v),
        Of("lineM", l => l.LineM, (l, v) => l with { LineM = v }, v => Number(v, "m")),
        Of("goArounds", l => l.GoArounds, (l, v) => l with { GoArounds = v }, v => v.ToString(CultureInfo.InvariantCulture)),
        Of("struckOut", l => l.StruckOut, (l, v) => l with { StruckOut = v }, v => v ? "no lift of a load" : "a lift"),
    ];

    /// <summary>The member of a name; null for one that a newer version may have written.</summary>
    public static LiftMember? Named(string name) => All.FirstOrDefault(m => m.Name == name);

    private static LiftMember Of<T>(string name, Func<KeptLift, T> get, Func<KeptLift, T, KeptLift> set, Func<T, string?> words) => new(
        name,
        l => words(get(l)) ?? "not told",
        l => JsonSerializer.Serialize(get(l)),
        (l, json) => set(l, JsonSerializer.Deserialize<T>(json)!),
        (a, b) => EqualityComparer<T>.Default.Equals(get(a), get(b)));

    private static string? Number(double? value, string unit) => value is { } v ? string.Create(CultureInfo.InvariantCulture, $"{v:0.###} {unit}") : null;

    private static string? Moment(double? timeS) =>
        timeS is { } t ? DateTimeOffset.UnixEpoch.AddSeconds(t).ToString("yyyy-MM-dd HH:mm:ss'Z'", CultureInfo.InvariantCulture) : null;

    private static string? Spot(Place? place) => place is { } p ? string.Create(CultureInfo.InvariantCulture, $"{p.LatitudeDeg:0.000000}, {p.LongitudeDeg:0.000000}") : null;
}
