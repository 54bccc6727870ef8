using Stillhook.Recording;

namespace Stillhook.Debriefing;

/// <summary>From a flight record to its rotations, each delivery measured. Read this first: one call a step.</summary>
public static class Debriefer
{
    /// <summary>The whole debrief of a record: track and quality, rotations, measures, swing, faults. A pure function.</summary>
    /// <param name="record">As read; nothing filtered.</param>
    /// <param name="setup">What the crew said; what is not given is assumed, and said to be.</param>
    /// <param name="settings">Thresholds; null for the defaults.</param>
    /// <param name="progress">Told the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work early with an exception.</param>
    public static Debrief Debrief(FlightRecord record, LiftSetup setup, DebriefSettings? settings = null, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(setup);
        BuiltTrack built = TrackBuilder.Build(record, setup);
        progress?.Report(0.5);
        cancellation.ThrowIfCancellationRequested();
        Debrief debrief = built.Track is { } track
            ? FromTrack(record, track, built.Quality, setup, settings, cancellation)
            : new Debrief
            {
                RecordName = record.Name, Setup = setup, Quality = built.Quality,
                NoRotationsBecause = "The record has no fixes a track could be made of.",
            };
        progress?.Report(1);
        return debrief with { Findings = [.. record.Findings, .. built.Findings] };
    }

    /// <summary>Finds and measures the rotations of a smoothed track.</summary>
    /// <param name="record">The record, for its load cell, torque and release channels and its name.</param>
    /// <param name="track">The smoothed motion of the hook.</param>
    /// <param name="quality">What the record is good for.</param>
    /// <param name="setup">What the crew said.</param>
    /// <param name="settings">Thresholds; null for the defaults.</param>
    /// <param name="cancellation">Ends the work early with an exception.</param>
    public static Debrief FromTrack(FlightRecord record, Track track, QualityVerdict quality, LiftSetup setup, DebriefSettings? settings = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(track);
        ArgumentNullException.ThrowIfNull(quality);
        ArgumentNullException.ThrowIfNull(setup);
        settings ??= DebriefSettings.Default;

        FoundRotations found = RotationFinder.Find(track, record, quality, setup, settings);
        var swingOptions = new SwingOptions { Attitude = SwingAttitude.From(record) };
        var measured = new (Rotation Rotation, SwingTrace? Swing)[found.Drafts.Count];
        // Rotations don't depend on one another, so the result is the same in any order.
        Parallel.For(0, measured.Length, new() { CancellationToken = cancellation },
            i => measured[i] = Measured(i + 1, found.Drafts[i], track, quality, setup, swingOptions, settings));
        return new Debrief
        {
            RecordName = record.Name,
            Setup = setup,
            Quality = quality,
            Track = track,
            Sites = found.Sites,
            Rotations = FaultRules.Name(WithCycleTimes([.. measured.Select(m => m.Rotation)]), setup, settings.Faults),
            Swings = measured.Where(m => m.Swing is not null).ToDictionary(m => m.Rotation.Number, m => m.Swing!),
            NoRotationsBecause = found.NoneBecause,
        };
    }

    private static (Rotation Rotation, SwingTrace? Swing) Measured(
        int number, RotationDraft draft, Track track, QualityVerdict quality, LiftSetup setup, SwingOptions swingOptions, DebriefSettings settings)
    {
        SwingEstimate swing = SwingEstimator.Estimate(track, draft.LiftOffS, draft.ContactS, setup, swingOptions);
        Rotation rotation = DeliveryMeasurer.Measure(number, draft, track, setup, swing.Trace, settings);
        return (Assessable(SwingMeasures.Fill(rotation, swing, track), draft, quality), swing.Trace);
    }

    /// <summary>Takes back what the record can't carry; the verdict has said why.</summary>
    private static Rotation Assessable(Rotation rotation, RotationDraft draft, QualityVerdict quality)
    {
        Delivery d = rotation.Delivery!;
        if (!quality.CanJudgeTimes)
            d = d with { HoverTimeS = null, PeakDecelMs2 = null, PeakDecelDistanceM = null, Smoothness = null, Corrections = null };
        if (!quality.CanJudgeHeights)
            d = d with { StartHeightM = null, GlideDeg = null };
        if (!quality.CanJudgeSink)
            d = d with { SinkLast15Ms = null };
        if (!quality.CanJudgeSwing)
            d = d with { Swing50m = null, SwingAfterStopM = null, SwingContactM = null, SwingMaxM = null, SwingShownM = null };
        IReadOnlyList<string> notJudged = draft.ReleaseS is null
            ? [.. rotation.NotJudged, "Release: no hook event was recorded; the time given is when the hook began to climb or move away."]
            : rotation.NotJudged;
        return rotation with { Delivery = d, NotJudged = notJudged };
    }

    private static List<Rotation> WithCycleTimes(List<Rotation> rotations)
    {
        for (int i = 0; i + 1 < rotations.Count; i++)
        {
            double? cycle = rotations[i + 1].PickupTimeS - rotations[i].PickupTimeS;
            rotations[i] = rotations[i] with { Delivery = rotations[i].Delivery! with { CycleTimeS = cycle } };
        }
        return rotations;
    }
}
