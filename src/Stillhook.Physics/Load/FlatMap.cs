using Stillhook.Physics.Earth;

namespace Stillhook.Physics.Load;

/// <summary>From where the load should go to where the hook must be: the load's place is a flat output of the slung load.</summary>
/// <remarks>
/// n = r″ + g·ẑ + k·|r′ − w|·(r′ − w), k = ρ·CdA/(2m); hook = r + L·n/|n|; line tension at the load = m·|n|. Exact for a point load on a straight,
/// weightless line with quadratic drag, vertical acceleration and wind included; any load path with a continuous fourth derivative gives a hook path with continuous
/// acceleration and no swing beyond the lean it asks for. A line that weighs something swings like a weightless one of length
/// L·(m + μL/3)/(m + μL/2) (centre of oscillation of a rod with a tip mass) and trails like a load of mass m + μL/2 with half of the line's drag added:
/// both are taken in here. Flat output of a rotorcraft with a slung load: [ASME-JAVS-034502]; derived again here.
/// </remarks>
/// <param name="LengthM">Hook to the flat point, m.</param>
/// <param name="DragPerMassPerM">k, 1/m.</param>
public readonly record struct FlatMap(double LengthM, double DragPerMassPerM)
{
    /// <summary>The map of a load.</summary>
    public static FlatMap Of(in SlungLoad load) => new(
        load.LengthM * load.TurningMassKg / load.StaticMassKg,
        0.5 * load.AirDensityKgM3 * (load.DragAreaM2 + load.LineDragM2PerM * load.LengthM / 2) / load.StaticMassKg);

    /// <summary>What the line must pull with, per mass of the load, m/s²: n.</summary>
    public Enu PullPerMass(Enu accelerationEnu, Enu throughAirEnu) =>
        accelerationEnu + new Enu(0, 0, Gravity.Standard) + (DragPerMassPerM * throughAirEnu.Length) * throughAirEnu;

    /// <summary>Hook from the load's middle, m.</summary>
    /// <param name="accelerationEnu">Load's acceleration, m/s².</param>
    /// <param name="throughAirEnu">Load's velocity through the air, m/s.</param>
    public Enu HookFromLoad(Enu accelerationEnu, Enu throughAirEnu)
    {
        Enu pull = PullPerMass(accelerationEnu, throughAirEnu);
        return (LengthM / pull.Length) * pull;
    }
}
