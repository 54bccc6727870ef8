using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Reporting.Printing;

namespace Stillhook.Briefing;

/// <summary>A mark as the pilot flies it, in the steps of the instruments; the figures are those of the approach.</summary>
/// <param name="Label">Short sign that the sketch has too: 1, 2, P, R.</param>
/// <param name="Name">What is done there; empty for a mark that is a place alone.</param>
/// <param name="DistanceM">Hook's distance to go, m.</param>
/// <param name="Landmark">What is seen there; null where nothing was entered.</param>
/// <param name="AltimeterFt">Altimeter reading, ft, rounded up to 20 ft marks.</param>
/// <param name="AirMs">Air speed, m/s; null below what an indicator shows.</param>
/// <param name="GroundMs">Ground speed, m/s.</param>
/// <param name="SinkMs">Sink, m/s.</param>
public sealed record CockpitMark(string Label, string Name, double DistanceM, string? Landmark, double AltimeterFt, double? AirMs, double GroundMs, double SinkMs);

/// <summary>Power-in gate of a card.</summary>
/// <param name="Mark">Where.</param>
/// <param name="LargestSinkMs">Sink over which the answer is a reject, m/s; null when not known.</param>
/// <param name="TorquePercent">Torque expected there, %; null when not known.</param>
/// <param name="TorqueOverSpotPercent">Torque expected over the spot, %; null when not known.</param>
public sealed record PowerInCall(CockpitMark Mark, double? LargestSinkMs, double? TorquePercent, double? TorqueOverSpotPercent);

/// <summary>Reject gate of a card.</summary>
/// <param name="Mark">Where.</param>
/// <param name="TurnDeg">Turn of the way out, right positive; 0 straight on.</param>
public sealed record RejectCall(CockpitMark Mark, double TurnDeg);

/// <summary>When heat stops a load.</summary>
/// <param name="Site">Where it stops first.</param>
/// <param name="LoadNumber">The load.</param>
/// <param name="TemperatureC">Highest temperature there at which it still lifts with its planned fuel, °C.</param>
/// <param name="PlannedC">Temperature planned for there in the hour of its lift, °C.</param>
/// <param name="LiftMinute">Clock minute of its hook-on; null when it has none.</param>
/// <param name="ToEndOfChart">The chart's page ends first: beyond it nothing is judged.</param>
public sealed record HeatStop(string Site, string LoadNumber, double TemperatureC, double PlannedC, double? LiftMinute, bool ToEndOfChart);

/// <summary>What asks for a new brief.</summary>
/// <param name="FtPerHPa">What the altimeter misreads for each hPa that the QNH moves, ft; null without a QNH.</param>
/// <param name="CrosswindMs">Strongest wind from the side that the way in is planned for, m/s.</param>
/// <param name="GustMs">Wind with gusts up to which the marks were worked, m/s; null when no wind was given.</param>
/// <param name="Heat">When heat stops the card's load, and of all loads to this site the one with the least to go; empty when not known, and where the day comes nowhere near it.</param>
public sealed record RebriefTriggers(double? FtPerHPa, double CrosswindMs, double? GustMs, IReadOnlyList<HeatStop> Heat);

/// <summary>What one pilot reads on one approach: few figures, large. Where no approach breaks nothing, only what blocks it.</summary>
public sealed record CockpitCard
{
    /// <summary>Delivery site.</summary>
    public required string Site { get; init; }

    /// <summary>Load it was worked for.</summary>
    public required string Load { get; init; }

    /// <summary>Why this approach stands here.</summary>
    public required ApproachReason Reason { get; init; }

    /// <summary>Why there are no marks, in a sentence; null when there are.</summary>
    public string? Blocked { get; init; }

    /// <summary>What would make it flyable, within all limits.</summary>
    public IReadOnlyList<string> Remedies { get; init; } = [];

    /// <summary>Wind planned for; null when nobody gave it.</summary>
    public Wind? Wind { get; init; }

    /// <summary>Altimeter setting of every reading on the card, Pa; null when nobody gave it.</summary>
    public double? QnhPa { get; init; }

    /// <summary>Sites' clock when that setting was observed; null when it is a forecast's, typed, or its time was not told.</summary>
    public TimeOnly? QnhAt { get; init; }

    /// <summary>Altimeter reading over the spot that the marks rest on, ft, with its own setting and clock; null without one.</summary>
    public (double AltimeterFt, double QnhPa, TimeOnly At)? Recon { get; init; }

    /// <summary>Temperature over the spot, °C.</summary>
    public double? TemperatureC { get; init; }

    /// <summary>Local clock minute planned for.</summary>
    public double? Minute { get; init; }

    /// <summary>True course flown to the spot; not a number without a way.</summary>
    public double CourseDeg { get; init; } = double.NaN;

    /// <summary>Wind from ahead, m/s; negative from behind.</summary>
    public double HeadwindMs { get; init; }

    /// <summary>Wind from the side, m/s; positive from the left.</summary>
    public double CrosswindMs { get; init; }

    /// <summary>Marks from the start mark down to the first gate. Below it nothing asks for eyes inside.</summary>
    public IReadOnlyList<CockpitMark> Marks { get; init; } = [];

    /// <summary>Reading with the load touching, ft: to check the altimeter by beforehand.</summary>
    public double? OverTheSpotFt { get; init; }

    /// <summary>Latest place where power must be coming in; null when not judged.</summary>
    public PowerInCall? PowerIn { get; init; }

    /// <summary>Latest place to give up; null when not judged.</summary>
    public RejectCall? Reject { get; init; }

    /// <summary>One swing there and back with the hook held still, s, and with the aircraft free to move; the same when its mass is not known.</summary>
    public (double HeldS, double FreeS)? Period { get; init; }

    /// <summary>Power left over the spot, percent of what there is; null when not judged.</summary>
    public double? PowerLeftPercent { get; init; }

    /// <summary>Power left under which a reject is planned, %.</summary>
    public double PlanRejectUnderPercent { get; init; }

    /// <summary>What asks for a new brief.</summary>
    public RebriefTriggers? Triggers { get; init; }

    /// <summary>The day's order in tanks.</summary>
    public IReadOnlyList<TankRun> Order { get; init; } = [];

    /// <summary>The approach seen from the side; null without a way.</summary>
    public PrintedPicture? Sketch { get; init; }

    /// <summary>What fails or is to be looked at, worst first.</summary>
    public IReadOnlyList<CheckItem> ToLookAt { get; init; } = [];

    /// <summary>True when the bare line's way back was worked out: its caution belongs on the card.</summary>
    public bool BareLine { get; init; }

    /// <summary>What the figures rest on, with where each came from.</summary>
    public IReadOnlyList<FigureInput> Inputs { get; init; } = [];
}
