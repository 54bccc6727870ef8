namespace Stillhook.Debriefing;

/// <summary>Thresholds and habits the debrief works with. Every default is a stated choice; docs/method/rotations.md and delivery.md say why.</summary>
public sealed record DebriefSettings
{
    /// <summary>The defaults.</summary>
    public static DebriefSettings Default { get; } = new();

    /// <summary>Ground speed under which a slow stretch begins, m/s.</summary>
    public double SlowBelowMs { get; init; } = 1.6;

    /// <summary>Ground speed over which a slow stretch ends, m/s.</summary>
    public double FastAboveMs { get; init; } = 3.2;

    /// <summary>Least rise that parts two height minima, m.</summary>
    public double MinimumProminenceM { get; init; } = 1.2;

    /// <summary>Least descent before a visit's lowest point, m.</summary>
    public double LeastDescentM { get; init; } = 1.5;

    /// <summary>Least climb after a visit's lowest point, m.</summary>
    public double LeastClimbM { get; init; } = 2;

    /// <summary>Visits nearer to each other than this belong to one site, m.</summary>
    public double SiteRadiusM { get; init; } = 60;

    /// <summary>Usual height the hook rises from its resting height at hook-on until the line is tight and the load leaves the ground, m. Design value from an earlier prototype on simulated flights.</summary>
    public double LiftOffSlackM { get; init; } = 1.3;

    /// <summary>Usual height the hook sinks after the load touches, m. Design value from an earlier prototype on simulated flights.</summary>
    public double ContactSlackM { get; init; } = 1.15;

    /// <summary>A load nearer to a person than this counts as over the person, m. Common practice, no source.</summary>
    public double PersonRadiusM { get; init; } = 10;

    /// <summary>Distances to go at which speed and sink are told when no plan is given, m.</summary>
    public IReadOnlyList<double> GateDistancesM { get; init; } = [400, 200, 100, 50];

    /// <summary>Acceleration along the track beyond which a change counts as a correction, m/s².</summary>
    public double CorrectionDeadBandMs2 { get; init; } = 0.15;

    /// <summary>When a fault is named.</summary>
    public FaultSettings Faults { get; init; } = new();
}

/// <summary>Thresholds of the fault rules and the spread each measure usually has, by which the main fault is chosen.</summary>
/// <remarks>Thresholds: design values from an earlier prototype on simulated flights, some refitted here. Spreads: a guess, common practice, no source; not measured.</remarks>
public sealed record FaultSettings
{
    /// <summary>Overshoot beyond this, m.</summary>
    public double OvershootM { get; init; } = 4.4;

    /// <summary>Stop short by more than this, m.</summary>
    public double StopShortM { get; init; } = 10;

    /// <summary>Peak slow-down beyond this, m/s².</summary>
    public double AbruptSlowdownMs2 { get; init; } = 1.7;

    /// <summary>Entry faster than the own median (or the plan) by more than this, m/s, a harder slow-down counted in.</summary>
    public double FastEntryMs { get; init; } = 2.6;

    /// <summary>Entry speed that a slow-down harder than the own median stands for, m/s per m/s².</summary>
    public double HasteOfSlowdownS { get; init; } = 5;

    /// <summary>Start higher than the own median (or the plan) by more than this, m.</summary>
    public double HighStartM { get; init; } = 20;

    /// <summary>Start lower than the own median (or the plan) by more than this, m.</summary>
    public double LowStartM { get; init; } = 15;

    /// <summary>Sideways of the approach line after the stop by more than this, m.</summary>
    public double LateralOffsetM { get; init; } = 5;

    /// <summary>Hover before set-down longer than this, s.</summary>
    public double HoverWaitS { get; init; } = 30;

    /// <summary>Sink over the last 1.5 m of load height beyond this, m/s.</summary>
    public double LateSinkMs { get; init; } = 0.94;

    /// <summary>Deliveries from which on the own median is used.</summary>
    public int DeliveriesForOwnMedian { get; init; } = 3;

    /// <summary>Usual spread (one sigma) of overshoot, m.</summary>
    public double OvershootSpreadM { get; init; } = 1.2;

    /// <summary>Usual spread of the distance short at the stop, m.</summary>
    public double StopShortSpreadM { get; init; } = 2.5;

    /// <summary>Usual spread of the peak slow-down, m/s².</summary>
    public double SlowdownSpreadMs2 { get; init; } = 0.15;

    /// <summary>Usual spread of the entry speed, m/s.</summary>
    public double EntrySpeedSpreadMs { get; init; } = 1.0;

    /// <summary>Usual spread of the start height, m.</summary>
    public double StartHeightSpreadM { get; init; } = 5;

    /// <summary>Usual spread of the sideways offset, m.</summary>
    public double LateralSpreadM { get; init; } = 1.5;

    /// <summary>Usual spread of the hover time, s.</summary>
    public double HoverSpreadS { get; init; } = 6;

    /// <summary>Usual spread of the sink over the last 1.5 m, m/s.</summary>
    public double SinkSpreadMs { get; init; } = 0.15;
}
