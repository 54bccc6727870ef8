using UnitsNet;

namespace Stillhook.Planning.Payload;

/// <summary>One limit on a load, as the mass of the load alone that it permits.</summary>
/// <param name="Kind">What sets it.</param>
/// <param name="Name">What it is, in the crew's words.</param>
/// <param name="Site">Where it holds; null for what holds at every site.</param>
/// <param name="Kg">Most for the load alone with the fuel of its lift, kg; below zero when nothing at all may be lifted.</param>
/// <param name="FigureKey">Key of the figure behind it; empty when the job file says it directly.</param>
/// <param name="IsLeast">It is the one that limits the load.</param>
public sealed record LoadLimit(LoadLimitedBy Kind, string Name, Site? Site, double Kg, string FigureKey, bool IsLeast);

/// <summary>Every limit on a load side by side, of which the payload is the least.</summary>
/// <remarks>
/// Each is brought to the mass of the load alone: gross limits less operating mass, fuel at hook-on and kit, the hook's less the kit; all less the construction
/// margin where it applies. Same sum as <see cref="PayloadCalculator"/>, written out limit by limit.
/// </remarks>
public static class LoadLimits
{
    /// <summary>The limits on a load of a plan, those of the pick-up first; none when the load could not be judged.</summary>
    public static IReadOnlyList<LoadLimit> Of(LiftPlan plan, LoadPlan load)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(load);
        if (load.Payload is not { } payload)
            return [];
        PolicyInForce policy = new(plan.Request);
        double share = 1 - (load.OnHook.Construction ? policy.ConstructionPercent.Value : 0) / 100;
        List<LoadLimit> limits = [.. new[] { payload.PickUp, payload.Delivery }.Where(s => s.At.IsJudged).SelectMany(s => AtSite(plan, load, s, policy, share))];
        limits.Add(new(LoadLimitedBy.CargoHook, "cargo hook", null, (plan.Request.Aircraft!.HookLimit!.Value.Kilograms - load.OnHook.KitKg) * share, "", false));
        if (double.IsFinite(load.OnHook.RiggingMaxKg))
            limits.Add(new(LoadLimitedBy.Rigging, $"rigging: {load.OnHook.WeakestPart}", null, load.OnHook.RiggingMaxKg * share, load.OnHook.RiggingMaxKey, false));
        int least = limits.IndexOf(limits.MinBy(l => l.Kg)!);
        limits[least] = limits[least] with { IsLeast = true };
        return limits;
    }

    private static IEnumerable<LoadLimit> AtSite(LiftPlan plan, LoadPlan load, SitePayload at, PolicyInForce policy, double share)
    {
        Aircraft aircraft = plan.Request.Aircraft!;
        double operatingKg = ((Mass)plan.Figures.Find("operating")!.Value.Quantity).Kilograms;
        double reductionKg = policy is { Method.Value: PayloadMethod.Interagency, ReduceJettisonable.Value: true } ? aircraft.WeightReduction?.Kilograms ?? 0 : 0;
        LoadLimit Limit(LoadLimitedBy kind, string name, double grossKg, string figure) =>
            new(kind, name, at.At.Site, (grossKg - operatingKg - at.FuelKg - load.OnHook.KitKg) * share, KeyOf(at.At, figure), false);
        yield return Limit(LoadLimitedBy.HoverMass, "hover mass out of ground effect", at.At.HoverMassKg - reductionKg - policy.MassMarginKg.Value, "hover");
        if (at.At.LimitedBy == GrossLimitedBy.PowerMargin)
            yield return Limit(LoadLimitedBy.PowerMargin, "torque limit with the power kept in hand", at.At.GrossKg, "gross");
        yield return Limit(LoadLimitedBy.ExternalGrossLimit, "external gross limit", aircraft.ExternalGrossLimit!.Value.Kilograms - policy.MassMarginKg.Value, "gross");
    }

    private static string KeyOf(SiteHour at, string figure) => at.Figures.FirstOrDefault(f => f.Key.StartsWith(figure + ".", StringComparison.Ordinal))?.Key ?? "";

    /// <summary>The most a load may weigh with the fuel of its lift, clock hour by clock hour from the start of the day to its end; kg, zero where nothing may be lifted or can't be judged.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="load">One of its loads that is in the order.</param>
    public static IReadOnlyList<(int Hour, double AllowedKg)> ByHour(LiftPlan plan, LoadPlan load)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(load);
        if (plan is not { Problem: { } problem } || load is not { Payload: { } payload } || problem.Loads.FirstOrDefault(l => l.Number == load.OnHook.Load.Number) is not { } placed)
            return [];
        double share = 1 - (load.OnHook.Construction ? new PolicyInForce(plan.Request).ConstructionPercent.Value : 0) / 100;
        double fixedKg = Math.Min(plan.Request.Aircraft!.HookLimit!.Value.Kilograms - load.OnHook.KitKg, load.OnHook.RiggingMaxKg);
        int first = (int)(problem.Policy.StartMinute / 60), last = Math.Min(23, (int)((problem.Policy.LatestEndMinute ?? 24 * 60) - 1e-6) / 60);
        return [.. Enumerable.Range(first, Math.Max(1, last - first + 1))
            .Select(hour => (hour, Math.Max(0, Math.Floor(Math.Min(problem.Routes[placed.Route].CapacityKg[hour] - payload.PickUp.FuelKg - load.OnHook.KitKg, fixedKg) * share + 1e-9))))];
    }
}
