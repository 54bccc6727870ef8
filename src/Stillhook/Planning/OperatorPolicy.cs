using System.ComponentModel;
using UnitsNet;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Planning;

/// <summary>How the payload is worked out.</summary>
public enum PayloadMethod
{
    /// <summary>Smallest of hover mass and gross limit, less what is aboard, then hook and rigging, then the margin.</summary>
    Direct,

    /// <summary>The interagency load-calculation form with its three columns.</summary>
    Interagency,
}

/// <summary>How the day is to run.</summary>
public sealed record DayPlan
{
    [Description("Local clock time of the first take-off.")]
    public TimeOnly? Start { get; init; }

    [Description("Local clock time by which the aircraft must be back.")]
    public TimeOnly? LatestEnd { get; init; }

    [Description("Fuel at the first take-off; chosen by the plan when left out."), Between(0, 10_000)]
    public Mass? StartFuel { get; init; }

    [Description("Fixed time of a refuelling stop."), Between(0, 7200)]
    public Duration? RefuelStop { get; init; }

    [Description("Fuel pumped."), Between(10, 100_000)]
    public MassFlow? RefuelRate { get; init; }

    [Description("Numbers of the loads in the order they are to be flown; those left out come after them. The plan looks for the order itself when left out, or when this one breaks a limit.")]
    public IReadOnlyList<string> Order { get; init; } = [];
}

/// <summary>The operator's own rules. Whatever is null takes the default that the plan names.</summary>
public sealed record OperatorPolicy
{
    [Description("How the payload is worked out: direct or interagency.")]
    public PayloadMethod? Method { get; init; }

    [Description("The manager and pilot agreed to take the fixed weight reduction on jettisonable loads too (interagency method).")]
    public bool? ReduceJettisonable { get; init; }

    [Description("Share of sling capacity kept back for construction work."), Between(0, 50)]
    public Ratio? ConstructionMargin { get; init; }

    [Description("Mass kept back on every lift."), Between(0, 2000)]
    public Mass? MassMargin { get; init; }

    [Description("Power kept in hand in the hover, percent torque; needs a hover torque chart."), Between(0, 50)]
    public Ratio? PowerMargin { get; init; }

    [Description("Added to a mass that is only on a label."), Between(0, 50)]
    public Ratio? LabelMargin { get; init; }

    [Description("Added to a mass that is only estimated."), Between(0, 100)]
    public Ratio? EstimateMargin { get; init; }

    [Description("Final reserve as time in cruise."), Between(600, 7200)]
    public Duration? Reserve { get; init; }

    [Description("Contingency, percent of the fuel of the flight between two fills."), Between(0, 50)]
    public Ratio? Contingency { get; init; }

    [Description("Final reserve as a mass; stands instead of the time when it is more."), Between(0, 2000)]
    public Mass? ReserveMass { get; init; }

    [Description("Flying time after which a break is due."), Between(1800, 28_800)]
    public Duration? BreakAfter { get; init; }

    [Description("Hover torque over the aircraft's own baseline at the same mass from which the day sheet says to write it up."), Between(0.5, 50)]
    public Ratio? HoverShift { get; init; }

    [Description("Length of that break; hot refuelling is no break."), Between(0, 7200)]
    public Duration? Break { get; init; }

    [Description("Most flying by one pilot in a day."), Between(1800, 86_400)]
    public Duration? FlyingPerDay { get; init; }

    [Description("Longest duty day, from reporting to being off."), Between(3600, 86_400)]
    public Duration? DutyDay { get; init; }

    [Description("Shortest rest, from being off to reporting again."), Between(3600, 172_800)]
    public Duration? Rest { get; init; }

    [Description("Where the rule of rest stands, such as a page of the operations manual.")]
    public string? RestSource { get; init; }

    [Description("Limits on lifts and hours of parts and of the aircraft, for the day sheet.")]
    public IReadOnlyList<PartRule> PartRules { get; init; } = [];

    [Description("Deliver all loads of one site before the next.")]
    public bool? GroupBySite { get; init; }

    [Description("Breaking strength over static load that every part must have."), Between(3.75, 20)]
    public double? DesignFactor { get; init; }

    [Description("Smallest distance to any wire."), Between(0, 500)]
    public Length? WireClearance { get; init; }

    [Description("Smallest angle of a sling leg to the horizontal."), Between(30, 89)]
    public Angle? SmallestLegAngle { get; init; }

    [Description("Change of temperature that asks for a new plan."), Between(0.5, 20)]
    public TemperatureDelta? ReplanTemperature { get; init; }

    [Description("Change of pressure altitude that asks for a new plan."), Between(30, 1000)]
    public Length? ReplanAltitude { get; init; }

    [Description("Change of the altimeter setting since the last check from which a new check is offered."), Between(0.5, 30)]
    public Pressure? ReplanQnh { get; init; }

    [Description("Change of the wind, direction and speed together, since the last check from which a new check is offered."), Between(1, 60)]
    public Speed? ReplanWind { get; init; }

    [Description("Level of sling training the job asks for, 1 to 4; worked out from the line when left out."), Between(1, 4)]
    public int? SlingLevel { get; init; }

    [Description("What a change for the next approach may ask for at most.")]
    public AdviceLimits? Advice { get; init; }
}

/// <summary>Limits on advice for the next approach.</summary>
public sealed record AdviceLimits
{
    [Description("Highest sink on the approach."), Between(0.5, 10)]
    public Speed? HighestSink { get; init; }

    [Description("Lowest height of the load over obstacles on the approach."), Between(0, 500)]
    public Length? LowestLoadHeight { get; init; }

    [Description("Highest speed with a load."), Between(10, 150)]
    public Speed? HighestSpeed { get; init; }
}

/// <summary>What a rotation takes and what the work costs.</summary>
public sealed record QuoteBasis
{
    [Description("Number of lifts, when there is no load list yet."), Between(1, 10_000)]
    public int? Lifts { get; init; }

    [Description("Mean time of a rotation, lift-off to lift-off."), Between(10, 7200)]
    public Duration? Cycle { get; init; }

    [Description("Spread (one standard deviation) of that time."), Between(0, 3600)]
    public Duration? CycleSpread { get; init; }

    [Description("Number of rotations it was measured on; left out when it is somebody's estimate."), Between(1, 100_000)]
    public int? MeasuredOn { get; init; }

    [Description("Ferry time there and back."), Between(0, 36_000)]
    public Duration? Ferry { get; init; }

    [Description("Currency, such as EUR.")]
    public string? Currency { get; init; }

    [Description("Price of a flight hour."), Between(0, 1_000_000)]
    public double? PricePerHour { get; init; }

    [Description("Price of fuel per kg."), Between(0, 100)]
    public double? FuelPricePerKg { get; init; }

    [Description("Fixed price of the day: crew, truck, standing."), Between(0, 10_000_000)]
    public double? FixedPrice { get; init; }
}
