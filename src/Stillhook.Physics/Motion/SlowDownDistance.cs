using Stillhook.Physics.Rotor;

namespace Stillhook.Physics.Motion;

/// <summary>Distance, deceleration and sink of an even slow-down along a straight path. Speeds over ground, still air or not.</summary>
public static class SlowDownDistance
{
    /// <summary>Distance to a stop under a constant deceleration, m: V²/(2a).</summary>
    /// <param name="speedMs">V, 0 or above.</param>
    /// <param name="decelerationMs2">a, above 0.</param>
    public static double DistanceM(double speedMs, double decelerationMs2) =>
        Permitted.From0(speedMs) * speedMs / (2 * Permitted.Above0(decelerationMs2));

    /// <summary>Constant deceleration that stops within a distance, m/s²: V²/(2x).</summary>
    /// <param name="speedMs">V, 0 or above.</param>
    /// <param name="distanceM">x, above 0.</param>
    public static double NeededDecelerationMs2(double speedMs, double distanceM) =>
        Permitted.From0(speedMs) * speedMs / (2 * Permitted.Above0(distanceM));

    /// <summary>Sink that keeps a path angle, m/s, positive down: V·tan γ.</summary>
    /// <param name="groundSpeedMs">V, horizontal, 0 or above.</param>
    /// <param name="pathRad">γ, angle of the path below the horizontal, 0 to under π/2.</param>
    public static double SinkMs(double groundSpeedMs, double pathRad)
    {
        if (!(pathRad is >= 0 and < Math.PI / 2))
            throw new ArgumentOutOfRangeException(nameof(pathRad), pathRad, "Permitted: 0 to under pi/2.");
        return Permitted.From0(groundSpeedMs) * Math.Tan(pathRad);
    }
}
