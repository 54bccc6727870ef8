using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using UnitsNet;

namespace Stillhook.Simulating;

/// <summary>A day to be flown: place, aircraft, line, wind, pilot, and the rotations in order.</summary>
/// <remarks>Coordinates are metres east, north, up of the pick-up's ground. The ground is level at each site; terrain between is not modelled.</remarks>
public sealed record DayScenario
{
    /// <summary>Name for people.</summary>
    public required string Name { get; init; }

    /// <summary>Name of the pick-up.</summary>
    public string PickupName { get; init; } = "pick-up";

    /// <summary>Name of the delivery site.</summary>
    public string TargetName { get; init; } = "target";

    /// <summary>Start of the record, s since 1970 UTC.</summary>
    public double StartTimeS { get; init; } = 1_750_141_800; // 2025-06-17T06:30:00Z

    /// <summary>Pick-up, degrees north.</summary>
    public double LatitudeDeg { get; init; } = 46.9;

    /// <summary>Pick-up, degrees east.</summary>
    public double LongitudeDeg { get; init; } = 9.4;

    /// <summary>Altitude of the pick-up's ground, m.</summary>
    public double AltitudeM { get; init; } = 1200;

    /// <summary>Ground at the delivery target.</summary>
    public required Enu TargetEnu { get; init; }

    /// <summary>Landing place with the fuel; null when the day has none.</summary>
    public Enu? BaseEnu { get; init; }

    /// <summary>Line alone, belly hook to remote hook, m.</summary>
    public required double LineM { get; init; }

    /// <summary>Rigging between remote hook and load, m.</summary>
    public double RiggingM { get; init; }

    /// <summary>Aircraft without load, kg.</summary>
    public required double AircraftKg { get; init; }

    /// <summary>Air density, kg/m³.</summary>
    public double AirDensityKgM3 { get; init; } = 1.1;

    /// <summary>True direction the wind comes from, degrees.</summary>
    public double WindFromDeg { get; init; }

    /// <summary>Mean wind, m/s.</summary>
    public double WindMs { get; init; }

    /// <summary>Standard deviation of each horizontal gust component, m/s.</summary>
    public double GustMs { get; init; }

    /// <summary>How the pilot flies.</summary>
    public PilotStyle Pilot { get; init; } = new();

    /// <summary>The rotations in order.</summary>
    public required IReadOnlyList<PlannedRotation> Rotations { get; init; }

    /// <summary>Whether the pilot hovers over the delivery site first, without a load.</summary>
    public bool LooksAtSiteFirst { get; init; }

    /// <summary>What a crew that knows everything exactly would say of the lift.</summary>
    public LiftSetup ExactSetup()
    {
        PlannedRotation middle = Rotations.OrderBy(r => r.LoadKg).ElementAt(Rotations.Count / 2);
        return new()
        {
            Line = new(Length.FromMeters(LineM), Origin.Typed),
            Rigging = new(Length.FromMeters(RiggingM), Origin.Typed),
            LoadHeight = new(Length.FromMeters(middle.LoadHeightM), Origin.Typed),
            Load = new(Mass.FromKilograms(middle.LoadKg), Origin.Typed),
            DragArea = new(Area.FromSquareMeters(middle.DragAreaM2), Origin.Typed),
            Aircraft = new(Mass.FromKilograms(AircraftKg), Origin.Typed),
            Wind = new(new Wind(WindFromDeg, Speed.FromMetersPerSecond(WindMs)), Origin.Typed),
        };
    }

    /// <summary>The same with the errors crews make: line 1 % and rounded to half a metre, mass 3 %, drag area 25 %, wind 15° and 2 kt (1 sigma).</summary>
    public LiftSetup CrewSetup(ulong seed)
    {
        SimulationRandom random = new(seed, "crew");
        LiftSetup exact = ExactSetup();
        double line = Math.Round(2 * LineM * (1 + 0.01 * random.Normal()), MidpointRounding.AwayFromZero) / 2;
        double mass = exact.Load.Value.Kilograms * (1 + 0.03 * random.Normal());
        double area = exact.DragArea.Value.SquareMeters * Math.Max(0.3, 1 + 0.25 * random.Normal());
        double from = (WindFromDeg + 15 * random.Normal() + 360) % 360;
        double speed = Math.Max(0, WindMs + 2 * 0.514444 * random.Normal());
        return exact with
        {
            Line = new(Length.FromMeters(line), Origin.Typed),
            Load = new(Mass.FromKilograms(mass), Origin.Typed),
            DragArea = new(Area.FromSquareMeters(area), Origin.Typed),
            Wind = new(new Wind(from, Speed.FromMetersPerSecond(speed)), Origin.Typed),
        };
    }
}

