using Stillhook.Physics.Motion;

namespace Stillhook.Approaching;

/// <summary>The latest place at which hover power must be coming on so that the sink ends above the target.</summary>
/// <param name="Index">Sample of the path.</param>
/// <param name="LoadHeightM">Height of the load's underside there, m, over the spot's ground.</param>
/// <param name="HookHeightM">Height of the hook there.</param>
/// <param name="DistanceM">Distance to go of the hook there.</param>
/// <param name="SinkMs">Planned sink there.</param>
/// <param name="LostM">Height that stopping that sink takes, reaction and lag included.</param>
/// <param name="ReserveM">Height kept over the ground.</param>
public sealed record PowerInGate(int Index, double LoadHeightM, double HookHeightM, double DistanceM, double SinkMs, double LostM, double ReserveM)
{
    /// <summary>Least height kept, m: the 20 ft that a mark may be missed by and still count as flown; else half of what is lost. Own choice.</summary>
    public const double LeastReserveM = 20 * 0.3048;

    /// <summary>Air speed at which translational lift may be gone, m/s: 24 kt, the upper end of where it goes [FAA-H-8083-21]. Power is in before that, however small the planned sink.</summary>
    public const double TranslationalLiftMs = 24 * ApproachGates.KnotMs;

    /// <summary>Height kept over the ground for a height lost, m.</summary>
    public static double Reserve(double lostM) => Math.Max(LeastReserveM, lostM / 2);

    /// <summary>The gate on a path; null when the sink can't be arrested at all, or not from the start mark on.</summary>
    /// <remarks>
    /// The last sample before which, at every sample since the start mark, load height ≥ height lost + reserve with the sink planned there, and the air speed has not fallen under that of
    /// translational lift. No speed is counted on for stopping. docs/method/power-in.md.
    /// </remarks>
    /// <param name="path">The path.</param>
    /// <param name="arrest">Power in hand, reaction and lag.</param>
    public static PowerInGate? On(LoadPath path, SinkArrest arrest)
    {
        ArgumentNullException.ThrowIfNull(path);
        int last = -1;
        for (int i = path.StartIndex; i < path.Count && Holds(path, arrest, i) && (i == path.StartIndex || path.Hanging.AirspeedMs(path.SpeedMs[i]) >= TranslationalLiftMs); i++)
            last = i;
        if (last < 0)
            return null;
        double sink = Math.Max(0, path.SinkMs(last)), lost = arrest.HeightLostM(sink)!.Value, reserve = Reserve(lost);
        return new(last, path.LoadHeightM[last], path.Hook[last].Up, -path.Hook[last].East, sink, lost, reserve);
    }

    private static bool Holds(LoadPath path, SinkArrest arrest, int i) =>
        arrest.HeightLostM(Math.Max(0, path.SinkMs(i))) is { } lost && path.LoadHeightM[i] >= lost + Reserve(lost);
}
