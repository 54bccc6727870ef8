using Stillhook.Physics.Earth;

namespace Stillhook.Physics.Rotor;

/// <summary>Shaft power a helicopter needs, by momentum theory with mean blade drag.</summary>
/// <remarks>
/// P = κ·T·v + (σ·C_d/8)·ρ·A·(ΩR)³·(1 + 4.65·µ²) + ½ρ·ΣCdA·V³ + W·V_c, then the tail rotor's share and the losses [LEISHMAN] chapter 5.
/// T = √((download·W)² + D²); v is Glauert's, µ = V/(ΩR). Load and line move through the same air as the aircraft, so their drag areas simply add. Hover within about
/// 5 % of an independent code and of test data in general; never a substitute for the flight manual. No ground effect.
/// Descent: below 0.95·v_h of air speed no power is taken off for sinking, because momentum theory promises more there than rotors show; from there to
/// twice that the relief grows to what momentum theory says (own choice, safe side). Inside a vortex ring no figure holds: ask <see cref="VortexRing"/>.
/// </remarks>
public static class RotorPower
{
    private const double ProfileRise = 4.65;

    /// <summary>Power required, part by part.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static PowerParts Required(in MainRotor rotor, PowerFactors factors, in RotorState state)
    {
        double rho = Permitted.Above0(state.DensityKgM3, "densityKgM3"), area = rotor.DiscAreaM2, speed = Permitted.From0(state.AirspeedMs, "airspeedMs");
        double weight = Permitted.Above0(state.MassKg, "massKg") * Gravity.Standard, climb = Permitted.Finite(state.ClimbMs, "climbMs");
        double drag = rho / 2 * Permitted.From0(state.DragAreaM2, "dragAreaM2") * speed * speed;
        double thrust = double.Hypot(factors.DownloadFactor * weight, drag), hover = Inflow.HoverMs(thrust, rho, area);
        double relief = climb < 0 ? Math.Clamp(speed / VortexRing.SpeedLimitMs(hover) - 1, 0, 1) : 1;
        double induced = factors.InducedFactor * thrust * InducedMs(speed, climb, hover, relief);
        double mu = speed / rotor.TipSpeedMs;
        double profile = ProfileInHoverW(rotor, factors, thrust, rho) * (1 + ProfileRise * mu * mu);
        return WithTailAndLosses(factors, induced, profile, drag * speed, relief * weight * climb);
    }

    /// <summary>Power to turn the blades through the air in hover: (σ·C_d/8)·ρ·A·(ΩR)³, C_d = C_d0 + k·C_l², C_l the mean lift coefficient; W.</summary>
    internal static double ProfileInHoverW(in MainRotor rotor, PowerFactors factors, double thrustN, double densityKgM3)
    {
        double tip = rotor.TipSpeedMs, lift = rotor.MeanLiftCoefficient(thrustN, densityKgM3);
        return rotor.Solidity / 8 * (factors.ProfileDrag + factors.LiftDrag * lift * lift) * densityKgM3 * rotor.DiscAreaM2 * tip * tip * tip;
    }

    private static double InducedMs(double speed, double climb, double hover, double relief)
    {
        double level = Inflow.LevelMs(speed, hover);
        return climb == 0 || relief == 0 ? level : level + relief * (Inflow.TiltedMs(speed, climb, hover) - level);
    }

    private static PowerParts WithTailAndLosses(PowerFactors factors, double induced, double profile, double parasite, double climb)
    {
        double main = Math.Max(0, induced + profile + parasite + climb), tail = factors.TailRotorShare * main;
        return new(induced, profile, parasite, climb, tail, (main + tail) * factors.LossShare / (1 - factors.LossShare));
    }
}

