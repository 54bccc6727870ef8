using System.Text;

namespace Stillhook.Files.Reports;

/// <summary>Writes a table as RFC 4180 says: comma, CR LF, quotes round what needs them; UTF-8.</summary>
internal static class CsvTable
{
    /// <summary>A first letter that a spreadsheet takes for a formula.</summary>
    private const string Formula = "=+-@\t\r";

    public static void Write(Stream stream, IEnumerable<IReadOnlyList<string>> rows)
    {
        ArgumentNullException.ThrowIfNull(stream);
        StringBuilder text = new();
        foreach (IReadOnlyList<string> row in rows)
            text.AppendJoin(',', row.Select(Quoted)).Append("\r\n");
        stream.Write(Encoding.UTF8.GetBytes(text.ToString()));
    }

    /// <summary>Words that people typed: an apostrophe goes before what a spreadsheet would run as a formula.</summary>
    public static string Typed(string? text) => string.IsNullOrEmpty(text) ? "" : Formula.Contains(text[0], StringComparison.Ordinal) ? "'" + text : text;

    private static string Quoted(string field) => field.AsSpan().IndexOfAny(",\"\r\n") < 0 ? field : $"\"{field.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
