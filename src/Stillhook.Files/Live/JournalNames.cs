using System.Globalization;

namespace Stillhook.Files.Live;

/// <summary>Names of a journal's files, and what a folder of a flight holds.</summary>
internal static class JournalNames
{
    public const string Raw = ".dat", Index = ".idx";

    /// <summary>A file name for each source: the one the folder already has for a source of this name, else a new one.</summary>
    public static string[] Of(string folder, IReadOnlyList<LiveSourceSetting> sources)
    {
        var taken = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase); // file name -> source name
        foreach (string index in Indexes(folder))
            taken[Path.GetFileNameWithoutExtension(index)] = JournalIndex.ReadHead(JournalReading.Whole(index))?.Name ?? "";
        var names = new string[sources.Count];
        for (int i = 0; i < names.Length; i++)
        {
            string source = sources[i].Name, plain = Plain(source), name = plain;
            if (taken.FirstOrDefault(t => t.Value == source).Key is { } known) name = known;
            else
                for (int number = 2; taken.TryGetValue(name, out string? other) && other.Length > 0; number++)
                    name = string.Create(CultureInfo.InvariantCulture, $"{plain}-{number}");
            taken[name] = source;
            names[i] = name;
        }

        return names;
    }

    /// <summary>When the last byte of a flight arrived, s since 1970 UTC; NaN when none did.</summary>
    public static double LastArrivalS(string folder) => Entries(folder).Where(e => e.Mark == JournalMark.Bytes).Select(e => e.ArrivedS).DefaultIfEmpty(double.NaN).Max();

    /// <summary>Highest sequence of a flight; −1 when it has none.</summary>
    public static long LastSequence(string folder) => Entries(folder).Select(e => e.Sequence).DefaultIfEmpty(-1).Max();

    /// <summary>The indexes of a folder in order of their names.</summary>
    public static IEnumerable<string> Indexes(string folder) => Directory.EnumerateFiles(folder, "*" + Index).Order(StringComparer.Ordinal);

    private static IEnumerable<JournalEntry> Entries(string folder)
    {
        foreach (string index in Indexes(folder))
        {
            byte[] file = JournalReading.Whole(index);
            if (JournalIndex.ReadHead(file) is not { } head) continue;
            foreach (JournalEntry entry in JournalIndex.Read(file.AsSpan(head.Length), out _)) yield return entry;
        }
    }

    // Letters, digits, '-', '_' and '.' are kept; everything else is a '-'.
    private static string Plain(string name)
    {
        string plain = string.Concat(name.Select(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.' ? c : '-')).Trim('-', '.');
        if (plain.Length > 60) plain = plain[^60..];
        return plain.Length == 0 ? "source" : plain;
    }
}
