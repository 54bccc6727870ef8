namespace Stillhook.Files.Pictures.Approach;

/// <summary>Makes a picture that takes its looks from class names fit to be opened alone: with its styles inside, black on white.</summary>
public static class StandaloneSvg
{
    /// <summary>Looks of the approach pictures. Every meaning is doubled by dash, shape or word, so that a black-and-white print says the same.</summary>
    public const string Rules = """
        .picture { background: #fff; font-family: system-ui, "Segoe UI", Roboto, "DejaVu Sans", sans-serif; }
        .picture text { font-size: 13px; fill: #16191d; stroke: #fff; stroke-width: 3px; stroke-linejoin: round; paint-order: stroke; }
        .picture text.caption { font-size: 16px; font-weight: 650; }
        .picture text.label { font-size: 14px; font-weight: 700; }
        .picture text.axis, .picture text.faint { fill: #4d545c; }
        .picture path, .picture line, .picture circle, .picture rect { fill: none; stroke: #16191d; stroke-width: 1; stroke-linejoin: round; }
        .picture .sheet { fill: #fff; stroke: none; }
        .picture .frame { stroke: #8b9296; }
        .picture .grid, .picture .ring { stroke: #d5d8d6; }
        .picture .ground, .picture .scale { stroke-width: 1.75; }
        .picture .earth { fill: #ecebe6; stroke: none; }
        .picture .track { stroke: #0b4f6c; stroke-width: 2.5; }
        .picture .load-path { stroke: #0b4f6c; stroke-width: 2.25; stroke-dasharray: 1 5; stroke-linecap: round; }
        .picture .second { stroke: #4d545c; stroke-width: 1.75; stroke-dasharray: 7 4; }
        .picture .limit { stroke: #b0480a; stroke-width: 2; stroke-dasharray: 10 3 2 3; }
        .picture .line { stroke: #4d545c; stroke-width: 1.25; }
        .picture .aircraft { fill: #8b9296; stroke: none; }
        .picture .rotor { stroke: #16191d; stroke-width: 1.5; }
        .picture .load { fill: #4d545c; stroke: none; }
        .picture .hook { fill: #16191d; stroke: none; }
        .picture .leader { stroke: #8b9296; stroke-width: 1; }
        .picture .at-mark { stroke: #8b9296; stroke-dasharray: 3 3; }
        .picture .mark { fill: #fff; stroke-width: 2; }
        .picture .power-in { fill: #16191d; stroke-width: 1.5; }
        .picture .reject { stroke: #b0480a; stroke-width: 2.5; }
        .picture path.spot { fill: #16191d; }
        .picture .spot { stroke-width: 2; }
        .picture .obstacle { fill: #d5d8d6; stroke: #16191d; stroke-width: 1.25; }
        .picture .wire { stroke-width: 1.75; }
        .picture .keep { stroke-dasharray: 4 3; }
        .picture .person, .picture .wind { stroke-width: 2; }
        .picture .fall-zone { stroke: #b0480a; stroke-width: 1.75; stroke-dasharray: 8 5; }
        .picture .way-out { stroke: #b0480a; stroke-width: 2.5; stroke-dasharray: 12 4 2 4; }
        .picture .way-out-tip { fill: #b0480a; stroke: none; }
        .picture .crew-side { stroke: #16191d; stroke-width: 2; stroke-dasharray: 2 3; }
        .picture .flyable { fill: #bcd3dc; stroke: #0b4f6c; }
        .picture .ruled-out { fill: #fff; stroke: #8b9296; }
        .picture .hatch { stroke: #4d545c; stroke-width: 1.1; }
        .picture path.chosen, .picture path.north { fill: #16191d; }
        .picture .place { fill: #0b4f6c; fill-opacity: .45; stroke: none; }
        .picture .half { stroke-width: 2; }
        .picture .ninety-five { stroke-width: 2; stroke-dasharray: 8 5; }
        @media print { .picture { background: none; } }
        """;

    /// <summary>A picture with its styles inside; all else stays as it is.</summary>
    /// <param name="svg">A picture of this namespace: begins with its svg element, whose first child is its title.</param>
    /// <param name="rules">Looks by class name.</param>
    public static string WithStyles(string svg, string rules = Rules)
    {
        ArgumentNullException.ThrowIfNull(svg);
        const string afterTitle = "</title>";
        int at = svg.IndexOf(afterTitle, StringComparison.Ordinal);
        if (!svg.StartsWith("<svg ", StringComparison.Ordinal) || at < 0)
            throw new ArgumentException("A picture begins with its svg element and has a title.", nameof(svg));
        at += afterTitle.Length;
        // Browsers print no backgrounds: paper is white anyway, so none is drawn.
        return string.Concat(svg.AsSpan(0, at), $"<style>\n{rules}\n</style>", svg.AsSpan(at));
    }
}
