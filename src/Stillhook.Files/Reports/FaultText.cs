using Stillhook.Debriefing;

namespace Stillhook.Files.Reports;

/// <summary>Faults in words a pilot uses.</summary>
public static class FaultText
{
    /// <summary>Short name of a fault; empty for none.</summary>
    public static string Name(Fault fault) => fault switch
    {
        Fault.Overshoot => "went past the spot",
        Fault.Undershoot => "stopped short",
        Fault.AbruptSlowdown => "slowed down hard",
        Fault.FastEntry => "came in fast",
        Fault.HighStart => "started high",
        Fault.LowStart => "started low",
        Fault.LateralOffset => "off to one side",
        Fault.HoverWait => "long hover",
        Fault.LateSink => "sank late",
        Fault.GoAround => "go-around",
        _ => "",
    };
}
