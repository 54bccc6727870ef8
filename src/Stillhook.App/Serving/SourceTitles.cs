using System.Reflection;
using System.Text.RegularExpressions;

namespace Stillhook.App.Serving;

/// <summary>What a source key stands for, from docs/sources.md, which the program carries.</summary>
internal static partial class SourceTitles
{
    private static readonly Lazy<Dictionary<string, string>> ByKey = new(Read);

    /// <summary>Title of a source; null where the text is no key, such as 'common practice, no source'.</summary>
    public static string? Of(string key) => ByKey.Value.GetValueOrDefault(key);

    private static Dictionary<string, string> Read()
    {
        using Stream stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("sources.md")
            ?? throw new InvalidOperationException("The program was built without docs/sources.md.");
        using StreamReader reader = new(stream);
        Dictionary<string, string> titles = new(StringComparer.Ordinal);
        while (reader.ReadLine() is { } line)
            if (Entry().Match(line) is { Success: true } entry)
                titles.TryAdd(entry.Groups[1].Value, entry.Groups[2].Value);
        return titles;
    }

    [GeneratedRegex(@"^- \[([^\]]+)\] (.+)$", RegexOptions.CultureInvariant)]
    private static partial Regex Entry();
}
