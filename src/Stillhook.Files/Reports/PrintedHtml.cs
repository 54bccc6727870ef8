using System.Text;
using Stillhook.Reporting.Printing;

namespace Stillhook.Files.Reports;

/// <summary>A printed report as HTML, on screen and on A4 paper; well-formed as XML too. Whole, it is one file that needs nothing else; its inside can stand on another page.</summary>
public static class PrintedHtml
{
    private const int ShortRows = 9; // rows that are not parted over two pages

    /// <summary>Looks of what <see cref="Inner"/> gives, for a page that holds it. Every rule is for things inside the class 'printed'.</summary>
    public const string Looks = """
        .printed { color: #000; background: #fff; font: 0.95rem/1.45 system-ui, "Segoe UI", "Liberation Sans", "DejaVu Sans", Arial, sans-serif; }
        .printed h1 { font-size: 1.5rem; margin: 0.5rem 0 0; }
        .printed h2, .printed h3 { font-size: 1.1rem; margin: 1.6rem 0 0.4rem; }
        .printed .under { margin: 0.1rem 0 1rem; color: #444; }
        .printed .caution { border: 2px solid #000; padding: 0.4rem 0.7rem; font-weight: 600; }
        .printed .scroll { overflow-x: auto; }
        .printed dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.15rem 1.2rem; margin: 1rem 0; }
        .printed dt { color: #444; } .printed dd { margin: 0; font-weight: 600; }
        @media (max-width: 34rem) { .printed dl { grid-template-columns: 1fr; gap: 0; } .printed dd { margin-bottom: 0.4rem; } .printed table { min-width: 34rem; } }
        .printed table { border-collapse: collapse; width: 100%; margin: 0.5rem 0 1rem; font-variant-numeric: tabular-nums; font-size: 0.82rem; }
        .printed caption { text-align: left; font-weight: 600; padding: 0.2rem 0; }
        .printed th, .printed td { text-align: left; vertical-align: top; padding: 0.2rem 0.45rem; border-bottom: 1px solid #999; }
        .printed th { border-bottom: 2px solid #000; vertical-align: bottom; }
        .printed .r { text-align: right; }
        .printed tfoot td { border-top: 2px solid #000; border-bottom: 0; font-weight: 600; }
        .printed ul { margin: 0.3rem 0 1rem; padding-left: 1.2rem; }
        .printed figure { margin: 0.5rem 0 1rem; } .printed figcaption { color: #444; font-size: 0.86rem; }
        .printed svg { display: block; width: 100%; height: auto; font-family: inherit; }
        .printed .grid { fill: none; stroke: #ddd; stroke-width: 0.7; } .printed .line { fill: none; stroke: #000; stroke-width: 1.2; } .printed .solid { fill: #000; } .printed .hollow { fill: #fff; stroke: #000; }
        .printed .grey { fill: #888; stroke: #000; stroke-width: 0.7; } .printed .pale { fill: #ddd; stroke: #000; stroke-width: 0.7; } .printed .ring { fill: none; stroke: #888; stroke-width: 0.7; }
        .printed .words { fill: #000; paint-order: stroke; stroke: #fff; stroke-width: 2.2; stroke-linejoin: round; }
        .printed .w7 { font-size: 7.5px; } .printed .w8 { font-size: 8px; } .printed .w9 { font-size: 9px; } .printed .w10 { font-size: 10px; }
        @media print {
          .printed { font-size: 9pt; }
          .printed h1 { font-size: 15pt; } .printed h2, .printed h3 { font-size: 11.5pt; margin-top: 1rem; } .printed table, .printed figcaption { font-size: 8pt; } .printed th, .printed td { padding: 0.12rem 0.3rem; }
          .printed thead { display: table-header-group; } .printed tfoot { display: table-row-group; }
          .printed tr, .printed figure, .printed li, .printed .caution, .printed dl, .printed .short { break-inside: avoid; }
          .printed h2, .printed h3, .printed h2 + .caution, .printed h3 + .caution, .printed caption, .printed .leads { break-after: avoid; }
          .printed .scroll { overflow: visible; }
        }
        """;

    private const string Frame = """
        :root { color-scheme: light; }
        body { margin: 0 auto; max-width: 52rem; padding: 1rem 1rem 3rem; background: #fff; }
        footer { margin-top: 2rem; border-top: 1px solid #000; padding-top: 0.3rem; color: #444; font: 0.8rem/1.45 system-ui, "Segoe UI", "Liberation Sans", "DejaVu Sans", Arial, sans-serif; }
        @page { size: A4; margin: 16mm 15mm; }
        @media print { body { max-width: none; padding: 0; } }
        """;

