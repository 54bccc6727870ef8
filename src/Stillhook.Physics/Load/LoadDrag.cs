using Stillhook.Physics.Earth;
using Stillhook.Physics.Line;

namespace Stillhook.Physics.Load;

/// <summary>What the air does to a slung load: trail, damping, slow decay.</summary>
public static class LoadDrag
{
    /// <summary>Steady trail angle, rad: tan θ = q·S_D/(m·g), q = ½ρV².</summary>
    /// <param name="speedMs">Airspeed V.</param>
    /// <param name="loadKg">m.</param>
    /// <param name="dragAreaM2">S_D = Cd·A.</param>
    /// <param name="airDensityKgM3">ρ.</param>
    public static double TrailRad(double speedMs, double loadKg, double dragAreaM2, double airDensityKgM3 = 1.225) =>
        Math.Atan(0.5 * airDensityKgM3 * speedMs * speedMs * dragAreaM2 / (loadKg * Gravity.Standard));

    /// <summary>Steady trail angle of a straight line with load, rad: tan θ = (D_load + D_line/2)/(W_load + W_line/2), moments about the hook.</summary>
    /// <remarks>The line's drag is taken square to the flow (its lean is not taken off): high by a few per cent at 15°.</remarks>
    /// <param name="speedMs">Airspeed.</param>
    /// <param name="load">Load and line.</param>
    public static double TrailRad(double speedMs, in SlungLoad load)
    {
        double q = 0.5 * load.AirDensityKgM3 * speedMs * speedMs;
        double drag = q * (load.DragAreaM2 + load.LineDragM2PerM * load.LengthM / 2);
        return Math.Atan(drag / ((load.MassKg + load.LineKgPerM * load.LengthM / 2) * Gravity.Standard));
    }

    /// <summary>Damping ratio of the swing along the track in steady flight: ζ = ρ·V·S_D/(2·m·ω). Across the track half of it.</summary>
    /// <remarks>The force changes by ρ·V·S_D per unit of speed along, and by half that across. Small swings, small trail angle.</remarks>
    public static double DampingRatioAlong(double speedMs, double loadKg, double dragAreaM2, double lengthM, double airDensityKgM3 = 1.225) =>
        airDensityKgM3 * speedMs * dragAreaM2 / (2 * loadKg * Swing.FrequencyRadS(lengthM));

    /// <summary>Amplitude after a number of whole swings in calm hover, m: 1/A = 1/A₀ + n·(4/3)·ρ·S_D/m.</summary>
    /// <remarks>Energy balance over one swing with quadratic drag; small swings in one plane. Swing hardly goes away by itself in the hover.</remarks>
    public static double AmplitudeAfterM(double amplitudeM, double swings, double loadKg, double dragAreaM2, double airDensityKgM3 = 1.225) =>
        1 / (1 / amplitudeM + swings * 4 / 3 * airDensityKgM3 * dragAreaM2 / loadKg);
}
