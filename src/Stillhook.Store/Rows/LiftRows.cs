using Stillhook.Debriefing;

namespace Stillhook.Store;

/// <summary>A lift as measured, or as added by hand; corrections stand in <see cref="CorrectionRow"/> and are never written in here.</summary>
internal sealed class LiftRow
{
    public long Id { get; set; }
    public Guid Key { get; set; }
    public long? FlightId { get; set; }
    public int Number { get; set; }
    public bool AddedByHand { get; set; }

    /// <summary>A later reading of the record did not find it again; kept because somebody had corrected it.</summary>
    public bool NotFoundAgain { get; set; }

    /// <summary>Local day of a lift added by hand outside any flight, and its aircraft.</summary>
    public DateOnly? Day { get; set; }
    public string? Aircraft { get; set; }

    /// <summary>Order in time: contact, else pick-up, else release.</summary>
    public double? AtS { get; set; }
    public string? LoadNumber { get; set; }
    public string? Family { get; set; }
    public double? LoadKg { get; set; }
    public bool LoadMeasured { get; set; }
    public double? PickUpTimeS { get; set; }
    public double? ApproachStartTimeS { get; set; }
    public double? StopTimeS { get; set; }
    public double? DeliveryTimeS { get; set; }
    public double? ReleaseTimeS { get; set; }
    public double? ClearTimeS { get; set; }
    public double? PickUpLatitudeDeg { get; set; }
    public double? PickUpLongitudeDeg { get; set; }
    public double? DeliveryLatitudeDeg { get; set; }
    public double? DeliveryLongitudeDeg { get; set; }
    public string? PickUpSite { get; set; }
    public string? DeliverySite { get; set; }
    public double? LineM { get; set; }
    public int GoArounds { get; set; }
    public Confidence Confidence { get; set; }
    public bool StruckOut { get; set; }

    // Copied out of the measures, so that baselines over years read numbers only.
    public double? CycleTimeS { get; set; }
    public double? HoverTimeS { get; set; }
    public double? OvershootM { get; set; }
    public double? SinkLast15Ms { get; set; }
    public double? SwingAfterStopM { get; set; }
    public double? SwingAfterStopLowM { get; set; }
    public double? SwingAfterStopHighM { get; set; }
    public double? SwingContactM { get; set; }
    public double? SwingContactLowM { get; set; }
    public double? SwingContactHighM { get; set; }
}

/// <summary>All measures of a delivery as one JSON document: they are read together or not at all, and new ones need no new column.</summary>
internal sealed class LiftMeasuresRow
{
    public long LiftId { get; set; }
    public required string Json { get; set; }
}

/// <summary>A change made by a person to a lift, in words for people and as a value for reading.</summary>
internal sealed class CorrectionRow
{
    public long Id { get; set; }
    public Guid Key { get; set; }
    public long LiftId { get; set; }
    public required string Member { get; set; }
    public required string Old { get; set; }
    public required string New { get; set; }
    public required string NewJson { get; set; }
    public required string By { get; set; }
    public DateTimeOffset At { get; set; }
    public string? Why { get; set; }
}