    /// <summary>The report as a whole page.</summary>
    public static string Page(PrintedReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        string title = XmlText.Escape(report.Title);
        StringBuilder html = new("<!DOCTYPE html>\n<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
        html.Append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n");
        html.Append($"<title>{title}</title>\n<style>\n{Frame}\n{Looks}\n</style>\n</head>\n<body>\n<main class=\"printed\">\n");
        html.Append($"<h1>{title}</h1>\n<p class=\"under\">{XmlText.Escape(report.Subtitle)}</p>\n");
        foreach (PrintedPart part in report.Parts)
            Append(html, part, "h2");
        return html.Append($"</main>\n<footer>{XmlText.Escape(report.Footer)}</footer>\n</body>\n</html>\n").ToString();
    }

    /// <summary>The same without the frame of a page and without its title, for a page that has its own: one element of the class 'printed'.</summary>
    /// <param name="report">The report.</param>
    /// <param name="headingLevel">Level of its headings, 2 or 3: one below the heading that it stands under.</param>
    public static string Inner(PrintedReport report, int headingLevel = 2)
    {
        ArgumentNullException.ThrowIfNull(report);
        if (headingLevel is not (2 or 3))
            throw new ArgumentOutOfRangeException(nameof(headingLevel), headingLevel, "The headings are of level 2 or 3.");
        StringBuilder html = new("<div class=\"printed\">\n");
        foreach (PrintedPart part in report.Parts)
            Append(html, part, headingLevel == 2 ? "h2" : "h3");
        return html.Append("</div>\n").ToString();
    }

    private static void Append(StringBuilder html, PrintedPart part, string headingTag)
    {
        switch (part)
        {
            case PrintedHeading heading:
                html.Append($"<{headingTag}>{XmlText.Escape(heading.Text)}</{headingTag}>\n");
                break;
            case PrintedParagraph paragraph:
                html.Append($"<p class=\"{(paragraph.IsCaution ? "caution" : "leads")}\">{XmlText.Escape(paragraph.Text)}</p>\n");
                break;
            case PrintedList list:
                html.Append("<ul>\n").AppendJoin("", list.Items.Select(i => $"<li>{XmlText.Escape(i)}</li>\n")).Append("</ul>\n");
                break;
            case PrintedFacts facts:
                html.Append("<dl>\n").AppendJoin("", facts.Pairs.Select(p => $"<dt>{XmlText.Escape(p.Name)}</dt><dd>{XmlText.Escape(p.Value)}</dd>\n")).Append("</dl>\n");
                break;
            case PrintedTable table:
                Append(html, table);
                break;
            case PrintedPicture picture:
                html.Append($"<figure>\n{PrintedPictureSvg.Of(picture)}\n<figcaption>{XmlText.Escape(picture.Title)}</figcaption>\n</figure>\n");
                break;
            default:
                throw new NotSupportedException($"A report has no way to write a {part.GetType().Name}.");
        }
    }

    private static void Append(StringBuilder html, PrintedTable table)
    {
        string Side(int i) => table.Columns[i].ToTheRight ? " class=\"r\"" : "";
        string Cells(IReadOnlyList<string> cells, string tag, string more = "") => string.Concat(cells.Select((c, i) => $"<{tag}{more}{Side(i)}>{XmlText.Escape(c)}</{tag}>"));
        html.Append($"<div class=\"scroll{(table.Rows.Count <= ShortRows ? " short" : "")}\" role=\"region\" tabindex=\"0\" aria-label=\"{XmlText.Escape(table.Caption)}\">\n<table>\n<caption>{XmlText.Escape(table.Caption)}</caption>\n<thead><tr>{Cells([.. table.Columns.Select(c => c.Heading)], "th", " scope=\"col\"")}</tr></thead>\n<tbody>\n");
        foreach (IReadOnlyList<string> row in table.Rows)
            html.Append($"<tr>{Cells(row, "td")}</tr>\n");
        html.Append("</tbody>\n");
        if (table.Sum is { } sum)
            html.Append($"<tfoot><tr>{Cells(sum, "td")}</tr></tfoot>\n");
        html.Append("</table>\n</div>\n");
    }
}
