using Stillhook.Planning.Checking;
using Stillhook.Planning.Ordering;
using Stillhook.Planning.Papers;
using Stillhook.Planning.Payload;
using Stillhook.Planning.Quoting;
using Stillhook.Planning.Rigging;
using Stillhook.Reporting;

namespace Stillhook.Planning;

/// <summary>The answer for one load.</summary>
public enum LoadVerdict
{
    /// <summary>Lifts at both sites in its place of the order.</summary>
    Lifts,

    /// <summary>Does not lift today as planned.</summary>
    DoesNotLift,

    /// <summary>Can't be judged from what was entered: outside the chart.</summary>
    NotJudged,
}

/// <summary>The power expected to hover a load over a site.</summary>
/// <param name="Site">Where.</param>
/// <param name="GrossKg">Gross mass there, kg.</param>
/// <param name="ChartTorquePercent">Torque from the flight manual's page, %; null without that page or outside it.</param>
/// <param name="ModelTorquePercent">Torque from the calibrated power model, %; null when the power at 100 % torque was not entered.</param>
/// <param name="ModelMarginPercent">Power left in the model, percent of what is available there; null without rotor geometry.</param>
/// <param name="InsideChart">The place is inside the chart that the model was calibrated on.</param>
public sealed record HoverExpected(Site Site, double GrossKg, double? ChartTorquePercent, double? ModelTorquePercent, double? ModelMarginPercent, bool InsideChart)
{
    /// <summary>Density altitude there, m.</summary>
    public double DensityAltitudeM { get; init; }

    /// <summary>Torque as this aircraft was measured to take at that mass and air on flights before, %; null where nothing was measured.</summary>
    public double? MeasuredTorquePercent { get; init; }
}

/// <summary>One load in the plan.</summary>
public sealed record LoadPlan
{
    /// <summary>The load as entered, with its mass to plan for and its kit.</summary>
    public required LoadOnHook OnHook { get; init; }

    /// <summary>The answer.</summary>
    public required LoadVerdict Verdict { get; init; }

    /// <summary>Why, in one sentence.</summary>
    public required string Why { get; init; }

    /// <summary>Its place in the order; null when it has none.</summary>
    public LiftStep? Lift { get; init; }

    /// <summary>The most it may weigh at both sites with the fuel and hour of its lift; for a load without a place, with the least fuel that flies it at the first hour.</summary>
    public LoadPayload? Payload { get; init; }

    /// <summary>When heat stops it.</summary>
    public HotOfDay? Hot { get; init; }

    /// <summary>Power expected over the pick-up and over the delivery.</summary>
    public IReadOnlyList<HoverExpected> Hover { get; init; } = [];

    /// <summary>Every part between hook and load.</summary>
    public required RiggingReport Rigging { get; init; }

    /// <summary>What would make it fit, within all limits.</summary>
    public IReadOnlyList<string> Remedies { get; init; } = [];

    /// <summary>Allowed less the mass to plan for, kg: null when it does not lift.</summary>
    public double? SpareKg => Payload is { } p && Verdict == LoadVerdict.Lifts ? p.Governing.AllowedKg - OnHook.NeedKg : null;
}

/// <summary>The lift plan: can each load be lifted, in which order, with how much fuel, on which rigging, and what limits it.</summary>
public sealed record LiftPlan
{
    /// <summary>What was asked.</summary>
    public required LiftRequest Request { get; init; }

    /// <summary>What is wrong with or missing from the request. With an error among them nothing is planned at all.</summary>
    public required IReadOnlyList<RequestFinding> Findings { get; init; }

    /// <summary>The loads in the order of the list.</summary>
    public IReadOnlyList<LoadPlan> Loads { get; init; } = [];

    /// <summary>Order, fuel and time line; null when nothing can be flown.</summary>
    public OrderPlan? Order { get; init; }

    /// <summary>What the order was found for; null when nothing can be flown. Another order is tried on it.</summary>
    public OrderProblem? Problem { get; init; }

    /// <summary>Names of the sites by their place in the order's own list.</summary>
    public IReadOnlyList<string> OrderSites { get; init; } = [];

    /// <summary>Place of the fuel and base site in <see cref="OrderSites"/>.</summary>
    public int OrderBase { get; init; }

    /// <summary>The air and the day: what a person must look at before the figures can be trusted.</summary>
    public IReadOnlyList<CheckItem> Conditions { get; init; } = [];

    /// <summary>Every site at every clock hour that a load is hooked on in, in their order.</summary>
    public IReadOnlyList<SiteHour> Air { get; init; } = [];

    /// <summary>Wires near the sites.</summary>
    public IReadOnlyList<WireCheck> Wires { get; init; } = [];

    /// <summary>Licences, training, inspections: red first.</summary>
    public PapersReport? Papers { get; init; }

    /// <summary>Hours, fuel and cost as a range.</summary>
    public Quote? Quote { get; init; }

    /// <summary>The interagency load calculation at the more demanding site, when that method is chosen.</summary>
    public InteragencyForm? Form { get; init; }

    /// <summary>How well the power model predicts chart points it has not seen, percent of mass; null when the chart is too small or no rotor was entered.</summary>
    public double? ModelErrorPercent { get; init; }

    /// <summary>Torque measured on flights before against what is expected here; null when too little was measured.</summary>
    public MeasuredHover? MeasuredHover { get; init; }

    /// <summary>The last day flown against those before it; null when there are no two.</summary>
    public HoverDay? LastDay { get; init; }

    /// <summary>Every figure with its working.</summary>
    public FigureBook Figures { get; init; } = new();

    /// <summary>Defaults that were taken because nobody said: figure name and path where to set it.</summary>
    public IReadOnlyList<FigureInput> Defaults { get; init; } = [];

    /// <summary>What a person must look at before the first lift, each once: rigging, wires and papers that fail or are to be confirmed.</summary>
    public IReadOnlyList<CheckItem> ToLookAt =>
    [
        .. Loads.SelectMany(l => l.Rigging.Everything).Concat(Conditions).Concat(Wires.Select(w => w.Item)).Concat(Papers?.Items ?? [])
            .Where(i => i.Verdict != CheckVerdict.Passes).DistinctBy(i => (i.Code, i.Path, i.Subject)).OrderByDescending(i => i.Verdict).ThenByDescending(i => i.Red),
    ];

    /// <summary>True when something was planned.</summary>
    public bool IsPlanned => Loads.Count > 0;

    /// <summary>True when every load lifts. What papers, wires at other sites and conditions say stands in <see cref="ToLookAt"/>.</summary>
    public bool AllLift => IsPlanned && Loads.All(l => l.Verdict == LoadVerdict.Lifts);
}
