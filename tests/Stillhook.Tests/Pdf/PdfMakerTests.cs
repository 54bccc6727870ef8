using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Stillhook.Pdf;
using Stillhook.Reporting.Printing;
using Stillhook.Tests.Reporting;
using Stillhook.Tests.Reporting.Printing;

namespace Stillhook.Tests.Pdf;

public partial class PdfMakerTests
{
    private static byte[] Large() => new PdfMaker().Make(CustomerPrint.Of(ReportedDays.Large));

    [Fact]
    public void Make_Twice_SameBytesUnderEveryCulture()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        byte[] here = Large(), comma;
        try
        {
            CultureInfo.CurrentCulture = new("de-DE");
            comma = Large();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
        Assert.Equal(here, comma);
    }

    // The date is that of the last flight's end, 14:00 by a clock two hours ahead of UTC, whatever the day of the run.
    [Fact]
    public void Make_Report_DatedByTheWorkAndNamedByItsContent()
    {
        string text = Encoding.Latin1.GetString(Large()), other = Encoding.Latin1.GetString(new PdfMaker().Make(CustomerPrint.Of(ReportedDays.SmallReport)));
        Assert.Contains("/CreationDate(D:20260602120000", text, StringComparison.Ordinal);
        Assert.Matches(Id(), text);
        Assert.NotEqual(Id().Match(text).Value, Id().Match(other).Value);
    }

    [Fact]
    public void Make_TwoDays_TextOnSeveralNumberedPages()
    {
        string text = ReadBack(Large());
        string[] pages = text.Split('\f', StringSplitOptions.RemoveEmptyEntries);
        Assert.True(pages.Length >= 3, $"{pages.Length} pages");
        for (int i = 0; i < pages.Length; i++)
            Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"Page {i + 1} of {pages.Length}"), pages[i], StringComparison.Ordinal);
        Assert.All(pages, p => Assert.Contains("Avalanche walls, Upper Example", p, StringComparison.Ordinal));
        // Every load that was placed is in its table, on whatever page.
        Assert.All(ReportedDays.Large.Placed, p => Assert.Contains(p.Number! + " ", text, StringComparison.Ordinal));
        Assert.Contains("64 of 68 on the list", text, StringComparison.Ordinal);
        Assert.Contains("Timber & steel <bracing>", text, StringComparison.Ordinal);
        Assert.True(Headings().Count(text) >= 4, "The headings of the long tables are repeated.");
        Assert.All(CustomerPrintTests.Private, word => Assert.DoesNotContain(word, text, StringComparison.OrdinalIgnoreCase));
    }

    // What is too long for its place is wrapped or cut, never lost off the edge: words longer than a line come back whole when joined.
    [Fact]
    public void Make_EndlessWords_AreBroken()
    {
        string endless = new('x', 400);
        string text = ReadBack(new PdfMaker().Make(new("Title", "under", DateTimeOffset.UnixEpoch, endless, [new PrintedParagraph(endless), new PrintedTable("t", [new("a", 1), new("b", 1, true)], [[endless, "1"]])])));
        Assert.True(text.Count(c => c == 'x') >= 800, $"{text.Count(c => c == 'x')} letters came back");
    }

    [Fact]
    public void Make_NothingToTell_OnePage() => Assert.Contains("Page 1 of 1", ReadBack(new PdfMaker().Make(new("Title", "", DateTimeOffset.UnixEpoch, "", []))), StringComparison.Ordinal);

    internal static string ReadBack(byte[] pdf)
    {
        string path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".pdf");
        File.WriteAllBytes(path, pdf);
        try
        {
            using Process process = Process.Start(new ProcessStartInfo("pdftotext", ["-layout", path, "-"]) { RedirectStandardOutput = true, StandardOutputEncoding = Encoding.UTF8 })!;
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

    [GeneratedRegex("/ID\\[<[0-9A-F]{32}>", RegexOptions.CultureInvariant)]
    private static partial Regex Id();

    [GeneratedRegex("Load +What +Mass, kg", RegexOptions.CultureInvariant)]
    private static partial Regex Headings();
}
