using System.Text;

namespace Stillhook.Tests.Files.Records;

/// <summary>Ways to damage a record.</summary>
internal static class RecordDamages
{
    /// <summary>Offsets behind each line end.</summary>
    public static List<int> LineEnds(byte[] content) => [.. Enumerable.Range(1, content.Length).Where(i => content[i - 1] == '\n')];

    /// <summary>A sample of evenly spread places, the first and last ones always in it; all when there are few.</summary>
    public static IEnumerable<int> Some(IReadOnlyList<int> places, int most)
    {
        int ends = Math.Min(most / 4, places.Count / 2), stride = Math.Max(1, (places.Count - 2 * ends) / Math.Max(1, most - 2 * ends));
        return Enumerable.Range(0, places.Count).Where(i => i < ends || i >= places.Count - ends || (i - ends) % stride == 0).Select(i => places[i]);
    }

    /// <summary>Damage of the whole by a name, each spoiling or hiding something.</summary>
    public static IEnumerable<(string How, byte[] Content)> Kinds(byte[] content, Random random)
    {
        string text = Encoding.Latin1.GetString(content);
        int at = random.Next(content.Length), length = Math.Min(content.Length - at, 1 + random.Next(2000));
        yield return ("a block twice", [.. content[..(at + length)], .. content[at..]]);
        yield return ("a block missing", [.. content[..at], .. content[(at + length)..]]);
        yield return ("a block of NULs", [.. content[..at], .. new byte[length], .. content[(at + length)..]]);
        yield return ("a block of 0xff", [.. content[..at], .. Enumerable.Repeat((byte)0xff, length), .. content[(at + length)..]]);
        yield return ("NULs at the end", [.. content, .. new byte[5000]]);
        yield return ("the file twice", [.. content, .. content]);
        yield return ("without line ends", Encoding.Latin1.GetBytes(text.Replace("\r", "", StringComparison.Ordinal).Replace("\n", "", StringComparison.Ordinal)));
        yield return ("cut from the front", content[at..]);
        yield return ("blocks exchanged", [.. content[at..], .. content[..at]]);
    }

    /// <summary>The same content in another dress: the reader must find the same fixes.</summary>
    public static IEnumerable<(string How, byte[] Content)> SameInOtherDress(byte[] content)
    {
        if (content.Length > 1 && (content[0] is 0xff or 0xfe or 0xef || content.Contains((byte)0))) yield break;
        string text = Encoding.UTF8.GetString(content);
        if (text.Contains('\ufffd', StringComparison.Ordinal)) yield break;
        yield return ("byte order mark", [.. Encoding.UTF8.Preamble, .. content]);
        yield return ("line ends CR", Encoding.UTF8.GetBytes(text.ReplaceLineEndings("\r")));
        yield return ("line ends CRLF", Encoding.UTF8.GetBytes(text.ReplaceLineEndings("\r\n")));
        if (text.StartsWith('<')) yield break; // its declaration would say another encoding than it has
        yield return ("UTF-16", [.. Encoding.Unicode.Preamble, .. Encoding.Unicode.GetBytes(text)]);
        yield return ("UTF-16 big-endian", [.. Encoding.BigEndianUnicode.Preamble, .. Encoding.BigEndianUnicode.GetBytes(text)]);
    }

    /// <summary>A table with two columns exchanged, heading and all.</summary>
    public static byte[] ColumnsExchanged(byte[] table, Random random)
    {
        string[][] rows = [.. Encoding.UTF8.GetString(table).Split('\n').Select(l => l.TrimEnd('\r').Split(','))];
        int a = random.Next(rows[0].Length), b = random.Next(rows[0].Length);
        foreach (string[] row in rows.Where(r => r.Length > Math.Max(a, b))) (row[a], row[b]) = (row[b], row[a]);
        return Encoding.UTF8.GetBytes(string.Join('\n', rows.Select(r => string.Join(',', r))));
    }
}
