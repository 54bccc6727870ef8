using Stillhook.Debriefing;

namespace Stillhook.Adjusting;

/// <summary>Faults seen in two of the last three deliveries, each turned into the knob that cures it.</summary>
/// <remarks>
/// Common practice, no source: too fast with an abrupt slow-down shows as an overshoot with a swing, so the slow-down begins sooner;
/// power late shows as a sink through the last 1-2 m, so power comes on higher; a load that hangs still can be set down without a wait.
/// </remarks>
internal static class FaultAdvice
{
    private const double SwingM = 2, StillM = 1;

    /// <summary>Advice from faults.</summary>
    /// <param name="all">Deliveries in order; the last three speak, the others give the own medians.</param>
    /// <param name="settings">With a plan, height, speed, distance and stop are left to the learning rule.</param>
    public static IEnumerable<Advice> From(IReadOnlyList<Delivery> all, AdjustSettings settings)
    {
        Delivery[] last = [.. all.TakeLast(3)];
        if (LineUp(last) is { } lineUp)
            yield return lineUp;
        if (Twice(last, Fault.LateSink))
            yield return new(Knob.PowerIn, TradeStep.HeightM, Mean(last, d => d.SinkLast15Ms) ?? 1, Evidence.Sink);
        if (Twice(last, Fault.GoAround))
            yield return new(Knob.StartDistance, TradeStep.DistanceM, 1.5, Evidence.GoAround);
        if (Setting(last, settings) is { } setting)
            yield return setting;
        bool slowDownPlanned = settings.Plan?.PeakDecelMs2 is not null;
        if (!slowDownPlanned && Twice(last, Fault.AbruptSlowdown))
            yield return new(Knob.SlowDownStart, TradeStep.DistanceM, 2, Evidence.PeakDecel);
        else if (settings.Plan is null && last.Count(OvershootWithSwing) >= 2)
            yield return new(Knob.SlowDownStart, TradeStep.DistanceM, 1.8, Evidence.Overshoot);
        if (settings.Plan is not null)
            yield break;
        if (Twice(last, Fault.FastEntry))
            yield return new(Knob.EntrySpeed, -TradeStep.SpeedMs, 1.6, Evidence.EntrySpeed);
        if (StartHeight(all, last) is { } height)
            yield return height;
    }

    private static bool OvershootWithSwing(Delivery d) => d.Faults.Contains(Fault.Overshoot) && d.SwingAfterStopM?.Value > SwingM;

    private static Advice? LineUp(Delivery[] last)
    {
        double[] off = [.. last.Where(d => d.Faults.Contains(Fault.LateralOffset)).Select(d => d.LineUpErrorM).OfType<double>()];
        double[] side = off.Count(x => x > 0) >= 2 ? [.. off.Where(x => x > 0)] : [.. off.Where(x => x < 0)];
        if (side.Length < 2)
            return null;
        int steps = Steps(-side.Average(), TradeStep.LineUpM, 2);
        return steps == 0 ? null : new(Knob.LineUp, steps * TradeStep.LineUpM, Math.Abs(side.Average()) / 3, Evidence.LineUp);
    }

    // A wait is asked for while the load still swings at contact; a shorter one while it hung still and was hovered over.
    private static Advice? Setting(Delivery[] last, AdjustSettings settings)
    {
        if (last.Count(d => d.SwingContactM?.Low > SwingM) >= 2)
            return new(Knob.Wait, Math.Round(settings.SwingPeriodS ?? 10), 1.2, Evidence.SwingAtContact);
        bool still = last.Count(d => d.Faults.Contains(Fault.HoverWait) && d.SwingContactM?.High < SwingM && d.SwingAfterStopM?.Value < StillM) >= 2;
        return still ? new(Knob.Wait, -5, 0.6, Evidence.Hover) : null;
    }

    private static Advice? StartHeight(IReadOnlyList<Delivery> all, Delivery[] last)
    {
        Fault fault = Twice(last, Fault.HighStart) ? Fault.HighStart : Fault.LowStart;
        if (!Twice(last, fault) || Own(all, d => d.StartHeightM, Fault.HighStart, Fault.LowStart) is not { } usual)
            return null;
        double off = last.Where(d => d.Faults.Contains(fault)).Select(d => d.StartHeightM).OfType<double>().DefaultIfEmpty(usual).Average() - usual;
        int steps = Steps(-off, TradeStep.HeightM, TradeStep.Most[0]);
        return steps == 0 ? null : new(Knob.StartHeight, steps * TradeStep.HeightM, Math.Abs(off) / 12, Evidence.StartHeight);
    }

    /// <summary>Whole steps nearest to a change, capped.</summary>
    public static int Steps(double change, double step, int most) =>
        Math.Clamp((int)Math.Round(change / step, MidpointRounding.AwayFromZero), -most, most);

    /// <summary>Median over the deliveries without the named faults, or over all when all have them.</summary>
    public static double? Own(IReadOnlyList<Delivery> all, Func<Delivery, double?> measure, params Fault[] without)
    {
        double[] clean = [.. all.Where(d => !d.Faults.Any(without.Contains)).Select(measure).OfType<double>().Order()];
        if (clean.Length == 0)
            clean = [.. all.Select(measure).OfType<double>().Order()];
        if (clean.Length == 0)
            return null;
        return (clean[(clean.Length - 1) / 2] + clean[clean.Length / 2]) / 2;
    }

    private static bool Twice(Delivery[] last, Fault fault) => last.Count(d => d.Faults.Contains(fault)) >= 2;

    private static double? Mean(Delivery[] last, Func<Delivery, double?> measure)
    {
        double[] known = [.. last.Select(measure).OfType<double>()];
        return known.Length == 0 ? null : known.Average();
    }
}
