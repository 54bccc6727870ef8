using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Adjusting;

/// <summary>A side of the approach line, seen by the pilot.</summary>
public enum Side
{
    /// <summary>Not said.</summary>
    None,

    /// <summary>Left.</summary>
    Left,

    /// <summary>Right.</summary>
    Right,
}

/// <summary>Limits that no advice may pass. What is not entered is held at the plan, never opened.</summary>
public sealed record AdjustLimits
{
    /// <summary>Lowest hook height at the start mark that keeps load and line clear of obstacles, m over the target ground. Not entered: the planned height.</summary>
    public double? LowestStartHeightM { get; init; }

    /// <summary>Steepest path the operator allows, degrees. Not entered: the planned path.</summary>
    public double? SteepestPathDeg { get; init; }

    /// <summary>Largest sink at a gate, m/s, down positive.</summary>
    public double? SinkGateMs { get; init; }

    /// <summary>Torque limit, %.</summary>
    public double? MaxTorquePercent { get; init; }

    /// <summary>Torque in the hover with the load, %.</summary>
    public double? HoverTorquePercent { get; init; }

    /// <summary>Torque that has to be left in the hover, %.</summary>
    public double TorqueRoomPercent { get; init; } = 10;

    /// <summary>Fuel left after the next rotation flown as before, kg.</summary>
    public double? FuelAfterNextKg { get; init; }

    /// <summary>Fuel that has to be left, kg.</summary>
    public double? FuelReserveKg { get; init; }

    /// <summary>Fuel burn, kg/s.</summary>
    public double FuelBurnKgPerS { get; init; } = 0.05;

    /// <summary>Side on which the crew stands: the line is not moved there.</summary>
    public Side CrewSide { get; init; }

    /// <summary>Fastest speed proven with this load, m/s. Not entered: the planned speed.</summary>
    public double? ProvenSpeedMs { get; init; }

    /// <summary>The limits of a setup: what the operator entered for advice and what the planned approach knows; everything else held at the plan.</summary>
    public static AdjustLimits From(LiftSetup setup)
    {
        ArgumentNullException.ThrowIfNull(setup);
        AdjustLimits limits = setup.Approach is { IsOffered: true } plan ? From(plan) : new();
        return limits with
        {
            LowestStartHeightM = setup.Advice?.LowestLoadHeight?.Meters + setup.ContactLengthM is { } entered ? Math.Max(entered, limits.LowestStartHeightM ?? 0) : limits.LowestStartHeightM,
            SinkGateMs = setup.Advice?.HighestSink?.MetersPerSecond ?? limits.SinkGateMs,
            ProvenSpeedMs = setup.Advice?.HighestSpeed?.MetersPerSecond,
        };
    }

    /// <summary>What a planned approach says: obstacles under the way, steepest path, sink, torque in the hover, the side of the crew.</summary>
    /// <remarks>Path and sink are those of the hook, which starts a line's length higher than the load: both limits are raised by that length over the start distance.</remarks>
    private static AdjustLimits From(ApproachPlan plan)
    {
        ApproachSituation s = plan.Situation!;
        PathShape shape = plan.Way!.Path.Shape;
        double hookSlope = s.ContactLengthM / shape.StartM, steepest = Math.Tan(double.DegreesToRadians(s.Rules.SteepestGlideDeg.Value)) + hookSlope;
        return new()
        {
            LowestStartHeightM = plan.LowestStartHeightM,
            SteepestPathDeg = double.RadiansToDegrees(Math.Atan(steepest)),
            SinkGateMs = s.SinkLimit.At(plan.Way.Path.Hanging.AirspeedMs(shape.EntryMs)) + shape.EntryMs * hookSlope,
            MaxTorquePercent = s.Hover is null ? null : 100,
            HoverTorquePercent = 100 / s.Hover?.Value,
            TorqueRoomPercent = s.Rules.HoverReservePercent.Value,
            CrewSide = SideOfTheCrew(plan, s),
        };
    }

    /// <summary>The side of the way on which the nearest person, or else the crew's clear side, lies.</summary>
    private static Side SideOfTheCrew(ApproachPlan plan, ApproachSituation s)
    {
        CourseFrame course = new(plan.CourseDeg);
        LocalFrame frame = new(s.Site.Latitude.Degrees, s.Site.Longitude.Degrees, 0);
        const double besideM = 2;
        double? right = s.Site.People.Select(p => course.FromEnu(frame.ToEnu(p.Latitude.Degrees, p.Longitude.Degrees, 0))).OrderBy(p => p.Horizontal).Select(p => (double?)p.North).FirstOrDefault()
            ?? (s.Site.CrewClearSide is { } side ? 100 * Math.Sin(double.DegreesToRadians(side.Degrees - plan.CourseDeg)) : null);
        return right switch { > besideM => Side.Right, < -besideM => Side.Left, _ => Side.None };
    }

    /// <summary>The planned start-down point and power-in height are the latest ones. Off only to compare learning rules with each other.</summary>
    internal bool HoldPlan { get; init; } = true;
}
