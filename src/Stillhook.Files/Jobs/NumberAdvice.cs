using System.Globalization;
using System.Text.RegularExpressions;

namespace Stillhook.Files.Jobs;

/// <summary>What to write instead of a text that stands where a number is due.</summary>
internal static partial class NumberAdvice
{
    private const int LongestText = 100;

    /// <summary>How to mend it: without quotes, with a point, with the unit in the key, or as an estimate.</summary>
    public static string For(string key, JobMember member, UnitForm? unit, GroupShape group, string text)
    {
        string plain = unit is null ? "Write a number without quotes, with a decimal point." : "Write a number without quotes, with a decimal point; the unit is in the key.";
        if (text.Length > LongestText || Parts().Match(text) is not { Success: true } parts)
            return member.IsRequired ? plain : plain + " Leave the key out when it is not known.";
        string number = parts.Groups["number"].Value.Replace(',', '.');
        string before = parts.Groups["before"].Value.Trim(), after = parts.Groups["after"].Value.Trim();
        if (before.Length == 0 && after.Length == 0)
            return $"Write {number} without quotes" + (text.Contains(',', StringComparison.Ordinal) ? ", with a decimal point." : ".");
        if (before.Length == 0 && member.Value.Units.FirstOrDefault(u => IsSymbol(u, after)) is { } meant)
            return $"The unit is in the key: write \"{member.Name}{meant.Ending}\": {number}.";
        string uncertainty = "uncertainty" + (unit?.Ending ?? "");
        bool canBeEstimated = member.Name == "mass" && group.TryFind("howKnown", out _, out _) && group.TryFind(uncertainty, out _, out _);
        return canBeEstimated
            ? $"Write \"{key}\": {number} with \"howKnown\": \"estimated\", and \"{uncertainty}\" for how far it may be off."
            : $"Write {number} without quotes and without words.";
    }

    private static bool IsSymbol(UnitForm unit, string text) =>
        text.TrimEnd('.').Equals(unit.Symbol, StringComparison.OrdinalIgnoreCase) || text.TrimEnd('.', 's').Equals(unit.Ending, StringComparison.OrdinalIgnoreCase);

    /// <summary>Words, one number, words.</summary>
    [GeneratedRegex(@"^(?<before>[^0-9+-]*)(?<number>[+-]?[0-9]+([.,][0-9]+)?)(?<after>[^0-9]*2?)$", RegexOptions.CultureInvariant)]
    private static partial Regex Parts();

    /// <summary>A figure as findings show it.</summary>
    public static string Shown(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);
}
