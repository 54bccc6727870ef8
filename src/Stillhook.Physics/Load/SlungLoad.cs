using Stillhook.Physics.Earth;

namespace Stillhook.Physics.Load;

/// <summary>What hangs on the hook, and the air it hangs in.</summary>
/// <param name="LengthM">Hook to the load's middle, rigging included, m. Above 0.</param>
/// <param name="MassKg">Load with its rigging, kg. Above 0.</param>
/// <param name="DragAreaM2">Cd·A of the load, m². 0 for no drag.</param>
/// <param name="AirDensityKgM3">Density of the air, kg/m³.</param>
/// <param name="LineKgPerM">Mass of the line, kg/m; 0 for a weightless line. The line is taken as a straight rod.</param>
/// <param name="LineDragM2PerM">Line diameter times its drag coefficient, m²/m; 0 for none.</param>
public readonly record struct SlungLoad(
    double LengthM, double MassKg, double DragAreaM2, double AirDensityKgM3 = 1.225, double LineKgPerM = 0, double LineDragM2PerM = 0)
{
    /// <summary>Where on the line the pull of gravity and of the air on a straight, hanging line may be put together: m + μL/2, kg.</summary>
    internal double StaticMassKg => MassKg + LineKgPerM * LengthM / 2;

    /// <summary>Mass that resists turning about the hook: m + μL/3, kg.</summary>
    internal double TurningMassKg => MassKg + LineKgPerM * LengthM / 3;
}

/// <summary>Place and rate of the load as seen from the hook.</summary>
/// <param name="LoadFromHookEnu">Load from hook, m, east-north-up.</param>
/// <param name="LoadFromHookVelocityEnu">Its rate, m/s.</param>
/// <param name="Taut">Whether the line pulls; a slack line leaves the load to fall.</param>
public readonly record struct SlungLoadState(Enu LoadFromHookEnu, Enu LoadFromHookVelocityEnu, bool Taut = true)
{
    /// <summary>Straight below the hook, at rest against it.</summary>
    public static SlungLoadState Plumb(double lengthM) => new(new(0, 0, -lengthM), default);
}

/// <summary>The hook's motion over one step: velocity and acceleration at its start and end, and the wind.</summary>
/// <param name="VelocityEnu">Hook over ground at the start of the step, m/s.</param>
/// <param name="AccelerationStartEnu">Hook acceleration at the start, m/s².</param>
/// <param name="AccelerationEndEnu">Hook acceleration at the end, m/s²; linear between.</param>
/// <param name="AirVelocityEnu">Velocity of the air over ground, m/s.</param>
public readonly record struct HookStep(Enu VelocityEnu, Enu AccelerationStartEnu, Enu AccelerationEndEnu, Enu AirVelocityEnu);

/// <summary>The load as a spherical pendulum under a moving hook: nonlinear, with quadratic drag, line mass, slack line and re-catch.</summary>
/// <remarks>
/// With q the unit vector from hook to load, a the hook's acceleration, G gravity (down) and f the air force:
/// <para>taut: q'' = −|q'|²q + (I − qqᵀ)·[(m + μL/2)(G − a) + f] / ((m + μL/3)·L); line tension at the load S = m(L|q'|² + q·(G − a + f/m)).</para>
/// <para>slack (S ≤ 0): the load is a free body, r'' = G − a + f/m, until |r| = L; the catch takes away the outward speed (no rebound).</para>
/// Line mass enters as a rigid straight rod, which is right within 0.1 % of the frequency for a loaded line and 0.5 % for a bare hook
/// (docs/method/line-and-load.md). Air force on the load: −½ρ·CdA·|v|v with v the load's velocity through the air; on the line: the same at
/// its middle, acting with half its size at the load. Load rotation, lift and line stretch are left out.
/// Equations: [NASA-TP-3280] in the form for one suspension point; derived again here.
/// Integration: classical Runge-Kutta of fourth order; at a step of 0.02 s a wide swing on 30 m changes its energy by under 1e-5 J/kg in ten minutes (tested).
/// </remarks>
public static class SlungLoadMotion
{
    /// <summary>The state one step later.</summary>
    /// <param name="load">What hangs there.</param>
    /// <param name="state">State at the start.</param>
    /// <param name="hook">The hook's motion over the step.</param>
    /// <param name="stepS">Length of the step, s; up to about 1/50 of the swing period.</param>
    public static SlungLoadState Step(in SlungLoad load, in SlungLoadState state, in HookStep hook, double stepS)
    {
        Enu r = state.LoadFromHookEnu, v = state.LoadFromHookVelocityEnu;
        Enu aMid = 0.5 * (hook.AccelerationStartEnu + hook.AccelerationEndEnu);
        Enu vMid = hook.VelocityEnu + (stepS / 4) * (hook.AccelerationStartEnu + aMid);
        Enu vEnd = hook.VelocityEnu + stepS * aMid;
        Enu air = hook.AirVelocityEnu;
        bool taut = state.Taut;

        Enu k1 = Acceleration(load, r, v, hook.AccelerationStartEnu, hook.VelocityEnu - air, taut);
        Enu v2 = v + (stepS / 2) * k1;
        Enu k2 = Acceleration(load, r + (stepS / 2) * v, v2, aMid, vMid - air, taut);
        Enu v3 = v + (stepS / 2) * k2;
        Enu k3 = Acceleration(load, r + (stepS / 2) * v2, v3, aMid, vMid - air, taut);
        Enu v4 = v + stepS * k3;
        Enu k4 = Acceleration(load, r + stepS * v3, v4, hook.AccelerationEndEnu, vEnd - air, taut);
        Enu rNext = r + (stepS / 6) * (v + 2 * v2 + 2 * v3 + v4);
        Enu vNext = v + (stepS / 6) * (k1 + 2 * k2 + 2 * k3 + k4);

        return taut
            ? OnTheSphere(load, rNext, vNext, hook.AccelerationEndEnu, vEnd - air)
            : Fallen(load, rNext, vNext);
    }

