using Stillhook.Reporting;
using Stillhook.Reporting.Printing;

namespace Stillhook.Files.Reports;

/// <summary>Makes the document of a customer's report. Like the report it holds nothing of how the loads were flown or of who flew.</summary>
public static class CustomerReportDocuments
{
    /// <summary>Version of the document's shape.</summary>
    public const int Version = 1;

    /// <summary>Writes the report as JSON, UTF-8. The same report gives the same bytes.</summary>
    public static void Write(Stream stream, CustomerReport report) => PlanJson.Write(stream, Of(report));

    /// <summary>The published schema of the document (JSON Schema 2020-12), from the same types.</summary>
    public static string Schema() => PlanJson.Schema<CustomerReportDocument>();

    /// <summary>The document of a report.</summary>
    public static CustomerReportDocument Of(CustomerReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        ReportTotals t = report.Totals;
        return new(
            "stillhook-report", Version, report.Job, report.Customer, report.Aircraft, report.Days, Second(report.UpTo), [CustomerPrint.Caution, CustomerPrint.InvoiceCaution],
            new(t.Planned, t.PlacedOfPlanned, t.NotOnList, Round(t.MassKg, 1), t.WithoutMass, Round(t.FlightTimeS, 1)),
            [.. report.Sites.Select(s => new ReportSiteDocument(s.Name, PlanJson.Camel(s.Use), Round(s.At.LatitudeDeg, 6), Round(s.At.LongitudeDeg, 6), s.Placed))],
            [.. report.Placed.Select(p => new PlacedLoadDocument(p.Number, p.Name, LiftPlanDocuments.Round(p.MassKg, 1), PlanJson.Camel(p.MassBy), p.At is { } at ? Second(at) : null, p.Site, LiftPlanDocuments.Round(p.Position?.LatitudeDeg, 6), LiftPlanDocuments.Round(p.Position?.LongitudeDeg, 6), p.OnList))],
            [.. report.NotPlaced.Select(n => new LoadNotPlacedDocument(n.Number, n.Name, Round(n.MassKg, 1), n.Site, n.Why))],
            [.. report.Stops.Select(s => new WorkStopDocument(s.From, s.To, s.Minutes, PlanJson.Camel(s.Cause), s.IsBreak, s.Marked, s.Note))],
            [.. report.Standby.Select(s => new StandbyDocument(PlanJson.Camel(s.Cause), s.Minutes, s.Stops))], [.. report.LoadsByHour.Select(h => new HourCountDocument(h.Hour, h.Count))],
            new(report.Invoice.Currency, [.. report.Invoice.Lines.Select(l => new InvoiceLineDocument(PlanJson.Camel(l.Kind), l.Text, l.Quantity, l.Unit, l.UnitPrice, l.Amount))], report.Invoice.Total), report.Remarks);
    }

    private static DateTimeOffset Second(DateTimeOffset time)
    {
        DateTimeOffset half = time.AddMilliseconds(500);
        return half.AddTicks(-(half.Ticks % TimeSpan.TicksPerSecond));
    }

    private static double Round(double value, int digits) => LiftPlanDocuments.Round(value, digits) ?? 0;
}
