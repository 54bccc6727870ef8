using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Physics.Motion;
using Stillhook.Planning;
using Stillhook.Planning.Checking;

namespace Stillhook.Approaching;

/// <summary>A mark of the approach as it is flown.</summary>
/// <param name="Name">What it is: start mark, slow-down, power in, reject, over the spot.</param>
/// <param name="DistanceM">Hook's distance to go, m; 0 over the spot.</param>
/// <param name="Landmark">What is seen there; null where nothing was entered.</param>
/// <param name="HookHeightM">Hook over the spot's ground, m.</param>
/// <param name="LoadHeightM">Load's underside over the spot's ground, m.</param>
/// <param name="AltimeterFt">Altimeter reading, ft, rounded up to 20 ft marks.</param>
/// <param name="UnroundedFt">The same before rounding.</param>
/// <param name="TemperatureFt">Part of it that is the temperature correction, ft.</param>
/// <param name="GroundMs">Ground speed, m/s.</param>
/// <param name="AirMs">Air speed, m/s.</param>
/// <param name="SinkMs">Sink, m/s.</param>
/// <param name="PowerPercent">Power expected, percent of what is available; null without the model.</param>
/// <param name="TorquePercent">The same as torque, %; null when the power at full torque is not known.</param>
/// <param name="Broken">Chance that a flight is out of tolerance here; null where it is not judged.</param>
public sealed record ApproachGate(
    string Name, double DistanceM, string? Landmark, double HookHeightM, double LoadHeightM, double AltimeterFt, double UnroundedFt, double TemperatureFt,
    double GroundMs, double AirMs, double SinkMs, double? PowerPercent, double? TorquePercent, double? Broken)
{
    /// <summary>Ground speed in steps of 5 kt.</summary>
    public double GroundKt => Math.Round(GroundMs / ApproachGates.KnotMs / 5) * 5;

    /// <summary>Air speed in steps of 5 kt; null below 40 kt, where an indicator does not show it.</summary>
    public double? AirKt => AirMs >= ApproachGates.ReadableMs - 0.5 ? Math.Round(AirMs / ApproachGates.KnotMs / 5) * 5 : null;

    /// <summary>Sink in steps of 50 ft/min, from 1 000 on of 100.</summary>
    public double SinkFtPerMin => ApproachGates.RoundSink(SinkMs);
}

/// <summary>The empty way back.</summary>
/// <param name="PeriodS">Period of the bare line with its hook, s.</param>
/// <param name="LargestSpeedMs">Air speed up to which line and hook keep clear of the tail, m/s; null when the tail's place was not entered.</param>
/// <param name="TrailDeg">Angle of the line at the hook at that speed, or at the empty leg's speed, degrees from straight down.</param>
/// <param name="AtMs">Speed of that angle, m/s.</param>
/// <param name="Note">What the reader must know beside it.</param>
public sealed record EmptyLine(double PeriodS, double? LargestSpeedMs, double TrailDeg, double AtMs, string Note);

/// <summary>The approach: where the load goes, the marks to fly it by, when power must be in, when to give up, and how it comes out when people fly it.</summary>
public sealed record ApproachPlan
{
    /// <summary>What is wrong with or missing from the request; with an error among them nothing is planned.</summary>
    public required IReadOnlyList<RequestFinding> Findings { get; init; }

    /// <summary>Load, site, air, rules; null when nothing could be planned from.</summary>
    public ApproachSituation? Situation { get; init; }

    /// <summary>Why no approach is offered, in one sentence; null when one is.</summary>
    public string? Refused { get; init; }

    /// <summary>Changes, within all limits, with which it could be flown.</summary>
    public IReadOnlyList<string> Remedies { get; init; } = [];

    /// <summary>Every direction with what was found.</summary>
    public IReadOnlyList<SectorCheck> Sectors { get; init; } = [];

    /// <summary>The way offered; null when none is.</summary>
    public WayIn? Way { get; init; }

    /// <summary>Marks from the start mark to the spot.</summary>
    public IReadOnlyList<ApproachGate> Gates { get; init; } = [];

