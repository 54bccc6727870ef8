namespace Stillhook.Debriefing;

/// <summary>Names the faults of the deliveries of a record. docs/method/delivery.md, 'Faults'.</summary>
public static class FaultRules
{
    /// <summary>The rotations with <see cref="Delivery.Faults"/> and <see cref="Delivery.MainFault"/> filled.</summary>
    /// <param name="rotations">Measured rotations of one pilot and job, in order of time.</param>
    /// <param name="setup">The plan's gates stand in for the own median while there are too few deliveries.</param>
    /// <param name="settings">Thresholds.</param>
    public static IReadOnlyList<Rotation> Name(IReadOnlyList<Rotation> rotations, LiftSetup setup, FaultSettings settings)
    {
        ArgumentNullException.ThrowIfNull(rotations);
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(settings);
        PlanGate? first = setup.Gates.Count == 0 ? null : setup.Gates.MaxBy(g => g.DistanceM);
        double? usualHeight = Usual(rotations, d => d.StartHeightM, first?.HeightAboveTargetM, settings);
        double? usualSpeed = Usual(rotations, d => d.EntrySpeedMs, first?.GroundSpeedMs, settings);
        double? usualSlowdown = Usual(rotations, d => d.PeakDecelMs2, null, settings);
        return [.. rotations.Select(r => r.Delivery is null ? r : r with { Delivery = Named(r, r.Delivery, usualHeight, Haste(r.Delivery, usualSpeed, usualSlowdown, settings), settings) })];
    }

    private static double? Usual(IReadOnlyList<Rotation> rotations, Func<Delivery, double?> measure, double? planned, FaultSettings settings)
    {
        double[] own = [.. rotations.Where(r => r.Delivery is not null).Select(r => measure(r.Delivery!)).OfType<double>()];
        return own.Length >= settings.DeliveriesForOwnMedian ? SiteVisitFinder.Median(own) : planned;
    }

    /// <summary>
    /// Entry speed over the usual, m/s. A harder slow-down than usual betrays speed that the start mark, found from heights alone, has
    /// missed: it counts as further speed, unless it is a fault of its own.
    /// </summary>
    private static double? Haste(Delivery d, double? usualSpeed, double? usualSlowdown, FaultSettings s)
    {
        double? harder = d.PeakDecelMs2 > s.AbruptSlowdownMs2 ? 0 : d.PeakDecelMs2 - usualSlowdown;
        return d.EntrySpeedMs - usualSpeed + s.HasteOfSlowdownS * (harder ?? 0);
    }

    private static Delivery Named(Rotation rotation, Delivery d, double? usualHeight, double? haste, FaultSettings s)
    {
        (Fault Fault, double? Over, double Spread)[] rules =
        [
            (Fault.Overshoot, d.OvershootM - s.OvershootM, s.OvershootSpreadM),
            (Fault.Undershoot, d.StopShortM - s.StopShortM, s.StopShortSpreadM),
            (Fault.AbruptSlowdown, d.PeakDecelMs2 - s.AbruptSlowdownMs2, s.SlowdownSpreadMs2),
            (Fault.FastEntry, haste - s.FastEntryMs, s.EntrySpeedSpreadMs),
            (Fault.HighStart, d.StartHeightM - usualHeight - s.HighStartM, s.StartHeightSpreadM),
            (Fault.LowStart, usualHeight - d.StartHeightM - s.LowStartM, s.StartHeightSpreadM),
            (Fault.LateralOffset, Math.Abs(d.LineUpErrorM ?? 0) - s.LateralOffsetM, s.LateralSpreadM),
            (Fault.HoverWait, d.HoverTimeS - s.HoverWaitS, s.HoverSpreadS),
            (Fault.LateSink, d.SinkLast15Ms - s.LateSinkMs, s.SinkSpreadMs),
            (Fault.GoAround, rotation.GoArounds - 0.5, 0.1),
        ];
        var fired = rules.Where(r => r.Over > 0).OrderByDescending(r => r.Over / r.Spread).ToList();
        return d with { Faults = [.. fired.Select(r => r.Fault)], MainFault = fired.Count == 0 ? Fault.None : fired[0].Fault };
    }
}
