using System.Text.RegularExpressions;

namespace Stillhook.Files.Pictures;

/// <summary>The mark before the decimals as one person reads and types it. Numbers never have marks between the thousands.</summary>
/// <remarks>
/// Files always have the point. What a person types under the comma is read by changing the two marks for each other, and shown by changing them back: so 30,5 is 30.5, and 1.260,
/// which could mean 1260 or 1.26, becomes 1,260, which is refused as it is under the point. No number becomes another one by a choice of mark.
/// </remarks>
public sealed partial class DecimalMark
{
    private readonly bool comma;

    private DecimalMark(bool comma) => this.comma = comma;

    /// <summary>30.5.</summary>
    public static DecimalMark Point { get; } = new(false);

    /// <summary>30,5.</summary>
    public static DecimalMark Comma { get; } = new(true);

    /// <summary>The mark by its name; the point for anything else than <c>comma</c>.</summary>
    public static DecimalMark Named(string? name) => name == "comma" ? Comma : Point;

    /// <summary>Its name.</summary>
    public string Name => comma ? "comma" : "point";

    /// <summary>A number written with the point, as the person reads it.</summary>
    public string Shown(string number) => Changed(number);

    /// <summary>A number as the person typed it, as it is with the point.</summary>
    public string Read(string typed) => Changed(typed);

    /// <summary>A sentence with its figures that have a unit, or are one end of a range, as the person reads them. Numbers of loads, dates and names stay.</summary>
    public string Sentence(string text) => comma ? Figure().Replace(text, "${whole},${decimals}") : text;

    /// <summary>A sentence in which every number is a figure.</summary>
    public string Figures(string text) => comma ? Decimals().Replace(text, ",") : text;

    private string Changed(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return comma ? string.Create(text.Length, text, (to, from) =>
        {
            for (int i = 0; i < to.Length; i++)
                to[i] = from[i] switch { '.' => ',', ',' => '.', var other => other };
        }) : text;
    }

    [GeneratedRegex(@"(?<![\w.,])(?<whole>[0-9]+)\.(?<decimals>[0-9]+)(?=\s?(%|°|(kg/h|kg|lb/h|lb|km/h|km|kt|kW|kN|kV|m/s²|m/s|m²|m2|ft²|ft2|ft/min|ft|hPa|inHg|NM|min|t|g|h|s|m)(?!\w))|\sto\s−?[0-9])", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Figure();

    [GeneratedRegex(@"(?<=[0-9])\.(?=[0-9])", RegexOptions.CultureInvariant)]
    private static partial Regex Decimals();
}
