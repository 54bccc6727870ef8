namespace Stillhook.Physics.Rotor;

/// <summary>Where a rotor sinks into its own wake. Sink rates and speeds m/s, positive numbers; v_h is the induced velocity in hover.</summary>
/// <remarks>
/// Stability boundary of [JOHNSON-VRS], velocities over v_h: onset N = −0.45, exit X = −1.50, greatest forward speed 0.95. For isolated rotors in still air, mean of tests;
/// a warning must sit well inside: amber is the handbook's rule [FAA-H-8083-21] chapter 11, red two thirds of the onset (own choice).
/// </remarks>
public static class VortexRing
{
    private const double Onset = -0.45, Exit = -1.50, FastestForward = 0.95;

    /// <summary>Sink rate that the handbook allows at low speed: 300 ft/min.</summary>
    public const double AmberSinkMs = 1.524;

    /// <summary>Air speed from which amber isn't given: 30 kt (effective translational lift, 16 to 24 kt, with a margin).</summary>
    public const double AmberBelowSpeedMs = 15.4333;

    /// <summary>Red from this sink rate over v_h on.</summary>
    public const double RedSinkRatio = 0.30;

    /// <summary>Air speed from which no vortex ring forms, m/s: 0.95·v_h.</summary>
    public static double SpeedLimitMs(double hoverInducedMs) => FastestForward * Permitted.Above0(hoverInducedMs);

    /// <summary>Sink at which the ring sets in at an air speed, m/s: −v_h·(½(N + X) + ½(N − X)(1 − (V/0.95)²)^0.2). None from the speed limit on.</summary>
    public static double? OnsetSinkMs(double airspeedMs, double hoverInducedMs) =>
        Room(airspeedMs, hoverInducedMs) is double room
            ? -hoverInducedMs * ((Onset + Exit) / 2 + (Onset - Exit) / 2 * Math.Pow(room, 0.2)) : null;

    /// <summary>Sink beyond which the ring is left below, m/s: −v_h·(½(N + X) − ½(N − X)(1 − (V/0.95)²)^1.5). None from the speed limit on.</summary>
    public static double? ExitSinkMs(double airspeedMs, double hoverInducedMs) =>
        Room(airspeedMs, hoverInducedMs) is double room
            ? -hoverInducedMs * ((Onset + Exit) / 2 - (Onset - Exit) / 2 * Math.Pow(room, 1.5)) : null;

    /// <summary>How near a sink rate at an air speed is to the ring. Climb (negative sink) is clear.</summary>
    public static VortexRingRisk Risk(double sinkMs, double airspeedMs, double hoverInducedMs)
    {
        bool slow = Permitted.From0(airspeedMs) < SpeedLimitMs(hoverInducedMs);
        if (slow && Permitted.Finite(sinkMs) >= RedSinkRatio * hoverInducedMs)
            return VortexRingRisk.Red;
        return airspeedMs < AmberBelowSpeedMs && sinkMs >= AmberSinkMs ? VortexRingRisk.Amber : VortexRingRisk.Clear;
    }

    private static double? Room(double airspeedMs, double hoverInducedMs)
    {
        double ratio = Permitted.From0(airspeedMs) / SpeedLimitMs(hoverInducedMs);
        return ratio < 1 ? 1 - ratio * ratio : null;
    }
}

/// <summary>Nearness to the vortex ring.</summary>
public enum VortexRingRisk
{
    /// <summary>Neither of the two.</summary>
    Clear,

    /// <summary>300 ft/min or more below 30 kt.</summary>
    Amber,

    /// <summary>0.30·v_h or more below 0.95·v_h of air speed.</summary>
    Red,
}
