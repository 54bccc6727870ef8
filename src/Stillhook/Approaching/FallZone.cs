using Stillhook.Physics.Earth;

namespace Stillhook.Approaching;

/// <summary>Where a load that is let go comes down: somewhere in the triangle of the point below it, the drag-free throw, and that throw with the whole drift of the wind.</summary>
/// <remarks>
/// Throw V·t, drift w·t, t = √(2h/g). Drag only shortens the throw, and the wind moves the load no further than the air itself moves. With the wind from ahead the throw reaches farther, with the wind
/// from behind the drifted one: both count. The operator's margin goes round all of it. docs/method/way-in.md.
/// </remarks>
/// <param name="Under">Point below the load.</param>
/// <param name="Thrown">Where it comes down in still air.</param>
/// <param name="Drifted">Where it comes down when it moves with the air besides.</param>
public readonly record struct FallZone(Enu Under, Enu Thrown, Enu Drifted)
{
    /// <summary>Time to the ground, s: √(2h/g).</summary>
    public static double FallS(double heightM) => Math.Sqrt(2 * Math.Max(0, heightM) / Gravity.Standard);

    /// <summary>Fall zone of a load.</summary>
    /// <param name="under">Point below it, m.</param>
    /// <param name="groundVelocity">Velocity over the ground, m/s.</param>
    /// <param name="airVelocity">Velocity of the air over the ground, m/s.</param>
    /// <param name="heightM">Height over the ground.</param>
    public static FallZone Of(Enu under, Enu groundVelocity, Enu airVelocity, double heightM)
    {
        double t = FallS(heightM);
        Enu thrown = under + t * new Enu(groundVelocity.East, groundVelocity.North, 0);
        return new(under, thrown, thrown + t * new Enu(airVelocity.East, airVelocity.North, 0));
    }

    /// <summary>Farthest that it reaches from the point below, m.</summary>
    public double ReachM => Math.Max((Thrown - Under).Horizontal, (Drifted - Under).Horizontal);

    /// <summary>Distance of a place from it, m; 0 inside.</summary>
    public double DistanceM(Enu place)
    {
        double a = Side(Under, Thrown, place), b = Side(Thrown, Drifted, place), c = Side(Drifted, Under, place);
        bool inside = (a > 0 && b > 0 && c > 0) || (a < 0 && b < 0 && c < 0);
        return inside ? 0 : Math.Min(GroundDistance.ToSegmentM(place, Under, Thrown), Math.Min(GroundDistance.ToSegmentM(place, Thrown, Drifted), GroundDistance.ToSegmentM(place, Drifted, Under)));
    }

    private static double Side(Enu from, Enu to, Enu place) => (to.East - from.East) * (place.North - from.North) - (to.North - from.North) * (place.East - from.East);
}
