using Stillhook.Planning;

namespace Stillhook.Reporting;

/// <summary>Breaks, flying and duty of a day against the operator's rules: what the entries say, for a person to judge.</summary>
/// <remarks>Rest is from the last end of duty kept of the day before, on whatever aircraft, to the first reporting of this day; docs/method/day.md.</remarks>
public static class DutyCheck
{
    /// <summary>The items, the worst first.</summary>
    public static IReadOnlyList<CheckItem> Of(DayWork work, PolicyInForce policy, IReadOnlyList<BreakClock> clocks)
    {
        ArgumentNullException.ThrowIfNull(work);
        ArgumentNullException.ThrowIfNull(policy);
        ArgumentNullException.ThrowIfNull(clocks);
        List<CheckItem> items = [];
        foreach (BreakClock clock in clocks)
        {
            items.AddRange(Breaks(work, clock));
            items.Add(Flying(clock, policy.FlyingPerDayMinutes.Value * 60));
        }
        items.AddRange(work.Duty.GroupBy(d => d.Person).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => DutyDay(work, g.Key, [.. g.Select(d => d.When)], policy.DutyDayMinutes.Value * 60)));
        items.AddRange(work.Duty.GroupBy(d => d.Person).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => Rest(work, g.Key, [.. g.Select(d => d.When).Where(StretchSet.IsReal)], policy)).OfType<CheckItem>());
        if (work.Duty.Count == 0)
            items.Add(new(CheckVerdict.ToConfirm, "duty-not-entered", "policy.dutyDay", "crew", "No duty times are entered: the length of the duty day is not judged.", CheckItem.CommonPractice));
        return [.. items.OrderByDescending(i => i.Verdict)];
    }

    private static IEnumerable<CheckItem> Breaks(DayWork work, BreakClock clock)
    {
        string who = Who(clock), rule = $"{DayText.Hours(clock.LengthS)} after {DayText.Hours(clock.AfterS)} of flying; hot refuelling is no break";
        foreach (BreakDue due in clock.Due)
        {
            string taken = due.TakenAtS is { } t ? $"taken from {DayText.Clock(work, t)}, {DayText.Hours(t - due.DueAtS)} after it was due" : "no break followed";
            string over = due.FlownOverS > 0.5 ? $"; {DayText.Hours(due.FlownOverS)} flown past it" : "; nothing flown past it";
            yield return new(due.FlownOverS > 0.5 ? CheckVerdict.Fails : CheckVerdict.Passes, "break-due", "policy.breakAfter", who, $"Break due at {DayText.Clock(work, due.DueAtS)} ({rule}): {taken}{over}.", "BARS");
        }
        if (clock.Due.Count == 0)
            yield return new(CheckVerdict.Passes, "break-not-due", "policy.breakAfter", who, $"No break fell due ({rule}): at most {DayText.Hours(clock.LongestS)} flown without one.", "BARS");
        foreach (Stretch ground in clock.Unmarked.Where(_ => clock.Due.Count > 0))
            yield return new(CheckVerdict.ToConfirm, "break-unmarked", "policy.break", who,
                $"On the ground from {DayText.Clock(work, ground.FromS)} to {DayText.Clock(work, ground.ToS)}, not marked as a break and not counted as one. If it was one, mark it.", "BARS");
    }

    private static CheckItem Flying(BreakClock clock, double mostS) => new(
        clock.FlownS > mostS ? CheckVerdict.Fails : CheckVerdict.Passes, "flying-per-day", "policy.flyingPerDay", Who(clock),
        $"Flown {DayText.Hours(clock.FlownS)} of at most {DayText.Hours(mostS)} a day.", "PNW-2007");

    private static CheckItem DutyDay(DayWork work, string person, Stretch[] spells, double mostS)
    {
        Stretch[] real = [.. spells.Where(StretchSet.IsReal)];
        if (real.Length < spells.Length)
            return new(CheckVerdict.ToConfirm, "duty-times", "policy.dutyDay", person, "Duty times that end before they start or are missing: the duty day is not judged.", CheckItem.CommonPractice);
        Stretch day = new(real.Min(s => s.FromS), real.Max(s => s.ToS));
        return new(day.LengthS > mostS ? CheckVerdict.Fails : CheckVerdict.Passes, "duty-day", "policy.dutyDay", person,
            $"On duty {DayText.Clock(work, day.FromS)} to {DayText.Clock(work, day.ToS)}, {DayText.Hours(day.LengthS)} of at most {DayText.Hours(mostS)}, pauses counted in.", "PNW-2007");
    }

    private static CheckItem? Rest(DayWork work, string person, Stretch[] today, PolicyInForce policy)
    {
        if (today.Length == 0)
            return null;
        double fromS = today.Min(s => s.FromS), leastS = policy.RestMinutes.Value * 60;
        Stretch[] before = [.. work.DutyBefore.Where(d => d.Person == person).Select(d => d.When).Where(s => StretchSet.IsReal(s) && s.FromS < fromS)];
        if (before.Length == 0)
            return new(CheckVerdict.ToConfirm, "rest-not-known", policy.RestMinutes.Where, person, "No duty of the day before is kept: the rest before this day is not judged.", policy.RestSource);
        double restS = Math.Max(0, fromS - before.Max(s => s.ToS));
        return new(restS < leastS ? CheckVerdict.Fails : CheckVerdict.Passes, "rest", policy.RestMinutes.Where, person,
            $"Off duty for {DayText.Hours(restS)} before reporting at {DayText.Clock(work, fromS)}; at least {DayText.Hours(leastS)} asked for.", policy.RestSource);
    }

    private static string Who(BreakClock clock) => clock.Pilot ?? "pilot not named";
}
