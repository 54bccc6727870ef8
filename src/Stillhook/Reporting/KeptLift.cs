using Stillhook.Debriefing;

namespace Stillhook.Reporting;

/// <summary>One rotation as it is kept: measured from the record, with what people corrected in place. Times are s since 1970 UTC; null where not assessable or not told.</summary>
public sealed record KeptLift
{
    /// <summary>Flight it was measured in; 0 before it is kept.</summary>
    public long FlightId { get; init; }

    /// <summary>Rotation's number in that flight, from 1.</summary>
    public required int Number { get; init; }

    /// <summary>Number of the load on the list.</summary>
    public string? LoadNumber { get; init; }

    /// <summary>Kind of load, as on the list.</summary>
    public string? Family { get; init; }

    /// <summary>Mass of the load alone, kg: by load cell when there was one, else from the list.</summary>
    public double? LoadKg { get; init; }

    /// <summary>Whether <see cref="LoadKg"/> was measured in flight.</summary>
    public bool LoadMeasured { get; init; }

    /// <summary>Load leaves the ground.</summary>
    public double? PickUpTimeS { get; init; }

    /// <summary>Start of the approach.</summary>
    public double? ApproachStartTimeS { get; init; }

    /// <summary>Hook at rest near the spot.</summary>
    public double? StopTimeS { get; init; }

    /// <summary>Load touches for good.</summary>
    public double? DeliveryTimeS { get; init; }

    /// <summary>Hook opened.</summary>
    public double? ReleaseTimeS { get; init; }

    /// <summary>Hook leaves for the empty leg.</summary>
    public double? ClearTimeS { get; init; }

    /// <summary>Where the load was picked up.</summary>
    public Place? PickUp { get; init; }

    /// <summary>Where it touched.</summary>
    public Place? Delivery { get; init; }

    /// <summary>Name of the pick-up site; null when none is near.</summary>
    public string? PickUpSite { get; init; }

    /// <summary>Name of the delivery site; null when none is near.</summary>
    public string? DeliverySite { get; init; }

    /// <summary>Line, hook to rigging, m; null when not told.</summary>
    public double? LineM { get; init; }

    /// <summary>Approaches given up.</summary>
    public int GoArounds { get; init; }

    /// <summary>How sure the finding is.</summary>
    public Confidence Confidence { get; init; }

    /// <summary>What was measured of the delivery; null when it could not be.</summary>
    public Delivery? Measures { get; init; }

    /// <summary>Somebody says that this was no lift of a load: it counts nowhere.</summary>
    public bool StruckOut { get; init; }

    /// <summary>Somebody says that this lift happened though no record shows it.</summary>
    public bool AddedByHand { get; init; }
}

/// <summary>A place on the map, degrees.</summary>
public readonly record struct Place(double LatitudeDeg, double LongitudeDeg);
