namespace Stillhook.Debriefing;

/// <summary>A rotation found, before it is measured: when the load was taken and set down, and how that is known.</summary>
internal sealed record RotationDraft
{
    /// <summary>Load leaves the ground, s.</summary>
    public required double LiftOffS { get; init; }

    /// <summary>Load touches for good, s.</summary>
    public required double ContactS { get; init; }

    /// <summary>Standard error of the contact time, s.</summary>
    public required double ContactErrorS { get; init; }

    /// <summary>Standard error of the lift-off time, s.</summary>
    public required double LiftOffErrorS { get; init; }

    /// <summary>Hook leaves the set-down: it has begun to climb or to move off, s.</summary>
    public double? ClearS { get; init; }

    /// <summary>Hook opened, as recorded, s.</summary>
    public double? ReleaseS { get; init; }

    /// <summary>How sure.</summary>
    public required Confidence Confidence { get; init; }

    /// <summary>Set-downs tried, the last included; null without a load cell.</summary>
    public int? Tries { get; init; }
}
