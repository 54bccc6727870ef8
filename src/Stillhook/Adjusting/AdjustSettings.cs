using Stillhook.Debriefing;

namespace Stillhook.Adjusting;

/// <summary>What was planned for the approach, so that a miss has something to be measured against.</summary>
public sealed record ApproachTargets
{
    /// <summary>The four knobs as planned.</summary>
    public required ApproachKnobs Knobs { get; init; }

    /// <summary>Planned largest slow-down, m/s²; null when the plan doesn't say.</summary>
    public double? PeakDecelMs2 { get; init; }

    /// <summary>Planned gates, outermost first; the outermost is the start mark, the innermost the arrival.</summary>
    public IReadOnlyList<PlanGate> Gates { get; init; } = [];

    /// <summary>Targets from plan gates; null without two gates.</summary>
    /// <param name="gates">Plan gates in any order.</param>
    /// <param name="powerInHeightM">Height of the load at which hover power is to be coming on, m.</param>
    public static ApproachTargets? From(IReadOnlyList<PlanGate> gates, double powerInHeightM)
    {
        if (gates.Count < 2)
            return null;
        PlanGate[] ordered = [.. gates.OrderByDescending(g => g.DistanceM)];
        PlanGate start = ordered[0];
        bool usable = start.DistanceM > 0 && start.HeightAboveTargetM > 0 && start.GroundSpeedMs > 0;
        return usable ? new() { Knobs = new(start.HeightAboveTargetM, start.DistanceM, start.GroundSpeedMs, powerInHeightM), Gates = ordered } : null;
    }
}

/// <summary>Numbers of the learning rule, and words. The defaults are explained and measured in docs/method/adjusting.md.</summary>
public sealed record AdjustSettings
{
    /// <summary>The plan; without one only clear faults give advice.</summary>
    public ApproachTargets? Plan { get; init; }

    /// <summary>What counts as on target: stop 3 m, arrival height 2 m, slow-down 0.012 g.</summary>
    public ApproachOutcome Tolerance { get; init; } = new(3, 2, 0.012 * StandardGravity);

    /// <summary>Scatter of one delivery, 1 sigma: replaced by the pilot's own from 8 deliveries on.</summary>
    public ApproachOutcome Scatter { get; init; } = new(2.2, 1.4, 0.008 * StandardGravity);

    /// <summary>How far the pilot's own offset may lie from the plan beforehand, 1 sigma.</summary>
    public ApproachOutcome OffsetBefore { get; init; } = new(12, 4, 0.02 * StandardGravity);

    /// <summary>Drift of the offset from load to load, in scatters.</summary>
    public double Drift { get; init; } = 0.25;

    /// <summary>How wrong a sensitivity may be, share, 1 sigma.</summary>
    public double SensitivityError { get; init; } = 0.12;

    /// <summary>Cost of a change of one trade step, against one tolerance of miss squared.</summary>
    public double StepCost { get; init; } = 0.02;

    /// <summary>
    /// Whether the pilot heard each advice before the next load. Then a change of the brief counts as briefed; in the debrief of a whole record
    /// nothing was heard, and every delivery is held against the plan as printed.
    /// </summary>
    public bool AdviceWasSpoken { get; init; }

    /// <summary>Name of the start mark as the crew says it.</summary>
    public string StartMark { get; init; } = "the start mark";

    /// <summary>Altimeter reading over the target, if one was taken.</summary>
    public ReconReading? Recon { get; init; }

    /// <summary>The sites' clock, for the time of that reading.</summary>
    public SiteClock Clock { get; init; } = SiteClock.Utc;

    /// <summary>Hook to the load's underside, m; wanted with <see cref="Recon"/>.</summary>
    public double ContactLengthM { get; init; }

    /// <summary>One swing there and back, s; null when not known.</summary>
    public double? SwingPeriodS { get; init; }

    private const double StandardGravity = 9.80665; // m/s²
}
