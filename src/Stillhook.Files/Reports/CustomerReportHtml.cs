using System.Text;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;

namespace Stillhook.Files.Reports;

/// <summary>The customer's report as one HTML file that needs nothing else, on screen and on A4 paper; well-formed as XML too.</summary>
public static class CustomerReportHtml
{
    /// <summary>Writes the report, UTF-8.</summary>
    /// <param name="stream">Where to; left open.</param>
    /// <param name="report">The report.</param>
    /// <param name="withInvoice">Whether the invoice draft stands at its end.</param>
    public static void Write(Stream stream, CustomerReport report, bool withInvoice = true)
    {
        ArgumentNullException.ThrowIfNull(stream);
        stream.Write(Encoding.UTF8.GetBytes(PrintedHtml.Page(CustomerPrint.Of(report, withInvoice))));
    }
}
