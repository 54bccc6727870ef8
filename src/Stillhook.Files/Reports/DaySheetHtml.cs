using System.Text;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;

namespace Stillhook.Files.Reports;

/// <summary>The day sheet as HTML: a file of its own that needs nothing else, or its inside for another page.</summary>
public static class DaySheetHtml
{
    /// <summary>Writes the sheet, UTF-8.</summary>
    /// <param name="stream">Where to; left open.</param>
    /// <param name="sheet">The sheet.</param>
    public static void Write(Stream stream, DaySheet sheet)
    {
        ArgumentNullException.ThrowIfNull(stream);
        stream.Write(Encoding.UTF8.GetBytes(PrintedHtml.Page(DayPrint.Of(sheet))));
    }

    /// <summary>The sheet without the frame of a page and without its title: one element of the class 'printed', whose looks are <see cref="PrintedHtml.Looks"/>.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="headingLevel">Level of its headings, 2 or 3: one below the heading that it stands under.</param>
    public static string Inner(DaySheet sheet, int headingLevel = 2) => PrintedHtml.Inner(DayPrint.Of(sheet), headingLevel);
}