    /// <summary>How a sink is stopped with the power in hand over the spot; null when that is not known.</summary>
    public SinkArrest? Arrest { get; init; }

    /// <summary>Power-in gate; null when it was not judged.</summary>
    public PowerInGate? PowerIn { get; init; }

    /// <summary>Reject gate; null when it was not judged.</summary>
    public RejectGate? Reject { get; init; }

    /// <summary>Power along the path; null without the model.</summary>
    public ApproachPower? Power { get; init; }

    /// <summary>Simulated flights.</summary>
    public Robustness? Robustness { get; init; }

    /// <summary>The way back with the bare line; null when its mass is not known.</summary>
    public EmptyLine? Empty { get; init; }

    /// <summary>Lowest height of the hook over the spot's ground at the start mark that still clears what is under the way, m; null when none is offered.</summary>
    public double? LowestStartHeightM { get; init; }

    /// <summary>Largest reach of a load let go on the way in, m, margin included: at its farthest, ahead of the load.</summary>
    public double FallReachM { get; init; }

    /// <summary>What the pilot must look at: trade practice that the plan breaks, cautions, what is not known.</summary>
    public IReadOnlyList<CheckItem> Checks { get; init; } = [];

    /// <summary>Every figure with its working.</summary>
    public FigureBook Figures { get; init; } = new();

    /// <summary>Defaults that were taken because nobody said.</summary>
    public IReadOnlyList<FigureInput> Defaults { get; init; } = [];

    /// <summary>A mark by its name; null when the plan has none of it.</summary>
    public ApproachGate? Gate(string name) => Gates.FirstOrDefault(g => g.Name == name);

    /// <summary>Largest sink, m/s, that at the power-in gate can still be stopped with the reserve kept and is inside the sink limit; null without such a gate.</summary>
    public double? LargestSinkAtPowerInMs => PowerIn is { } p && Arrest?.LargestSinkMs(Math.Max(0, Math.Min(p.LoadHeightM - PowerInGate.LeastReserveM, p.LoadHeightM / 1.5))) is { } sink
        ? Math.Min(sink, Situation!.SinkLimit.At(Way!.Path.Hanging.AirspeedMs(Way.Path.SpeedMs[p.Index]))) : null;

    /// <summary>A debrief's setup with this plan's marks to measure against; as it was when no way in is offered.</summary>
    public LiftSetup Onto(LiftSetup setup)
    {
        ArgumentNullException.ThrowIfNull(setup);
        return !IsOffered ? setup : setup with
        {
            Gates = [.. Gates.Where(g => g.DistanceM > 0 && g.Name is not (ApproachGates.PowerInName or ApproachGates.RejectName)).Select(g => new PlanGate(g.DistanceM, g.HookHeightM, g.GroundMs, g.SinkMs))],
            Approach = this,
        };
    }

    /// <summary>What a mark needs beside its reading where the mark before it reads the same: 'same place', or 'same height, further in'; empty else.</summary>
    public string BesideReading(ApproachGate gate)
    {
        ArgumentNullException.ThrowIfNull(gate);
        int at = Gates.ToList().FindIndex(g => ReferenceEquals(g, gate));
        return at > 0 ? SameReading(Gates[at - 1].AltimeterFt, Gates[at - 1].DistanceM, gate.AltimeterFt, gate.DistanceM) : "";
    }

    /// <summary>The same for any two marks, the second one flown after the first.</summary>
    public static string SameReading(double beforeFt, double beforeM, double ft, double distanceM) =>
        ft != beforeFt ? "" : Math.Abs(beforeM - distanceM) < 1 ? "same place" : "same height, further in";

    /// <summary>True when a way in is offered.</summary>
    public bool IsOffered => Way is not null && Refused is null;

    /// <summary>Course of the way offered as the crew says it.</summary>
    public double CourseDeg => Way?.CourseDeg ?? double.NaN;

    /// <summary>Sun over the spot; null when the time is not known.</summary>
    public SunPosition? Sun => Situation?.Sun;
}
