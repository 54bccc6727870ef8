using Stillhook.Physics.Earth;
using Stillhook.Physics.Load;
using Stillhook.Physics.Motion;

namespace Stillhook.Approaching;

/// <summary>Finds how long the slow-down must last so that the hook's own slow-down just reaches its limit.</summary>
/// <remarks>
/// The hook slows down differently from the load: it leads it by L/g times the load's acceleration, and gives up the trail of the cruise. Its peak falls as the box gets longer;
/// halving on T_b to 0.1 % of the limit. Level flight: the sink changes the hook's slow-down by under 1 %, and the whole path is checked once more.
/// </remarks>
public static class SlowDownFit
{
    private const double StepS = 0.1;

    /// <summary>T_b, s, for a limit.</summary>
    /// <param name="hanging">Load, line and wind.</param>
    /// <param name="entryMs">Ground speed brought in.</param>
    /// <param name="softS">W.</param>
    /// <param name="limitMs2">Largest slow-down of the hook.</param>
    public static double BoxS(in HangingLoad hanging, double entryMs, double softS, double limitMs2)
    {
        double low = 0.3 * entryMs / limitMs2, high = 2.5 * entryMs / limitMs2;
        for (int i = 0; i < 14; i++)
        {
            double middle = (low + high) / 2;
            if (Peak(hanging, entryMs, softS, middle) > limitMs2)
                low = middle;
            else
                high = middle;
        }
        return high;
    }

    private static double Peak(in HangingLoad hanging, double entryMs, double softS, double boxS)
    {
        SpeedRamp ramp = new(boxS, softS);
        FlatMap map = FlatMap.Of(hanging.Load);
        int n = (int)(ramp.DurationS / StepS) + 4;
        double peak = 0, before = 0, now = 0;
        for (int i = 0; i < n; i++)
        {
            double t = (i - 2) * StepS;
            Enu hook = map.HookFromLoad(new(entryMs * ramp.SpeedDerivative(t, 1), 0, 0), new Enu(entryMs * ramp.Speed(t), 0, 0) - hanging.Wind);
            double along = entryMs * ramp.Way(t) + hook.East;
            if (i >= 2)
                peak = Math.Max(peak, -(along - 2 * now + before) / (StepS * StepS));
            (before, now) = (now, along);
        }
        return peak;
    }
}
