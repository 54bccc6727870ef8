using Stillhook.Physics.Earth;
using Stillhook.Physics.Load;

namespace Stillhook.Approaching;

/// <summary>What hangs there and the air it moves through, in the frame of a course: along it, to the right of it, up.</summary>
/// <param name="Load">Load, line and air density.</param>
/// <param name="LoadHeightM">Height of the load itself, m.</param>
/// <param name="WindAlongMs">Wind from behind positive, m/s.</param>
/// <param name="WindRightMs">Wind towards the right positive, m/s.</param>
public readonly record struct HangingLoad(SlungLoad Load, double LoadHeightM, double WindAlongMs, double WindRightMs)
{
    /// <summary>Hook to the load's underside, m.</summary>
    public double ContactLengthM => Load.LengthM + LoadHeightM / 2;

    /// <summary>Velocity of the air as (along, right, up).</summary>
    internal Enu Wind => new(WindAlongMs, WindRightMs, 0);

    /// <summary>Speed through the air at a speed over the ground along the course, m/s.</summary>
    public double AirspeedMs(double groundMs)
    {
        double along = groundMs - WindAlongMs;
        return Math.Sqrt(along * along + WindRightMs * WindRightMs);
    }
}
