using System.ComponentModel;
using UnitsNet;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Planning;

/// <summary>The aircraft as its papers and its flight manual describe it, typed in by the operator.</summary>
public sealed record Aircraft
{
    [Description("Type or registration, as the crew says it.")]
    public string? Name { get; init; }

    [Description("Mass in flight without the load, for a debrief; a plan works it out."), Between(300, 30_000)]
    public Mass? Mass { get; init; }

    [Description("Height of the satellite antenna above the cargo hook."), Between(-5, 10)]
    public Length? AntennaAboveHook { get; init; }

    [Description("Empty mass with installed kit and oil, from the weighing record, as flown: doors, mirrors, hook."), Between(300, 30_000)]
    public Mass? EquippedMass { get; init; }

    [Description("Where the equipped mass comes from: weighing record and its date.")]
    public string? EquippedMassSource { get; init; }

    [Description("Rated load of the cargo hook."), Between(50, 20_000)]
    public Mass? HookLimit { get; init; }

    [Description("Highest gross mass with a jettisonable external load."), Between(300, 40_000)]
    public Mass? ExternalGrossLimit { get; init; }

    [Description("Highest gross mass without an external load."), Between(300, 40_000)]
    public Mass? GrossLimit { get; init; }

    [Description("Fixed reduction of the interagency load calculation for this type."), Between(0, 2000)]
    public Mass? WeightReduction { get; init; }

    [Description("Hover ceiling out of ground effect: gross mass over pressure altitude and temperature.")]
    public HoverChart? HoverOutOfGroundEffect { get; init; }

    [Description("Hover ceiling in ground effect. Only the interagency form's own column uses it; a long line never does.")]
    public HoverChart? HoverInGroundEffect { get; init; }

    [Description("Torque needed to hover out of ground effect, over pressure altitude, temperature and gross mass.")]
    public TorqueChart? HoverTorque { get; init; }

    [Description("Torque limit for lifting, percent of the instrument."), Between(20, 150)]
    public Ratio? TorqueLimit { get; init; }

    [Description("Shaft power at 100 percent torque."), Between(50, 10_000)]
    public Power? PowerAtFullTorque { get; init; }

    [Description("Main rotor.")]
    public RotorGiven? Rotor { get; init; }

    [Description("Seat from which the load is watched: left or right.")]
    public PilotSide? PilotSide { get; init; }

    [Description("How far behind the cargo hook the tail rotor's nearest point is."), Between(1, 30)]
    public Length? TailBehindHook { get; init; }

    [Description("How high over the cargo hook the tail rotor's lowest point is; negative below it."), Between(-5, 10)]
    public Length? TailAboveHook { get; init; }

    [Description("Tank and burn.")]
    public FuelGiven? Fuel { get; init; }

    [Description("Speeds flown with and without a load.")]
    public SpeedsGiven? Speeds { get; init; }

    [Description("Maintenance items and papers with their dates or hours.")]
    public IReadOnlyList<DueItem> Due { get; init; } = [];
}

/// <summary>A hover ceiling page of the flight manual, typed in as a table.</summary>
public sealed record HoverChart
{
    [Description("Page of the flight manual.")]
    public required string Source { get; init; }

    [Description("Who typed it in.")]
    public string? EnteredBy { get; init; }

    [Description("Who compared it with the page.")]
    public string? CheckedBy { get; init; }

    [Description("Pressure altitudes, rising: one row of masses each."), Between(-1000, 9000)]
    public required IReadOnlyList<Length> PressureAltitude { get; init; }

    [Description("Outside air temperatures, rising: one column of masses each."), Between(-60, 60)]
    public required IReadOnlyList<Temperature> Temperature { get; init; }

    [Description("Gross masses, a row for each pressure altitude; null where the page gives none."), Between(300, 40_000)]
    public required IReadOnlyList<IReadOnlyList<Mass?>> Mass { get; init; }
}

/// <summary>A hover torque page of the flight manual, typed in as tables.</summary>
public sealed record TorqueChart
{
    [Description("Page of the flight manual.")]
    public required string Source { get; init; }

    [Description("Who typed it in.")]
    public string? EnteredBy { get; init; }

    [Description("Pressure altitudes, rising."), Between(-1000, 9000)]
    public required IReadOnlyList<Length> PressureAltitude { get; init; }

    [Description("Outside air temperatures, rising."), Between(-60, 60)]
    public required IReadOnlyList<Temperature> Temperature { get; init; }

    [Description("Gross masses, rising."), Between(300, 40_000)]
    public required IReadOnlyList<Mass> Mass { get; init; }

    [Description("Torque: for each pressure altitude, for each temperature, one figure for each mass; null where the page gives none."), Between(0, 150)]
    public required IReadOnlyList<IReadOnlyList<IReadOnlyList<Ratio?>>> Torque { get; init; }
}

/// <summary>Main rotor geometry.</summary>
public sealed record RotorGiven
{
    [Description("Radius."), Between(2, 20)]
    public required Length Radius { get; init; }

    [Description("Number of blades."), Between(2, 8)]
    public required int Blades { get; init; }

    [Description("Blade chord."), Between(0.05, 2)]
    public required Length Chord { get; init; }

    [Description("Blade tip speed."), Between(200, 600)]
    public required Speed TipSpeed { get; init; }

    [Description("Flat-plate drag area of the aircraft without line and load."), Between(0.1, 20)]
    public Area? FlatPlateArea { get; init; }
}

/// <summary>Tank and burn.</summary>
public sealed record FuelGiven
{
    [Description("Most fuel the tank takes."), Between(10, 10_000)]
    public required Mass Tank { get; init; }

    [Description("Burn in cruise with a load."), Between(10, 5000)]
    public required MassFlow BurnLoaded { get; init; }

    [Description("Burn in cruise without a load."), Between(10, 5000)]
    public required MassFlow BurnEmpty { get; init; }

    [Description("Burn in the hover."), Between(10, 5000)]
    public required MassFlow BurnHover { get; init; }
}

/// <summary>Speeds and times of a rotation.</summary>
public sealed record SpeedsGiven
{
    [Description("Ground speed with a load, averaged over the leg with its slow ends."), Between(5, 180)]
    public required Speed Loaded { get; init; }

    [Description("Ground speed back with the bare line, averaged over the leg."), Between(5, 180)]
    public required Speed Empty { get; init; }

    [Description("Hover at the pick-up: from overhead to load clear."), Between(1, 1800)]
    public required Duration HoverAtPickUp { get; init; }

    [Description("Hover at the delivery: from overhead to hook clear."), Between(1, 1800)]
    public required Duration HoverAtDelivery { get; init; }

    [Description("True: the two speeds are held in the middle of a leg, and time to speed up, slow down and climb comes on top. Left out: they are means over the leg with all that in them.")]
    public bool? Cruise { get; init; }

    [Description("With cruise: how hard a leg is begun and ended, percent of standard gravity."), Between(1, 30)]
    public Ratio? Acceleration { get; init; }

    [Description("With cruise: climb on a leg that goes up."), Between(0.5, 40)]
    public Speed? Climb { get; init; }
}

/// <summary>A maintenance item or paper of the aircraft that falls due.</summary>
public sealed record DueItem
{
    [Description("What is due, such as 100 h inspection, hook overhaul, insurance.")]
    public required string Name { get; init; }

    [Description("Last day it may be used.")]
    public DateOnly? Until { get; init; }

    [Description("Hours or cycles left until it is due."), Between(-100_000, 100_000)]
    public double? Left { get; init; }

    [Description("Hours or cycles this job will use."), Between(0, 100_000)]
    public double? ThisJob { get; init; }
}
