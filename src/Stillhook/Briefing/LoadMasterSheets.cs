using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Planning.Payload;
using Stillhook.Planning.Rigging;
using UnitsNet;

namespace Stillhook.Briefing;

/// <summary>Makes the load masters' sheets: one for each pick-up.</summary>
internal static class LoadMasterSheets
{
    private const string RingFit = "rigging-ring-fit";

    public static IReadOnlyList<LoadMasterSheet> Of(LiftPlan plan) =>
        [.. plan.Loads.GroupBy(l => plan.Request.SiteOf(l.OnHook.Load.PickUp, SiteUse.PickUp)?.Name ?? "pick-up").Select(g => Sheet(plan, g.Key, [.. g]))];

    private static LoadMasterSheet Sheet(LiftPlan plan, string pickUp, LoadPlan[] loads) => new()
    {
        PickUp = pickUp,
        Steps = [.. Steps(plan, loads)],
        NotFlown = [.. loads.Where(l => l.Lift is null).Select(l => (l.OnHook.Load.Number, l.OnHook.Load.Name, l.Why))],
        Chains = [.. loads.GroupBy(Rigged).Select(Chain)],
    };

    private static IEnumerable<SheetStep> Steps(LiftPlan plan, LoadPlan[] loads)
    {
        foreach (TankRun run in TankRun.Of(plan.Order))
        {
            foreach (LoadPlan load in run.Lifts.Select(lift => loads.FirstOrDefault(l => l.OnHook.Load.Number == lift.Number)).OfType<LoadPlan>())
                yield return Row(plan, load);
            if (run.Stop is { } stop)
                yield return new StopRow(stop);
        }
    }

    private static LoadRow Row(LiftPlan plan, LoadPlan l)
    {
        PlannedLoad load = l.OnHook.Load;
        SitePayload? most = l.Payload?.Governing;
        return new(l.Lift!.Position, load.Number, load.Name, load.Mass.Kilograms, load.HowKnown, l.OnHook.NeedKg, most?.AllowedKg ?? 0,
            most is null ? "not judged" : PayloadCalculator.Words(most.LimitedBy, l.OnHook), l.Lift.HookOnMinute, l.Lift.ProvingLift, plan.Request.SiteOf(load.Delivery, SiteUse.Delivery)?.Name ?? "delivery");
    }

    /// <summary>Loads with the same parts, legs and findings of the chain hang alike.</summary>
    private static string Rigged(LoadPlan l) => string.Join('|',
    [
        .. l.Rigging.Parts.Select(p => p.Name), $"{l.OnHook.Load.Attachment?.Legs}", $"{l.OnHook.Load.Attachment?.LegAngle?.Degrees}",
        .. l.Rigging.Items.Where(i => i.Verdict != CheckVerdict.Passes).Select(i => i.Text),
    ]);

    private static ChainSketch Chain(IEnumerable<LoadPlan> alike)
    {
        LoadPlan heaviest = alike.MaxBy(l => l.OnHook.NeedKg)!;
        RiggingReport rigging = heaviest.Rigging;
        CheckItem[] rings = [.. rigging.Parts.SelectMany(p => p.Items).Where(i => i.Code == RingFit).OrderByDescending(i => i.Verdict)];
        return new([.. alike.Select(l => l.OnHook.Load.Number)], heaviest.OnHook.Load.Number, heaviest.OnHook.Load.Name, heaviest.OnHook.NeedKg, [.. rigging.Parts.Select(p => Part(p, rigging.Weakest))], rigging.MaxLoadKg,
            [.. rigging.Items.Where(i => i.Verdict != CheckVerdict.Passes).OrderByDescending(i => i.Verdict).Select(i => i.Text)],
            rings.Length == 0 ? "No ring under a hook is entered: match ring and hook by hand before the first lift." : string.Join(' ', rings.Select(i => $"{i.Subject}: {i.Text}")), rings.Length > 0 && rings.All(i => i.Verdict == CheckVerdict.Passes));
    }

    private static ChainPart Part(RiggedPart p, RiggedPart? weakest) => new(p.Name, p.Kind, Kilograms(p.StaticLoad), p.Limit is { } limit ? Kilograms(limit) : null, p.Verdict == CheckVerdict.Passes ? "" : p.Reason, p == weakest);

    private static double Kilograms(Figure figure) => ((Mass)figure.Value.Quantity).Kilograms;
}
