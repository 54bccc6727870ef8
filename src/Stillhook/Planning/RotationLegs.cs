using Stillhook.Physics.Earth;
using UnitsNet;

namespace Stillhook.Planning;

/// <summary>Time and fuel of the legs between the sites, from distance, ground speed and burn.</summary>
/// <remarks>
/// minutes = distance / speed, fuel = minutes × burn, hovering at both ends of a loaded leg added with its own burn. Distance is the straight
/// line between the sites, height included, on WGS-84; the chord is shorter than the arc by 0.1 m over 50 km. The speeds are means over the leg
/// as the crew gave them: climbing, slowing and turning are in them. Where the crew says that they are held in the middle of a leg (cruise), the
/// leg takes <see cref="LegSeconds"/> instead, burning as in cruise. Wind is not counted.
/// </remarks>
public sealed class RotationLegs
{
    /// <summary>How hard a leg is begun and ended when nobody says, m/s²: 0.08 g. Common practice, no source.</summary>
    public const double UsualAccelerationMs2 = 0.08 * Gravity.Standard;

    /// <summary>Climb on a leg when nobody says, m/s: 500 ft/min. Common practice, no source.</summary>
    public const double UsualClimbMs = 500 * 0.3048 / 60;

    private readonly Aircraft aircraft;

    /// <summary>Legs of an aircraft with its speeds and burn given.</summary>
    public RotationLegs(Aircraft aircraft)
    {
        ArgumentNullException.ThrowIfNull(aircraft);
        this.aircraft = aircraft;
    }

    /// <summary>Straight distance between two sites, m.</summary>
    public static double DistanceM(Site from, Site to)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(to);
        Ecef a = Position(from), b = Position(to);
        return Math.Sqrt((a.X - b.X) * (a.X - b.X) + (a.Y - b.Y) * (a.Y - b.Y) + (a.Z - b.Z) * (a.Z - b.Z));
    }

    /// <summary>True course from one site to another, degrees.</summary>
    public static double CourseDeg(Site from, Site to)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(to);
        Enu there = new LocalFrame(from.Latitude.Degrees, from.Longitude.Degrees, 0).ToEnu(to.Latitude.Degrees, to.Longitude.Degrees, 0);
        return (double.RadiansToDegrees(Math.Atan2(there.East, there.North)) + 360) % 360;
    }

    /// <summary>A leg with the bare line.</summary>
    public (double Minutes, double FuelKg) Empty(Site from, Site to)
    {
        double minutes = Minutes(from, to, aircraft.Speeds!.Empty);
        return (minutes, minutes * PerMinute(aircraft.Fuel!.BurnEmpty));
    }

    /// <summary>From hook-on to release, hovering at both ends included.</summary>
    public (double Minutes, double FuelKg) Loaded(Site pickUp, Site delivery)
    {
        double cruise = Minutes(pickUp, delivery, aircraft.Speeds!.Loaded);
        double hover = aircraft.Speeds.HoverAtPickUp.Minutes + aircraft.Speeds.HoverAtDelivery.Minutes;
        return (cruise + hover, cruise * PerMinute(aircraft.Fuel!.BurnLoaded) + hover * PerMinute(aircraft.Fuel.BurnHover));
    }

    /// <summary>What speeding up, slowing down and climbing cost on a leg at a speed held in its middle, min; never less than 0.</summary>
    /// <param name="from">Where the leg begins; without an elevation on either end no climb is counted.</param>
    /// <param name="to">Where it ends.</param>
    /// <param name="speed">Ground speed held in the middle, above 0.</param>
    public double SlowEndsMinutes(Site from, Site to, Speed speed) =>
        (LegSeconds(DistanceM(from, to), speed.MetersPerSecond, AccelerationMs2, ClimbM(from, to), ClimbMs) - DistanceM(from, to) / speed.MetersPerSecond) / 60;

    /// <summary>How hard a leg is begun and ended, m/s²: as entered, 0.01 to 0.30 g, else <see cref="UsualAccelerationMs2"/>.</summary>
    public double AccelerationMs2 => aircraft.Speeds?.Acceleration?.DecimalFractions * Gravity.Standard ?? UsualAccelerationMs2;

    /// <summary>Climb on a leg, m/s, up positive: as entered, 0.26 to 20.6 m/s (0.5 to 40 kt), else <see cref="UsualClimbMs"/>.</summary>
    public double ClimbMs => aircraft.Speeds?.Climb?.MetersPerSecond ?? UsualClimbMs;

    /// <summary>Time of a leg from standing to standing, s: d/v + v/a, or 2·√(d/a) where v is not reached; never less than its climb takes.</summary>
    /// <remarks>
    /// Closed form for a speed that rises and falls evenly: a trapezoid over time, a triangle on a short leg. Climbing goes on during all of it and costs no speed; turning and wind are not in
    /// it. How near it comes to a flown leg has not been measured; that legs are flown so is common practice, no source.
    /// </remarks>
    /// <param name="distanceM">Length, m; 0 or more.</param>
    /// <param name="speedMs">Speed held in the middle, m/s; above 0.</param>
    /// <param name="accelerationMs2">Speeding up and slowing down, m/s²; above 0.</param>
    /// <param name="climbM">Height gained, m; 0 where it goes down.</param>
    /// <param name="climbMs">Climb, m/s; above 0.</param>
    public static double LegSeconds(double distanceM, double speedMs, double accelerationMs2, double climbM, double climbMs)
    {
        double flown = distanceM >= speedMs * speedMs / accelerationMs2 ? distanceM / speedMs + speedMs / accelerationMs2 : 2 * Math.Sqrt(distanceM / accelerationMs2);
        return Math.Max(flown, climbM / climbMs);
    }

    private double Minutes(Site from, Site to, Speed speed) =>
        DistanceM(from, to) / speed.MetersPerSecond / 60 + (aircraft.Speeds!.Cruise == true ? SlowEndsMinutes(from, to, speed) : 0);

    private static double ClimbM(Site from, Site to) => Math.Max(0, (to.Elevation - from.Elevation)?.Meters ?? 0);

    /// <summary>A burn, kg/min.</summary>
    public static double PerMinute(MassFlow burn) => burn.KilogramsPerHour / 60;

    private static Ecef Position(Site site) => Wgs84.ToEcef(site.Latitude.Degrees, site.Longitude.Degrees, site.Elevation?.Meters ?? 0);
}