/// <summary>One rotation as planned.</summary>
/// <param name="LoadKg">Load with rigging, kg.</param>
/// <param name="DragAreaM2">Cd·A of the load, m².</param>
/// <param name="LoadHeightM">Height of the load itself, m.</param>
/// <param name="Fault">What goes wrong in it.</param>
public sealed record PlannedRotation(double LoadKg, double DragAreaM2, double LoadHeightM = 0, Fault Fault = Fault.None)
{
    /// <summary>Seconds waited in a hover on the way back, away from both sites, before this rotation; 0 for none.</summary>
    public double WaitBeforeS { get; init; }

    /// <summary>Landing for fuel before this rotation.</summary>
    public bool FuelBefore { get; init; }

    /// <summary>How large the fault is: 0 just noticeable, 1 large.</summary>
    public double Severity { get; init; } = 0.5;

    /// <summary>The pilot's scatter in this rotation over his usual one.</summary>
    public double Unsettled { get; init; } = 1;
}

/// <summary>How a deceleration is shaped.</summary>
public enum DecelerationShape
{
    /// <summary>Even slow-down with soft ends.</summary>
    Even,

    /// <summary>Closing speed proportional to the perceived distance: early slow-down that fades out at the spot.</summary>
    Perceived,

    /// <summary>Gap over closing speed shrinking at a constant rate (tau-dot): late slow-down.</summary>
    TauDot,
}

/// <summary>A pilot's habits. Each rotation scatters around them.</summary>
public sealed record PilotStyle
{
    /// <summary>Speed brought into the approach, m/s.</summary>
    public double EntrySpeedMs { get; init; } = 18;

    /// <summary>Speed of the empty leg, m/s.</summary>
    public double EmptySpeedMs { get; init; } = 24;

    /// <summary>Peak slow-down aimed at, m/s².</summary>
    public double PeakDecelMs2 { get; init; } = 1.1;

    /// <summary>Shape of the slow-down.</summary>
    public DecelerationShape Shape { get; init; }

    /// <summary>Softness of the ends of the slow-down, s.</summary>
    public double SofteningS { get; init; } = 5;

    /// <summary>Glide of the approach, degrees.</summary>
    public double GlideDeg { get; init; } = 8;

    /// <summary>Distance at which the glide begins, m.</summary>
    public double StartDistanceM { get; init; } = 350;

    /// <summary>Bend of the glide: 1 straight, above 1 steeper first and flatter at the end.</summary>
    public double GlideBend { get; init; } = 1;

    /// <summary>Slope of the loaded cruise before the glide begins, rise over run; descending positive.</summary>
    public double CruiseSlope { get; init; }

    /// <summary>Height of the load over the ground at the end of the approach, m.</summary>
    public double CarryHeightM { get; init; } = 3;

    /// <summary>Sink while placing, m/s.</summary>
    public double PlacingSinkMs { get; init; } = 0.45;

    /// <summary>Damping ratio the pilot gives the swing in the hover.</summary>
    public double SwingDamping { get; init; } = 0.1;

    /// <summary>Swing above which he waits before lowering, m.</summary>
    public double AcceptedSwingM { get; init; } = 0.9;

    /// <summary>Slow wander of the hover, m (1 sigma, one axis).</summary>
    public double WanderM { get; init; } = 0.5;

    /// <summary>Control activity, m/s² (1 sigma, one axis).</summary>
    public double ControlActivityMs2 { get; init; } = 0.08;

    /// <summary>Scatter of the stop, m along; half of it across.</summary>
    public double StopScatterM { get; init; } = 1.2;

    /// <summary>Scatter of all else, as a share.</summary>
    public double Scatter { get; init; } = 0.06;

    /// <summary>How slowly things are done on the ground and in the hover: 1 usual, below quick, above slow.</summary>
    public double Pace { get; init; } = 1;

    /// <summary>Share of the load's pull sideways that the aircraft follows before the pilot catches it.</summary>
    public double Yielding { get; init; } = 0.2;
}
