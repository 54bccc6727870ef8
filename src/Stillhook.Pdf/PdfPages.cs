using System.Globalization;
using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Stillhook.Pdf;

/// <summary>Pages under the pen: where the next line goes, and a fresh page when there is no room.</summary>
internal sealed class PdfPages : IDisposable
{
    /// <summary>Left margin, points.</summary>
    public const double Left = 46;

    /// <summary>Width of the text, points: A4 less its margins.</summary>
    public const double Width = 595 - 2 * Left;

    private const double Top = 46, TopOfLaterPages = 62, Bottom = 842 - 58, SmallSize = 7.5;

    private readonly PdfDocument document;
    private readonly string title, footer;

    public PdfPages(PdfDocument document, string title, string footer)
    {
        (this.document, this.title, this.footer) = (document, title, footer);
        Graphics = Fresh();
        Y = Top;
    }

    /// <summary>Grey of lesser words: 9.7 to 1 on white.</summary>
    public static XBrush Dim { get; } = new XSolidBrush(XColor.FromArgb(0x44, 0x44, 0x44));

    /// <summary>The pen of the page.</summary>
    public XGraphics Graphics { get; private set; }

    /// <summary>Top of the next line, points from the top of the page.</summary>
    public double Y { get; private set; }

    /// <summary>Moves down.</summary>
    public void Down(double points) => Y += points;

    /// <summary>Starts a fresh page when less than a height is left; true when it did.</summary>
    public bool Need(double height)
    {
        if (Y + height <= Bottom || Y <= TopOfLaterPages)
            return false;
        Graphics.Dispose();
        Graphics = Fresh();
        Y = TopOfLaterPages;
        return true;
    }

    /// <summary>Words over the whole width, with a mark before the first line.</summary>
    public void Lines(string text, XFont font, XBrush brush, string mark = "", double indent = 0)
    {
        IReadOnlyList<string> lines = PdfWrap.Lines(Graphics, text, font, Width - indent);
        for (int i = 0; i < lines.Count; i++)
        {
            Need(PdfWrap.LineHeight(font));
            if (i == 0 && mark.Length > 0)
                Graphics.DrawString(mark, font, brush, Left, Y + font.Size);
            Graphics.DrawString(lines[i], font, brush, Left + indent, Y + font.Size);
            Down(PdfWrap.LineHeight(font));
        }
    }

    /// <summary>Head, foot and number on every page; the last thing drawn.</summary>
    public void Number()
    {
        Graphics.Dispose();
        XFont font = PdfFonts.Of(SmallSize);
        XPen hair = new(XColors.Black, 0.5);
        for (int i = 0; i < document.PageCount; i++)
        {
            using XGraphics page = XGraphics.FromPdfPage(document.Pages[i]);
            string number = string.Create(CultureInfo.InvariantCulture, $"Page {i + 1} of {document.PageCount}");
            double room = Width - page.MeasureString(number, font).Width - 12;
            page.DrawLine(hair, Left, Bottom + 14, Left + Width, Bottom + 14);
            page.DrawString(PdfWrap.Cut(page, footer, font, room), font, Dim, Left, Bottom + 26);
            page.DrawString(number, font, Dim, new XRect(Left, Bottom + 26 - font.Size, Width, font.Size), XStringFormats.TopRight);
            if (i == 0)
                continue;
            page.DrawString(PdfWrap.Cut(page, title, font, Width), font, Dim, Left, Top - 6);
            page.DrawLine(hair, Left, Top, Left + Width, Top);
        }
    }

    public void Dispose() => Graphics.Dispose();

    private XGraphics Fresh()
    {
        PdfPage page = document.AddPage();
        page.Size = PageSize.A4;
        return XGraphics.FromPdfPage(page);
    }
}
