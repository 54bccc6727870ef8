using Stillhook.Physics.Earth;

namespace Stillhook.Approaching;

/// <summary>Where a load that is let go comes down.</summary>
/// <remarks>
/// Drag-free throw from its height and ground speed, and the wind's drift on top: reach = V·t + w·t, t = √(2h/g). Drag would shorten the throw and the wind can carry a load no further than the air
/// itself moves, so both terms are upper bounds; the operator's margin is added round the whole way from the point below to where it lands. docs/method/way-in.md.
/// </remarks>
public static class FallZone
{
    /// <summary>Time to the ground, s: √(2h/g).</summary>
    public static double FallS(double heightM) => Math.Sqrt(2 * Math.Max(0, heightM) / Gravity.Standard);

    /// <summary>Horizontal reach from the point below, m.</summary>
    /// <param name="groundVelocity">Velocity over the ground, m/s.</param>
    /// <param name="airVelocity">Velocity of the air over the ground, m/s.</param>
    /// <param name="heightM">Height over the ground.</param>
    public static Enu Reach(Enu groundVelocity, Enu airVelocity, double heightM)
    {
        double t = FallS(heightM);
        return new(t * (groundVelocity.East + airVelocity.East), t * (groundVelocity.North + airVelocity.North), 0);
    }
}