/// <summary>What sets a real rotor and its drive apart from the ideal one. Defaults are for a helicopter with a tail rotor.</summary>
/// <param name="InducedFactor">κ, real induced power over ideal: 1.1 to 1.25 [LEISHMAN].</param>
/// <param name="ProfileDrag">C_d0, mean drag coefficient of the blades without lift. With the lift's part, 0.008 to 0.012 [LEISHMAN].</param>
/// <param name="LiftDrag">k, its rise with the square of the mean lift coefficient: 0.012 after Bailey's polar (from memory). 0 for the textbook's constant C_d0.</param>
/// <param name="DownloadFactor">Thrust over weight: the wash pushes the fuselage down, 1.02 to 1.05 [PROUTY]. Kept in forward flight, safe side.</param>
/// <param name="TailRotorShare">Tail rotor's power over the main rotor's (0.09 of a 5 000-lb example [NDARC-STUDENT]); 0 without one. Kept in forward flight, safe side.</param>
/// <param name="LossShare">Gears, cooling and accessories, share of the engine's power (0.06 of the same example).</param>
public sealed record PowerFactors(
    double InducedFactor = 1.15, double ProfileDrag = 0.0075, double LiftDrag = 0.012, double DownloadFactor = 1.03, double TailRotorShare = 0.09, double LossShare = 0.06)
{
    /// <summary>κ.</summary>
    public double InducedFactor { get; init; } = Permitted.Within(InducedFactor, 1, 2, nameof(InducedFactor));

    /// <summary>C_d0.</summary>
    public double ProfileDrag { get; init; } = Permitted.Within(ProfileDrag, 0, 0.1, nameof(ProfileDrag));

    /// <summary>k.</summary>
    public double LiftDrag { get; init; } = Permitted.Within(LiftDrag, 0, 0.1, nameof(LiftDrag));

    /// <summary>Thrust over weight.</summary>
    public double DownloadFactor { get; init; } = Permitted.Within(DownloadFactor, 1, 1.5, nameof(DownloadFactor));

    /// <summary>Tail rotor over main rotor power.</summary>
    public double TailRotorShare { get; init; } = Permitted.Within(TailRotorShare, 0, 0.5, nameof(TailRotorShare));

    /// <summary>Losses over engine power.</summary>
    public double LossShare { get; init; } = Permitted.Within(LossShare, 0, 0.5, nameof(LossShare));
}

/// <summary>A steady state of flight.</summary>
/// <param name="MassKg">All that the rotor carries: aircraft, line, rigging and load.</param>
/// <param name="DensityKgM3">Air density.</param>
/// <param name="AirspeedMs">True air speed along the ground plane, 0 or above; a hover into wind counts the wind.</param>
/// <param name="ClimbMs">Climb, positive up.</param>
/// <param name="DragAreaM2">ΣCdA: fuselage, load and line.</param>
public readonly record struct RotorState(double MassKg, double DensityKgM3, double AirspeedMs = 0, double ClimbMs = 0, double DragAreaM2 = 0);

/// <summary>Shaft power by what takes it, W.</summary>
/// <param name="InducedW">To hold the weight: κ·T·v.</param>
/// <param name="ProfileW">To turn the blades.</param>
/// <param name="ParasiteW">To pull fuselage, load and line through the air.</param>
/// <param name="ClimbW">To gain height; negative in descent.</param>
/// <param name="TailRotorW">Tail rotor.</param>
/// <param name="LossesW">Gears, cooling, accessories.</param>
public readonly record struct PowerParts(double InducedW, double ProfileW, double ParasiteW, double ClimbW, double TailRotorW, double LossesW)
{
    /// <summary>At the main rotor's shaft. Below 0: the air drives the rotor.</summary>
    public double MainRotorW => InducedW + ProfileW + ParasiteW + ClimbW;

    /// <summary>At the engine.</summary>
    public double TotalW => MainRotorW + TailRotorW + LossesW;

    internal PowerParts Times(double factor) =>
        new(factor * InducedW, factor * ProfileW, factor * ParasiteW, factor * ClimbW, factor * TailRotorW, factor * LossesW);
}
