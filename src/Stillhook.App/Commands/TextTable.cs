namespace Stillhook.App.Commands;

/// <summary>A table for the terminal: each column as wide as its widest cell, numbers to the right, words to the left.</summary>
internal sealed class TextTable(params string[] headings)
{
    private readonly List<string[]> rows = [headings];
    private readonly HashSet<int> words = [];

    /// <summary>Columns that hold words and are set to the left.</summary>
    public TextTable Words(params int[] columns)
    {
        words.UnionWith(columns);
        return this;
    }

    public void Add(params string[] cells) => rows.Add(cells);

    public void Write(TextWriter output, string indent = "")
    {
        int[] widths = [.. Enumerable.Range(0, rows[0].Length).Select(c => rows.Max(r => r[c].Length))];
        foreach (string[] row in rows)
            output.WriteLine((indent + string.Join("  ", row.Select((cell, c) => words.Contains(c) ? cell.PadRight(widths[c]) : cell.PadLeft(widths[c])))).TrimEnd());
    }
}