    /// <summary>Line tension at the load, N; 0 when slack.</summary>
    public static double TensionN(in SlungLoad load, in SlungLoadState state, Enu hookAccelerationEnu, Enu hookVelocityThroughAirEnu) =>
        state.Taut ? Math.Max(0, Tension(load, state.LoadFromHookEnu, state.LoadFromHookVelocityEnu, hookAccelerationEnu, hookVelocityThroughAirEnu)) : 0;

    /// <summary>Air force on the load (without the line), N.</summary>
    /// <param name="load">What hangs there.</param>
    /// <param name="throughAirEnu">Velocity of the load through the air, m/s.</param>
    public static Enu AirForce(in SlungLoad load, Enu throughAirEnu) =>
        (-0.5 * load.AirDensityKgM3 * load.DragAreaM2 * throughAirEnu.Length) * throughAirEnu;

    /// <summary>Where the load hangs when nothing changes: steady hook acceleration and steady velocity through the air.</summary>
    /// <remarks>The line lies along G − a + f/m: m(G − a) + f = −S·q, worked directly since the load then moves with the hook.</remarks>
    public static SlungLoadState Steady(in SlungLoad load, Enu hookAccelerationEnu, Enu throughAirEnu)
    {
        Enu pull = load.StaticMassKg * (Down - hookAccelerationEnu) + AirForce(load, throughAirEnu) + LineAirForce(load, throughAirEnu);
        return new((load.LengthM / pull.Length) * pull, default);
    }

    private static readonly Enu Down = new(0, 0, -Gravity.Standard);

    private static double Dot(Enu a, Enu b) => a.East * b.East + a.North * b.North + a.Up * b.Up;

    private static Enu LineAirForce(in SlungLoad load, Enu throughAirEnu) =>
        load.LineDragM2PerM == 0 ? default
        : (-0.25 * load.AirDensityKgM3 * load.LineDragM2PerM * load.LengthM * throughAirEnu.Length) * throughAirEnu;

    private static Enu Acceleration(in SlungLoad load, Enu r, Enu v, Enu hookAcceleration, Enu hookThroughAir, bool taut)
    {
        Enu force = AirForce(load, hookThroughAir + v);
        if (!taut)
            return Down - hookAcceleration + (1 / load.MassKg) * force;
        if (load.LineDragM2PerM > 0)
            force += LineAirForce(load, hookThroughAir + 0.5 * v);
        Enu pull = load.StaticMassKg * (Down - hookAcceleration) + force;
        double inverseSquare = 1 / Dot(r, r);
        Enu across = pull - (Dot(pull, r) * inverseSquare) * r;
        return (1 / load.TurningMassKg) * across - (Dot(v, v) * inverseSquare) * r;
    }

    private static double Tension(in SlungLoad load, Enu r, Enu v, Enu hookAcceleration, Enu hookThroughAir)
    {
        Enu pull = load.MassKg * (Down - hookAcceleration) + AirForce(load, hookThroughAir + v);
        return (load.MassKg * Dot(v, v) + Dot(pull, r)) / load.LengthM;
    }

    /// <summary>Takes out the drift of the integration off the sphere, and lets go when the line stops pulling.</summary>
    private static SlungLoadState OnTheSphere(in SlungLoad load, Enu r, Enu v, Enu hookAcceleration, Enu hookThroughAir)
    {
        r = (load.LengthM / r.Length) * r;
        v -= (Dot(v, r) / (load.LengthM * load.LengthM)) * r;
        return new(r, v, Tension(load, r, v, hookAcceleration, hookThroughAir) > 0);
    }

    private static SlungLoadState Fallen(in SlungLoad load, Enu r, Enu v)
    {
        double outward = Dot(r, v);
        if (r.Length < load.LengthM || outward < 0)
            return new(r, v, false);
        r = (load.LengthM / r.Length) * r;
        return new(r, v - (Dot(r, v) / (load.LengthM * load.LengthM)) * r, true);
    }
}
