using Stillhook.Physics.Earth;

namespace Stillhook.Physics.Load;

/// <summary>Helicopter and load when the helicopter is a free mass under a given thrust: the other end from a hook held by the pilot.</summary>
/// <param name="HookVelocityEnu">Hook over ground, m/s.</param>
/// <param name="LoadFromHookEnu">Load from hook, m.</param>
/// <param name="LoadFromHookVelocityEnu">Its rate, m/s.</param>
public readonly record struct FreeHelicopterState(Enu HookVelocityEnu, Enu LoadFromHookEnu, Enu LoadFromHookVelocityEnu);

/// <summary>Steps helicopter and load together. The line acts at the helicopter's centre of mass; a taut line is assumed.</summary>
/// <remarks>
/// Hook: a = G + F/M + (S/M)·q. Line tension from the constraint with that a put in:
/// S·(1 + m/M) = m·(L|q'|² − q·F/M + q·f/m). Line mass is left out. Classical Runge-Kutta of fourth order.
/// </remarks>
public static class FreeHelicopter
{
    /// <summary>The state one step later.</summary>
    /// <param name="load">What hangs there; its line mass and line drag are not used.</param>
    /// <param name="aircraftKg">M.</param>
    /// <param name="state">State at the start.</param>
    /// <param name="thrustEnu">F: rotor thrust and all other forces on the helicopter but gravity and the line, N, constant over the step.</param>
    /// <param name="airVelocityEnu">Velocity of the air, m/s.</param>
    /// <param name="stepS">Length of the step, s.</param>
    public static FreeHelicopterState Step(
        in SlungLoad load, double aircraftKg, in FreeHelicopterState state, Enu thrustEnu, Enu airVelocityEnu, double stepS)
    {
        FreeHelicopterState k1 = Rate(load, aircraftKg, state, thrustEnu, airVelocityEnu);
        FreeHelicopterState k2 = Rate(load, aircraftKg, Moved(state, stepS / 2, k1), thrustEnu, airVelocityEnu);
        FreeHelicopterState k3 = Rate(load, aircraftKg, Moved(state, stepS / 2, k2), thrustEnu, airVelocityEnu);
        FreeHelicopterState k4 = Rate(load, aircraftKg, Moved(state, stepS, k3), thrustEnu, airVelocityEnu);
        FreeHelicopterState next = Moved(Moved(Moved(Moved(state, stepS / 6, k1), stepS / 3, k2), stepS / 3, k3), stepS / 6, k4);
        Enu r = (load.LengthM / next.LoadFromHookEnu.Length) * next.LoadFromHookEnu;
        return next with { LoadFromHookEnu = r };
    }

    private static FreeHelicopterState Moved(in FreeHelicopterState s, double time, in FreeHelicopterState rate) => new(
        s.HookVelocityEnu + time * rate.HookVelocityEnu,
        s.LoadFromHookEnu + time * rate.LoadFromHookEnu,
        s.LoadFromHookVelocityEnu + time * rate.LoadFromHookVelocityEnu);

    private static FreeHelicopterState Rate(in SlungLoad load, double aircraftKg, in FreeHelicopterState s, Enu thrust, Enu air)
    {
        Enu q = (1 / load.LengthM) * s.LoadFromHookEnu, v = s.LoadFromHookVelocityEnu, down = new(0, 0, -Gravity.Standard);
        Enu force = SlungLoadMotion.AirForce(load, s.HookVelocityEnu + v - air);
        Enu pull = (1 / load.MassKg) * force - (1 / aircraftKg) * thrust;
        double tension = load.MassKg * (Dot(v, v) / load.LengthM + Dot(q, pull)) / (1 + load.MassKg / aircraftKg);
        Enu hook = down + (1 / aircraftKg) * (thrust + tension * q);
        Enu relative = down + (1 / load.MassKg) * (force - tension * q) - hook;
        return new(hook, v, relative);
    }

    private static double Dot(Enu a, Enu b) => a.East * b.East + a.North * b.North + a.Up * b.Up;
}
