using Stillhook.Planning;
using Stillhook.Recording;

namespace Stillhook.Reporting;

/// <summary>The day sheet: what came of a working day of one aircraft, in the order in which a chief pilot reads it. Made by <see cref="DayReporter"/>.</summary>
public sealed record DaySheet
{
    /// <summary>Said at its head.</summary>
    public const string HeadCaution = "The figures are from a recorder and from what the crew wrote, and may be wrong; correct them here.";

    /// <summary>Said beside exceedances.</summary>
    public const string WriteUpCaution = "Do not fly on until written up and checked.";

    /// <summary>Said beside time and pace.</summary>
    public const string PaceCaution = "Safety stops are not chargeable pressure. Lifts per hour are for maintenance counts, not a mark to beat.";

    /// <summary>Said beside occurrences.</summary>
    public const string OccurrenceCaution = "A prompt, not a finding: what has to be reported, to whom and by when is the local authority's rule.";

    /// <summary>The day it is of.</summary>
    public required DayWork Work { get; init; }

    /// <summary>Rules it was made by.</summary>
    public required DayRules Rules { get; init; }

    /// <summary>Exceedances, to be written up.</summary>
    public required IReadOnlyList<WriteUp> WriteUps { get; init; }

    /// <summary>What may have to be reported.</summary>
    public required IReadOnlyList<OccurrencePrompt> Prompts { get; init; }

    /// <summary>Time of loads over people.</summary>
    public required CrewExposure Exposure { get; init; }

    /// <summary>Flying against the break rule, one clock a pilot.</summary>
    public required IReadOnlyList<BreakClock> Breaks { get; init; }

    /// <summary>Breaks, flying and duty against the rules, the worst first.</summary>
    public required IReadOnlyList<CheckItem> Duty { get; init; }

    /// <summary>Lifts, mass, hours, lifts per hour.</summary>
    public required LiftTotals Totals { get; init; }

    /// <summary>Plan, tally and record against each other.</summary>
    public required Reconciliation Reconciliation { get; init; }

    /// <summary>Lifts and hours of hook, line and every part.</summary>
    public required IReadOnlyList<PartTally> Parts { get; init; }

    /// <summary>Rules for which nobody keeps a count.</summary>
    public required IReadOnlyList<CheckItem> PartsNotCounted { get; init; }

    /// <summary>Fuel used.</summary>
    public required FuelUse Fuel { get; init; }

    /// <summary>How the time went; null when no time is known at all.</summary>
    public TimeSplit? Time { get; init; }

    /// <summary>Two deliveries to one spot side by side.</summary>
    public required IReadOnlyList<SameSpotPair> Pairs { get; init; }

    /// <summary>Every figure with its working.</summary>
    public required FigureBook Figures { get; init; }

    /// <summary>What was left out, is missing or contradicts itself.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>Cautions that belong on this sheet, the head one first.</summary>
    public IReadOnlyList<string> Cautions =>
    [
        HeadCaution,
        .. WriteUps.Count > 0 ? [WriteUpCaution] : Array.Empty<string>(),
        .. Prompts.Count > 0 ? [OccurrenceCaution] : Array.Empty<string>(),
        PaceCaution,
    ];

    /// <summary>Checks that somebody must look at, the worst first.</summary>
    public IReadOnlyList<CheckItem> ToLookAt =>
        [.. Duty.Concat(Parts.SelectMany(p => p.Rules)).Concat(PartsNotCounted).Where(i => i.Verdict != CheckVerdict.Passes).OrderByDescending(i => i.Verdict).ThenByDescending(i => i.Red)];
}
