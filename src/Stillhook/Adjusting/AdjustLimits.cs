using Stillhook.Debriefing;

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

    /// <summary>The limits of a setup: what the operator entered for advice, everything else held at the plan.</summary>
    public static AdjustLimits From(LiftSetup setup)
    {
        ArgumentNullException.ThrowIfNull(setup);
        return new()
        {
            LowestStartHeightM = setup.Advice?.LowestLoadHeight?.Meters + setup.ContactLengthM,
            SinkGateMs = setup.Advice?.HighestSink?.MetersPerSecond,
            ProvenSpeedMs = setup.Advice?.HighestSpeed?.MetersPerSecond,
        };
    }

    /// <summary>The planned start-down point and power-in height are the latest ones. Off only to compare learning rules with each other.</summary>
    internal bool HoldPlan { get; init; } = true;
}
