using System.Globalization;
using Stillhook.Planning;

namespace Stillhook.Reporting;

/// <summary>A part's lifts and hours before the day, in it and to date.</summary>
/// <param name="Part">The part with its counts before the day.</param>
/// <param name="LiftsThisDay">Lifts of the day.</param>
/// <param name="HoursThisDay">Flight time of the day, h.</param>
/// <param name="Rules">What the operator's rules for it say, the worst first; empty when none was entered.</param>
public sealed record PartTally(PartCount Part, int LiftsThisDay, double HoursThisDay, IReadOnlyList<CheckItem> Rules)
{
    /// <summary>Share of a limit from which on it is near. Own choice.</summary>
    public const double NearShare = 0.9;

    /// <summary>Lifts to date.</summary>
    public long LiftsToDate => Part.Cycles + LiftsThisDay;

    /// <summary>Flight time in use to date, h.</summary>
    public double HoursToDate => Part.HoursInUse + HoursThisDay;

    /// <summary>Every part of the day, and the day's pace against rules that ask about it.</summary>
    /// <remarks>Each part counts every lift and every hour of the day, also one that was changed at noon: more than true, never less.</remarks>
    /// <param name="parts">Parts with their counts before the day.</param>
    /// <param name="totals">The day's lifts and hours.</param>
    /// <param name="rules">The operator's rules.</param>
    public static IReadOnlyList<PartTally> Of(IReadOnlyList<PartCount> parts, LiftTotals totals, IReadOnlyList<PartRule> rules)
    {
        ArgumentNullException.ThrowIfNull(parts);
        ArgumentNullException.ThrowIfNull(totals);
        ArgumentNullException.ThrowIfNull(rules);
        return [.. parts.Select(p =>
        {
            PartTally plain = new(p, totals.Lifts, totals.FlownS / 3600, []);
            return plain with { Rules = [.. rules.Where(r => Fits(r, p)).SelectMany(r => Judge(plain, r, totals)).OrderByDescending(i => i.Verdict)] };
        })];
    }

    /// <summary>Rules that fit none of the parts: nobody counts for them.</summary>
    public static IReadOnlyList<CheckItem> WithoutPart(IReadOnlyList<PartCount> parts, IReadOnlyList<PartRule> rules)
    {
        ArgumentNullException.ThrowIfNull(parts);
        ArgumentNullException.ThrowIfNull(rules);
        return [.. rules.Where(r => !parts.Any(p => Fits(r, p))).Select(r => new CheckItem(CheckVerdict.ToConfirm, "part-not-counted", "policy.partRules", r.Name ?? PartWords(r.Kind),
            "A rule is entered and no count is kept: enter the part with its lifts and hours so far.", Source(r)))];
    }

    private static bool Fits(PartRule rule, PartCount part) => rule.Name is { } name ? string.Equals(name, part.Name, StringComparison.OrdinalIgnoreCase) : rule.Kind == part.Kind;

    private static IEnumerable<CheckItem> Judge(PartTally tally, PartRule rule, LiftTotals totals)
    {
        if (rule.Lifts is { } lifts)
            yield return Item(tally, rule, "part-lifts", tally.LiftsToDate, lifts, "lifts", "0");
        if (rule.Hours is { } hours)
            yield return Item(tally, rule, "part-hours", tally.HoursToDate, hours, "h in use", "0.0");
        if (rule.LiftsPerHour is { } pace && totals.PerHour is { } flown)
            yield return new(flown > pace ? CheckVerdict.ToConfirm : CheckVerdict.Passes, "lifts-per-hour", "policy.partRules", tally.Part.Name,
                string.Create(CultureInfo.InvariantCulture, $"{flown:0.0} lifts per hour flown this day; the rule speaks of more than {pace:0.##}. {(flown > pace ? "Tell maintenance." : "")}").TrimEnd(), Source(rule));
    }

    private static CheckItem Item(PartTally tally, PartRule rule, string code, double toDate, double most, string unit, string format)
    {
        bool passed = toDate >= most, near = toDate >= NearShare * most;
        string count = string.Create(CultureInfo.InvariantCulture, $"{toDate.ToString(format, CultureInfo.InvariantCulture)} of {most.ToString(format, CultureInfo.InvariantCulture)} {unit}");
        return new(passed ? CheckVerdict.Fails : near ? CheckVerdict.ToConfirm : CheckVerdict.Passes, code, "policy.partRules", tally.Part.Name,
            passed ? $"{count}: the limit is reached. Maintenance decides." : near ? $"{count}: near the limit. Tell maintenance." : $"{count}.", Source(rule));
    }

    private static string Source(PartRule rule) => rule.Source ?? "operator's rule, entered without a source";

    private static string PartWords(PartKind? kind) => kind?.ToString() ?? "part not named";
}
