using System.Text;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;

namespace Stillhook.Files.Reports;

/// <summary>The customer's report as one HTML file that needs nothing else, on screen and on A4 paper; well-formed as XML too.</summary>
public static class CustomerReportHtml
{
    private const int ShortRows = 9; // rows that are not parted over two pages

    // Greys: #444 on white is 9.7 to 1, #ddd only draws lines.
    private const string Looks = """
        :root { color-scheme: light; }
        body { margin: 0 auto; max-width: 52rem; padding: 1rem 1rem 3rem; background: #fff; color: #000; font: 0.95rem/1.45 system-ui, "Segoe UI", "Liberation Sans", "DejaVu Sans", Arial, sans-serif; }
        h1 { font-size: 1.5rem; margin: 0.5rem 0 0; }
        h2 { font-size: 1.1rem; margin: 1.6rem 0 0.4rem; }
        .under { margin: 0.1rem 0 1rem; color: #444; }
        .caution { border: 2px solid #000; padding: 0.4rem 0.7rem; font-weight: 600; }
        .scroll { overflow-x: auto; }
        dl { display: grid; grid-template-columns: max-content 1fr; gap: 0.15rem 1.2rem; margin: 1rem 0; }
        dt { color: #444; } dd { margin: 0; font-weight: 600; }
        table { border-collapse: collapse; width: 100%; margin: 0.5rem 0 1rem; font-variant-numeric: tabular-nums; font-size: 0.82rem; }
        caption { text-align: left; font-weight: 600; padding: 0.2rem 0; }
        th, td { text-align: left; vertical-align: top; padding: 0.2rem 0.45rem; border-bottom: 1px solid #999; }
        th { border-bottom: 2px solid #000; vertical-align: bottom; }
        .r { text-align: right; }
        tfoot td { border-top: 2px solid #000; border-bottom: 0; font-weight: 600; }
        ul { margin: 0.3rem 0 1rem; padding-left: 1.2rem; }
        figure { margin: 0.5rem 0 1rem; } figcaption { color: #444; font-size: 0.86rem; }
        svg { display: block; width: 100%; height: auto; font-family: inherit; }
        .grid { fill: none; stroke: #ddd; stroke-width: 0.7; } .line { fill: none; stroke: #000; stroke-width: 1.2; } .solid { fill: #000; } .hollow { fill: #fff; stroke: #000; } .grey { fill: #888; stroke: #000; stroke-width: 0.7; }
        .words { fill: #000; paint-order: stroke; stroke: #fff; stroke-width: 2.2; stroke-linejoin: round; }
        .w7 { font-size: 7.5px; } .w8 { font-size: 8px; } .w9 { font-size: 9px; } .w10 { font-size: 10px; }
        footer { margin-top: 2rem; border-top: 1px solid #000; padding-top: 0.3rem; color: #444; font-size: 0.8rem; }
        @page { size: A4; margin: 16mm 15mm; }
        @media print {
          body { max-width: none; padding: 0; font-size: 9pt; }
          h1 { font-size: 15pt; } h2 { font-size: 11.5pt; margin-top: 1rem; } table, figcaption { font-size: 8pt; } th, td { padding: 0.12rem 0.3rem; }
          thead { display: table-header-group; } tfoot { display: table-row-group; }
          tr, figure, li, .caution, dl, .short { break-inside: avoid; }
          h2, h2 + .caution, caption, .leads { break-after: avoid; }
          .scroll { overflow: visible; }
        }
        """;

    /// <summary>Writes the report, UTF-8.</summary>
    /// <param name="stream">Where to; left open.</param>
    /// <param name="report">The report.</param>
    /// <param name="withInvoice">Whether the invoice draft stands at its end.</param>
    public static void Write(Stream stream, CustomerReport report, bool withInvoice = true)
    {
        ArgumentNullException.ThrowIfNull(stream);
        stream.Write(Encoding.UTF8.GetBytes(Text(CustomerPrint.Of(report, withInvoice))));
    }

    /// <summary>A printed report as a page.</summary>
    public static string Text(PrintedReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        string title = XmlText.Escape(report.Title);
        StringBuilder html = new("<!DOCTYPE html>\n<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
        html.Append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n");
        html.Append($"<title>{title}</title>\n<style>\n{Looks}\n</style>\n</head>\n<body>\n<main>\n<h1>{title}</h1>\n<p class=\"under\">{XmlText.Escape(report.Subtitle)}</p>\n");
        foreach (PrintedPart part in report.Parts)
            Append(html, part);
        return html.Append($"</main>\n<footer>{XmlText.Escape(report.Footer)}</footer>\n</body>\n</html>\n").ToString();
    }

    private static void Append(StringBuilder html, PrintedPart part)
    {
        switch (part)
        {
            case PrintedHeading heading:
                html.Append($"<h2>{XmlText.Escape(heading.Text)}</h2>\n");
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
