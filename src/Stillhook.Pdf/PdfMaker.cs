using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Stillhook.Reporting.Printing;

namespace Stillhook.Pdf;

/// <summary>Lays a printed report out on A4 pages.</summary>
public sealed class PdfMaker : IPdfMaker
{
    private const double TitleSize = 16, HeadingSize = 11.5, TextSize = 9, CaptionSize = 8, Gap = 6;

    /// <inheritdoc/>
    public byte[] Make(PrintedReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        using PdfDocument document = new();
        document.Info.Title = report.Title;
        document.Info.Creator = "Stillhook";
        document.Info.CreationDate = document.Info.ModificationDate = report.DatedAt.UtcDateTime;
        document.Language = "en";
        using (PdfPages pages = new(document, report.Title, report.Footer))
        {
            pages.Lines(report.Title, PdfFonts.Of(TitleSize, bold: true), XBrushes.Black);
            pages.Lines(report.Subtitle, PdfFonts.Of(TextSize + 1), PdfPages.Dim);
            pages.Down(Gap);
            for (int i = 0; i < report.Parts.Count; i++)
                Draw(pages, report.Parts[i], [.. report.Parts.Skip(i + 1).Take(2)]);
            pages.Number();
        }
        using MemoryStream bytes = new();
        document.Save(bytes, closeStream: false);
        return PdfStamp.Steady(bytes.ToArray());
    }

    private static void Draw(PdfPages pages, PrintedPart part, PrintedPart[] next)
    {
        switch (part)
        {
            case PrintedHeading heading:
                pages.Need(2 * HeadingSize + Gap + LeastHeight(next));
                pages.Down(Gap);
                pages.Lines(heading.Text, PdfFonts.Of(HeadingSize, bold: true), XBrushes.Black);
                pages.Down(2);
                break;
            case PrintedParagraph { IsCaution: true } caution:
                Caution(pages, caution.Text);
                break;
            case PrintedParagraph paragraph:
                pages.Need(3 * TextSize + (next is [PrintedList, ..] ? 2 * TextSize : 0));
                pages.Lines(paragraph.Text, PdfFonts.Of(TextSize), XBrushes.Black);
                break;
            case PrintedList list:
                foreach (string item in list.Items)
                    pages.Lines(item, PdfFonts.Of(TextSize), XBrushes.Black, "\u2022", 11);
                pages.Down(Gap);
                break;
            case PrintedFacts facts:
                Facts(pages, facts);
                break;
            case PrintedTable table:
                PdfTable.Draw(pages, table);
                break;
            case PrintedPicture picture:
                Picture(pages, picture);
                break;
            default:
                throw new NotSupportedException($"A PDF has no way to write a {part.GetType().Name}.");
        }
    }

    // A heading stays with what it heads, and with what is said between them.
    private static double LeastHeight(PrintedPart[] next) => next switch
    {
        [PrintedPicture picture, ..] => picture.Height + 3 * CaptionSize,
        [PrintedTable table, ..] => 50 + Math.Min(8, table.Rows.Count) * 1.8 * CaptionSize,
        [PrintedParagraph { IsCaution: true }, .. var rest] => 60 + LeastHeight(rest),
        [PrintedParagraph, PrintedPicture picture] => 2 * TextSize + picture.Height + 3 * CaptionSize,
        [] => 0,
        _ => 2 * TextSize,
    };

    private static void Caution(PdfPages pages, string text)
    {
        XFont font = PdfFonts.Of(TextSize, bold: true);
        const double inset = 6;
        IReadOnlyList<string> lines = PdfWrap.Lines(pages.Graphics, text, font, PdfPages.Width - 2 * inset);
        double height = lines.Count * PdfWrap.LineHeight(font) + 2 * inset - 2;
        pages.Need(height + Gap);
        pages.Graphics.DrawRectangle(new XPen(XColors.Black, 1.2), PdfPages.Left, pages.Y, PdfPages.Width, height);
        for (int i = 0; i < lines.Count; i++)
            pages.Graphics.DrawString(lines[i], font, XBrushes.Black, PdfPages.Left + inset, pages.Y + inset + i * PdfWrap.LineHeight(font) + font.Size);
        pages.Down(height + Gap + 2);
    }

    private static void Facts(PdfPages pages, PrintedFacts facts)
    {
        XFont plain = PdfFonts.Of(TextSize), bold = PdfFonts.Of(TextSize, bold: true);
        double names = Math.Min(PdfPages.Width / 2, facts.Pairs.Max(p => pages.Graphics.MeasureString(p.Name, plain).Width) + 14);
        foreach ((string name, string value) in facts.Pairs)
        {
            IReadOnlyList<string> lines = PdfWrap.Lines(pages.Graphics, value, bold, PdfPages.Width - names);
            pages.Need(lines.Count * PdfWrap.LineHeight(bold));
            pages.Graphics.DrawString(name, plain, PdfPages.Dim, PdfPages.Left, pages.Y + plain.Size);
            foreach (string line in lines)
            {
                pages.Graphics.DrawString(line, bold, XBrushes.Black, PdfPages.Left + names, pages.Y + bold.Size);
                pages.Down(PdfWrap.LineHeight(bold));
            }
        }
        pages.Down(Gap);
    }

    private static void Picture(PdfPages pages, PrintedPicture picture)
    {
        double scale = Math.Min(1, PdfPages.Width / picture.Width);
        pages.Need(scale * picture.Height + 3 * CaptionSize);
        PdfShapes.Draw(pages.Graphics, picture, PdfPages.Left, pages.Y, scale);
        pages.Down(scale * picture.Height + 3);
        pages.Lines(picture.Title, PdfFonts.Of(CaptionSize), PdfPages.Dim);
        pages.Down(Gap);
    }
}
