using Stillhook.Physics.Earth;
using Stillhook.Physics.Load;
using Stillhook.Physics.Motion;

namespace Stillhook.Approaching;

/// <summary>Finds how long the slow-down must last so that the hook's own slow-down just reaches its limit.</summary>
/// <remarks>
/// The hook slows down differently from the load: it leads it by L/g times the load's acceleration, and gives up the trail of the cruise. Its peak falls as the box gets longer;
/// halving on T_b to 0.1 % of the limit. That is for level flight; the sink moves the peak by some 10 % (the line leans by a/(g + z″)), so a path with its height is fitted once more.
/// </remarks>
public static class SlowDownFit
{
    private const double StepS = 0.1;
    private const int MostFits = 12;
    private const double Within = 0.006;

    /// <summary>T_b, s, for a limit.</summary>
    /// <param name="hanging">Load, line and wind.</param>
    /// <param name="entryMs">Ground speed brought in.</param>
    /// <param name="softS">W.</param>
    /// <param name="limitMs2">Largest slow-down of the hook.</param>
    /// <param name="tauRate">Tau-dot of the slow-down.</param>
    public static double BoxS(in HangingLoad hanging, double entryMs, double softS, double limitMs2, double tauRate = PathShape.EvenTauRate)
    {
        double low = 0.3 * entryMs / limitMs2, high = 2.5 * entryMs / limitMs2;
        for (int i = 0; i < 14; i++)
        {
            double middle = (low + high) / 2;
            if (Peak(hanging, new(entryMs, 0, 0, middle, softS, HeightLaw.Glide, 1, 0, 0) { TauRate = tauRate }) > limitMs2)
                low = middle;
            else
                high = middle;
        }
        return high;
    }

    /// <summary>The path of a shape with its slow-down stretched or squeezed so that the hook's peak is at the limit or up to 0.6 % under it, or as near under it as a few tries come; null when none keeps the limit before the spot.</summary>
    /// <param name="shape">A shape fitted in level flight.</param>
    /// <param name="hanging">Load, line and wind.</param>
    /// <param name="sinkLimit">Sink limit.</param>
    /// <param name="limitMs2">Largest slow-down of the hook.</param>
    /// <param name="stepS">Step of the path's grid.</param>
    public static LoadPath? Fitted(PathShape shape, in HangingLoad hanging, SinkLimit sinkLimit, double limitMs2, double stepS)
    {
        ArgumentNullException.ThrowIfNull(shape);
        LoadPath? under = null;
        for (int i = 0; i < MostFits && shape.SlowDownM <= shape.StartM; i++)
        {
            LoadPath path = LoadPath.Of(shape, hanging, sinkLimit, stepS);
            double over = path.PeakHookSlowDownMs2() / limitMs2;
            if (over <= 1)
                under = path;
            if (over is > 1 - Within and <= 1)
                break;
            shape = shape with { BoxS = shape.BoxS * over * (1 + Within / 2) };
        }
        return under;
    }

    private static double Peak(in HangingLoad hanging, PathShape shape)
    {
        double entryMs = shape.EntryMs;
        StopProfile ramp = shape.Stop;
        FlatMap map = FlatMap.Of(hanging.Load);
        int n = (int)(ramp.DurationS / StepS) + 4;
        double peak = 0, before = 0, now = 0;
        for (int i = 0; i < n; i++)
        {
            double t = (i - 2) * StepS;
            (double way, double speed, double rate) = ramp.At(t);
            Enu hook = map.HookFromLoad(new(entryMs * rate, 0, 0), new Enu(entryMs * speed, 0, 0) - hanging.Wind);
            double along = entryMs * way + hook.East;
            if (i >= 2)
                peak = Math.Max(peak, -(along - 2 * now + before) / (StepS * StepS));
            (before, now) = (now, along);
        }
        return peak;
    }
}
