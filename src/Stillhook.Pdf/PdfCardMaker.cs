using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Stillhook.Briefing.Printing;

namespace Stillhook.Pdf;

/// <summary>Lays a card out on A5 pages, black on white.</summary>
public sealed class PdfCardMaker : ICardPdfMaker
{
    private const double TitleSize = 15, HeadingSize = 10, Gap = 4, Inset = 5, LinkRoom = 26;

    /// <inheritdoc/>
    public byte[] Make(PrintedCard card)
    {
        ArgumentNullException.ThrowIfNull(card);
        using PdfDocument document = new();
        document.Info.Title = card.Title;
        document.Info.Creator = "Stillhook";
        document.Info.CreationDate = document.Info.ModificationDate = card.DatedAt.UtcDateTime;
        document.Language = "en";
        using (CardPages pages = new(document, card))
        {
            pages.Lines(card.Title, PdfFonts.Of(TitleSize, bold: true));
            pages.Lines(card.Subtitle, PdfFonts.Of(9));
            pages.Down(Gap);
            for (int i = 0; i < card.Parts.Count; i++)
                Draw(pages, card.Parts[i], i + 1 < card.Parts.Count ? card.Parts[i + 1] : null);
            pages.Number();
        }
        using MemoryStream bytes = new();
        document.Save(bytes, closeStream: false);
        return PdfStamp.Steady(bytes.ToArray());
    }

    /// <summary>Letters of a size.</summary>
    internal static XFont Font(CardSize size, bool strong = false) => PdfFonts.Of(size switch { CardSize.Small => 6.8, CardSize.Large => 14, _ => 9 }, strong);

    private static void Draw(CardPages pages, CardPart part, CardPart? next)
    {
        switch (part)
        {
            case CardHeading heading:
                Heading(pages, heading.Text, LeastHeight(pages, next));
                break;
            case CardText { Boxed: true } box:
                Box(pages, box);
                break;
            case CardText text:
                pages.Lines(text.Text, Font(text.Size, text.Strong));
                pages.Down(Gap);
                break;
            case CardList list:
                List(pages, list);
                break;
            case CardFacts facts:
                Facts(pages, facts);
                break;
            case CardFigures figures:
                CardFigureRow.Draw(pages, figures);
                break;
            case CardTable table:
                CardTableRows.Draw(pages, table);
                break;
            case CardPicture { Picture: var picture }:
                double scale = Math.Min(1, CardPages.Width / picture.Width);
                pages.Need(scale * picture.Height + Gap);
                PdfShapes.Draw(pages.Graphics, picture, CardPages.Left, pages.Y, scale);
                pages.Down(scale * picture.Height + Gap);
                break;
            case CardChain chain:
                Chain(pages, chain);
                break;
            case CardBlank blank:
                Blank(pages, blank);
                break;
            default:
                throw new NotSupportedException($"A PDF has no way to write a {part.GetType().Name}.");
        }
    }

    // A heading stays with what it heads.
    private static double LeastHeight(CardPages pages, CardPart? next) => next switch
    {
        CardPicture p => Math.Min(1, CardPages.Width / p.Picture.Width) * p.Picture.Height,
        CardTable => 60,
        CardText { Boxed: true } t => pages.HeightOf(t.Text, Font(t.Size, t.Strong), CardPages.Width - 2 * Inset) + 2 * Inset,
        CardBlank b => 20 * b.Lines,
        null => 0,
        _ => 24,
    };

    private static void Heading(CardPages pages, string text, double keep)
    {
        XFont font = PdfFonts.Of(HeadingSize, bold: true);
        pages.Need(pages.HeightOf(text, font) + 2 + keep);
        pages.Down(2);
        pages.Lines(text, font);
        pages.Down(1);
    }

    private static void Box(CardPages pages, CardText box)
    {
        XFont font = Font(box.Size, box.Strong);
        double height = pages.HeightOf(box.Text, font, CardPages.Width - 2 * Inset) + 6;
        pages.Need(height + Gap);
        pages.Graphics.DrawRectangle(CardPages.Frame, CardPages.Left, pages.Y, CardPages.Width, height);
        pages.At(CardPages.Left + Inset, pages.Y + 3, box.Text, font, CardPages.Width - 2 * Inset);
        pages.Down(height + Gap);
    }

