using Stillhook.Physics.Earth;
using Stillhook.Physics.Load;

namespace Stillhook.Approaching;

/// <summary>How the rotor's thrust must lean for a path: what the pilot sees as nose up, against upright.</summary>
/// <remarks>
/// Thrust = M·(a_hook + g·up) + the line's pull + fuselage drag, M the aircraft without the load; the pull is m·n along the line (<see cref="FlatMap"/>). Pitch = −atan(along/up), nose up positive. The fuselage hangs below the rotor by a few degrees of its own, trim and centre of gravity: not in here. Without the aircraft's mass the load's own lean stands for all.
/// </remarks>
public sealed class ApproachAttitude
{
    private readonly ApproachSituation s;
    private readonly LoadPath path;
    private readonly double aircraftKg, flatPlateM2;

    /// <summary>Attitude along a path.</summary>
    public ApproachAttitude(ApproachSituation situation, LoadPath path)
    {
        ArgumentNullException.ThrowIfNull(situation);
        ArgumentNullException.ThrowIfNull(path);
        (s, this.path) = (situation, path);
        aircraftKg = Math.Max(0, (s.GrossKg ?? 0) - s.Load.MassKg);
        flatPlateM2 = s.Model?.FlatPlateAreaM2 ?? 0;
    }

    /// <summary>Nose up, degrees, at a sample.</summary>
    public double PitchDeg(int i)
    {
        Enu thrust = ThrustN(i);
        return double.RadiansToDegrees(-Math.Atan2(thrust.East, thrust.Up));
    }

    /// <summary>Largest nose up from the start mark to rest over the spot, degrees.</summary>
    public double LargestNoseUpDeg()
    {
        double most = 0;
        for (int i = path.StartIndex; i < path.StopIndex; i += 2)
            most = Math.Max(most, PitchDeg(i));
        return most;
    }

    private Enu ThrustN(int i)
    {
        Enu air = path.HookVelocity(i) - path.Hanging.Wind, line = path.Hook[i] - path.Load[i];
        double pull = (s.Load.MassKg + s.Load.LineKgPerM * s.Load.LengthM / 2) * FlatMap.Of(s.Load).PullPerMass(new(-path.DecelerationMs2[i], 0, 0), new Enu(path.SpeedMs[i], 0, 0) - path.Hanging.Wind).Length;
        Enu drag = (0.5 * s.Load.AirDensityKgM3 * flatPlateM2 * air.Length) * air;
        return aircraftKg * (path.HookAcceleration(i) + new Enu(0, 0, Gravity.Standard)) + (pull / line.Length) * line + drag;
    }
}
