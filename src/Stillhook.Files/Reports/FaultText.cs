using Stillhook.Debriefing;

namespace Stillhook.Files.Reports;

/// <summary>Faults in words a pilot uses.</summary>
public static class FaultText
{
    /// <summary>Short name of a fault; empty for none.</summary>
    public static string Name(Fault fault) => fault switch
    {
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
        _ => "",
    };
}
