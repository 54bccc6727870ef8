using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Reporting;

/// <summary>How the mass of a placed load is known.</summary>
public enum PlacedMassBy
{
    /// <summary>Load cell on the hook.</summary>
    LoadCell,

    /// <summary>On a scale, as the load list says.</summary>
    Weighed,

    /// <summary>Maker's label or delivery note, as the load list says.</summary>
    Label,

    /// <summary>Worked out or guessed, as the load list says.</summary>
    Estimated,

    /// <summary>Written by the crew on the day.</summary>
    Crew,

    /// <summary>Nobody knows.</summary>
    NotKnown,
}

/// <summary>A load where it was left.</summary>
/// <param name="Number">Number on the load; null when it was not told.</param>
/// <param name="Name">What it is; null when not told.</param>
/// <param name="MassKg">Mass of the load alone, kg; null when nobody knows.</param>
/// <param name="MassBy">How the mass is known.</param>
/// <param name="At">When it touched for good, by the sites' clock; null when not known.</param>
/// <param name="Site">Name of the delivery site; null when not known.</param>
/// <param name="Position">Where the aircraft's recorder stood as it touched; null without a record.</param>
/// <param name="OnList">Whether the load list holds it.</param>
public sealed record PlacedLoad(string? Number, string? Name, double? MassKg, PlacedMassBy MassBy, DateTimeOffset? At, string? Site, Place? Position, bool OnList)
{
    /// <summary>A lift's load, with what the list says of it.</summary>
    internal static PlacedLoad Of(KeptLift lift, PlannedLoad? planned, LiftRequest? job, Func<double, DateTimeOffset> clock)
    {
        (double? massKg, PlacedMassBy by) = MassOf(lift, planned);
        string? site = lift.DeliverySite ?? (planned is null ? null : job?.SiteOf(planned.Delivery, Debriefing.SiteUse.Delivery)?.Name);
        double? at = lift.DeliveryTimeS ?? lift.ReleaseTimeS ?? lift.ClearTimeS;
        return new(planned?.Number ?? Told(lift.LoadNumber), planned?.Name ?? planned?.Family ?? Told(lift.Family), massKg, by, at is { } s ? clock(s) : null, site, lift.Delivery, planned is not null);
    }

    private static (double? MassKg, PlacedMassBy By) MassOf(KeptLift lift, PlannedLoad? planned)
    {
        const double same = 0.5; // kg: the list's own mass, carried through units
        double? listKg = planned?.Mass.Kilograms;
        if (lift.LoadKg is { } kg && kg > 0)
            return lift.LoadMeasured ? (kg, PlacedMassBy.LoadCell) : listKg is { } list && Math.Abs(kg - list) <= same ? (kg, ByList(planned!)) : (kg, PlacedMassBy.Crew);
        return listKg is { } mass ? (mass, ByList(planned!)) : (null, PlacedMassBy.NotKnown);
    }

    private static PlacedMassBy ByList(PlannedLoad planned) => planned.HowKnown switch
    {
        MassKnownBy.Weighed => PlacedMassBy.Weighed,
        MassKnownBy.Label => PlacedMassBy.Label,
        _ => PlacedMassBy.Estimated,
    };

    private static string? Told(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
}

/// <summary>A load of the list that was not placed.</summary>
/// <param name="Number">Number on the load.</param>
/// <param name="Name">What it is; null when not told.</param>
/// <param name="MassKg">Mass by the list, kg.</param>
/// <param name="Site">Where it was to go; null when not told.</param>
/// <param name="Why">Reason as somebody told it; null when nobody did.</param>
public sealed record LoadNotPlaced(string Number, string? Name, double MassKg, string? Site, string? Why);
