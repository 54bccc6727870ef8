using Stillhook.Debriefing;
using Stillhook.Recording;

namespace Stillhook.App.Pages;

/// <summary>Names for people.</summary>
internal static class Words
{
    public static string Of(Fault fault) => fault switch
    {
        Fault.None => "–",
        Fault.Overshoot => "Went past the spot",
        Fault.Undershoot => "Stopped short",
        Fault.AbruptSlowdown => "Abrupt slow-down",
        Fault.FastEntry => "Fast at the start mark",
        Fault.HighStart => "High at the start mark",
        Fault.LowStart => "Low at the start mark",
        Fault.LateralOffset => "Off to one side",
        Fault.HoverWait => "Long hover over the spot",
        Fault.LateSink => "Sinking fast at the end",
        Fault.GoAround => "Went around",
        _ => fault.ToString(),
    };

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
