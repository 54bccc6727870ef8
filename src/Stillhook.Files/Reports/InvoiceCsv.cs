using System.Globalization;
using Stillhook.Reporting;

namespace Stillhook.Files.Reports;

/// <summary>The invoice lines as a table, without taxes; what is to be agreed has no amount.</summary>
public static class InvoiceCsv
{
    /// <summary>Writes the table.</summary>
    public static void Write(Stream stream, CustomerReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        string currency = report.Invoice.Currency is { } c ? "_" + Part(c) : "";
        string[] headings = ["line", "for", "quantity", "quantity_unit", "unit_price" + currency, "amount" + currency];
        CsvTable.Write(stream, [headings, .. report.Invoice.Lines.Select((l, i) => Row(i + 1, l))]);
    }

    private static string[] Row(int number, InvoiceLine l) => [number.ToString(CultureInfo.InvariantCulture), l.Text, Text(l.Quantity), l.Unit, Text(l.UnitPrice), Text(l.Amount)];

    private static string Text(decimal? value) => value?.ToString("0.00####", CultureInfo.InvariantCulture) ?? "";

    private static string Part(string currency) => new([.. currency.Where(char.IsLetterOrDigit).Take(12)]);
}