    private static void List(CardPages pages, CardList list)
    {
        XFont font = Font(list.Size);
        double indent = list.ToTick ? 15 : 9;
        foreach (string item in list.Items)
        {
            pages.Need(Math.Min(pages.HeightOf(item, font, CardPages.Width - indent), 3 * PdfWrap.LineHeight(font)));
            pages.Lines(item, font, indent, () =>
            {
                if (list.ToTick)
                    pages.Graphics.DrawRectangle(new XPen(XColors.Black, 0.8), CardPages.Left + 1, pages.Y + 2, 7, 7);
                else
                    pages.Graphics.DrawString("\u2022", font, XBrushes.Black, CardPages.Left, pages.Y + font.Size);
            });
            if (list.ToTick)
                pages.Down(2);
        }
        pages.Down(Gap);
    }

    private static void Facts(CardPages pages, CardFacts facts)
    {
        if (facts.Pairs.Count == 0)
            return;
        XFont nameFont = Font(CardSize.Normal, facts.StrongNames), valueFont = Font(CardSize.Normal, !facts.StrongNames);
        double names = Math.Min(0.4 * CardPages.Width, facts.Pairs.Max(p => pages.Graphics.MeasureString(p.Name, nameFont).Width) + 10);
        foreach ((string name, string value) in facts.Pairs)
        {
            double height = Math.Max(pages.HeightOf(name, nameFont, names - 8), pages.HeightOf(value, valueFont, CardPages.Width - names));
            pages.Need(height);
            pages.At(CardPages.Left, pages.Y, name, nameFont, names - 8);
            pages.At(CardPages.Left + names, pages.Y, value, valueFont, CardPages.Width - names);
            pages.Down(height + 1);
        }
        pages.Down(Gap);
    }

    private static void Chain(CardPages pages, CardChain chain)
    {
        Heading(pages, chain.Title, 60);
        XFont bold = Font(CardSize.Normal, strong: true), plain = Font(CardSize.Normal);
        double room = CardPages.Width - LinkRoom - 2 * Inset;
        foreach (CardLink link in chain.Links)
        {
            string name = link.Weakest ? link.Name + ": WEAKEST PART" : link.Name;
            double height = pages.HeightOf(name, bold, room) + (link.Figures.Length > 0 ? pages.HeightOf(link.Figures, plain, room) : 0) + (link.Remark.Length > 0 ? pages.HeightOf(link.Remark, bold, room) : 0) + 3;
            pages.Need(height);
            CardSigns.Draw(pages.Graphics, link.Sign, CardPages.Left + 11, pages.Y, height);
            if (link.Weakest)
                pages.Graphics.DrawRectangle(new XPen(XColors.Black, 1.5), CardPages.Left + LinkRoom, pages.Y, CardPages.Width - LinkRoom, height - 1);
            double y = pages.Y + 1, x = CardPages.Left + LinkRoom + Inset;
            y += pages.At(x, y, name, bold, room);
            y += pages.At(x, y, link.Figures, plain, room);
            pages.At(x, y, link.Remark, bold, room);
            pages.Down(height);
        }
        pages.Down(Gap);
    }

    private static void Blank(CardPages pages, CardBlank blank)
    {
        const double line = 18;
        XFont font = Font(CardSize.Normal);
        double label = blank.Label.Length > 0 ? pages.HeightOf(blank.Label, font) : 0;
        pages.Need(label + blank.Lines * line + Gap);
        pages.Lines(blank.Label, font);
        for (int i = 0; i < blank.Lines; i++)
        {
            pages.Down(line);
            pages.Graphics.DrawLine(new XPen(XColors.Black, 0.6), CardPages.Left, pages.Y, CardPages.Left + CardPages.Width, pages.Y);
        }
        pages.Down(Gap + 2);
    }
}
