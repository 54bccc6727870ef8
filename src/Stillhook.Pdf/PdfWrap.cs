using PdfSharp.Drawing;

namespace Stillhook.Pdf;

/// <summary>Breaks words over lines: the package neither wraps nor clips.</summary>
internal static class PdfWrap
{
    private const double Leading = 1.3;

    /// <summary>From line to line, points.</summary>
    public static double LineHeight(XFont font) => Leading * font.Size;

    /// <summary>The lines of a text in a width; a word too long for it is broken. At least one line.</summary>
    public static IReadOnlyList<string> Lines(XGraphics graphics, string text, XFont font, double width)
    {
        List<string> lines = [];
        string line = "";
        foreach (string word in Clean(text).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string longer = line.Length == 0 ? word : line + " " + word;
            if (Fits(longer))
            {
                line = longer;
                continue;
            }
            if (line.Length > 0)
                lines.Add(line);
            line = word;
            while (!Fits(line) && line.Length > 1)
            {
                int kept = Enumerable.Range(1, line.Length - 1).Last(n => n == 1 || Fits(line[..n]));
                if (char.IsHighSurrogate(line[kept - 1]))
                    kept = kept > 1 ? kept - 1 : Math.Min(2, line.Length);
                lines.Add(line[..kept]);
                line = line[kept..];
            }
        }
        if (line.Length > 0 || lines.Count == 0)
            lines.Add(line);
        return lines;

        bool Fits(string s) => graphics.MeasureString(s, font).Width <= width;
    }

    /// <summary>One line, cut with dots where it would be too long.</summary>
    public static string Cut(XGraphics graphics, string text, XFont font, double width)
    {
        text = Clean(text);
        if (graphics.MeasureString(text, font).Width <= width)
            return text;
        while (text.Length > 1 && graphics.MeasureString(text + "\u2026", font).Width > width)
            text = text[..^1];
        return text.TrimEnd() + "\u2026";
    }

    private static string Clean(string text) => text.Any(char.IsControl) ? new([.. text.Select(c => char.IsControl(c) ? ' ' : c)]) : text;
}
