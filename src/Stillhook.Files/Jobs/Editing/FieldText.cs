using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Stillhook.Files.Jobs.Editing;

/// <summary>Between what a person types into a field and what the file holds.</summary>
internal static partial class FieldText
{
    /// <summary>A value as a person types it: lists with commas, yes and no for flags, anything deeper not at all.</summary>
    public static string Shown(JsonNode? value) => value switch
    {
        null or JsonObject => "",
        JsonArray list => string.Join(", ", list.Select(Shown)),
        _ => value.GetValueKind() switch
        {
            JsonValueKind.True => "yes",
            JsonValueKind.False => "no",
            JsonValueKind.String => (string)value!,
            _ => value.ToJsonString(),
        },
    };

    /// <summary>What was typed as the file holds it: a number where one is due and it can be read, else the text as typed; null for nothing.</summary>
    public static JsonNode? Value(string typed, ValueShape shape)
    {
        if (typed.Length == 0)
            return null;
        switch (shape.Kind)
        {
            case ShapeKind.Flag when typed is "yes" or "no":
                return JsonValue.Create(typed == "yes");
            case ShapeKind.Number or ShapeKind.Whole or ShapeKind.Quantity:
                return Number(typed) ?? JsonValue.Create(typed);
            case ShapeKind.List when shape.Item!.Kind is not (ShapeKind.Group or ShapeKind.List):
                return new JsonArray([.. typed.Split([',', ';', '\t', '\n'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(t => Value(t, shape.Item))]);
            default:
                return JsonValue.Create(typed);
        }
    }

    /// <summary>A number with a decimal point, kept with its digits; null for anything else.</summary>
    public static JsonNode? Number(string typed)
    {
        string plain = typed.Replace('−', '-');
        if (!Plain().IsMatch(plain) || !decimal.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out decimal number))
            return null;
        return JsonValue.Create(number);
    }

    /// <summary>A figure with a unit behind it; null when there is none of this kind.</summary>
    public static (string Number, UnitForm Unit)? SplitUnit(string typed, IReadOnlyList<UnitForm> units)
    {
        Match match = WithUnit().Match(typed);
        if (!match.Success)
            return null;
        string symbol = match.Groups["unit"].Value;
        return units.FirstOrDefault(u => symbol.Equals(u.Symbol, StringComparison.OrdinalIgnoreCase) || symbol.Equals(u.Ending, StringComparison.OrdinalIgnoreCase)) is { } unit
            ? (match.Groups["number"].Value, unit) : null;
    }

    /// <summary>A latitude or longitude with its letter (47.05 N, W 10.2) as signed degrees: south and west are negative. A letter of the other axis, or one beside a sign, is left as typed.</summary>
    public static string WithoutLetter(string typed, bool isLatitude)
    {
        if (Lettered().Match(typed) is not { Success: true } m)
            return typed;
        char letter = char.ToUpperInvariant((m.Groups["first"].Success ? m.Groups["first"] : m.Groups["last"]).Value[0]);
        if (letter is 'N' or 'S' != isLatitude)
            return typed;
        return letter is 'S' or 'W' ? "-" + m.Groups["number"].Value : m.Groups["number"].Value;
    }

    /// <summary>The number after one: 12 after 11, B-4 after B-3.</summary>
    public static string Following(string number) => LastDigits().Replace(number, m =>
        (long.Parse(m.ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture) + 1).ToString("D" + m.Length.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture), 1);

    /// <summary>A name of the program in words: equippedMass as Equipped mass.</summary>
    public static string Words(string name) => name.Length == 0 ? "" : char.ToUpperInvariant(name[0]) + Humps().Replace(name[1..], m => " " + m.Value.ToLowerInvariant());

    [GeneratedRegex(@"^[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)$", RegexOptions.CultureInvariant)]
    private static partial Regex Plain();

    [GeneratedRegex(@"^(?<number>[+−-]?[0-9.,]+)\s*(?<unit>[^0-9.,\s][^0-9]*2?)$", RegexOptions.CultureInvariant)]
    private static partial Regex WithUnit();

    [GeneratedRegex(@"^((?<first>[NSEW])\s*(?<number>[0-9.]+)\s*°?|(?<number>[0-9.]+)\s*°?\s*(?<last>[NSEW]))$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Lettered();

    [GeneratedRegex(@"[0-9]{1,15}(?=[^0-9]*$)", RegexOptions.CultureInvariant)]
    private static partial Regex LastDigits();

    [GeneratedRegex("[A-Z]", RegexOptions.CultureInvariant)]
    private static partial Regex Humps();
}
