using System.Globalization;
using Stillhook.Planning;

namespace Stillhook.Reporting.Printing;

/// <summary>Lays the customer's report out in parts.</summary>
public static class CustomerPrint
{
    private const int ShortMinutes = 5;

    /// <summary>On every report.</summary>
    public const string Caution = "The figures come from a flight recorder and the crew's notes and may be wrong. Please tell us what to put right.";

    /// <summary>On every invoice draft.</summary>
    public const string InvoiceCaution = "A draft: an estimate from recorded times, without taxes, to be checked before it is sent. A stop for safety is never a charge and never a reason to press on.";

    /// <summary>The report, with invoice lines only where they are asked for.</summary>
    /// <param name="report">The report.</param>
    /// <param name="withInvoice">Whether the invoice draft stands at its end.</param>
    public static PrintedReport Of(CustomerReport report, bool withInvoice = true)
    {
        ArgumentNullException.ThrowIfNull(report);
        string job = report.Job ?? "Lifting work", days = Days(report.Days);
        return new($"{job}: report of the work", string.Join(", ", new[] { report.Customer is { } c ? "for " + c : null, days }.OfType<string>()), report.UpTo, $"{job}, {days}",
        [
            new PrintedParagraph(Caution, IsCaution: true),
            new PrintedFacts([.. Facts(report)]),
            .. MapPictures.Of(report, ContactPictures.Whole(report)),
            .. ContactPictures.Of(report),
            .. Remarks(report),
            .. LoadsPerHour(report),
            .. PlacedTables(report),
            .. NotPlaced(report),
            .. Time(report),
            .. withInvoice ? Invoice(report.Invoice) : [],
        ]);
    }

    private static string Days(IReadOnlyList<DateOnly> days) => days.Count switch
    {
        1 => ReportWords.Day(days[0]),
        2 => $"{ReportWords.Day(days[0])} and {ReportWords.Day(days[1])}",
        _ => string.Create(CultureInfo.InvariantCulture, $"{ReportWords.Day(days[0])} to {ReportWords.Day(days[^1])} ({days.Count} days)"),
    };

    private static IEnumerable<(string Name, string Value)> Facts(CustomerReport report)
    {
        ReportTotals t = report.Totals;
        yield return ("Loads placed", (t.Planned, t.NotOnList, t.Placed) switch
        {
            (_, _, 0) => "none",
            ( > 0, 0, _) => string.Create(CultureInfo.InvariantCulture, $"{t.PlacedOfPlanned} of {t.Planned} on the list"),
            ( > 0, _, _) => string.Create(CultureInfo.InvariantCulture, $"{t.Placed}: {t.PlacedOfPlanned} of {t.Planned} on the list by their number, {t.NotOnList} whose number is not known or not on the list"),
            _ => string.Create(CultureInfo.InvariantCulture, $"{t.Placed}"),
        });
        yield return ("Mass placed", ReportWords.SumOfMasses(t.MassKg, report.Units) + (t.WithoutMass > 0 ? " (not all masses are known)" : ""));
        yield return ("Time in the air", ReportWords.Time(t.FlightTimeS));
        yield return ("Waiting for the customer", ReportWords.Time(60.0 * report.Standby.Where(s => s.Cause == TimeUse.WaitingOnCustomer).Sum(s => s.Minutes)));
        if (report.Placed.Select(p => p.At).OfType<DateTimeOffset>().ToList() is { Count: > 0 } times)
            yield return ("First and last load placed", $"{Moment(times.Min(), report)} and {Moment(times.Max(), report)}");
        if (report.Aircraft.Count > 0)
            yield return ("Aircraft", string.Join(", ", report.Aircraft));
    }

    private static string Moment(DateTimeOffset at, CustomerReport report) => at.ToString(report.Days.Count > 1 ? "yyyy-MM-dd HH:mm" : "HH:mm", CultureInfo.InvariantCulture);

    private static IEnumerable<PrintedPart> Remarks(CustomerReport report) => report.Remarks.Count > 0 ? [new PrintedHeading("About the figures"), new PrintedList(report.Remarks)] : [];

    private static IEnumerable<PrintedPart> LoadsPerHour(CustomerReport report) => report.LoadsByHour.Count > 0 ? [new PrintedHeading("Loads placed in each hour"), HourPicture.Of(report.LoadsByHour)] : [];

