using Stillhook.Recording;

namespace Stillhook.App.Commands;

/// <summary>Findings as lines on standard error: where, what, what was done or how to mend it.</summary>
internal static class FindingText
{
    public static void Write(string source, IEnumerable<Finding> findings)
    {
        foreach (Finding finding in findings)
            Console.Error.WriteLine(Line(source, finding));
    }

    public static string Line(string source, Finding finding)
    {
        string where = finding.Line is { } line ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{source}, line {line}") : source;
        string often = finding.Count > 1 ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $" ({finding.Count} times)") : "";
        string kind = finding.Severity switch { Severity.Error => "error: ", Severity.Warning => "", _ => "note: " };
        return $"{kind}{where}: {finding.What}{often} {finding.Done}";
    }
}
