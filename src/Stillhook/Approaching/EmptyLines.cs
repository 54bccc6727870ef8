using Stillhook.Physics.Line;
using Stillhook.Planning;

namespace Stillhook.Approaching;

/// <summary>The way back with the bare line and its hook.</summary>
internal static class EmptyLines
{
    private const double MarginM = 3, DragCoefficient = 1.2;

    /// <summary>Speed limit, trail and period; null when the rigging's masses were not entered.</summary>
    public static EmptyLine? Of(ApproachSituation s)
    {
        double length = s.Request.Line!.Length!.Value.Meters + (s.Request.Line.Rigging?.Meters ?? 0);
        double lineKg = s.Request.Rigging.Where(p => p.Kind == PartKind.Line).Sum(p => p.Mass?.Kilograms ?? 0);
        double hookKg = s.Request.Rigging.SkipWhile(p => p.Kind != PartKind.Line).Where(p => p.Kind != PartKind.Line).Sum(p => p.Mass?.Kilograms ?? 0);
        if (lineKg <= 0 || hookKg <= 0)
            return null;
        // The entered drag area is that of line and hook together; a tenth of a square metre of it is taken for the hook.
        double area = s.Request.Line.DragArea?.SquareMeters ?? 0.03 * length * DragCoefficient, hookArea = Math.Min(0.1, area / 3);
        BareLine line = new(length, lineKg / length, (area - hookArea) / length / DragCoefficient, hookKg, hookArea, DragCoefficient, s.Load.AirDensityKgM3);
        double? limit = s.Request.Aircraft is { TailBehindHook: { } behind, TailAboveHook: { } above } ? line.LargestSpeedMs(behind.Meters, -above.Meters, MarginM) : null;
        double at = s.Request.Aircraft?.Speeds?.Empty.MetersPerSecond ?? limit ?? ApproachGates.ReadableMs;
        string note = limit is null ? "No speed limit can be given: where the tail rotor is was not entered (aircraft.tailBehindHook, tailAboveHook)."
            : "That is steady air and straight flight: gusts, wash and an empty net lift a light line further. The operator's own limit stands.";
        return new(2 * Math.PI / LineMass.RodFrequencyRadS(length, lineKg / length, hookKg), limit, double.RadiansToDegrees(line.Shape(at).TopRad), at, note);
    }
}
