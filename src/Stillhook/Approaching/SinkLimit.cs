using Stillhook.Physics.Rotor;

namespace Stillhook.Approaching;

/// <summary>How fast the aircraft may sink at an air speed on the approach, m/s.</summary>
/// <remarks>
/// 300 ft/min up to 20 kt, from there rising evenly to 1 000 ft/min at 20 m/s, never above the operator's own figures; where the rotor could meet its own wake
/// (air speed under 0.95·v_h) also never above 0.30·v_h. The handbook's rule is 300 ft/min below translational lift with power on [FAA-H-8083-21]; the onset
/// of the vortex ring lies at 0.45·v_h and more [JOHNSON-VRS], so that the rule sits two to three times inside it. The rise with speed is own choice.
/// </remarks>
/// <param name="SlowSinkMs">At and below 20 kt: at most 1.5 m/s.</param>
/// <param name="HighestSinkMs">At any speed.</param>
/// <param name="HoverInducedMs">v_h with the load; null when the rotor was not entered: then 300 ft/min governs alone.</param>
public sealed record SinkLimit(double SlowSinkMs, double HighestSinkMs, double? HoverInducedMs)
{
    private const double SlowAirspeedMs = 10, FastAirspeedMs = 20, HandbookMs = 1.5, FastSinkMs = 5;

    /// <summary>The limit at an air speed (m/s, 0 or above).</summary>
    public double At(double airspeedMs)
    {
        double slow = Math.Min(SlowSinkMs, HandbookMs);
        double share = Math.Clamp((airspeedMs - SlowAirspeedMs) / (FastAirspeedMs - SlowAirspeedMs), 0, 1);
        double limit = Math.Min(slow + share * (FastSinkMs - slow), HighestSinkMs);
        return HoverInducedMs is { } v && airspeedMs < VortexRing.SpeedLimitMs(v) ? Math.Min(limit, VortexRing.RedSinkRatio * v) : limit;
    }
}
