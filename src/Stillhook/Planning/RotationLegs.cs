using Stillhook.Physics.Earth;
using UnitsNet;

namespace Stillhook.Planning;

/// <summary>Time and fuel of the legs between the sites, from distance, ground speed and burn.</summary>
/// <remarks>
/// minutes = distance / speed, fuel = minutes × burn, hovering at both ends of a loaded leg added with its own burn. Distance is the straight
/// line between the sites, height included, on WGS-84; the chord is shorter than the arc by 0.1 m over 50 km. The speeds are means over the leg
/// as the crew gave them: climbing, slowing and turning are in them.
/// </remarks>
public sealed class RotationLegs
{
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
        double minutes = DistanceM(from, to) / aircraft.Speeds!.Empty.MetersPerSecond / 60;
        return (minutes, minutes * PerMinute(aircraft.Fuel!.BurnEmpty));
    }

    /// <summary>From hook-on to release, hovering at both ends included.</summary>
    public (double Minutes, double FuelKg) Loaded(Site pickUp, Site delivery)
    {
        double cruise = DistanceM(pickUp, delivery) / aircraft.Speeds!.Loaded.MetersPerSecond / 60;
        double hover = aircraft.Speeds.HoverAtPickUp.Minutes + aircraft.Speeds.HoverAtDelivery.Minutes;
        return (cruise + hover, cruise * PerMinute(aircraft.Fuel!.BurnLoaded) + hover * PerMinute(aircraft.Fuel.BurnHover));
    }

    /// <summary>A burn, kg/min.</summary>
    public static double PerMinute(MassFlow burn) => burn.KilogramsPerHour / 60;

    private static Ecef Position(Site site) => Wgs84.ToEcef(site.Latitude.Degrees, site.Longitude.Degrees, site.Elevation?.Meters ?? 0);
}