    private static IEnumerable<PrintedPart> PlacedTables(CustomerReport report)
    {
        yield return new PrintedHeading("Loads placed");
        if (report.Placed.Count == 0)
            yield return new PrintedParagraph("No load was placed.");
        PrintedColumn[] columns =
        [
            new("Load", 9), new("What", 22), new($"Mass, {ReportWords.MassUnit(report.Units)}", 9, ToTheRight: true), new("Known by", 13), new("Time", 8), new("Site", 20), new("Latitude, °", 12, ToTheRight: true), new("Longitude, °", 12, ToTheRight: true),
        ];
        foreach (IGrouping<DateTime?, PlacedLoad> day in report.Placed.GroupBy(p => p.At?.Date))
        {
            double? massKg = day.Any(p => p.MassKg is not null) ? day.Sum(p => p.MassKg ?? 0) : null;
            string count = string.Create(CultureInfo.InvariantCulture, $"{day.Count()} {(day.Count() == 1 ? "load" : "loads")}");
            yield return new PrintedTable(day.Key is { } d ? ReportWords.Day(DateOnly.FromDateTime(d)) + ", local time" : "Time not known", columns, [.. day.Select(p => Row(p, report.Units))],
                ["Sum", count, ReportWords.Mass(massKg, report.Units), "", "", "", "", ""]);
        }
    }

    private static string[] Row(PlacedLoad p, ShownUnits units) =>
    [
        p.Number ?? "-", p.Name ?? "-", p.MassKg is null ? "-" : ReportWords.Mass(p.MassKg, units), ReportWords.Of(p.MassBy), p.At?.ToString("HH:mm", CultureInfo.InvariantCulture) ?? "-", p.Site ?? "-",
        p.Position is { } a ? ReportWords.Degrees(a.LatitudeDeg) : "-", p.Position is { } b ? ReportWords.Degrees(b.LongitudeDeg) : "-",
    ];

    private static IEnumerable<PrintedPart> NotPlaced(CustomerReport report)
    {
        if (report.NotPlaced.Count == 0)
            yield break;
        yield return new PrintedHeading("Loads not placed");
        yield return new PrintedTable("Of the load list", [new("Load", 9), new("What", 24), new($"Mass, {ReportWords.MassUnit(report.Units)}", 10, ToTheRight: true), new("Was to go to", 20), new("Why", 37)],
            [.. report.NotPlaced.Select(n => new[] { n.Number, n.Name ?? "-", ReportWords.Mass(n.MassKg, report.Units), n.Site ?? "-", n.Why ?? "not told" })]);
    }

    private static IEnumerable<PrintedPart> Time(CustomerReport report)
    {
        yield return new PrintedHeading("How the time went");
        yield return new PrintedTable("Time in the air and stops", [new("For", 50), new("Time", 25, ToTheRight: true), new("Stops", 25, ToTheRight: true)],
        [
            [ReportWords.Of(TimeUse.Flown), ReportWords.Time(report.Totals.FlightTimeS), ""],
            .. report.Standby.Select(s => new[] { ReportWords.Of(s.Cause), ReportWords.Time(60.0 * s.Minutes), s.Stops.ToString(CultureInfo.InvariantCulture) }),
        ]);
        foreach (IGrouping<DateTime, WorkStop> day in report.Stops.GroupBy(s => s.From.Date))
        {
            yield return new PrintedParagraph($"Stops on {ReportWords.Day(DateOnly.FromDateTime(day.Key))}, local time:");
            yield return new PrintedList([.. Sentences([.. day])]);
        }
    }

    /// <summary>A sentence for each stop; short ones that nobody noted, as between two flights, in one.</summary>
    private static IEnumerable<string> Sentences(IReadOnlyList<WorkStop> stops)
    {
        List<WorkStop> small = [.. stops.Where(s => !s.Marked && s.Minutes < ShortMinutes)];
        foreach (WorkStop stop in small.Count > 1 ? stops.Except(small) : stops)
            yield return stop.Sentence;
        if (small.Count > 1)
            yield return string.Create(CultureInfo.InvariantCulture, $"{small.Count} stops of less than {ShortMinutes} min that nobody noted: {small.Sum(s => s.Minutes)} min together.");
    }

    private static IEnumerable<PrintedPart> Invoice(InvoiceDraft invoice)
    {
        string currency = invoice.Currency is { } c ? ", " + c : "";
        yield return new PrintedHeading("Lines for the invoice (draft)");
        yield return new PrintedParagraph(InvoiceCaution, IsCaution: true);
        yield return new PrintedTable("Without taxes", [new("For", 38), new("Quantity", 15, ToTheRight: true), new("Unit", 9), new("Price of one" + currency, 19, ToTheRight: true), new("Amount" + currency, 19, ToTheRight: true)],
            [.. invoice.Lines.Select(l => new[] { l.Text, Quantity(l), l.Unit, l.UnitPrice is { } p ? ReportWords.Money(p) : "not entered", l.Amount is { } a ? ReportWords.Money(a) : l.Quantity is 0 ? "-" : "to be agreed" })],
            ["Sum of the lines with an amount", "", "", "", invoice.Total is { } t ? ReportWords.Money(t) : "-"]);
    }

    private static string Quantity(InvoiceLine line) => line.Quantity is { } q ? q.ToString(line.Unit == "h" ? "F2" : "F0", CultureInfo.InvariantCulture) : ReportWords.NotKnown;
}
