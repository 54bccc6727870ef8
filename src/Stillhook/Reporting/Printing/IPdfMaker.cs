namespace Stillhook.Reporting.Printing;

/// <summary>Makes a PDF of a printed report. A floor above holds the package that can; the report stands without it.</summary>
public interface IPdfMaker
{
    /// <summary>The file, A4. The same report gives the same bytes.</summary>
    byte[] Make(PrintedReport report);
}
