using System.Globalization;
using System.Text;
using Stillhook.Briefing.Printing;
using Stillhook.Files.Reports;

namespace Stillhook.Files.Cards;

/// <summary>A card as HTML: a page of its own that needs nothing else and prints on A5, or the fragment that stands on another page.</summary>
public static class CardHtml
{
    /// <summary>Looks of a card, all under the class printed-card: black on white, meaning by word, weight and shape.</summary>
    public const string Looks = """
        .printed-card { box-sizing: border-box; width: 148mm; max-width: 100%; margin: 0 auto 1rem; padding: 7mm 8mm; border: 1px solid #000; background: #fff; color: #000; font: 9pt/1.3 "DejaVu Sans Condensed", "Liberation Sans Narrow", "Arial Narrow", "Liberation Sans", Arial, sans-serif; }
        .printed-card .first { margin: 0 0 2pt; padding-bottom: 2pt; border-bottom: 1pt solid #000; font-size: 8pt; font-weight: 700; }
        .printed-card .title { margin: 3pt 0 0; font-size: 15pt; line-height: 1.2; }
        .printed-card .under { margin: 0 0 4pt; color: #333; }
        .printed-card .heading { margin: 6pt 0 2pt; font-size: 10pt; }
        .printed-card p { margin: 2pt 0 3pt; }
        .printed-card .small { font-size: 6.8pt; color: #222; } .printed-card .large { font-size: 14pt; } .printed-card .strong { font-weight: 700; }
        .printed-card .boxed { border: 1.2pt solid #000; padding: 2pt 5pt; }
        .printed-card ul { margin: 0 0 3pt; padding-left: 12pt; } .printed-card ul.tick { list-style: none; padding-left: 0; } .printed-card ul.tick li { margin: 2.5pt 0; padding-left: 15pt; position: relative; }
        .printed-card ul.tick li::before { content: ""; position: absolute; left: 1pt; top: 1.5pt; width: 7pt; height: 7pt; border: 0.8pt solid #000; }
        .printed-card dl { display: grid; grid-template-columns: minmax(20%, max-content) 1fr; gap: 1pt 8pt; margin: 2pt 0 4pt; } .printed-card dt { color: #333; } .printed-card dd { margin: 0; font-weight: 700; overflow-wrap: anywhere; } .printed-card .names dt { color: #000; font-weight: 700; } .printed-card .names dd { font-weight: 400; }
        .printed-card .figures { display: flex; gap: 5pt; margin: 4pt 0; } .printed-card .figure { flex: 1 1 0; min-width: 0; border: 1pt solid #000; padding: 2pt 5pt 3pt; }
        .printed-card .figure span { display: block; overflow-wrap: anywhere; } .printed-card .figure .value { font-size: 18pt; line-height: 1.15; font-weight: 700; } .printed-card .three .value { font-size: 16pt; } .printed-card .figure .label { font-size: 8pt; } .printed-card .figure .place { font-size: 12pt; line-height: 1.15; } .printed-card .three .place { font-size: 8.5pt; } .printed-card .figure .more { font-size: 8.5pt; }
        .printed-card table { border-collapse: collapse; width: 100%; margin: 2pt 0 4pt; font-variant-numeric: tabular-nums; table-layout: fixed; }
        .printed-card caption { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
        .printed-card th, .printed-card td { text-align: left; vertical-align: top; padding: 1.5pt 3pt; border-bottom: 0.5pt solid #777; overflow-wrap: anywhere; }
        .printed-card th { border-bottom: 1.2pt solid #000; font-size: 7.5pt; vertical-align: bottom; font-weight: 700; overflow-wrap: normal; } .printed-card .r { text-align: right; } .printed-card td.all { font-weight: 700; text-align: center; background: #e8e8e8; }
        .printed-card table.large td { font-size: 14pt; line-height: 1.15; } .printed-card table.large td.strong { font-size: 18pt; line-height: 1; } .printed-card table.small td { font-size: 7.5pt; }
        .printed-card figure { margin: 3pt 0; } .printed-card figcaption { font-size: 7.5pt; color: #333; } .printed-card svg { display: block; width: 100%; height: auto; font-family: inherit; }
        .printed-card .grid { fill: none; stroke: #777; stroke-width: 0.6; } .printed-card .line { fill: none; stroke: #000; stroke-width: 1; } .printed-card .solid { fill: #000; } .printed-card .hollow { fill: #fff; stroke: #000; } .printed-card .grey { fill: #888; stroke: #000; stroke-width: 0.7; }
        .printed-card .words { fill: #000; paint-order: stroke; stroke: #fff; stroke-width: 2; stroke-linejoin: round; } .printed-card .w7 { font-size: 7px; } .printed-card .w8 { font-size: 8px; } .printed-card .w9 { font-size: 9px; } .printed-card .w10 { font-size: 10px; }
        .printed-card ol.chain { list-style: none; margin: 2pt 0 4pt; padding: 0; } .printed-card ol.chain li { display: grid; grid-template-columns: 22pt 1fr; } .printed-card ol.chain svg { width: 20pt; height: 100%; min-height: 24pt; } .printed-card ol.chain .weakest { border: 1.4pt solid #000; padding-left: 3pt; }
        .printed-card ol.chain .name { font-weight: 700; } .printed-card ol.chain .remark { font-weight: 700; }
        .printed-card .blank { margin: 5pt 0; } .printed-card .blank i { display: block; height: 17pt; border-bottom: 0.6pt solid #000; }
        .printed-card .foot { margin-top: 6pt; padding-top: 2pt; border-top: 0.5pt solid #000; font-size: 6.8pt; color: #333; }
        @media print {
          .printed-card { width: auto; margin: 0; padding: 0; border: 0; break-after: page; } .printed-card:last-child { break-after: auto; }
          .printed-card thead { display: table-header-group; } .printed-card tr, .printed-card figure, .printed-card li, .printed-card .boxed, .printed-card .figures, .printed-card dl, .printed-card .blank { break-inside: avoid; } .printed-card .heading { break-after: avoid; }
        }
        """;

