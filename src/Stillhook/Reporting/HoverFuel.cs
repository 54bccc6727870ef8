using Stillhook.Planning;
using Stillhook.Planning.Ordering;

namespace Stillhook.Reporting;

/// <summary>Fuel on board while hovering: by gauge readings where the crew wrote them, else by the lift plan's time line, else a stated assumption.</summary>
/// <remarks>
/// Gauge: even use between two readings (<see cref="FuelUse.OnBoardKg"/>). Plan: fuel at hook-on of the load that hung, down to that at its release. Assumed: the middle of what the plan's lifts are flown with, else half the tank.
/// docs/method/baselines.md.
/// </remarks>
public sealed class HoverFuel
{
    private readonly Dictionary<string, LiftStep> planned;
    private readonly FuelUse? use;
    private readonly FlownTime? flown;
    private readonly double? assumedKg;

    /// <summary>What is known of the fuel of a day.</summary>
    /// <param name="job">The job, for its tank; null when there is none.</param>
    /// <param name="plan">Its lift plan; null when none could be made.</param>
    /// <param name="use">Fuel by gauge readings; null before they are known.</param>
    /// <param name="flown">The day's time in the air; null before it is known.</param>
    public HoverFuel(LiftRequest? job, LiftPlan? plan, FuelUse? use = null, FlownTime? flown = null)
    {
        (this.use, this.flown) = (use, flown);
        planned = (plan?.Order?.Lifts ?? []).DistinctBy(l => Reconciliation.Number(l.Number)!).ToDictionary(l => Reconciliation.Number(l.Number)!, StringComparer.OrdinalIgnoreCase);
        assumedKg = planned.Count > 0 ? (planned.Values.Min(l => l.FuelToKg) + planned.Values.Max(l => l.FuelFromKg)) / 2 : job?.Aircraft?.Fuel?.Tank.Kilograms / 2;
    }

    /// <summary>On board at a time (s since 1970 UTC) while a lift is flown; null when nothing at all is known of the tank.</summary>
    /// <param name="lift">The lift; null when it is not known.</param>
    /// <param name="timeS">When.</param>
    public FuelOnBoard? At(KeptLift? lift, double timeS)
    {
        if (use is not null && flown is not null && use.OnBoardKg(timeS, flown) is { } read)
            return new(read, FuelFrom.Gauge);
        if (Reconciliation.Number(lift?.LoadNumber) is { } number && planned.TryGetValue(number, out LiftStep? step))
            return new(step.FuelFromKg + Share(lift!, timeS) * (step.FuelToKg - step.FuelFromKg), FuelFrom.Plan);
        return assumedKg is { } assumed ? new(assumed, FuelFrom.Assumed) : null;
    }

    /// <summary>A day's hovers with the fuel that is known now.</summary>
    /// <param name="hovers">As kept.</param>
    /// <param name="lifts">The day's lifts, corrections in place.</param>
    public IReadOnlyList<HoverPoint> BringUpToDate(IReadOnlyList<HoverPoint> hovers, IReadOnlyList<KeptLift> lifts)
    {
        ArgumentNullException.ThrowIfNull(hovers);
        ArgumentNullException.ThrowIfNull(lifts);
        return [.. hovers.Select(h => At(lifts.FirstOrDefault(l => h.AtS >= l.PickUpTimeS && h.AtS <= l.DeliveryTimeS), h.AtS) is { } fuel ? h.WithFuel(fuel) : h)];
    }

    private static double Share(KeptLift lift, double timeS) => lift is { PickUpTimeS: { } from, DeliveryTimeS: { } to } && to > from ? Math.Clamp((timeS - from) / (to - from), 0, 1) : 0.5;
}
