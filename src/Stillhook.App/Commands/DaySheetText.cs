using Stillhook.Reporting;
using Stillhook.Reporting.Printing;

namespace Stillhook.App.Commands;

/// <summary>The day sheet as a person reads it in a terminal.</summary>
internal sealed class DaySheetText(TextWriter output, DaySheet sheet)
{
    private DayWork Work => sheet.Work;

    /// <summary>Writes the sheet.</summary>
    public void Write()
    {
        foreach (string caution in sheet.Cautions)
            output.WriteLine(caution);
        output.WriteLine();
        output.WriteLine(Invariant($"Day sheet of {Work.Day:yyyy-MM-dd}{(Work.Job?.Job is { } job ? ", " + job : "")}"));
        WriteTotals();
        foreach (WriteUp w in sheet.WriteUps)
            output.WriteLine($"  WRITE UP: {w.Facts} {WriteUp.Words}");
        foreach (OccurrencePrompt p in sheet.Prompts)
            output.WriteLine($"  LOOK AT: {Clock(p.AtS)} {p.What}. {p.Words} {string.Join(" ", p.Facts)}");
        foreach (var item in sheet.ToLookAt)
            output.WriteLine($"  {(item.Colour == Planning.CheckColour.Red ? "LOOK AT" : "to confirm")}: {item.Subject}: {item.Text}");
        output.WriteLine();
        WriteReconciliation();
        WriteParts();
        WriteTime();
        foreach (Correction c in Work.Corrections)
            output.WriteLine($"  put right by {c.By}: {c.Of} was {c.Old}, is {c.New}.{(c.Why is { } why ? " " + why : "")}");
        foreach (var finding in sheet.Findings)
            output.WriteLine($"  note: {finding.What} {finding.Done}");
        WriteCorrections();
    }

    private void WriteCorrections()
    {
        if (Work.Corrections.Count == 0)
        {
            output.WriteLine(Invariant($"  Nothing was corrected. To correct a lift: stillhook correct {Work.Day:yyyy-MM-dd}"));
            return;
        }
        output.WriteLine("Corrected");
        foreach (Correction c in Work.Corrections)
            output.WriteLine($"  {CorrectionText.Lift(c)}, {CorrectionText.Of(c, Work)}");
    }

    private void WriteTotals()
    {
        LiftTotals t = sheet.Totals;
        output.WriteLine(Invariant($"  {t.Lifts} lifts, {t.CarriedKg / 1000:0.0} t ({t.LiftsWithMass} with a mass, {t.LiftsMeasured} weighed in flight), {t.FlownS / 3600:0.0} h in the air{(t.PerHour is { } rate ? Invariant($", {rate:0.0} lifts an hour") : "")}."));
        if (t.Pace.Count > 0 && t.Pace[^1].OfLastLifts is { } last)
            output.WriteLine(Invariant($"  Over the last {t.WindowLifts} lifts {last:0.0} an hour."));
        if (sheet.Fuel.UsedKg is { } used)
            output.WriteLine(Invariant($"  Fuel used {used:0} kg{(sheet.Fuel.PerLiftKg is { } each ? Invariant($", {each:0.0} kg a lift") : "")}."));
        if (sheet.Exposure.Seconds is { } seconds)
            output.WriteLine(Invariant($"  Seconds with a load over people: {seconds:0}."));
        foreach (BreakClock clock in sheet.Breaks)
            foreach (BreakDue due in clock.Due)
                output.WriteLine("  " + DayWords.Due(Work, due));
    }

    private void WriteReconciliation()
    {
        Reconciliation r = sheet.Reconciliation;
        output.WriteLine(DayWords.Counts(r));
        if (DayWords.ByTurn(r) is { } byTurn)
            output.WriteLine("  " + byTurn);
        foreach (ReconciledLift odd in r.Odd)
            output.WriteLine($"  odd: load {odd.LoadNumber ?? "without a number"}{(odd.AtS is { } at ? ", " + Clock(at) : "")}: known to {odd.KnownTo}");
        if (r.Odd.Count == 0)
            output.WriteLine("  All of them agree.");
        output.WriteLine();
    }

    private void WriteParts()
    {
        if (sheet.Parts.Count == 0)
            return;
        output.WriteLine("Counts for maintenance");
        TextTable table = new TextTable("Part", "Lifts before", "This day", "To date", "Hours to date").Words(0);
        foreach (PartTally p in sheet.Parts)
            table.Add(p.Part.Name, Invariant($"{p.Part.Cycles}"), Invariant($"{p.LiftsThisDay}"), Invariant($"{p.LiftsToDate}"), Invariant($"{p.HoursToDate:0.0}"));
        table.Write(output, "  ");
        output.WriteLine();
    }

    private void WriteTime()
    {
        if (sheet.Time is not { } time)
            return;
        output.WriteLine($"Time from {Clock(time.Day.FromS)} to {Clock(time.Day.ToS)}: {time.TotalMinutes} min");
        foreach ((TimeUse use, int minutes) in time.Minutes.Where(m => m.Value > 0).OrderBy(m => m.Key))
            output.WriteLine($"  {TimeSplit.UseWords(use)}: {minutes} min");
        output.WriteLine();
    }

    private string Clock(double timeS) => DayText.Clock(Work, timeS);

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
