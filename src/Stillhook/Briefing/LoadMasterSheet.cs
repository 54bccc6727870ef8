using Stillhook.Planning;

namespace Stillhook.Briefing;

/// <summary>What the load master at one pick-up reads: order, weights, the most for each lift, the chain, the stops.</summary>
public sealed record LoadMasterSheet
{
    /// <summary>Pick-up site.</summary>
    public required string PickUp { get; init; }

    /// <summary>Loads in the order of the day with the stops between them.</summary>
    public required IReadOnlyList<SheetStep> Steps { get; init; }

    /// <summary>Loads of this site that are not flown, with why.</summary>
    public required IReadOnlyList<(string Number, string? Name, string Why)> NotFlown { get; init; }

    /// <summary>Chains from the aircraft's hook down, one for each kind of rigging.</summary>
    public required IReadOnlyList<ChainSketch> Chains { get; init; }

    /// <summary>The loads, without the stops.</summary>
    public IEnumerable<LoadRow> Loads => Steps.OfType<LoadRow>();
}

/// <summary>A line of the sheet.</summary>
public abstract record SheetStep;

/// <summary>A load.</summary>
/// <param name="Position">Place in the day's order, from 1.</param>
/// <param name="Number">Number on the load.</param>
/// <param name="Name">What it is.</param>
/// <param name="MassKg">Mass as entered, kg.</param>
/// <param name="HowKnown">How it is known.</param>
/// <param name="NeedKg">Mass to plan for, kg.</param>
/// <param name="MostKg">The most it may weigh on this lift, kg.</param>
/// <param name="LimitedBy">What limits it.</param>
/// <param name="HookOnMinute">Clock minute of hook-on.</param>
/// <param name="Proving">First of its kind.</param>
/// <param name="Delivery">Where it goes.</param>
public sealed record LoadRow(int Position, string Number, string? Name, double MassKg, MassKnownBy HowKnown, double NeedKg, double MostKg, string LimitedBy, double HookOnMinute, bool Proving, string Delivery) : SheetStep;

/// <summary>A stop.</summary>
/// <param name="Stop">The stop.</param>
public sealed record StopRow(FuelStop Stop) : SheetStep;

/// <summary>What hangs between the aircraft and loads that are rigged alike, worked for the heaviest of them.</summary>
/// <param name="Numbers">Numbers of the loads.</param>
/// <param name="For">Number of the heaviest, which it is worked for.</param>
/// <param name="LoadName">What that load is.</param>
/// <param name="NeedKg">Mass to plan for of that load, kg.</param>
/// <param name="Parts">Parts from the hook down.</param>
/// <param name="MostLoadKg">Largest load that the marked parts permit, kg; null when no part has a mark.</param>
/// <param name="Remarks">What is missing or wrong of the chain as a whole, worst first.</param>
/// <param name="Ring">Whether ring and hook match, in a sentence.</param>
/// <param name="RingPasses">True when somebody checked it by hand.</param>
public sealed record ChainSketch(IReadOnlyList<string> Numbers, string For, string? LoadName, double NeedKg, IReadOnlyList<ChainPart> Parts, double? MostLoadKg, IReadOnlyList<string> Remarks, string Ring, bool RingPasses);

/// <summary>A part of a chain.</summary>
/// <param name="Name">Name on the tag.</param>
/// <param name="Kind">Kind.</param>
/// <param name="CarriesKg">What it carries hanging still, kg; of a sling the hardest-pulled leg.</param>
/// <param name="MayCarryKg">What it may carry, kg; null without a mark.</param>
/// <param name="Remark">What is wrong or to be confirmed; empty when nothing is.</param>
/// <param name="Weakest">Reaches its limit first as the load grows.</param>
public sealed record ChainPart(string Name, PartKind Kind, double CarriesKg, double? MayCarryKg, string Remark, bool Weakest);
