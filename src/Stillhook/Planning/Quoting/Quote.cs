using UnitsNet;

namespace Stillhook.Planning.Quoting;

/// <summary>A value of the plan with where it came from.</summary>
/// <typeparam name="T">Type of the value.</typeparam>
/// <param name="Value">Value.</param>
/// <param name="From">Where it came from.</param>
/// <param name="Where">Path, figure key or source that says so.</param>
public readonly record struct PlanValue<T>(T Value, InputFrom From, string Where);

/// <summary>What the plan adds to the basis of a quote. What is null was not worked out.</summary>
public sealed record QuotedDay
{
    /// <summary>Lifts of the load list; the basis's own number when null.</summary>
    public PlanValue<int>? Lifts { get; init; }

    /// <summary>Mean time of a rotation as planned; stands in when nobody measured or estimated one.</summary>
    public PlanValue<Duration>? PlannedCycle { get; init; }

    /// <summary>Rotations as flown on the same legs; stands before an estimate, behind what somebody entered as measured.</summary>
    public MeasuredRotation? Measured { get; init; }

    /// <summary>Refuelling stops.</summary>
    public PlanValue<int>? Refuels { get; init; }

    /// <summary>Length of one refuelling stop.</summary>
    public PlanValue<Duration>? RefuelStop { get; init; }

    /// <summary>Breaks of the crew apart from refuelling.</summary>
    public PlanValue<int>? Breaks { get; init; }

    /// <summary>Length of one break.</summary>
    public PlanValue<Duration>? BreakLength { get; init; }

    /// <summary>Mean burn over a rotation.</summary>
    public PlanValue<MassFlow>? Burn { get; init; }
}

/// <summary>A figure as a range.</summary>
/// <param name="Low">10th percentile: one job in ten comes in under it.</param>
/// <param name="Likely">50th percentile.</param>
/// <param name="High">90th percentile: one job in ten goes over it.</param>
public sealed record QuoteRange(Figure Low, Figure Likely, Figure High)
{
    /// <summary>Low, likely, high.</summary>
    public IEnumerable<Figure> Figures => [Low, Likely, High];
}

/// <summary>What the work takes, as ranges.</summary>
/// <param name="FlightTime">Rotations and ferry; null when the number of lifts or the time of a rotation is missing.</param>
/// <param name="OnSite">The same with refuelling stops and breaks.</param>
/// <param name="Fuel">Fuel for the flight time; null when no burn is known.</param>
/// <param name="Cost">Flight hours, fuel and fixed price; null without a price of the hour.</param>
/// <param name="Items">What had to be assumed and what is missing.</param>
public sealed record Quote(QuoteRange? FlightTime, QuoteRange? OnSite, QuoteRange? Fuel, QuoteRange? Cost, IReadOnlyList<CheckItem> Items)
{
    /// <summary>Every figure with its working.</summary>
    public IEnumerable<Figure> Figures => new[] { FlightTime, OnSite, Fuel, Cost }.OfType<QuoteRange>().SelectMany(r => r.Figures);
}
