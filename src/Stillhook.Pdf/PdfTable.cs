using PdfSharp.Drawing;
using Stillhook.Reporting.Printing;

namespace Stillhook.Pdf;

/// <summary>Draws a table over as many pages as it takes, its headings on each.</summary>
internal static class PdfTable
{
    private const double Size = 8, Inset = 3, Between = 7, KeptWhole = 240;

    public static void Draw(PdfPages pages, PrintedTable table)
    {
        double shares = table.Columns.Sum(c => c.Share);
        double[] widths = [.. table.Columns.Select(c => PdfPages.Width * c.Share / shares)];
        XFont plain = PdfFonts.Of(Size), bold = PdfFonts.Of(Size, bold: true);
        string[] headings = [.. table.Columns.Select(c => c.Heading)];
        double whole = 2 * Size + Height(pages, table, headings, widths, bold) + table.Rows.Sum(r => Height(pages, table, r, widths, plain)) + (table.Sum is null ? 0 : 2 * Size);
        pages.Need(whole <= KeptWhole ? whole : Height(pages, table, headings, widths, bold) + 2 * table.Rows.Take(1).Sum(r => Height(pages, table, r, widths, plain)) + 2 * Size);
        Head(table.Caption);
        foreach (IReadOnlyList<string> row in table.Rows)
            Row(row, plain, 0.4);
        if (table.Sum is { } sum)
            Row(sum, bold, 0);
        pages.Down(8);

        void Head(string caption)
        {
            pages.Lines(caption, bold, XBrushes.Black);
            Cells(pages, table, headings, widths, bold, 1.1);
        }

        void Row(IReadOnlyList<string> row, XFont font, double line)
        {
            if (pages.Need(Height(pages, table, row, widths, font)))
                Head(table.Caption + " (continued)");
            Cells(pages, table, row, widths, font, line);
        }
    }

    private static void Cells(PdfPages pages, PrintedTable table, IReadOnlyList<string> cells, double[] widths, XFont font, double line)
    {
        double x = PdfPages.Left, height = Height(pages, table, cells, widths, font);
        for (int i = 0; i < cells.Count; i++)
        {
            IReadOnlyList<string> lines = PdfWrap.Lines(pages.Graphics, cells[i], font, Room(table, i, widths));
            for (int n = 0; n < lines.Count; n++)
            {
                double room = table.Columns[i].ToTheRight ? widths[i] - Inset - pages.Graphics.MeasureString(lines[n], font).Width : LeftInset(table, i);
                pages.Graphics.DrawString(lines[n], font, XBrushes.Black, x + room, pages.Y + Inset - 1 + n * PdfWrap.LineHeight(font) + font.Size);
            }
            x += widths[i];
        }
        pages.Down(height);
        if (line > 0)
            pages.Graphics.DrawLine(new XPen(XColors.Black, line), PdfPages.Left, pages.Y, PdfPages.Left + PdfPages.Width, pages.Y);
    }

    // Words that follow numbers set to the right stand off from them.
    private static double LeftInset(PrintedTable table, int i) => i > 0 && table.Columns[i - 1].ToTheRight && !table.Columns[i].ToTheRight ? Between : Inset;

    private static double Room(PrintedTable table, int i, double[] widths) => widths[i] - Inset - LeftInset(table, i);

    private static double Height(PdfPages pages, PrintedTable table, IReadOnlyList<string> cells, double[] widths, XFont font) =>
        cells.Select((c, i) => PdfWrap.Lines(pages.Graphics, c, font, Room(table, i, widths)).Count).Max() * PdfWrap.LineHeight(font) + 2 * (Inset - 1);
}
