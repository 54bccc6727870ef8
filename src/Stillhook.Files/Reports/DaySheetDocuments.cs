using Stillhook.Planning;
using Stillhook.Reporting;

namespace Stillhook.Files.Reports;

/// <summary>Makes the document of a day sheet.</summary>
public static class DaySheetDocuments
{
    /// <summary>Version of the document's shape.</summary>
    public const int Version = 1;

    /// <summary>Writes the sheet as JSON, UTF-8. The same sheet gives the same bytes.</summary>
    public static void Write(Stream stream, DaySheet sheet) => PlanJson.Write(stream, Of(sheet));

    /// <summary>The published schema of the document (JSON Schema 2020-12), from the same types.</summary>
    public static string Schema() => PlanJson.Schema<DaySheetDocument>();

    /// <summary>The document of a sheet.</summary>
    public static DaySheetDocument Of(DaySheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        DayWork work = sheet.Work;
        return new(
            "stillhook-day", Version, work.Day, work.Job?.Job, [.. work.Flights.Select(f => f.Aircraft).Append(work.Job?.Aircraft?.Name).OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase)], sheet.Cautions,
            Totals(sheet.Totals), [.. sheet.Totals.Pace.Select(p => new PaceDocument(p.Lift.FlightId, p.Lift.Number, At(work, p.AtS), Round(p.FlownS, 1), R(p.OfLastLifts, 2), R(p.OfLastTime, 2)))],
            [.. sheet.WriteUps.Select(w => Of(work, w))], [.. sheet.Prompts.Select(p => Of(work, p))], new(R(sheet.Exposure.Seconds, 1), sheet.Exposure.LiftsKnown, sheet.Exposure.LiftsUnknown),
            [.. sheet.Breaks.Select(b => Of(work, b))], [.. sheet.Duty.Select(Check)], Of(work, sheet.Reconciliation), [.. sheet.Parts.Select(Of)], [.. sheet.PartsNotCounted.Select(Check)],
            new(R(sheet.Fuel.UsedKg, 1), Round(sheet.Fuel.TakenOnKg, 1), R(sheet.Fuel.PerLiftKg, 2), R(sheet.Fuel.PerHourKg, 1), Round(sheet.Fuel.UnknownFlownS, 1)),
            sheet.Time is { } time ? Of(work, time) : null, [.. work.Lifts.Select(l => Of(work, l))],
            [.. work.Corrections.Select(c => new CorrectionDocument(c.By, c.At, c.Of, c.Old, c.New, c.Why))],
            [.. sheet.Findings.Select(f => new DayFindingDocument(PlanJson.Camel(f.Severity), f.Code, f.Count, f.What, f.Done))], [.. sheet.Figures.All.Select(f => LiftPlanDocuments.Figure(f, _ => null))]);
    }

    private static DayTotalsDocument Totals(LiftTotals t) => new(t.Lifts, t.LiftsWithMass, t.LiftsMeasured, Round(t.CarriedKg, 1), Round(t.FlownS, 1), R(t.PerHour, 2), t.WindowLifts, t.WindowS);

    private static WriteUpDocument Of(DayWork work, WriteUp w)
    {
        Exceedance e = w.Exceedance;
        return new(PlanJson.Camel(e.Kind), Round(e.Limit, 1), Round(e.Peak, 1), At(work, e.AtS), Round(e.DurationS, 1), w.Flight.Name, w.Lift?.Number, w.Facts, WriteUp.Words);
    }

    private static PromptDocument Of(DayWork work, OccurrencePrompt p) =>
        new(PlanJson.Camel(p.Kind), p.What, At(work, p.AtS), R(p.Where?.LatitudeDeg, 6), R(p.Where?.LongitudeDeg, 6), At(work, p.AwareAtS), At(work, p.ReportByS), p.Facts, p.Words);

    private static BreakDocument Of(DayWork work, BreakClock b) => new(
        b.Pilot, Round(b.FlownS, 1), Round(b.LongestS, 1), Round(b.SinceBreakS, 1), b.AfterS, b.LengthS, [.. b.Due.Select(d => new BreakDueDocument(At(work, d.DueAtS), At(work, d.TakenAtS), Round(d.FlownOverS, 1)))],
        [.. b.Breaks.Select(s => Of(work, s))], [.. b.Unmarked.Select(s => Of(work, s))]);

    private static ReconciliationDocument Of(DayWork work, Reconciliation r) => new(r.Planned, r.Tallied, r.Recorded,
        [.. r.Rows.Select(row => new ReconciledDocument(row.LoadNumber, At(work, row.AtS), row.Plan is not null, row.Tally is not null, row.Record is not null, PlanJson.Camel(row.By), row.NumbersDiffer))]);

    private static PartTallyDocument Of(PartTally p) => new(
        p.Part.Name, PlanJson.Camel(p.Part.Kind), p.Part.Cycles, p.LiftsThisDay, p.LiftsToDate, Round(p.Part.HoursInUse, 2), Round(p.HoursThisDay, 2), Round(p.HoursToDate, 2), [.. p.Rules.Select(Check)]);

    private static DayTimeDocument Of(DayWork work, TimeSplit t)
    {
        int Min(TimeUse use) => t.Minutes[use];
        return new(At(work, t.Day.FromS), At(work, t.Day.ToS), t.TotalMinutes, new(Min(TimeUse.Flown), Min(TimeUse.WaitingOnCustomer), Min(TimeUse.Weather), Min(TimeUse.Fuel), Min(TimeUse.Defect), Min(TimeUse.Other)),
            [.. t.Stretches.Select(s => new TimeStretchDocument(At(work, s.When.FromS), At(work, s.When.ToS), PlanJson.Camel(s.Use), s.Marked, s.IsBreak, s.Note))]);
    }

    private static KeptLiftDocument Of(DayWork work, KeptLift l) => new(
        l.FlightId, l.Number, l.LoadNumber, l.Family, R(l.LoadKg, 1), l.LoadMeasured, At(work, l.PickUpTimeS), At(work, l.DeliveryTimeS), At(work, l.ReleaseTimeS), l.PickUpSite, l.DeliverySite,
        R(l.Delivery?.LatitudeDeg, 6), R(l.Delivery?.LongitudeDeg, 6), R(l.LineM, 1), l.GoArounds, PlanJson.Camel(l.Confidence), l.StruckOut, l.AddedByHand);

    private static CheckDocument Check(CheckItem i) => new(PlanJson.Camel(i.Verdict), i.Code, i.Subject, i.Text, i.Source);

    private static StretchDocument Of(DayWork work, Stretch s) => new(At(work, s.FromS), At(work, s.ToS));

    private static DateTimeOffset At(DayWork work, double timeS) => work.Clock(Math.Round(timeS));

    private static DateTimeOffset? At(DayWork work, double? timeS) => timeS is { } t && double.IsFinite(t) ? At(work, t) : null;

    private static double Round(double value, int digits) => R(value, digits) ?? 0;

    private static double? R(double? value, int digits) => LiftPlanDocuments.Round(value, digits);
}
