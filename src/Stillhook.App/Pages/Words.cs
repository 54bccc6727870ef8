using Stillhook.Debriefing;
using Stillhook.Files.Reports;
using Stillhook.Recording;

namespace Stillhook.App.Pages;

/// <summary>Names for people.</summary>
internal static class Words
{
    public static string Of(Fault fault) => fault == Fault.None ? "–" : FaultText.Name(fault);

    /// <summary>A day that reads the same everywhere: Thu 26 November 2026.</summary>
    public static string Of(DateOnly day) => day.ToString("ddd d MMMM yyyy", System.Globalization.CultureInfo.InvariantCulture);

    public static string Of(Confidence confidence) => confidence switch
    {
        Confidence.High => "sure",
        Confidence.Medium => "likely",
        _ => "unsure",
    };

    public static string Of(Severity severity) => severity switch
    {
        Severity.Error => "Can't be used",
        Severity.Warning => "Repaired or left out",
        _ => "Note",
    };
}
