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
    /// <summary>Least height kept, m; else half of what is lost. Own choice.</summary>
    public const double LeastReserveM = 3;

    /// <summary>Height kept over the ground for a height lost, m.</summary>
    public static double Reserve(double lostM) => Math.Max(LeastReserveM, lostM / 2);

    /// <summary>The gate on a path; null when the sink can't be arrested at all, or not from the start mark on.</summary>
    /// <remarks>
    /// The last sample before which, at every sample since the start mark, load height ≥ height lost + reserve with the sink planned there. No speed is counted on: forward speed helps until
    /// translational lift is gone, which is before the spot. docs/method/power-in.md.
    /// </remarks>
    /// <param name="path">The path.</param>
    /// <param name="arrest">Power in hand, reaction and lag.</param>
    public static PowerInGate? On(LoadPath path, SinkArrest arrest)
    {
        ArgumentNullException.ThrowIfNull(path);
        int last = -1;
        for (int i = path.StartIndex; i < path.Count && Holds(path, arrest, i); i++)
            last = i;
        if (last <= path.StartIndex)
            return null;
        double sink = Math.Max(0, path.SinkMs(last)), lost = arrest.HeightLostM(sink)!.Value, reserve = Reserve(lost);
        return new(last, path.LoadHeightM[last], path.Hook[last].Up, -path.Hook[last].East, sink, lost, reserve);
    }

    private static bool Holds(LoadPath path, SinkArrest arrest, int i) =>
        arrest.HeightLostM(Math.Max(0, path.SinkMs(i))) is { } lost && path.LoadHeightM[i] >= lost + Reserve(lost);
}
