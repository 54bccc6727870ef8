using Stillhook.Planning;
using Stillhook.Planning.Ordering;
using Stillhook.Reporting;

namespace Stillhook.Following;

/// <summary>A delivery with the load it was.</summary>
/// <param name="Delivery">The delivery.</param>
/// <param name="LoadNumber">The load; null when there is no plan to take it from.</param>
/// <param name="LoadKg">Mass as a person wrote it, kg; null when nobody did.</param>
/// <param name="Written">Whether a person wrote the number; else it is the plan's next one by turn.</param>
public sealed record LiveLoad(LiveDelivery Delivery, string? LoadNumber, double? LoadKg, bool Written);

/// <summary>Loads delivered, the next load and the next refuelling, by the plan's order and what people wrote.</summary>
/// <param name="Delivered">Deliveries that stand, in order of time.</param>
/// <param name="NextLoad">The next load of the plan; null when there is none.</param>
/// <param name="NextLift">Its place in the plan's time line.</param>
/// <param name="LoadsToRefuel">Loads still to be flown before the plan's next refuelling; null when none is planned any more.</param>
/// <param name="LastBeforeRefuel">The load after which fuel is taken on; null when it is now, or when none is planned.</param>
/// <param name="Planned">Loads of the plan.</param>
public sealed record LiveLoads(IReadOnlyList<LiveLoad> Delivered, LoadPlan? NextLoad, LiftStep? NextLift, int? LoadsToRefuel, string? LastBeforeRefuel, int Planned)
{
    /// <summary>Puts the plan's order beside what was delivered.</summary>
    /// <param name="deliveries">Deliveries of the flight, also those taken back.</param>
    /// <param name="plan">Its lift plan; null without one.</param>
    /// <param name="tally">What people wrote of the day.</param>
    public static LiveLoads Of(IReadOnlyList<LiveDelivery> deliveries, LiftPlan? plan, IReadOnlyList<TallyEntry> tally)
    {
        ArgumentNullException.ThrowIfNull(deliveries);
        ArgumentNullException.ThrowIfNull(tally);
        IReadOnlyList<OrderStep> steps = plan?.Order?.Timeline.Steps ?? [];
        LiveDelivery[] standing = [.. deliveries.Where(d => !d.Withdrawn)];
        TallyEntry?[] written = [.. standing.Select(d => tally.LastOrDefault(t => IsOf(t, d)))];
        HashSet<string> gone = [.. written.Select(w => w?.LoadNumber).OfType<string>()];
        Queue<string> byTurn = new(steps.OfType<LiftStep>().Select(s => s.Number).Where(n => !gone.Contains(n)));
        List<LiveLoad> delivered = [];
        for (int i = 0; i < standing.Length; i++)
        {
            string? number = written[i]?.LoadNumber ?? (byTurn.TryDequeue(out string? turn) ? turn : null);
            if (number is not null)
                gone.Add(number);
            delivered.Add(new(standing[i], number, written[i]?.LoadKg, written[i]?.LoadNumber is not null));
        }
        LiftStep? next = steps.OfType<LiftStep>().FirstOrDefault(s => !gone.Contains(s.Number));
        (int? left, string? last) = Refuel(steps, gone);
        return new(delivered, next is null ? null : plan!.Loads.FirstOrDefault(l => l.OnHook.Load.Number == next.Number), next, left, last, plan?.Loads.Count ?? 0);
    }

    /// <summary>Loads still to be flown before the first refuelling that comes after the last delivered load.</summary>
    private static (int? Left, string? Last) Refuel(IReadOnlyList<OrderStep> steps, HashSet<string> gone)
    {
        int lastGone = -1;
        for (int i = 0; i < steps.Count; i++)
        {
            if (steps[i] is LiftStep lift && gone.Contains(lift.Number))
                lastGone = i;
        }
        int left = 0;
        string? last = null;
        for (int i = lastGone + 1; i < steps.Count; i++)
        {
            if (steps[i] is RefuelStep)
                return (left, last);
            if (steps[i] is LiftStep lift)
                (left, last) = (left + 1, lift.Number);
        }
        return (null, null);
    }

    /// <summary>Whether a line of the tally is of a delivery: written for its time.</summary>
    public static bool IsOf(TallyEntry entry, LiveDelivery delivery)
    {
        ArgumentNullException.ThrowIfNull(entry);
        ArgumentNullException.ThrowIfNull(delivery);
        return entry.AtS is { } at && Math.Abs(at - delivery.Rotation.DeliveryTimeS!.Value) < SameS;
    }

    private const double SameS = 30;
}