    private const string Paper = "@page { size: A5 portrait; margin: 8mm 8mm 9mm; } body { margin: 0; background: #fff; } @media screen { body { padding: 1rem 0.5rem; background: #ddd; } }";

    /// <summary>A page with one card or several, each on paper of its own.</summary>
    public static string Page(params IReadOnlyList<PrintedCard> cards)
    {
        ArgumentNullException.ThrowIfNull(cards);
        StringBuilder html = new("<!DOCTYPE html>\n<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
        html.Append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n");
        html.Append(CultureInfo.InvariantCulture, $"<title>{XmlText.Escape(cards.Count == 1 ? cards[0].Title : "Cards")}</title>\n<style>\n{Paper}\n{Looks}\n</style>\n</head>\n<body>\n<main>\n");
        foreach (PrintedCard card in cards)
            html.Append(Fragment(card));
        return html.Append("</main>\n</body>\n</html>\n").ToString();
    }

    /// <summary>The card alone, well-formed, to stand on another page that has <see cref="Looks"/> among its styles.</summary>
    /// <param name="card">The card.</param>
    /// <param name="level">Level of its title among that page's headings, 1 to 5.</param>
    public static string Fragment(PrintedCard card, int level = 1)
    {
        ArgumentNullException.ThrowIfNull(card);
        StringBuilder html = new();
        html.Append(CultureInfo.InvariantCulture, $"<article class=\"printed-card\">\n<p class=\"first\">{XmlText.Escape(card.FirstLine)}</p>\n<h{level} class=\"title\">{XmlText.Escape(card.Title)}</h{level}>\n<p class=\"under\">{XmlText.Escape(card.Subtitle)}</p>\n");
        foreach (CardPart part in card.Parts)
            Append(html, part, level + 1);
        return html.Append($"<p class=\"foot\">{XmlText.Escape(card.Footer)}</p>\n</article>\n").ToString();
    }

    private static void Append(StringBuilder html, CardPart part, int level)
    {
        _ = part switch
        {
            CardHeading h => html.Append(CultureInfo.InvariantCulture, $"<h{level} class=\"heading\">{XmlText.Escape(h.Text)}</h{level}>\n"),
            CardText t => html.Append($"<p class=\"{Classes(t.Size, t.Strong ? "strong" : "", t.Boxed ? "boxed" : "")}\">{XmlText.Escape(t.Text)}</p>\n"),
            CardList l => html.Append($"<ul class=\"{Classes(l.Size, l.ToTick ? "tick" : "")}\">\n").AppendJoin("", l.Items.Select(i => $"<li>{XmlText.Escape(i)}</li>\n")).Append("</ul>\n"),
            CardFacts f => html.Append(f.StrongNames ? "<dl class=\"names\">\n" : "<dl>\n").AppendJoin("", f.Pairs.Select(p => $"<dt>{XmlText.Escape(p.Name)}</dt><dd>{XmlText.Escape(p.Value)}</dd>\n")).Append("</dl>\n"),
            CardFigures f => html.Append($"<div class=\"figures{(f.Figures.Count > 2 ? " three" : "")}\">\n").AppendJoin("", f.Figures.Select(Figure)).Append("</div>\n"),
            CardTable t => Table(html, t),
            CardPicture p => html.Append($"<figure>\n{PrintedPictureSvg.Of(p.Picture)}\n</figure>\n"),
            CardChain c => Chain(html, c, level),
            CardBlank b => html.Append($"<div class=\"blank\">{XmlText.Escape(b.Label)}{string.Concat(Enumerable.Repeat("<i></i>", b.Lines))}</div>\n"),
            _ => throw new NotSupportedException($"A card has no way to write a {part.GetType().Name}."),
        };
    }

    private static string Classes(CardSize size, params string[] more) => string.Join(' ', [size.ToString().ToLowerInvariant(), .. more.Where(m => m.Length > 0)]);

    private static string Figure(CardFigure f) =>
        $"<div class=\"figure\"><span class=\"label\">{XmlText.Escape(f.Label)}</span><span class=\"value\">{XmlText.Escape(f.Value)}</span><span class=\"place\">{XmlText.Escape(f.Under)}</span>{(f.More.Length > 0 ? $"<span class=\"more\">{XmlText.Escape(f.More)}</span>" : "")}</div>\n";

    private static StringBuilder Table(StringBuilder html, CardTable table)
    {
        double shares = table.Columns.Sum(c => c.Share);
        string Class(int i, string strong) => $"{(table.Columns[i].ToTheRight ? "r" : "")}{(table.Columns[i].Strong ? strong : "")}".Trim() is { Length: > 0 } names ? $" class=\"{names}\"" : "";
        html.Append($"<table class=\"{Classes(table.Size)}\">\n<caption>{XmlText.Escape(table.Caption)}</caption>\n<colgroup>");
        foreach (CardColumn column in table.Columns)
            html.Append(CultureInfo.InvariantCulture, $"<col width=\"{100 * column.Share / shares:0.#}%\"/>");
        html.Append("</colgroup>\n<thead><tr>").AppendJoin("", table.Columns.Select((c, i) => $"<th scope=\"col\"{Class(i, "")}>{XmlText.Escape(c.Heading)}</th>")).Append("</tr></thead>\n<tbody>\n");
        foreach (CardRow row in table.Rows)
            html.Append("<tr>").AppendJoin("", row.Cells.Count == 1 && table.Columns.Count > 1
                ? [string.Create(CultureInfo.InvariantCulture, $"<td class=\"all\" colspan=\"{table.Columns.Count}\">{XmlText.Escape(row.Cells[0])}</td>")]
                : row.Cells.Select((c, i) => $"<td{Class(i, " strong")}>{XmlText.Escape(c)}</td>")).Append("</tr>\n");
        return html.Append("</tbody>\n</table>\n");
    }

    private static StringBuilder Chain(StringBuilder html, CardChain chain, int level)
    {
        html.Append(CultureInfo.InvariantCulture, $"<h{level} class=\"heading\">{XmlText.Escape(chain.Title)}</h{level}>\n<ol class=\"chain\">\n");
        foreach (CardLink link in chain.Links)
            html.Append($"<li><svg viewBox=\"0 0 20 24\" preserveAspectRatio=\"xMidYMid meet\" aria-hidden=\"true\">{Sign(link)}</svg><div{(link.Weakest ? " class=\"weakest\"" : "")}><span class=\"name\">{XmlText.Escape(link.Name)}{(link.Weakest ? ": WEAKEST PART" : "")}</span> {XmlText.Escape(link.Figures)}{(link.Remark.Length > 0 ? $" <span class=\"remark\">{XmlText.Escape(link.Remark)}</span>" : "")}</div></li>\n");
        return html.Append("</ol>\n");
    }

    private static string Sign(CardLink link) => link.Sign switch
    {
        LinkSign.Hook => "<path class=\"line\" d=\"M10 0V8M10 8C18 10 16 20 10 20C6 20 4 17 5 14\"/>",
        LinkSign.Ring => "<path class=\"line\" d=\"M10 0V5M10 19V24\"/><circle class=\"line\" cx=\"10\" cy=\"12\" r=\"7\"/>",
        LinkSign.Line => "<path class=\"line\" d=\"M10 0V24\"/><path class=\"line\" d=\"M6 9l8 3M6 12l8 3\"/>",
        LinkSign.Sling => "<path class=\"line\" d=\"M10 0V4L2 24M10 4L18 24\"/>",
        _ => "<rect class=\"grey\" x=\"2\" y=\"2\" width=\"16\" height=\"18\"/>",
    };
}
