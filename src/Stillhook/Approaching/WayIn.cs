namespace Stillhook.Approaching;

/// <summary>One way in that breaks nothing.</summary>
/// <param name="CourseDeg">True course.</param>
/// <param name="Path">The load's path.</param>
/// <param name="CostS">What it costs, s: its time from 1 km out, and what speaks against its direction; only ranks.</param>
public sealed record WayIn(double CourseDeg, LoadPath Path, double CostS);

/// <summary>What was found in one direction.</summary>
/// <param name="CourseDeg">True course flown towards the spot.</param>
/// <param name="Way">The best way in from there; null when none is left.</param>
/// <param name="Block">Why there is none: what the nearest miss breaks.</param>
/// <param name="HeadwindMs">Wind from ahead, m/s; negative from behind.</param>
/// <param name="CrosswindMs">Wind from the side, m/s; positive when it blows from the left to the right.</param>
public sealed record SectorCheck(double CourseDeg, WayIn? Way, PathBlock? Block, double HeadwindMs, double CrosswindMs)
{
    /// <summary>True when it can be flown.</summary>
    public bool Allowed => Way is not null;
}
