using System.Diagnostics;
using System.Text;
using System.Text.RegularExpressions;

namespace Stillhook.Tests.Files.Cards;

/// <summary>The text of a PDF as another program reads it.</summary>
internal static partial class PdfText
{
    /// <summary>Pages of words in reading order; the test is skipped where the reader is not installed.</summary>
    public static IReadOnlyList<string> Pages(byte[] pdf) => Run(pdf, "-layout").Split('\f', StringSplitOptions.RemoveEmptyEntries);

    private static string Run(byte[] pdf, string how)
    {
        string path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".pdf");
        File.WriteAllBytes(path, pdf);
        try
        {
            using Process process = Process.Start(new ProcessStartInfo("pdftotext", [how, path, "-"]) { RedirectStandardOutput = true, StandardOutputEncoding = Encoding.UTF8 })!;
            string text = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            Assert.Equal(0, process.ExitCode);
            return text;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Assert.Skip("pdftotext is not installed: the PDF's text is not read back.");
            return "";
        }
        finally
        {
            File.Delete(path);
        }
    }

    /// <summary>Every word with its place on its page, points from the top left.</summary>
    public static IReadOnlyList<PlacedWord> Placed(byte[] pdf)
    {
        List<PlacedWord> words = [];
        int page = 0;
        double width = 0, height = 0;
        foreach (string line in Run(pdf, "-bbox").Split('\n'))
            if (PageTag().Match(line) is { Success: true } p)
                (page, width, height) = (page + 1, Number(p.Groups[1]), Number(p.Groups[2]));
            else if (WordTag().Match(line) is { Success: true } w)
                words.Add(new(page, width, height, System.Net.WebUtility.HtmlDecode(w.Groups[5].Value), Number(w.Groups[1]), Number(w.Groups[3]), Number(w.Groups[2]), Number(w.Groups[4])));
        return words;

        static double Number(Group group) => double.Parse(group.Value, System.Globalization.CultureInfo.InvariantCulture);
    }

    [GeneratedRegex("<page width=\"([\\d.]+)\" height=\"([\\d.]+)\">", RegexOptions.CultureInvariant)]
    private static partial Regex PageTag();

    [GeneratedRegex("<word xMin=\"([-\\d.]+)\" yMin=\"([-\\d.]+)\" xMax=\"([-\\d.]+)\" yMax=\"([-\\d.]+)\">(.*)</word>", RegexOptions.CultureInvariant)]
    private static partial Regex WordTag();

    /// <summary>All words of all pages, one space between them.</summary>
    public static string Words(byte[] pdf) => string.Join(' ', string.Join(' ', Pages(pdf)).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}

/// <summary>A word on a page; the base line of a face of these letters lies at four fifths of its height.</summary>
internal sealed record PlacedWord(int Page, double PageWidth, double PageHeight, string Text, double Left, double Right, double Top, double Bottom)
{
    public double BaseLine => Top + 0.8 * (Bottom - Top);
}
