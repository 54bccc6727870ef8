using System.Globalization;
using Stillhook.Planning;

namespace Stillhook.Reporting.Printing;

/// <summary>Lays the day sheet out in parts, in the order in which a chief pilot reads it.</summary>
public static class DayPrint
{
    /// <summary>The sheet.</summary>
    public static PrintedReport Of(DaySheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        string day = ReportWords.Day(sheet.Work.Day), job = sheet.Work.Job?.Job ?? "no job entered";
        return new($"Day sheet of {day}", string.Join(", ", Aircraft(sheet).Prepend(job)), DatedAt(sheet.Work), $"Day sheet {day}, {job}",
        [
            new PrintedParagraph(DaySheet.HeadCaution, IsCaution: true),
            new PrintedFacts([.. Facts(sheet)]),
            .. WriteUps(sheet),
            .. ToLookAt(sheet),
            .. Prompts(sheet),
            .. Pace(sheet),
            .. Time(sheet),
            .. Duty(sheet),
            .. Reconciled(sheet.Work, sheet.Reconciliation),
            .. Parts(sheet),
            .. Lifts(sheet),
            .. Corrections(sheet.Work),
            .. Notes(sheet),
        ]);
    }

    private static IEnumerable<string> Aircraft(DaySheet sheet) => sheet.Work.Flights.Select(f => f.Aircraft).Append(sheet.Work.Job?.Aircraft?.Name).OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase);

    // Dated by the work: the same day gives the same bytes whenever it is printed.
    private static DateTimeOffset DatedAt(DayWork work)
    {
        double[] times = [.. work.Flights.Select(f => f.Recorded.ToS).Concat(work.Lifts.Select(CountedLift.TimeS).OfType<double>()).Concat(work.TimeMarks.Select(m => m.When.ToS)).Concat(work.Duty.Select(d => d.When.ToS)).Where(double.IsFinite)];
        return times.Length > 0 ? work.Clock(times.Max()) : new(work.Day, TimeOnly.MinValue, TimeSpan.Zero);
    }

    private static IEnumerable<(string Name, string Value)> Facts(DaySheet sheet)
    {
        LiftTotals t = sheet.Totals;
        yield return ("Lifts", Text($"{t.Lifts}"));
        yield return ("Mass carried", Text($"{DayWords.Tonnes(t.CarriedKg)} ({t.LiftsWithMass} with a mass, {t.LiftsMeasured} weighed in flight)"));
        yield return ("Time in the air", Text($"{DayWords.Hours(t.FlownS)} ({ReportWords.Time(t.FlownS)})"));
        if (t.PerHour is { } rate)
            yield return ("Lifts an hour flown", Text($"{rate:0.0}{(t.Pace.Count > 0 && t.Pace[^1].OfLastLifts is { } last ? Text($"; over the last {t.WindowLifts} lifts {last:0.0}") : "")}"));
        if (sheet.Fuel.UsedKg is { } used)
            yield return ("Fuel used", Text($"{used:0} kg{(sheet.Fuel.PerLiftKg is { } each ? Text($", {each:0.0} kg a lift") : "")}{(sheet.Fuel.PerHourKg is { } hourly ? Text($", {hourly:0} kg an hour flown, ground running in it") : "")}"));
        if (sheet.Exposure.Seconds is { } seconds)
            yield return ("Seconds with a load over people", Text($"{seconds:0}; the aim is none{(sheet.Exposure.LiftsUnknown > 0 ? Text($"; not known of {sheet.Exposure.LiftsUnknown} lifts") : "")}"));
        if (sheet.Work.Flights.Select(f => f.Pilot).OfType<string>().Distinct().ToList() is { Count: > 0 } pilots)
            yield return ("Flown by", string.Join(", ", pilots));
    }

    private static IEnumerable<PrintedPart> WriteUps(DaySheet sheet)
    {
        yield return new PrintedHeading("Write up");
        if (sheet.WriteUps.Count == 0)
        {
            yield return new PrintedParagraph("No recorded value beyond an entered limit. What was not recorded, or has no limit entered, is not seen here.");
            yield break;
        }
        yield return new PrintedParagraph($"{WriteUp.Words} {DaySheet.WriteUpCaution}", IsCaution: true);
        yield return new PrintedList([.. sheet.WriteUps.Select(w => $"{w.Facts}{(w.Lift is { } lift ? Text($" Lift {lift.Number}{(lift.LoadNumber is { } n ? ", load " + n : "")}.") : "")}")]);
    }

    private static IEnumerable<PrintedPart> ToLookAt(DaySheet sheet) => sheet.ToLookAt.Count == 0 ? [] :
    [
        new PrintedHeading("For a person to look at"),
        new PrintedTable("Breaks, duty, parts", [new("State", 10), new("About", 20), new("What", 50), new("Rule from", 20)], [.. sheet.ToLookAt.Select(Row)]),
    ];

    private static string[] Row(CheckItem i) => [DayWords.Of(i), i.Subject, i.Text, i.Source];

    private static IEnumerable<PrintedPart> Prompts(DaySheet sheet) => sheet.Prompts.Count == 0 ? [] :
    [
        new PrintedHeading("What may have to be reported"),
        new PrintedParagraph(DaySheet.OccurrenceCaution, IsCaution: true),
        new PrintedTable("Facts only", [new("Time", 9), new("What", 20), new("Facts", 41), new("What to do", 30)],
            [.. sheet.Prompts.Select(p => new[] { DayText.Clock(sheet.Work, p.AtS), p.What, string.Join(" ", p.Facts.Select(Sentence)), p.Words })]),
    ];

    // A crew's remark may lack its full stop.
    private static string Sentence(string fact) => fact is [.., '.' or '!' or '?'] ? fact : fact + ".";

    private static IEnumerable<PrintedPart> Pace(DaySheet sheet) => PacePicture.Of(sheet) is not { } picture ? [] :
    [
        new PrintedHeading("Lifts per hour"), new PrintedParagraph(DaySheet.PaceCaution, IsCaution: true), picture,
    ];

    private static IEnumerable<PrintedPart> Time(DaySheet sheet)
    {
        if (sheet.Time is not { } time)
            yield break;
        yield return new PrintedHeading("How the time went");
        yield return new PrintedParagraph(Text($"From {DayText.Clock(sheet.Work, time.Day.FromS)} to {DayText.Clock(sheet.Work, time.Day.ToS)}: {time.TotalMinutes} min{(time.UnmarkedS >= 30 ? Text($", {time.UnmarkedS / 60:0} min of them not noted what for") : "")}."));
        yield return TimePicture.Of(sheet.Work, time);
        string[] notes = [.. time.Stretches.Where(s => s.Use != TimeUse.Flown && !string.IsNullOrWhiteSpace(s.Note)).Select(s => $"{DayText.Clock(sheet.Work, s.When.FromS)} to {DayText.Clock(sheet.Work, s.When.ToS)}, {TimeSplit.UseWords(s.Use)}: {s.Note!.Trim()}")];
        if (notes.Length > 0)
            yield return new PrintedList(notes);
    }

    private static IEnumerable<PrintedPart> Duty(DaySheet sheet)
    {
        yield return new PrintedHeading("Duty and breaks");
        if (sheet.Breaks.Count > 0)
            yield return new PrintedTable("Flying and breaks by the clock", [new("Pilot", 22), new("Flown", 14, ToTheRight: true), new("Longest without a break", 20, ToTheRight: true), new("Since the last break", 18, ToTheRight: true), new("Breaks due", 26)],
                [.. sheet.Breaks.Select(b => new[] { b.Pilot ?? "pilot not named", DayText.Hours(b.FlownS), DayText.Hours(b.LongestS), DayText.Hours(b.SinceBreakS), b.Due.Count == 0 ? "none fell due" : string.Join(" ", b.Due.Select(d => DayWords.Due(sheet.Work, d))) })]);
        CheckItem[] passed = [.. sheet.Duty.Where(i => i.Verdict == CheckVerdict.Passes)];
        if (passed.Length > 0)
            yield return new PrintedTable("In order by what was entered", [new("State", 10), new("About", 20), new("What", 50), new("Rule from", 20)], [.. passed.Select(Row)]);
    }

    private static IEnumerable<PrintedPart> Reconciled(DayWork work, Reconciliation r)
    {
        yield return new PrintedHeading("Plan, tally, record");
        yield return new PrintedParagraph(DayWords.Counts(r) + (r.Odd.Count == 0 ? ": all of them agree." : "."));
        if (DayWords.ByTurn(r) is { } byTurn)
            yield return new PrintedParagraph(byTurn);
        ReconciledLift[] differ = [.. r.Rows.Where(row => row.NumbersDiffer)];
        if (r.Odd.Count > 0)
            yield return new PrintedTable("Lifts that not all three know", [new("Known to", 30), new("Lifts", 8, ToTheRight: true), new("Load and time", 62)],
                [.. r.Odd.GroupBy(o => o.KnownTo).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => new[] { g.Key, Text($"{g.Count()}"), string.Join(", ", g.Select(o => Load(work, o))) })]);
        if (differ.Length > 0)
            yield return new PrintedList([.. differ.Select(d => $"At {(d.AtS is { } at ? DayText.Clock(work, at) : "a time not known")} the tally says load {d.Tally!.LoadNumber}, the record load {d.Record!.LoadNumber}.")]);
    }

    private static string Load(DayWork work, ReconciledLift o) => $"{o.LoadNumber ?? "no number"}{(o.AtS is { } at ? " at " + DayText.Clock(work, at) : "")}";

    private static IEnumerable<PrintedPart> Parts(DaySheet sheet)
    {
        if (sheet.Parts.Count == 0)
            yield break;
        yield return new PrintedHeading("Counts for maintenance");
        yield return new PrintedTable("Lifts, and hours in use",
            [new("Part", 20), new("Kind", 15), new("Lifts before", 10, ToTheRight: true), new("this day", 8, ToTheRight: true), new("to date", 9, ToTheRight: true), new("Hours before", 10, ToTheRight: true), new("this day", 8, ToTheRight: true), new("to date", 8, ToTheRight: true), new("Rule", 22)],
            [.. sheet.Parts.Select(p => new[] { p.Part.Name, DayWords.Of(p.Part.Kind), Text($"{p.Part.Cycles}"), Text($"{p.LiftsThisDay}"), Text($"{p.LiftsToDate}"), Text($"{p.Part.HoursInUse:0.0}"), Text($"{p.HoursThisDay:0.0}"), Text($"{p.HoursToDate:0.0}"), p.Rules.Count == 0 ? "none entered" : string.Join(" ", p.Rules.Select(r => r.Text)) })]);
    }

    private static IEnumerable<PrintedPart> Lifts(DaySheet sheet)
    {
        yield return new PrintedHeading("Lifts");
        if (sheet.Work.Lifts.Count == 0)
        {
            yield return new PrintedParagraph("No lift is kept.");
            yield break;
        }
        Dictionary<KeptLift, PlannedLoad> planned = new(ReferenceEqualityComparer.Instance);
        foreach (ReconciledLift row in sheet.Reconciliation.Rows)
            if (row is { Plan: { } plan, Record: { } record, By: not MatchedBy.Order })
                planned[record] = plan;
        yield return new PrintedTable("All lifts kept, local time",
            [new("Lift", 6, ToTheRight: true), new("Load", 9), new("What", 17), new("Mass, kg", 8, ToTheRight: true), new("Known by", 10), new("Picked up", 10), new("Set down", 10), new("From", 13), new("To", 13), new("Remark", 14)],
            [.. sheet.Work.Lifts.Select(l => Lift(sheet.Work, l, planned.GetValueOrDefault(l)))],
            ["", "Sum", Text($"{sheet.Totals.Lifts} lifts"), ReportWords.Number(sheet.Totals.CarriedKg, 0), "", "", "", "", "", ""]);
    }

    private static string[] Lift(DayWork work, KeptLift l, PlannedLoad? plan) =>
    [
        Text($"{l.Number}"), plan?.Number ?? l.LoadNumber ?? "-", plan?.Name ?? l.Family ?? "-", l.LoadKg is { } kg ? ReportWords.Number(kg, 0) : "-", DayWords.MassBy(l), Clock(work, l.PickUpTimeS), Clock(work, CountedLift.TimeS(l)),
        l.PickUpSite ?? "-", l.DeliverySite ?? "-", DayWords.Remark(l),
    ];

    private static string Clock(DayWork work, double? timeS) => timeS is { } t && double.IsFinite(t) ? DayText.Clock(work, t) : "-";

    private static IEnumerable<PrintedPart> Corrections(DayWork work) => work.Corrections.Count == 0 ? [] :
    [
        new PrintedHeading("Put right by people"),
        new PrintedTable("The record stays as it was", [new("When", 16), new("By", 14), new("What", 18), new("Was", 16), new("Is", 16), new("Why", 20)],
            [.. work.Corrections.Select(c => new[] { c.At.ToString("yyyy-MM-dd HH:mm zzz", CultureInfo.InvariantCulture), c.By, c.Of, c.Old, c.New, c.Why ?? "not told" })]),
    ];

    private static IEnumerable<PrintedPart> Notes(DaySheet sheet) => sheet.Findings.Count == 0 ? [] : [new PrintedHeading("About the figures"), new PrintedList([.. sheet.Findings.Select(f => $"{f.What} {f.Done}")])];

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
