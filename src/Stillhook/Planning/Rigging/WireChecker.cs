using System.Globalization;
using Stillhook.Physics.Earth;
using Stillhook.Physics.Rigging;
using Stillhook.Planning.Checking;
using UnitsNet;

namespace Stillhook.Planning.Rigging;

/// <summary>One wire near a site.</summary>
/// <param name="Site">Name of the site.</param>
/// <param name="Wire">Name of the wire.</param>
/// <param name="Needed">Distance that aircraft, line and load keep from it; at least that where the voltage is unknown.</param>
/// <param name="ClosestPlanned">Closest that they are planned to come; null when nobody said.</param>
/// <param name="Item">What came of it.</param>
public sealed record WireCheck(string Site, string Wire, Figure Needed, Length? ClosestPlanned, CheckItem Item);

/// <summary>Distance to every wire of the sites.</summary>
public static class WireChecker
{
    private const string Source = "ASME-B30.12";

    /// <summary>Checks every wire of every site.</summary>
    /// <remarks>
    /// Needed is the largest of the rule by voltage, the owner's and the operator's figure. It is held against the distance that was entered and, where the ends of the span
    /// were entered, against the span's own distance on the map from the spot: over the spot the line reaches from the ground to the aircraft, so height does not help there.
    /// A straight way that crosses a span is to be confirmed: heights on the leg are not judged; those of the way in are, by the approach.
    /// </remarks>
    public static IReadOnlyList<WireCheck> Check(LiftRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        IReadOnlyList<Site> sites = request.Sites;
        OperatorPolicy? policy = request.Policy;
        (Site PickUp, Site Delivery)[] ways = [.. DayConditions.Ways(request)];
        HashSet<string> used = [];
        List<WireCheck> checks = [];
        for (int s = 0; s < sites.Count; s++)
            for (int w = 0; w < sites[s].Wires.Count; w++)
            {
                Wire wire = sites[s].Wires[w];
                string path = string.Create(CultureInfo.InvariantCulture, $"sites[{s}].wires[{w}]");
                string key = $"wire.{FigureKey.Part(sites[s].Name)}.{FigureKey.Part(wire.Name)}";
                Figure needed = Needed(wire, path, UniqueKey(key, used), policy);
                checks.Add(new(sites[s].Name, wire.Name, needed, wire.ClosestPlanned, OnTheMap(sites[s], wire, path, needed, ways) ?? Judge(wire, path, needed, policy)));
            }
        return checks;
    }

    private static string UniqueKey(string key, HashSet<string> used)
    {
        string unique = key;
        for (int n = 2; !used.Add(unique); n++)
            unique = string.Create(CultureInfo.InvariantCulture, $"{key}-{n}");
        return unique;
    }

    private static Figure Needed(Wire wire, string path, string key, OperatorPolicy? policy)
    {
        bool onlyOwnRules = wire.Dead == true && (wire.OwnersMinimum is not null || policy?.WireClearance is not null);
        List<FigureInput> inputs = onlyOwnRules ? [] : [ByVoltage(wire, path)];
        if (wire.Voltage is { } voltage && wire.Dead != true)
            inputs.Add(new("voltage", new(ElectricPotential.FromKilovolts(voltage.Kilovolts), 1), InputFrom.JobFile, path + ".voltage"));
        if (wire.OwnersMinimum is { } owners)
            inputs.Add(new("owner's smallest distance", Meters(owners.Meters), InputFrom.JobFile, path + ".ownersMinimum"));
        if (policy?.WireClearance is { } operators)
            inputs.Add(new("operator's smallest distance", Meters(operators.Meters), InputFrom.JobFile, "policy.wireClearance"));
        double largestM = inputs.Where(i => i.Value.Quantity is Length).Max(i => ((Length)i.Value.Quantity).Meters);
        string note = wire.Dead == true ? "Switched off and earthed by its owner's word: an obstacle all the same." : wire.Voltage is null ? "At least this: the voltage is not known." : "";
        return new(key, $"Distance to keep from {wire.Name}", Meters(largestM), "largest of 15 ft to 50 kV and half an inch more for each kV above, the owner's figure, the operator's figure", inputs, Source, note);
    }

