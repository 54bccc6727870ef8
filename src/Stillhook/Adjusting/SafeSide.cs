using System.Globalization;

namespace Stillhook.Adjusting;

/// <summary>Holds every advice to the limits. A change toward less speed, shallower, sooner is free of most of them; the other way it must be covered.</summary>
/// <param name="limits">Limits as entered.</param>
/// <param name="reference">The plan, or the pilot's own medians: what is not entered is held here.</param>
internal sealed class SafeSide(AdjustLimits limits, ApproachKnobs reference)
{
    private const double Slack = 1e-6;

    /// <summary>The limit a change of the four knobs would break, in words; null when it breaks none.</summary>
    public string? StoppedBy(ApproachKnobs from, ApproachKnobs to)
    {
        if (!limits.HoldPlan)
            return null;
        return Later(from, to) ?? Obstacle(from, to) ?? Path(from, to) ?? Sink(from, to) ?? Speed(from, to) ?? Torque(from, to)
            ?? Fuel(2 * (to.StartDistanceM / to.EntrySpeedMs - from.StartDistanceM / from.EntrySpeedMs));
    }

    /// <summary>The limit another kind of change would break.</summary>
    public string? StoppedBy(Knob knob, double change) => knob switch
    {
        Knob.LineUp when change < 0 && limits.CrewSide == Side.Left => "the crew stands on the left",
        Knob.LineUp when change > 0 && limits.CrewSide == Side.Right => "the crew stands on the right",
        Knob.Wait when change > 0 => TorqueShort() ?? Fuel(change),
        Knob.SlowDownStart when change > 0 => Fuel(change / Math.Max(reference.EntrySpeedMs, 1)),
        Knob.SlowDownStart when change < 0 => "a later slow-down is not advised",
        Knob.Sink when change > 0 => "more sink is not advised",
        _ => null,
    };

    private string? Obstacle(ApproachKnobs from, ApproachKnobs to)
    {
        if (to.StartHeightM >= from.StartHeightM - Slack)
            return null;
        if (limits.LowestStartHeightM is { } lowest)
            return to.StartHeightM < lowest - Slack ? $"obstacle height at the start mark, lowest {Feet(lowest)} ft" : null;
        return to.StartHeightM < reference.StartHeightM - TradeStep.HeightM / 2 ? "obstacle height at the start mark, not entered" : null;
    }

    private string? Path(ApproachKnobs from, ApproachKnobs to)
    {
        double path = PathDeg(to.StartHeightM, to.StartDistanceM);
        if (path <= PathDeg(from.StartHeightM, from.StartDistanceM) + Slack)
            return null;
        double steepest = limits.SteepestPathDeg ?? PathDeg(reference.StartHeightM + TradeStep.HeightM / 2, reference.StartDistanceM);
        if (path <= steepest + Slack)
            return null;
        return limits.SteepestPathDeg is null ? "steeper than planned" : Invariant($"steepest path {steepest:0.#} deg");
    }

    private string? Sink(ApproachKnobs from, ApproachKnobs to)
    {
        double sink = SinkMs(to);
        return limits.SinkGateMs is { } gate && sink > gate + Slack && sink > SinkMs(from) + Slack
            ? Invariant($"sink gate {gate / TradeStep.SinkMs * 50:0} ft/min") : null;
    }

    private string? Speed(ApproachKnobs from, ApproachKnobs to)
    {
        if (to.EntrySpeedMs <= from.EntrySpeedMs + Slack)
            return null;
        if (from.EntrySpeedMs < TradeStep.ReadableSpeedMs)
            return "airspeed is not readable under 40 kt";
        double fastest = limits.ProvenSpeedMs ?? reference.EntrySpeedMs + TradeStep.SpeedMs / 2;
        if (to.EntrySpeedMs <= fastest + Slack)
            return null;
        return limits.ProvenSpeedMs is null ? "faster than planned, no proven speed entered" : Invariant($"proven speed {fastest / TradeStep.Knot:0} kt");
    }

    private string? Later(ApproachKnobs from, ApproachKnobs to)
    {
        if (to.StartDistanceM < from.StartDistanceM - Slack && to.StartDistanceM < reference.StartDistanceM - Slack)
            return "planned start mark, never later";
        return to.PowerInHeightM < from.PowerInHeightM - Slack && to.PowerInHeightM < reference.PowerInHeightM - Slack
            ? "planned power-in gate, never lower" : null;
    }

    private string? Torque(ApproachKnobs from, ApproachKnobs to)
    {
        bool needsMore = to.PowerInHeightM < from.PowerInHeightM - Slack || to.EntrySpeedMs > from.EntrySpeedMs + Slack || SinkMs(to) > SinkMs(from) + Slack;
        return needsMore ? TorqueShort() : null;
    }

    private string? TorqueShort() =>
        limits is { MaxTorquePercent: { } most, HoverTorquePercent: { } hover } && most - hover < limits.TorqueRoomPercent
            ? Invariant($"torque {hover:0} % in the hover, limit {most:0} %") : null;

    private string? Fuel(double extraS) =>
        extraS > Slack && limits is { FuelAfterNextKg: { } left, FuelReserveKg: { } reserve } && left - extraS * limits.FuelBurnKgPerS < reserve
            ? Invariant($"fuel reserve {reserve:0} kg") : null;

    private static double PathDeg(double height, double distance) => double.RadiansToDegrees(Math.Atan2(height, distance));
    private static double SinkMs(ApproachKnobs p) => p.EntrySpeedMs * p.StartHeightM / p.StartDistanceM;
    private static string Feet(double m) => (m / 0.3048).ToString("0", CultureInfo.InvariantCulture);
    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
