using System.Globalization;
using System.Text;
using Stillhook.Approaching;
using Stillhook.Physics.Earth;
using Stillhook.Physics.Load;

namespace Stillhook.Files.Pictures.Approach;

/// <summary>The numbers behind the approach pictures, to plot or check them elsewhere.</summary>
public static class ApproachNumbers
{
    /// <summary>Time between rows, s.</summary>
    public const double StepS = 0.5;

    /// <summary>Columns, each with its unit at its end. distanceToGoM is the load's, the hook's is −hookAlongM; slowDownG the hook's; loadHeightM of its underside over the spot's ground.</summary>
    public const string Heading = "timeS,distanceToGoM,hookAlongM,hookRightM,hookUpM,loadHeightM,groundSpeedKt,airSpeedKt,sinkFtPerMin,sinkLimitFtPerMin,slowDownG,powerPercent,torquePercent";

    private const double FtPerMinMs = 0.3048 / 60;

    /// <summary>A row each 0.5 s from before the start mark on, and one at contact; only the heading when no approach is offered. Power is empty where it is not known.</summary>
    public static string Csv(ApproachPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        StringBuilder text = new(Heading + "\n");
        if (plan is not { Way.Path: { } path, Situation: { } s })
            return text.ToString();
        int every = Math.Max(1, (int)Math.Round(StepS / path.StepS));
        for (int i = 0; i < path.Count; i += every)
            Row(text, plan, s, path, i);
        if ((path.Count - 1) % every != 0)
            Row(text, plan, s, path, path.Count - 1);
        return text.ToString();
    }

    private static void Row(StringBuilder text, ApproachPlan plan, ApproachSituation s, LoadPath path, int i)
    {
        Enu hook = path.Hook[i];
        double air = path.Hanging.AirspeedMs(path.SpeedMs[i]), slowDown = -path.HookAcceleration(i).East / Gravity.Standard;
        text.Append(CultureInfo.InvariantCulture, $"{path.TimeS(i):0.00},{Plain(path.DistanceM[i], 2)},{Plain(hook.East, 2)},{Plain(hook.North, 2)},{Plain(hook.Up, 2)},{Plain(path.LoadHeightM[i], 2)},")
            .Append(CultureInfo.InvariantCulture, $"{Plain(path.SpeedMs[i] / ApproachGates.KnotMs, 2)},{Plain(air / ApproachGates.KnotMs, 2)},{Plain(path.SinkMs(i) / FtPerMinMs, 1)},{Plain(s.SinkLimit.At(air) / FtPerMinMs, 1)},{Plain(slowDown, 4)},")
            .Append(CultureInfo.InvariantCulture, $"{(plan.Power is { } p ? Plain(100 * p.RequiredShare[i], 1) : "")},{(plan.Power?.TorquePercent is { } torque ? Plain(torque[i], 1) : "")}\n");
    }

    /// <summary>A number with a fixed count of decimals; never '-0'.</summary>
    private static string Plain(double value, int decimals) =>
        (Math.Round(value, decimals, MidpointRounding.AwayFromZero) + 0.0).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
