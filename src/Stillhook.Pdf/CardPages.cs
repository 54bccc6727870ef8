using System.Globalization;
using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Stillhook.Briefing.Printing;

namespace Stillhook.Pdf;

/// <summary>A5 pages under the pen: the caution stands over each, title and number at each foot.</summary>
internal sealed class CardPages : IDisposable
{
    /// <summary>Left margin, points.</summary>
    public const double Left = 22;

    /// <summary>Width of the text, points: A5 less its margins.</summary>
    public const double Width = 420 - 2 * Left;

    private const double Top = 18, Bottom = 595 - 34, FirstSize = 8, FootSize = 6.8;

    private readonly PdfDocument document;
    private readonly PrintedCard card;

    public CardPages(PdfDocument document, PrintedCard card)
    {
        (this.document, this.card) = (document, card);
        Graphics = Fresh();
    }

    /// <summary>Thin line.</summary>
    public static XPen Hair { get; } = new(XColor.FromArgb(0x77, 0x77, 0x77), 0.5);

    /// <summary>Line of frames.</summary>
    public static XPen Frame { get; } = new(XColors.Black, 1.1);

    /// <summary>The pen of the page.</summary>
    public XGraphics Graphics { get; private set; }

    /// <summary>Top of the next line, points from the top of the page.</summary>
    public double Y { get; private set; }

    /// <summary>Where the first line of a page's own content stands.</summary>
    public double TopOfPage { get; private set; }


    /// <summary>Moves down.</summary>
    public void Down(double points) => Y += points;

    /// <summary>Starts a fresh page when less than a height is left; true when it did.</summary>
    public bool Need(double height)
    {
        if (Y + height <= Bottom || Y <= TopOfPage)
            return false;
        Graphics.Dispose();
        Graphics = Fresh();
        return true;
    }

    /// <summary>Height that words take.</summary>
    public double HeightOf(string text, XFont font, double width = Width) => PdfWrap.Lines(Graphics, text, font, width).Count * PdfWrap.LineHeight(font);

    /// <summary>Words over the whole width, over pages where there are many.</summary>
    public void Lines(string text, XFont font, double indent = 0, Action? mark = null)
    {
        IReadOnlyList<string> lines = PdfWrap.Lines(Graphics, text, font, Width - indent);
        for (int i = 0; i < lines.Count; i++)
        {
            Need(PdfWrap.LineHeight(font));
            if (i == 0)
                mark?.Invoke();
            Graphics.DrawString(lines[i], font, XBrushes.Black, Left + indent, Y + font.Size);
            Down(PdfWrap.LineHeight(font));
        }
    }

    /// <summary>Words at a place of the page; the height taken.</summary>
    public double At(double x, double y, string text, XFont font, double width, bool toTheRight = false)
    {
        IReadOnlyList<string> lines = text.Length == 0 ? [] : PdfWrap.Lines(Graphics, text, font, width);
        for (int i = 0; i < lines.Count; i++)
            Graphics.DrawString(lines[i], font, XBrushes.Black, x + (toTheRight ? width - Graphics.MeasureString(lines[i], font).Width : 0), y + i * PdfWrap.LineHeight(font) + font.Size);
        return lines.Count * PdfWrap.LineHeight(font);
    }

    /// <summary>Foot and number on every page; the last thing drawn.</summary>
    public void Number()
    {
        Graphics.Dispose();
        XFont font = PdfFonts.Of(FootSize);
        for (int i = 0; i < document.PageCount; i++)
        {
            using XGraphics page = XGraphics.FromPdfPage(document.Pages[i]);
            string number = string.Create(CultureInfo.InvariantCulture, $"Page {i + 1} of {document.PageCount}");
            double room = Width - page.MeasureString(number, font).Width - 10;
            page.DrawLine(Hair, Left, Bottom + 6, Left + Width, Bottom + 6);
            IReadOnlyList<string> foot = PdfWrap.Lines(page, card.Footer, font, room);
            page.DrawString(foot[0], font, XBrushes.Black, Left, Bottom + 15);
            if (foot.Count > 1)
                page.DrawString(PdfWrap.Cut(page, string.Join(' ', foot.Skip(1)), font, room), font, XBrushes.Black, Left, Bottom + 23);
            page.DrawString(number, font, XBrushes.Black, new XRect(Left, Bottom + 15 - font.Size, Width, font.Size), XStringFormats.TopRight);
        }
    }

    public void Dispose() => Graphics.Dispose();

    private XGraphics Fresh()
    {
        PdfPage page = document.AddPage();
        page.Size = PageSize.A5;
        XGraphics graphics = XGraphics.FromPdfPage(page);
        XFont font = PdfFonts.Of(FirstSize, bold: true);
        double y = Top;
        foreach (string line in PdfWrap.Lines(graphics, card.FirstLine, font, Width))
        {
            graphics.DrawString(line, font, XBrushes.Black, Left, y + font.Size);
            y += PdfWrap.LineHeight(font);
        }
        graphics.DrawLine(new XPen(XColors.Black, 0.9), Left, y + 1, Left + Width, y + 1);
        y += 4;
        if (document.PageCount > 1)
        {
            XFont title = PdfFonts.Of(9, bold: true);
            graphics.DrawString(PdfWrap.Cut(graphics, card.Title + " (continued)", title, Width), title, XBrushes.Black, Left, y + title.Size);
            y += PdfWrap.LineHeight(title) + 2;
        }
        Y = TopOfPage = y;
        return graphics;
    }
}