    private static FigureInput ByVoltage(Wire wire, string path)
    {
        if (wire.Dead == true)
            return new("smallest distance to any wire, taken for a dead one because neither owner nor operator gives one", Meters(WireClearance.LowVoltageM), InputFrom.Default, "policy.wireClearance");
        return wire.Voltage is { } voltage
            ? new("smallest distance by voltage", Meters(WireClearance.SmallestM(voltage.Volts)), InputFrom.Rule, Source)
            : new("smallest distance up to 50 kV, because no voltage is entered", Meters(WireClearance.LowVoltageM), InputFrom.Default, path + ".voltage");
    }

    /// <summary>What the ends of the span say, where they were entered; null when they say nothing against it.</summary>
    private static CheckItem? OnTheMap(Site site, Wire wire, string path, Figure needed, IReadOnlyList<(Site PickUp, Site Delivery)> ways)
    {
        if (wire.From is not { } from || wire.To is not { } to)
            return null;
        LocalFrame frame = new(site.Latitude.Degrees, site.Longitude.Degrees, 0);
        Enu Place(Angle latitude, Angle longitude) => frame.ToEnu(latitude.Degrees, longitude.Degrees, 0);
        Enu a = Place(from.Latitude, from.Longitude), b = Place(to.Latitude, to.Longitude);
        double spotM = GroundDistance.ToSegmentM(default, a, b), neededM = ((Length)needed.Value.Quantity).Meters;
        CheckItem Item(CheckVerdict verdict, string code, string text) => new(verdict, "wire-" + code, $"{path}.from", wire.Name, text, Source);
        if (spotM < neededM)
            return Item(CheckVerdict.Fails, "over-the-spot", "Its span on the map is nearer to the spot than the distance to keep.");
        if (wire.ClosestPlanned is { } closest && closest.Meters > spotM)
            return Item(CheckVerdict.ToConfirm, "map-differs", "Its span on the map is nearer to the spot than the closest distance entered: one of them is wrong.");
        return ways.Any(w => (w.PickUp == site || w.Delivery == site) && GroundDistance.Cross(Place(w.PickUp.Latitude, w.PickUp.Longitude), Place(w.Delivery.Latitude, w.Delivery.Longitude), a, b))
            ? Item(CheckVerdict.ToConfirm, "crosses-the-way", "The straight way crosses it: the approach judges the height over it from the start mark on, nothing judges it on the leg.")
            : null;
    }

    private static CheckItem Judge(Wire wire, string path, Figure needed, OperatorPolicy? policy)
    {
        double neededM = ((Length)needed.Value.Quantity).Meters;
        CheckItem Item(CheckVerdict verdict, string code, string member, string text) => new(verdict, "wire-" + code, $"{path}.{member}", wire.Name, text, Source);
        if (wire.ClosestPlanned is { } closest && closest.Meters < neededM * (1 - 1e-9))
            return Item(CheckVerdict.Fails, "inside", "closestPlanned", "Planned closer than the distance to keep.");
        if (wire.Voltage is null && wire.Dead != true)
            return Item(CheckVerdict.ToConfirm, "voltage", "voltage", "Voltage not known and not confirmed dead: ask its owner.");
        if (wire.ClosestPlanned is not null && wire.OwnersMinimum is null && policy?.WireClearance is null)
            return Item(CheckVerdict.ToConfirm, "rule-only", "ownersMinimum", "Clear by the rule for voltage alone: neither its owner nor the operator gives a distance for a load on a line.");
        return wire.ClosestPlanned is null
            ? Item(CheckVerdict.ToConfirm, "not-judged", "closestPlanned", "Not judged: how close the plan comes to it is not entered.")
            : Item(CheckVerdict.Passes, "clear", "closestPlanned", "Planned clear of it.");
    }

    private static Amount Meters(double m) => new(Length.FromMeters(m), 0.1);
}
