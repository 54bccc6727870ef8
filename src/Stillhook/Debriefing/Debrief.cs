using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Debriefing;

/// <summary>All that a record says about a day of lifting.</summary>
public sealed record Debrief
{
    /// <summary>The record's name.</summary>
    public required string RecordName { get; init; }

    /// <summary>What the crew said, and what was assumed.</summary>
    public required LiftSetup Setup { get; init; }

    /// <summary>What the record is good for, said before anything is judged.</summary>
    public required QualityVerdict Quality { get; init; }

    /// <summary>The smoothed track; null when the record can't carry one.</summary>
    public Track? Track { get; init; }

    /// <summary>Sites known or found.</summary>
    public IReadOnlyList<FoundSite> Sites { get; init; } = [];

    /// <summary>The rotations in order of time.</summary>
    public IReadOnlyList<Rotation> Rotations { get; init; } = [];

    /// <summary>Swing of each rotation's loaded leg, by rotation number; absent where not assessable.</summary>
    public IReadOnlyDictionary<int, SwingTrace> Swings { get; init; } = new Dictionary<int, SwingTrace>();

    /// <summary>Why there are no rotations, when there are none.</summary>
    public string? NoRotationsBecause { get; init; }

    /// <summary>Irregularities of the record and of the analysis.</summary>
    public IReadOnlyList<Finding> Findings { get; init; } = [];
}

/// <summary>What a record can carry.</summary>
/// <param name="MedianStepS">Median time between fixes, s.</param>
/// <param name="DurationS">First to last fix, s.</param>
/// <param name="GapCount">Gaps longer than five median steps and 5 s.</param>
/// <param name="PositionNoiseM">Short-term horizontal noise found, m (1 sigma).</param>
/// <param name="AltitudeNoiseM">Short-term altitude noise found, m (1 sigma).</param>
/// <param name="AltitudeStepM">Step in which altitude was recorded, m.</param>
/// <param name="HasSpeed">Speed and course recorded.</param>
/// <param name="HasLoadCell">Load on the hook recorded.</param>
/// <param name="CanJudge">Measures that can be judged, in plain words.</param>
/// <param name="CannotJudge">Measures that cannot be judged and why, in plain words.</param>
public sealed record QualityVerdict(
    double MedianStepS, double DurationS, int GapCount, double PositionNoiseM, double AltitudeNoiseM, double AltitudeStepM,
    bool HasSpeed, bool HasLoadCell, IReadOnlyList<string> CanJudge, IReadOnlyList<string> CannotJudge)
{
    /// <summary>Rotations can be found.</summary>
    public bool CanJudgeRotations { get; init; } = true;

    /// <summary>Times of lift-off, stop and contact, and what follows from them (hover time), can be judged.</summary>
    public bool CanJudgeTimes { get; init; } = true;

    /// <summary>Heights over the target and the glide can be judged.</summary>
    public bool CanJudgeHeights { get; init; } = true;

    /// <summary>Sink at set-down can be judged.</summary>
    public bool CanJudgeSink { get; init; } = true;

    /// <summary>Places and distances can be judged.</summary>
    public bool CanJudgePlaces { get; init; } = true;

    /// <summary>Swing can be judged.</summary>
    public bool CanJudgeSwing { get; init; } = true;

    /// <summary>Step in which position was recorded, m; 0 when none shows.</summary>
    public double PositionStepM { get; init; }

    /// <summary>Short-term noise of the recorded speed, m/s (1 sigma, one component); NaN when the record has none.</summary>
    public double VelocityNoiseMs { get; init; } = double.NaN;
}

/// <summary>A site, known from the job or found by clustering.</summary>
public sealed record FoundSite(string Name, SiteUse Use, Enu PositionEnu, int Visits, bool Known);

/// <summary>The load's offset from the plumb line under the hook over one loaded leg, on an even time grid.</summary>
/// <remarks>
/// <c>East/North</c> are the offset of the load from straight below the hook, m, steady trail and lean included; the swing envelope is worked from these.
/// <c>ShownEast/ShownNorth</c> have the steady trail angle and the acceleration lean taken off: what a person calls swing.
/// </remarks>
public sealed record SwingTrace
{
    /// <summary>Time of the first sample, s since 1970 UTC.</summary>
    public required double StartTimeS { get; init; }

    /// <summary>Step between samples, s.</summary>
    public required double StepS { get; init; }

    /// <summary>Load east of the plumb line, m.</summary>
    public required double[] EastM { get; init; }

    /// <summary>Load north of the plumb line, m.</summary>
    public required double[] NorthM { get; init; }

    /// <summary>Rate of <see cref="EastM"/>, m/s.</summary>
    public required double[] EastRateMs { get; init; }

    /// <summary>Rate of <see cref="NorthM"/>, m/s.</summary>
    public required double[] NorthRateMs { get; init; }

    /// <summary>East offset with trail and lean taken off, m.</summary>
    public required double[] ShownEastM { get; init; }

    /// <summary>North offset with trail and lean taken off, m.</summary>
    public required double[] ShownNorthM { get; init; }

    /// <summary>Standard error of one component of the offset (root mean square of east and north), m.</summary>
    public required double[] ErrorM { get; init; }

    /// <summary>Standard error of the east offset, m.</summary>
    public required double[] EastErrorM { get; init; }

    /// <summary>Standard error of the north offset, m.</summary>
    public required double[] NorthErrorM { get; init; }

    /// <summary>Standard error of one component of the rate, m/s.</summary>
    public required double[] RateErrorMs { get; init; }

    /// <summary>Length from hook to the load's middle as entered, m.</summary>
    public required double LengthM { get; init; }

    /// <summary>Natural frequency used, rad/s.</summary>
    public required double FrequencyRadS { get; init; }

    /// <summary>Whether the frequency was identified from the record (true) or taken from the entered length (false).</summary>
    public required bool FrequencyIdentified { get; init; }
}
