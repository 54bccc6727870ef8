using Stillhook.Planning;
using Stillhook.Planning.Ordering;
using Stillhook.Reporting;

namespace Stillhook.Following;

/// <summary>How the number of a load is known.</summary>
public enum NumberKnownBy
{
    /// <summary>Nobody can tell: its mass fits no load at this place of the order, or no plan says what hung there.</summary>
    Nothing,

    /// <summary>The plan's order.</summary>
    Turn,

    /// <summary>The plan's order, and the mass by the load cell fits it.</summary>
    TurnAndMass,

    /// <summary>A person wrote it.</summary>
    Hand,
}

/// <summary>A delivery with the load it was.</summary>
/// <param name="Delivery">The delivery.</param>
/// <param name="LoadNumber">The load; null when nobody can tell.</param>
/// <param name="LoadKg">Mass as a person wrote it, kg; null when nobody did.</param>
/// <param name="By">How the number is known.</param>
public sealed record LiveLoad(LiveDelivery Delivery, string? LoadNumber, double? LoadKg, NumberKnownBy By)
{
    /// <summary>Mass by the load cell, kg; null without one.</summary>
    public double? CarriedKg => Delivery.Lift is { LoadMeasured: true, LoadKg: { } kg } ? kg : null;
}

/// <summary>Loads delivered, the next load and the next refuelling, by the plan's order, the load cell and what people wrote.</summary>
/// <param name="Delivered">Deliveries that stand, in order of time.</param>
/// <param name="NextLoad">The next load of the plan; null when there is none.</param>
/// <param name="NextLift">Its place in the plan's time line.</param>
/// <param name="LoadsToRefuel">Loads still to be flown before the plan's next refuelling; null when none is planned any more.</param>
/// <param name="LastBeforeRefuel">The load after which fuel is taken on; null when it is now, or when none is planned.</param>
/// <param name="Planned">Loads of the plan.</param>
/// <remarks>Numbers are given by <see cref="LoadNumbers"/>, as to the lifts of a record: what the mass speaks against gets none.</remarks>
public sealed record LiveLoads(IReadOnlyList<LiveLoad> Delivered, LoadPlan? NextLoad, LiftStep? NextLift, int? LoadsToRefuel, string? LastBeforeRefuel, int Planned)
{
    private const double SameS = 30;

    /// <summary>Loads of the list that are delivered, on flights before too.</summary>
    public required IReadOnlyList<string> Gone { get; init; }

    /// <summary>Loads of the plan's order still to be flown, as far as numbers are known.</summary>
    public required IReadOnlyList<string> Left { get; init; }

    /// <summary>Deliveries of which nobody can tell the load.</summary>
    public int NotPlaced => Delivered.Count(d => d.LoadNumber is null);

    /// <summary>Puts the plan's order beside what was delivered.</summary>
    /// <param name="deliveries">Deliveries of the flight, also those taken back.</param>
    /// <param name="plan">Its lift plan; null without one.</param>
    /// <param name="tally">What people wrote of the day.</param>
    /// <param name="before">Numbers of loads delivered on flights before this one.</param>
    public static LiveLoads Of(IReadOnlyList<LiveDelivery> deliveries, LiftPlan? plan, IReadOnlyList<TallyEntry> tally, IEnumerable<string>? before = null)
    {
        ArgumentNullException.ThrowIfNull(deliveries);
        ArgumentNullException.ThrowIfNull(tally);
        IReadOnlyList<OrderStep> steps = plan?.Order?.Timeline.Steps ?? [];
        HashSet<string> gone = [.. before ?? []];
        PlannedLoad[] inOrder = plan is null ? [] : [.. MeasuredFlight.InOrder(plan).Where(l => !gone.Contains(l.Number))];
        LiveLoad[] delivered = [.. Numbered([.. deliveries.Where(d => !d.Withdrawn)], inOrder, tally)];
        gone.UnionWith(delivered.Select(d => d.LoadNumber).OfType<string>());
        LiftStep? next = Next([.. steps.OfType<LiftStep>()], gone, delivered.Count(d => d.LoadNumber is null));
        (int? left, string? last) = Refuel(steps, gone);
        return new(delivered, next is null ? null : plan!.Loads.FirstOrDefault(l => l.OnHook.Load.Number == next.Number), next, left, last, plan?.Loads.Count ?? 0)
        {
            Gone = [.. gone],
            Left = [.. steps.OfType<LiftStep>().Select(s => s.Number).Where(n => !gone.Contains(n))],
        };
    }

    private static IEnumerable<LiveLoad> Numbered(LiveDelivery[] standing, PlannedLoad[] inOrder, IReadOnlyList<TallyEntry> tally)
    {
        TallyEntry?[] written = [.. standing.Select(d => tally.LastOrDefault(t => IsOf(t, d)))];
        KeptLift[] lifts = [.. standing.Select((d, i) => d.Lift with { LoadNumber = written[i]?.LoadNumber })];
        IReadOnlyList<KeptLift> known = LoadNumbers.Assign(lifts, inOrder, goesOn: true);
        for (int i = 0; i < standing.Length; i++)
        {
            NumberKnownBy by = written[i]?.LoadNumber is not null ? NumberKnownBy.Hand
                : known[i].LoadNumber is null ? NumberKnownBy.Nothing : lifts[i].LoadMeasured ? NumberKnownBy.TurnAndMass : NumberKnownBy.Turn;
            yield return new(standing[i], known[i].LoadNumber, written[i]?.LoadKg, by);
        }
    }

    /// <summary>The first load still to be flown; a delivery that could not be placed may have been one that stands before the last one delivered, which is then passed over.</summary>
    private static LiftStep? Next(LiftStep[] order, HashSet<string> gone, int notPlaced)
    {
        int lastGone = Array.FindLastIndex(order, s => gone.Contains(s.Number));
        LiftStep[] left = [.. order.Where(s => !gone.Contains(s.Number))];
        int passed = order.Take(lastGone + 1).Count(s => !gone.Contains(s.Number));
        return left.Skip(Math.Min(passed, notPlaced)).FirstOrDefault() ?? left.FirstOrDefault();
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
}
