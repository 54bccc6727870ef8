using Stillhook.Debriefing;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>What was worked out from one flight's record, kept whole or not at all.</summary>
public sealed record FlightWork
{
    /// <summary>First to last fix.</summary>
    public required Stretch Recorded { get; init; }

    /// <summary>Stretches in the air.</summary>
    public IReadOnlyList<Stretch> Airborne { get; init; } = [];

    /// <summary>Who flew; null when not told.</summary>
    public string? Pilot { get; init; }

    /// <summary>Aircraft's name; null when not told.</summary>
    public string? Aircraft { get; init; }

    /// <summary>Job it was flown for; null when none is known.</summary>
    public Guid? Job { get; init; }

    /// <summary>Lifts as measured. Their flight is this one whatever they say.</summary>
    public IReadOnlyList<KeptLift> Lifts { get; init; } = [];

    /// <summary>Steady hovers with a load.</summary>
    public IReadOnlyList<HoverPoint> Hovers { get; init; } = [];

    /// <summary>Recorded values beyond an entered limit.</summary>
    public IReadOnlyList<Exceedance> Exceedances { get; init; } = [];

    /// <summary>The smoothed track; null when it isn't to be kept.</summary>
    public Track? Track { get; init; }

    /// <summary>The debrief in short; null leaves what is there.</summary>
    public FlightSummary? Summary { get; init; }
}
