using System.ComponentModel;
using UnitsNet;

#pragma warning disable CS1591 // The description of a member, which the schema shows too, is its documentation.
namespace Stillhook.Planning;

/// <summary>Which seat the load is flown from.</summary>
public enum PilotSide
{
    /// <summary>Left seat.</summary>
    Left,

    /// <summary>Right seat.</summary>
    Right,
}

/// <summary>How approaches are flown: what pins the path, and the operator's limits on it. Whatever is null takes the default that the plan names.</summary>
public sealed record ApproachGiven
{
    [Description("Distance to go at the start mark, where the descent begins; chosen by the plan when left out."), Between(50, 5000)]
    public Length? Start { get; init; }

    [Description("Angle of the path from the start mark to the spot; chosen by the plan when left out."), Between(2, 30)]
    public Angle? Glide { get; init; }

    [Description("Steepest path the operator allows."), Between(3, 30)]
    public Angle? SteepestGlide { get; init; }

    [Description("True course of the approach; chosen by the plan when left out."), Between(0, 360)]
    public Angle? Course { get; init; }

    [Description("Air speed brought to the start mark."), Between(10, 120)]
    public Speed? EntrySpeed { get; init; }

    [Description("Largest slow-down of the hook, percent of standard gravity."), Between(2, 20)]
    public Ratio? SlowDownLimit { get; init; }

    [Description("Tau-dot of the slow-down: 0.5 even, under 0.5 dying away towards the spot, over 0.5 rising."), Between(0.3, 0.7)]
    public double? TauRate { get; init; }

    [Description("Most that the nose may come up."), Between(3, 30)]
    public Angle? NoseUpLimit { get; init; }

    [Description("Highest sink under 20 kt of air speed; the plan's own limit stands when that is less."), Between(0.3, 5)]
    public Speed? SlowSinkLimit { get; init; }

    [Description("Sink with which the load is to touch the ground."), Between(0.1, 1.5)]
    public Speed? TouchDownSink { get; init; }

    [Description("Height of the load at which it is over the spot, from where it goes straight down."), Between(0, 15)]
    public Length? LetDown { get; init; }

    [Description("Height to keep over obstacles, wires and ground under the load."), Between(1, 100)]
    public Length? ObstacleClearance { get; init; }

    [Description("Distance to keep from people beyond where a falling load could reach."), Between(0, 200)]
    public Length? PeopleClearance { get; init; }

    [Description("Strongest wind from the side."), Between(2, 60)]
    public Speed? CrosswindLimit { get; init; }

    [Description("Pilot's reaction before power is called for."), Between(0.2, 5)]
    public Duration? Reaction { get; init; }

    [Description("Lag of engine and rotor after power is called for."), Between(0.1, 6)]
    public Duration? EngineLag { get; init; }

    [Description("Gust speed over the mean wind to plan for when none is observed."), Between(0, 40)]
    public Speed? GustSpread { get; init; }

    [Description("Elevation grid of the surroundings (SRTM .hgt, Esri ASCII or uncompressed GeoTIFF in degrees), beside the job file.")]
    public string? Terrain { get; init; }
}
