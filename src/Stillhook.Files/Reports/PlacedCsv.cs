using System.Globalization;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;

namespace Stillhook.Files.Reports;

/// <summary>The placed loads as a table: a row each, what is not known left empty.</summary>
public static class PlacedCsv
{
    /// <summary>Writes the table; headings carry the units, times are local with their offset from UTC.</summary>
    public static void Write(Stream stream, CustomerReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        string[] headings = ["load", "name", "mass_kg", "mass_known_by", "placed_at_local", "site", "latitude_deg", "longitude_deg", "on_load_list"];
        CsvTable.Write(stream, [headings, .. report.Placed.Select(Row)]);
    }

    private static string[] Row(PlacedLoad p) =>
    [
        CsvTable.Typed(p.Number), CsvTable.Typed(p.Name), p.MassKg is { } kg ? ReportWords.Number(kg, 1) : "", p.MassBy == PlacedMassBy.NotKnown ? "" : CsvTable.Typed(ReportWords.Of(p.MassBy)),
        p.At?.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture) ?? "", CsvTable.Typed(p.Site),
        p.Position is { } a ? ReportWords.Number(a.LatitudeDeg, 6) : "", p.Position is { } b ? ReportWords.Number(b.LongitudeDeg, 6) : "", p.OnList ? "yes" : "no",
    ];
}
