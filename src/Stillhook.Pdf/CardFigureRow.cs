using PdfSharp.Drawing;
using Stillhook.Briefing.Printing;

namespace Stillhook.Pdf;

/// <summary>Draws large figures side by side, each in a frame.</summary>
internal static class CardFigureRow
{
    private const double Between = 5, Inset = 5, Gap = 5, LeastSize = 11;

    public static void Draw(CardPages pages, CardFigures row)
    {
        bool many = row.Figures.Count > 2;
        double width = (CardPages.Width - Between * (row.Figures.Count - 1)) / row.Figures.Count, room = width - 2 * Inset;
        double height = row.Figures.Max(f => Height(pages, f, many, room));
        pages.Need(height + Gap);
        for (int i = 0; i < row.Figures.Count; i++)
            Draw(pages, row.Figures[i], many, CardPages.Left + i * (width + Between), width, room, height);
        pages.Down(height + Gap);
    }

    private static void Draw(CardPages pages, CardFigure figure, bool many, double left, double width, double room, double height)
    {
        (XFont label, XFont value, XFont under, XFont more) = Fonts(pages, figure, many, room);
        pages.Graphics.DrawRectangle(CardPages.Frame, left, pages.Y, width, height);
        double y = pages.Y + 2;
        y += pages.At(left + Inset, y, figure.Label, label, room);
        y += pages.At(left + Inset, y, figure.Value, value, room);
        y += pages.At(left + Inset, y, figure.Under, under, room);
        pages.At(left + Inset, y, figure.More, more, room);
    }

    private static double Height(CardPages pages, CardFigure figure, bool many, double room)
    {
        (XFont label, XFont value, XFont under, XFont more) = Fonts(pages, figure, many, room);
        return 5 + pages.HeightOf(figure.Label, label, room) + pages.HeightOf(figure.Value, value, room)
            + (figure.Under.Length > 0 ? pages.HeightOf(figure.Under, under, room) : 0) + (figure.More.Length > 0 ? pages.HeightOf(figure.More, more, room) : 0);
    }

    private static (XFont Label, XFont Value, XFont Under, XFont More) Fonts(CardPages pages, CardFigure figure, bool many, double room)
    {
        double size = many ? 16 : 20;
        while (size > LeastSize && pages.Graphics.MeasureString(figure.Value, PdfFonts.Of(size, bold: true)).Width > room)
            size -= 1;
        return (PdfFonts.Of(8), PdfFonts.Of(size, bold: true), PdfFonts.Of(many ? 8.5 : 14), PdfFonts.Of(8.5));
    }
}
