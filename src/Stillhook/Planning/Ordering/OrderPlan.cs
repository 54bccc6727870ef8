namespace Stillhook.Planning.Ordering;

/// <summary>The order of the day's loads with its fuel, how good it is known to be, and what is left out.</summary>
public sealed record OrderPlan
{
    /// <summary>The decisions.</summary>
    public required OrderSequence Sequence { get; init; }

    /// <summary>What happens when, step by step, as the simulator worked it out.</summary>
    public required OrderTimeline Timeline { get; init; }

    /// <summary>How the plan came about and what is known of it.</summary>
    public required OrderVerdict Verdict { get; init; }

    /// <summary>
    /// No order of the loads planned can bring the aircraft back to base before this clock minute, under the same rules and on the same grid.
    /// </summary>
    public required double BoundMinute { get; init; }

    /// <summary>Loads that are not in the plan, with the reason and what would make them fit.</summary>
    public required IReadOnlyList<LeftOutLoad> LeftOut { get; init; }

    /// <summary>What else has to be said, such as why the solver's answer was not used.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];

    /// <summary>Time, min, and fuel, kg, that the day takes on top if the entered speeds are held in the middle of a leg and are not means over it; null when the crew said which they are.</summary>
    public (double Minutes, double FuelKg)? SlowEnds { get; init; }

    /// <summary>How much sooner the best order could be at most, as a share of the working time from start to finish; 0 when proven.</summary>
    public double Gap
    {
        get
        {
            double start = Timeline.Steps.Count > 0 ? Timeline.Steps[0].FromMinute : Timeline.FinishMinute;
            double length = Timeline.FinishMinute - start;
            return length > 0 ? Math.Max(0, (Timeline.FinishMinute - BoundMinute) / length) : 0;
        }
    }

    /// <summary>The lifts alone, in order.</summary>
    public IEnumerable<LiftStep> Lifts => Timeline.Steps.OfType<LiftStep>();
}

/// <summary>What is known of a plan.</summary>
public enum OrderVerdict
{
    /// <summary>No order of these loads ends sooner.</summary>
    Proven,

    /// <summary>The solver's deterministic limit was reached: best found, the same input gives the same plan.</summary>
    BestFound,

    /// <summary>The wall clock ended the solver: best found so far, may differ next time.</summary>
    CutOff,

    /// <summary>Found by the search alone; no solver answered.</summary>
    SearchOnly,

    /// <summary>The order that a person set; no better one was looked for.</summary>
    Given,
}

/// <summary>A load that can't be placed.</summary>
/// <param name="Load">Place of the load in the problem's list.</param>
/// <param name="Number">Its number.</param>
/// <param name="Why">The reason, in one sentence.</param>
/// <param name="Remedies">What would make it fit, within all limits; empty when nothing is known.</param>
public sealed record LeftOutLoad(int Load, string Number, string Why, IReadOnlyList<OrderRemedy> Remedies);

/// <summary>One thing that would make a load fit.</summary>
/// <param name="Kind">What kind of change.</param>
/// <param name="Text">The change in words, with its figures.</param>
public sealed record OrderRemedy(RemedyKind Kind, string Text);

/// <summary>What may be changed so that a load fits. Less reserve or more than a limit is no remedy and has no name here.</summary>
public enum RemedyKind
{
    /// <summary>Fly it in parts.</summary>
    Split,

    /// <summary>Hook on with less fuel; the reserve stays.</summary>
    LessFuel,

    /// <summary>Fly it at another hour.</summary>
    CoolerHour,

    /// <summary>Less burn between hook-on and base: fuel nearer to the sites, or a shorter leg.</summary>
    ShorterLeg,

    /// <summary>More time in the day.</summary>
    MoreTime,

    /// <summary>Another load has to be made possible first.</summary>
    OtherLoadFirst,
}
