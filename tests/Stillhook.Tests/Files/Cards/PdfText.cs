using System.Diagnostics;
using System.Text;

namespace Stillhook.Tests.Files.Cards;

/// <summary>The text of a PDF as another program reads it.</summary>
internal static class PdfText
{
    /// <summary>Pages of words in reading order; the test is skipped where the reader is not installed.</summary>
    public static IReadOnlyList<string> Pages(byte[] pdf)
    {
        string path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".pdf");
        File.WriteAllBytes(path, pdf);
        try
        {
            using Process process = Process.Start(new ProcessStartInfo("pdftotext", ["-layout", path, "-"]) { RedirectStandardOutput = true, StandardOutputEncoding = Encoding.UTF8 })!;
            string text = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            Assert.Equal(0, process.ExitCode);
            return text.Split('\f', StringSplitOptions.RemoveEmptyEntries);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Assert.Skip("pdftotext is not installed: the PDF's text is not read back.");
            return [];
        }
        finally
        {
            File.Delete(path);
        }
    }

    /// <summary>All words of all pages, one space between them.</summary>
    public static string Words(byte[] pdf) => string.Join(' ', string.Join(' ', Pages(pdf)).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
