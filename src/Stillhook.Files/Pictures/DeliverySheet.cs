using System.Globalization;
using System.Net;

namespace Stillhook.Files.Pictures;

/// <summary>Makes a picture of the deliveries fit to be opened alone: styles inside, black on white, with what it shows above and a caution below.</summary>
public static class DeliverySheet
{
    private const double LineHeight = 22, Edge = 12;

    private const string Rules = """
        .sheet { fill: #fff; } .said { font: 15px system-ui, "Segoe UI", Roboto, "DejaVu Sans", sans-serif; fill: #16191d; }
        .picture { font-family: system-ui, "Segoe UI", Roboto, "DejaVu Sans", sans-serif; }
        .picture text { font-size: 14px; fill: #16191d; } .picture .faint, .picture .axis { fill: #4d545c; font-size: 13px; } .picture .small { font-size: 13px; }
        .picture .label { font-weight: 700; font-size: 16px; }
        .picture path, .picture line, .picture circle, .picture rect { fill: none; stroke: #16191d; stroke-width: 1; stroke-linejoin: round; }
        .picture .ring, .picture .grid { stroke: #d5d8d6; }
        .picture .ground, .picture .scale, .picture .target { stroke: #16191d; stroke-width: 1.5; }
        .picture path.target, .picture .north { fill: #16191d; }
        .picture .track { stroke-width: 2.25; }
        .picture .load-path { stroke-width: 1.5; stroke-dasharray: 1 4; stroke-linecap: round; }
        .picture .r0 { stroke: #0b4f6c; } .picture .r1 { stroke: #b0480a; stroke-dasharray: 8 4; }
        .picture .r2 { stroke: #4a6b16; stroke-dasharray: 2 3; } .picture .r3 { stroke: #7a2f73; stroke-dasharray: 10 3 2 3; }
        .picture text.r0 { fill: #0b4f6c; stroke: none; } .picture text.r1 { fill: #b0480a; stroke: none; }
        .picture text.r2 { fill: #4a6b16; stroke: none; } .picture text.r3 { fill: #7a2f73; stroke: none; }
        .picture .band { stroke: none; fill-opacity: .18; }
        .picture .band.r0 { fill: #0b4f6c; } .picture .band.r1 { fill: #b0480a; } .picture .band.r2 { fill: #4a6b16; } .picture .band.r3 { fill: #7a2f73; }
        .picture .contact, .picture .start { fill: #fff; stroke-width: 2.5; stroke-dasharray: none; }
        .picture .other-contact { stroke: #8b9296; fill: #d5d8d6; }
        .picture .gate-mark { stroke-width: 2; fill: #fff; }
        .picture .wind, .picture .person { stroke-width: 2; }
        .picture .line { stroke: #4d545c; } .picture .load { fill: #eef3f4; stroke: #4d545c; } .picture .hook { fill: #4d545c; stroke: none; }
        """;

    /// <summary>The picture with its words.</summary>
    /// <param name="svg">A picture of this namespace.</param>
    /// <param name="shown">What it shows, in lines: record and day, deliveries.</param>
    /// <param name="said">What is said below, in lines.</param>
    /// <exception cref="ArgumentException">Not a picture of this namespace.</exception>
    public static string With(string svg, IReadOnlyList<string> shown, IReadOnlyList<string> said)
    {
        ArgumentNullException.ThrowIfNull(svg);
        ArgumentNullException.ThrowIfNull(shown);
        ArgumentNullException.ThrowIfNull(said);
        (double width, double height) = Size(svg);
        double above = Edge + LineHeight * shown.Count, all = above + height + LineHeight * said.Count + Edge;
        string title = svg[(svg.IndexOf("<title>", StringComparison.Ordinal) + 7)..svg.IndexOf("</title>", StringComparison.Ordinal)];
        string inner = string.Create(CultureInfo.InvariantCulture, $"<svg y=\"{above:0.#}\" width=\"{width:0.#}\" height=\"{height:0.#}\" ") + svg["<svg ".Length..];
        return string.Create(CultureInfo.InvariantCulture, $"""
            <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:0.#} {all:0.#}" role="img" aria-label="{title}"><title>{title}</title><style>
            {Rules}
            </style><rect class="sheet" width="100%" height="100%"/>
            {Lines(shown, LineHeight)}
            {inner}
            {Lines(said, above + height + LineHeight)}</svg>
            """);
    }

    private static string Lines(IReadOnlyList<string> lines, double y) => string.Concat(lines.Select((line, i) =>
        string.Create(CultureInfo.InvariantCulture, $"<text class=\"said\" x=\"{Edge}\" y=\"{y + i * LineHeight:0.#}\">{WebUtility.HtmlEncode(line)}</text>")));

    private static (double Width, double Height) Size(string svg)
    {
        const string before = "viewBox=\"0 0 ";
        int at = svg.IndexOf(before, StringComparison.Ordinal);
        string[] size = at < 0 || !svg.StartsWith("<svg ", StringComparison.Ordinal) ? [] : svg[(at + before.Length)..svg.IndexOf('"', at + before.Length)].Split(' ');
        return size.Length == 2 && double.TryParse(size[0], CultureInfo.InvariantCulture, out double width) && double.TryParse(size[1], CultureInfo.InvariantCulture, out double height)
            ? (width, height)
            : throw new ArgumentException("A picture begins with its svg element and has a viewBox from 0 0.", nameof(svg));
    }
}
