using PdfSharp.Drawing;
using Stillhook.Briefing.Printing;

namespace Stillhook.Pdf;

/// <summary>Draws a card's table over as many pages as it takes, its headings on each.</summary>
internal static class CardTableRows
{
    private const double Inset = 3, HeadSize = 7.5, Lead = 1.5;

    private static readonly XBrush Shade = new XSolidBrush(XColor.FromArgb(0xe8, 0xe8, 0xe8));

    public static void Draw(CardPages pages, CardTable table)
    {
        double shares = table.Columns.Sum(c => c.Share);
        double[] widths = [.. table.Columns.Select(c => CardPages.Width * c.Share / shares)];
        CardRow head = new([.. table.Columns.Select(c => c.Heading)]);
        XFont[] headFonts = [.. table.Columns.Select(_ => PdfFonts.Of(HeadSize, bold: true))], fonts = [.. table.Columns.Select(c => CellFont(table.Size, c.Strong))];
        pages.Need(Height(pages, table, head, widths, headFonts) + table.Rows.Take(2).Sum(r => Height(pages, table, r, widths, fonts)));
        Head();
        foreach (CardRow row in table.Rows)
        {
            if (pages.Need(Height(pages, table, row, widths, fonts)))
                Head();
            Cells(pages, table, row, widths, fonts, CardPages.Hair);
        }
        pages.Down(4);

        void Head() => Cells(pages, table, head, widths, headFonts, CardPages.Frame);
    }

    private static XFont CellFont(CardSize size, bool strong) => PdfFonts.Of(size switch { CardSize.Small => 7.5, CardSize.Large => strong ? 19 : 14, _ => 9 }, strong);

    private static bool Spans(CardTable table, CardRow row) => row.Cells.Count == 1 && table.Columns.Count > 1;

    private static void Cells(CardPages pages, CardTable table, CardRow row, double[] widths, XFont[] fonts, XPen line)
    {
        double height = Height(pages, table, row, widths, fonts), x = CardPages.Left;
        if (Spans(table, row))
        {
            XFont bold = PdfFonts.Of(9, bold: true);
            pages.Graphics.DrawRectangle(Shade, CardPages.Left, pages.Y, CardPages.Width, height);
            pages.At(CardPages.Left + Inset, pages.Y + Lead, row.Cells[0], bold, CardPages.Width - 2 * Inset);
        }
        else
        {
            double baseLine = fonts.Max(f => f.Size);
            for (int i = 0; i < row.Cells.Count; x += widths[i++])
                pages.At(x + Inset, pages.Y + Lead + baseLine - fonts[i].Size, row.Cells[i], fonts[i], widths[i] - 2 * Inset, table.Columns[i].ToTheRight);
        }
        pages.Down(height);
        pages.Graphics.DrawLine(line, CardPages.Left, pages.Y, CardPages.Left + CardPages.Width, pages.Y);
    }

    private static double Height(CardPages pages, CardTable table, CardRow row, double[] widths, XFont[] fonts)
    {
        if (Spans(table, row))
            return pages.HeightOf(row.Cells[0], PdfFonts.Of(9, bold: true), CardPages.Width - 2 * Inset) + 2 * Lead;
        double baseLine = fonts.Max(f => f.Size);
        return row.Cells.Select((c, i) => baseLine - fonts[i].Size + pages.HeightOf(c, fonts[i], widths[i] - 2 * Inset)).Max() + 2 * Lead - 1;
    }
}
