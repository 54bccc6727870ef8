using Stillhook.Planning;
using Stillhook.Planning.Payload;

namespace Stillhook.Files.Pictures.Plan;

/// <summary>What a load may weigh hour by hour, with the fuel of its lift, against what must be planned for.</summary>
public static class LoadByHour
{
    private const double Width = 520, Height = 150, Left = 26, Right = 26, Top = 26, Bottom = 30;

    /// <summary>Steps of the permitted mass over the hours; hours in which the load does not lift are hatched and say so. Empty when no hour is known.</summary>
    public static string Draw(LiftPlan plan, LoadPlan load, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(load);
        ArgumentNullException.ThrowIfNull(units);
        IReadOnlyList<(int Hour, double AllowedKg)> hours = LoadLimits.ByHour(plan, load);
        if (hours.Count == 0)
            return "";
        SvgWriter svg = new(Width, Height, "plan-picture load-hours", $"Load {load.OnHook.Load.Number}: most it may weigh from {ClockText.Of(hours[0].Hour * 60)} to {ClockText.Of((hours[^1].Hour + 1) * 60)}, with the fuel of its lift");
        double[] known = [.. hours.Select(h => h.AllowedKg).Where(kg => kg > 0).Append(load.OnHook.NeedKg)];
        // Not from zero: the steps of an hour are small beside the load; the values stand in words.
        double low = known.Min() - 0.15 * Math.Max(known.Max() - known.Min(), 20), high = known.Max() + 0.2 * Math.Max(known.Max() - known.Min(), 20);
        double step = (Width - Left - Right) / hours.Count, floor = Height - Bottom;
        double Y(double kg) => Top + (1 - Math.Clamp((kg - low) / (high - low), 0, 1)) * (floor - Top);
        int every = (int)Math.Ceiling(40 / step);
        List<(double, double)> line = [];
        for (int i = 0; i < hours.Count; i++)
        {
            double x = Left + i * step;
            bool lifts = hours[i].AllowedKg >= load.OnHook.NeedKg;
            if (!lifts)
            {
                svg.Rectangle(x, Top, step, floor - Top, "no-lift");
                svg.Text(x + step / 2, Top + 14, step > 46 ? "no lift" : "✕", "small warn", "middle");
            }
            line.Add((x, Y(hours[i].AllowedKg)));
            line.Add((x + step, Y(hours[i].AllowedKg)));
            svg.Line(x, floor, x, floor + 5, "rule");
            if (i % every == 0)
                svg.Text(x, floor + 18, ClockText.Of(hours[i].Hour * 60), "axis", "middle");
            if (i % every == 0 && hours[i].AllowedKg > 0)
                svg.Text(x + step / 2, Y(hours[i].AllowedKg) - 4, units.MassDown(hours[i].AllowedKg), "small", "middle");
        }
        svg.Line(Left, floor, Width - Right, floor, "axis-line");
        svg.Path(line, "steps");
        double need = Y(load.OnHook.NeedKg);
        svg.Line(Left, need, Width - Right, need, "need");
        svg.Text(8, 14, $"Full line: most it may weigh, {units.MassUnit}; dashed: {units.Mass(load.OnHook.NeedKg)} to plan for; arrow: its lift", "axis");
        if (load.Lift is { } lift && (lift.HookOnMinute / 60 - hours[0].Hour) * step is var at && at >= 0 && at <= Width - Left - Right)
        {
            svg.Line(Left + at, Top, Left + at, floor, "now");
            svg.Path([(Left + at - 5, floor), (Left + at + 5, floor), (Left + at, floor - 8)], "flag", closed: true);
        }
        return svg.Close();
    }
}
