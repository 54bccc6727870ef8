using Stillhook.Approaching;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Debriefing;

/// <summary>What the crew says of the lift: enough to work out heights, swing and exposure. Whatever is not given is assumed, and said to be.</summary>
public sealed partial record LiftSetup
{
    /// <summary>Length of the line alone, belly hook to remote hook.</summary>
    public Given<Length> Line { get; init; } = new(Length.FromMeters(30), Origin.Assumed);

    /// <summary>Rigging between remote hook and load.</summary>
    public Given<Length> Rigging { get; init; } = new(Length.Zero, Origin.Assumed);

    /// <summary>Height of the load itself.</summary>
    public Given<Length> LoadHeight { get; init; } = new(Length.Zero, Origin.Assumed);

    /// <summary>Mass of the load with its rigging.</summary>
    public Given<Mass> Load { get; init; } = new(Mass.FromKilograms(600), Origin.Assumed);

    /// <summary>Drag area Cd·A of the load. When not given it follows from the mass.</summary>
    public Given<Area> DragArea { get; init; } = new(Area.FromSquareMeters(1.5), Origin.Assumed);

    /// <summary>Mass of the aircraft without the load; only bounds the swing frequency.</summary>
    public Given<Mass> Aircraft { get; init; } = new(Mass.FromKilograms(1800), Origin.Assumed);

    /// <summary>Steady wind: from which true direction, and speed. Null when nobody said.</summary>
    public Given<Wind>? Wind { get; init; }

    /// <summary>Height of the satellite antenna above the belly hook.</summary>
    public Given<Length> AntennaAboveHook { get; init; } = new(Length.FromMeters(2), Origin.Assumed);

    /// <summary>Pick-up and delivery sites known beforehand; empty when they are to be found in the record.</summary>
    public IReadOnlyList<KnownSite> Sites { get; init; } = [];

    /// <summary>Altimeter reading taken in the hover with the load at ground contact over the target, if any.</summary>
    public ReconReading? Recon { get; init; }

    /// <summary>Where people stand on the ground.</summary>
    public IReadOnlyList<PersonPosition> People { get; init; } = [];

    /// <summary>Plan gates when an approach was planned: distance to go and the planned height, speed and sink there.</summary>
    public IReadOnlyList<PlanGate> Gates { get; init; } = [];

    /// <summary>The sites' clock.</summary>
    public SiteClock Clock { get; init; } = SiteClock.Utc;

    /// <summary>Whose <see cref="Gates"/> are.</summary>
    public MarksFrom Marks { get; init; }

    /// <summary>The planned approach that <see cref="Gates"/> are from; null when they were typed or nobody planned one.</summary>
    public ApproachPlan? Approach { get; init; }

    /// <summary>The operator's limits on advice; null when none were entered, and advice is then held at the plan.</summary>
    public AdviceLimits? Advice { get; init; }

    /// <summary>Belly hook to the load's middle, m: line + rigging + half the load height. Sets the swing.</summary>
    public double SwingLengthM => Line.Value.Meters + Rigging.Value.Meters + LoadHeight.Value.Meters / 2;

    /// <summary>Belly hook to the load's underside, m: line + rigging + load height. Sets heights over the ground.</summary>
    public double ContactLengthM => Line.Value.Meters + Rigging.Value.Meters + LoadHeight.Value.Meters;
}

/// <summary>Steady wind.</summary>
/// <param name="FromDeg">True direction it blows from, degrees.</param>
/// <param name="Speed">Mean speed.</param>
public readonly record struct Wind(double FromDeg, Speed Speed)
{
    /// <summary>Part of the wind from behind on a true course (degrees), kt; negative into wind.</summary>
    public double TailKt(double courseDeg) => -Speed.Knots * Math.Cos(double.DegreesToRadians(FromDeg - courseDeg));

    /// <summary>Velocity of the air, m/s east-north-up.</summary>
    public Enu VelocityEnu
    {
        get
        {
            (double s, double c) = Math.SinCos(double.DegreesToRadians(FromDeg));
            return new(-Speed.MetersPerSecond * s, -Speed.MetersPerSecond * c, 0);
        }
    }
}

/// <summary>What a site is for.</summary>
public enum SiteUse
{
    /// <summary>Loads are hooked on here.</summary>
    PickUp,

    /// <summary>Loads are set down here.</summary>
    Delivery,

    /// <summary>Landing, fuel, waiting: no loads.</summary>
    Base,
}

/// <summary>A site of the job.</summary>
/// <param name="Name">Name the crew uses.</param>
/// <param name="Use">What for.</param>
/// <param name="LatitudeDeg">Degrees, north positive.</param>
/// <param name="LongitudeDeg">Degrees, east positive.</param>
public sealed record KnownSite(string Name, SiteUse Use, double LatitudeDeg, double LongitudeDeg);

/// <summary>An altimeter reading over the target; a reading never travels without its QNH and time.</summary>
/// <param name="AltimeterReading">Reading with the load touching the ground at the target.</param>
/// <param name="QnhHPa">Setting, hPa.</param>
/// <param name="TimeS">When, s since 1970 UTC.</param>
/// <param name="TemperatureC">Outside air temperature there, °C, or null when not noted.</param>
public sealed record ReconReading(Length AltimeterReading, double QnhHPa, double TimeS, double? TemperatureC);

/// <summary>Where a person stands.</summary>
public sealed record PersonPosition(string Name, double LatitudeDeg, double LongitudeDeg);

/// <summary>One gate of a planned approach.</summary>
/// <param name="DistanceM">Horizontal distance hook to target.</param>
/// <param name="HeightAboveTargetM">Height of the hook over the target ground.</param>
/// <param name="GroundSpeedMs">Speed there.</param>
/// <param name="SinkMs">Sink there, down positive.</param>
public sealed record PlanGate(double DistanceM, double HeightAboveTargetM, double GroundSpeedMs, double SinkMs);
