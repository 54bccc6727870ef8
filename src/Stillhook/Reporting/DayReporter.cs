using Stillhook.Planning;
using Stillhook.Recording;

namespace Stillhook.Reporting;

/// <summary>Makes the day sheet from what is kept of a day.</summary>
public static class DayReporter
{
    /// <summary>The day sheet. A pure function of the day and the rules.</summary>
    /// <param name="work">The day.</param>
    /// <param name="rules">Windows, tolerances, rules; null for the defaults.</param>
    public static DaySheet Report(DayWork work, DayRules? rules = null)
    {
        ArgumentNullException.ThrowIfNull(work);
        rules ??= DayRules.Default;
        PolicyInForce policy = new(work.Job ?? new());
        FlownTime flown = FlownTime.Of(work.Flights);
        LiftTotals totals = LiftTotals.Of(work.Lifts, flown, rules.PaceLifts, rules.PaceS);
        FuelUse fuel = FuelUse.Of(work.Fuel, work.Lifts, flown);
        TimeSplit? time = TimeSplit.Of(work, rules.Day);
        IReadOnlyList<BreakClock> breaks = BreakClock.Of(work.Flights, work.TimeMarks, policy.BreakAfterMinutes.Value * 60, policy.BreakMinutes.Value * 60);
        IReadOnlyList<PartRule> partRules = [.. work.Job?.Policy?.PartRules ?? [], .. rules.PartRules];
        IReadOnlyList<PartTally> parts = PartTally.Of(work.Parts, totals, partRules);
        CrewExposure exposure = CrewExposure.Of(work.Lifts);
        Reconciliation reconciliation = Reconciliation.Of(work.Job?.Loads ?? [], work.Tally, work.Lifts, rules.Match);
        return new()
        {
            Work = work,
            Rules = rules,
            WriteUps = WriteUp.Of(work),
            Prompts = OccurrencePrompt.Of(work, rules.ReportWithinS),
            Exposure = exposure,
            Breaks = breaks,
            Duty = DutyCheck.Of(work, policy, breaks),
            Totals = totals,
            Reconciliation = reconciliation,
            Parts = parts,
            PartsNotCounted = PartTally.WithoutPart(work.Parts, partRules),
            Fuel = fuel,
            Time = time,
            Pairs = SameSpotPair.Of(work),
            Figures = DayFigures.Of(work, policy, totals, fuel, time, breaks, parts, exposure),
            Findings = [.. Missing(work, totals), .. fuel.Findings, .. time?.Findings ?? []],
        };
    }

    private static IEnumerable<Finding> Missing(DayWork work, LiftTotals totals)
    {
        if (totals.Lifts > 0 && totals.FlownS <= 0)
            yield return new(Severity.Warning, "no-flight-time", null, 1, "Lifts are kept and no time in the air: lifts per hour are not known.", "Upload the day's record, or enter the flights.");
        if (totals.Lifts > totals.LiftsWithMass)
            yield return new(Severity.Note, "mass-unknown", null, totals.Lifts - totals.LiftsWithMass, FormattableString.Invariant($"{totals.Lifts - totals.LiftsWithMass} lifts have no known mass."), "They are not in the sum of masses; give them their load number.");
        if (work.Tally.Count == 0 && totals.Lifts > 0)
            yield return new(Severity.Note, "no-tally", null, 1, "No crew tally is entered.", "Every lift of the record stands as odd until it is.");
        if (work.Parts.Count == 0)
            yield return new(Severity.Note, "no-parts", null, 1, "No parts with their counts are entered.", "Hook, line and rigging are not counted on.");
    }
}
