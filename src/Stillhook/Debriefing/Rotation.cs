using Stillhook.Physics.Earth;

namespace Stillhook.Debriefing;

/// <summary>How sure the finding of a rotation is.</summary>
public enum Confidence
{
    /// <summary>One cue only, or cues that disagree.</summary>
    Low,

    /// <summary>Speed, height and dwell agree.</summary>
    Medium,

    /// <summary>A load cell, torque or release event agrees with them.</summary>
    High,
}

/// <summary>One out-and-back of the hook: pick-up, loaded leg, approach, delivery, release, empty leg. Times are s since 1970 UTC; null where not assessable.</summary>
public sealed record Rotation
{
    /// <summary>1, 2, 3 ... in order of time.</summary>
    public required int Number { get; init; }

    /// <summary>Load leaves the ground.</summary>
    public double? PickupTimeS { get; init; }

    /// <summary>Start of the approach (see docs/method/delivery.md).</summary>
    public double? ApproachStartTimeS { get; init; }

    /// <summary>First time after the last entry into 40 m that the 1 s mean ground speed is under 1.5 m/s.</summary>
    public double? StopTimeS { get; init; }

    /// <summary>Load touches the ground for good.</summary>
    public double? DeliveryTimeS { get; init; }

    /// <summary>Hook opened.</summary>
    public double? ReleaseTimeS { get; init; }

    /// <summary>Hook leaves for the empty leg (climbing or moving off after the release).</summary>
    public double? ClearTimeS { get; init; }

    /// <summary>Belly hook's place (load's place at rest) at pick-up, in the track's frame, ground level.</summary>
    public Enu? PickupEnu { get; init; }

    /// <summary>Where the load touched, in the track's frame, ground level.</summary>
    public Enu? DeliveryEnu { get; init; }

    /// <summary>Approaches given up inside the delivery area, followed by a climb, without contact.</summary>
    public int GoArounds { get; init; }

    /// <summary>How sure.</summary>
    public required Confidence Confidence { get; init; }

    /// <summary>Standard error of the delivery (contact) time, s.</summary>
    public double? DeliveryTimeErrorS { get; init; }

    /// <summary>What could not be judged and why, in plain sentences.</summary>
    public IReadOnlyList<string> NotJudged { get; init; } = [];

    /// <summary>The measured delivery; null when it could not be measured at all.</summary>
    public Delivery? Delivery { get; init; }
}

/// <summary>Faults a delivery can show; names as in docs/method/delivery.md.</summary>
public enum Fault
{
#pragma warning disable CS1591 // The names are the documentation; thresholds and meanings stand in docs/method/delivery.md.
    None, Overshoot, Undershoot, AbruptSlowdown, FastEntry, HighStart, LowStart, LateralOffset, HoverWait, LateSink, GoAround,
#pragma warning restore CS1591
}

/// <summary>One delivery measured. Definitions with formulas: docs/method/delivery.md. SI units as the names say; null where not assessable.</summary>
public sealed record Delivery
{
    /// <summary>Hook height over the target ground at the approach start, m.</summary>
    public double? StartHeightM { get; init; }

    /// <summary>Horizontal distance hook to delivery point at the approach start, m.</summary>
    public double? StartDistanceM { get; init; }

    /// <summary>Inner slope of the two-line fit, degrees.</summary>
    public double? GlideDeg { get; init; }

    /// <summary>1 s mean ground speed at the approach start, m/s.</summary>
    public double? EntrySpeedMs { get; init; }

    /// <summary>Largest 2 s mean of the slow-down between start and stop, m/s².</summary>
    public double? PeakDecelMs2 { get; init; }

    /// <summary>Distance to go at the peak slow-down, m.</summary>
    public double? PeakDecelDistanceM { get; init; }

    /// <summary>Largest distance past the delivery point along the approach course before contact, m.</summary>
    public double? OvershootM { get; init; }

    /// <summary>Distance short of the delivery point at the stop, m; negative is past it.</summary>
    public double? StopShortM { get; init; }

    /// <summary>Largest sideways offset from the approach course through the delivery point after the stop, m, right positive.</summary>
    public double? LineUpErrorM { get; init; }

    /// <summary>Contact point against the designated target, m, right of the approach course positive; null when no target is known.</summary>
    public double? LateralMissM { get; init; }

    /// <summary>Course of the approach, degrees true.</summary>
    public double? ApproachCourseDeg { get; init; }

    /// <summary>Swing envelope at the last passage of 50 m out, m (steady trail included).</summary>
    public Banded? Swing50m { get; init; }

    /// <summary>Largest load offset within one period after the stop, m.</summary>
    public Banded? SwingAfterStopM { get; init; }

    /// <summary>Swing envelope just before contact, m.</summary>
    public Banded? SwingContactM { get; init; }

    /// <summary>Largest load offset from 50 m out to contact, m.</summary>
    public Banded? SwingMaxM { get; init; }

    /// <summary>What a person is shown as swing: largest offset from 50 m out to contact with trail angle and acceleration lean taken off, m.</summary>
    public Banded? SwingShownM { get; init; }

    /// <summary>Stop to contact, s.</summary>
    public double? HoverTimeS { get; init; }

    /// <summary>1.5 m divided by the time of the last 1.5 m of load height, m/s, down positive.</summary>
    public double? SinkLast15Ms { get; init; }

    /// <summary>Lift-off to next lift-off, s; null for the last.</summary>
    public double? CycleTimeS { get; init; }

    /// <summary>Spectral arc length of the amount of the slow-down, start to stop; nearer zero is smoother. Compare a pilot only with himself.</summary>
    public double? Smoothness { get; init; }

    /// <summary>Sign changes of the along-track acceleration beyond the dead band, start to contact.</summary>
    public int? Corrections { get; init; }

    /// <summary>Set-downs tried in this rotation, the last included; null without a load cell.</summary>
    public int? Tries { get; init; }

    /// <summary>Seconds with the load over an entered person; null when no people were entered.</summary>
    public double? SecondsOverPeople { get; init; }

    /// <summary>Speed and sink at each plan gate, or at 400, 200, 100 and 50 m to go when there is no plan.</summary>
    public IReadOnlyList<GatePassage> Gates { get; init; } = [];

    /// <summary>Every fault whose rule fired.</summary>
    public IReadOnlyList<Fault> Faults { get; init; } = [];

    /// <summary>The fault largest over its threshold, in units of that measure's spread.</summary>
    public Fault MainFault { get; init; }
}

/// <summary>How a gate was passed.</summary>
public sealed record GatePassage(double DistanceM, double TimeS, double HeightAboveTargetM, double GroundSpeedMs, double SinkMs);
