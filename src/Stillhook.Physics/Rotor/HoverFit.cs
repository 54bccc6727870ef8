using Stillhook.Physics.Earth;

namespace Stillhook.Physics.Rotor;

/// <summary>The few numbers fitted to a hover chart, in watts of theory: momentum theory with the given κ, tail rotor and losses.</summary>
/// <param name="Factors">Rotor and losses, with the fitted C_d0.</param>
/// <param name="LnEngineW">Logarithm of the engine's power at sea level, standard day.</param>
/// <param name="PressureExponent">a in P = P₀·δ^a·θ^(b + c·ln θ).</param>
/// <param name="TemperatureExponent">b.</param>
/// <param name="TemperatureCurvature">c.</param>
/// <param name="LimitW">Flat limit of the transmission, if the chart shows one.</param>
internal sealed record HoverFit(
    PowerFactors Factors, double LnEngineW, double PressureExponent, double TemperatureExponent, double TemperatureCurvature, double? LimitW)
{
    private double Gross => (1 + Factors.TailRotorShare) / (1 - Factors.LossShare);

    public double RequiredW(in MainRotor rotor, double massKg, double densityKgM3)
    {
        double thrust = Factors.DownloadFactor * massKg * Gravity.Standard;
        double induced = Factors.InducedFactor * thrust * Math.Sqrt(thrust / (2 * densityKgM3 * rotor.DiscAreaM2));
        return Gross * (induced + RotorPower.ProfileInHoverW(rotor, Factors, thrust, densityKgM3));
    }

    /// <summary>The mass that takes a power: the inverse of <see cref="RequiredW"/>; 0 if the unloaded blades take it all.</summary>
    /// <remarks>Newton from above: power is convex and rises with mass, so it falls onto the root without passing it.</remarks>
    public double MassKg(in MainRotor rotor, double powerW, double densityKgM3)
    {
        double free = powerW / Gross - RotorPower.ProfileInHoverW(rotor, Factors, 0, densityKgM3);
        if (!(free > 0))
            return 0;
        double disc = 2 * densityKgM3 * rotor.DiscAreaM2, thrust = Math.Pow(free / Factors.InducedFactor, 2.0 / 3) * Math.Cbrt(disc);
        double lifted = (RotorPower.ProfileInHoverW(rotor, Factors, 1e4, densityKgM3) - RotorPower.ProfileInHoverW(rotor, Factors, 0, densityKgM3)) / 1e8;
        for (int i = 0; i < 20; i++)
        {
            double induced = Factors.InducedFactor * thrust * Math.Sqrt(thrust / disc), profile = lifted * thrust * thrust;
            double step = (induced + profile - free) / (1.5 * induced + 2 * profile) * thrust;
            thrust -= step;
            if (Math.Abs(step) < 1e-12 * thrust)
                break;
        }
        return thrust / (Factors.DownloadFactor * Gravity.Standard);
    }

    public double AvailableW(in AirState air) => Math.Min(EngineW(air), LimitW ?? double.PositiveInfinity);

    public double EngineW(in AirState air)
    {
        double t = air.LnTemperatureRatio;
        return Math.Exp(LnEngineW + PressureExponent * air.LnPressureRatio + t * (TemperatureExponent + TemperatureCurvature * t));
    }

    /// <summary>Whether the flat limit, not the engine, bounds the power there.</summary>
    public bool AtFlatLimit(in AirState air) => EngineW(air) > LimitW;
}
