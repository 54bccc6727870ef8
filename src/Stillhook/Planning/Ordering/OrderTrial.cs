namespace Stillhook.Planning.Ordering;

/// <summary>Tries an order that a person chose: where to refuel and rest for it, and what breaks.</summary>
/// <remarks>
/// Refuelling, breaks and start fuel are chosen by the same dynamic programme as in the search, and the result goes through the same exact check.
/// A load that no fuel and no break makes possible in its place is left out with its reason, and the rest is worked out without it, so that every load
/// gets an answer. See docs/method/order.md.
/// </remarks>
public static class OrderTrial
{
    /// <summary>What an order comes to.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="order">Places of the loads in the problem's list, in the order to be flown, each at most once; loads that are not in it are not flown.</param>
    /// <exception cref="ArgumentException">A place that is not in the list, or one that stands twice.</exception>
    public static TriedOrder Try(OrderProblem problem, IReadOnlyList<int> order)
    {
        ArgumentNullException.ThrowIfNull(order);
        OrderGrid grid = new(problem);
        if (order.Any(l => l < 0 || l >= grid.Loads))
            throw new ArgumentException(FormattableString.Invariant($"A place in the order is not in the list of {grid.Loads} loads."), nameof(order));
        if (order.Distinct().Count() != order.Count)
            throw new ArgumentException("A load stands twice in the order.", nameof(order));
        if (OrderGroups.Contradict(grid, [.. order]))
            grid = new(problem with { Policy = problem.Policy with { GroupByDeliverySite = false } });
        return Try(grid, order);
    }

    /// <summary>The same for a sequence that is known already, fuel and breaks included.</summary>
    internal static TriedOrder Known(OrderProblem problem, OrderSequence sequence, OrderTimeline timeline) =>
        new([.. timeline.Steps.OfType<LiftStep>().Select((l, i) => new TriedLoad(problem.Loads[l.Load].Number, i + 1, l, ""))], sequence, timeline);

    private static TriedOrder Try(OrderGrid grid, IReadOnlyList<int> order)
    {
        OrderDecoder decoder = new(grid);
        List<int> flown = [.. order];
        Dictionary<int, string> broken = [];
        OrderSequence sequence;
        while ((sequence = decoder.Decode([.. flown])).Lifts.Count < flown.Count)
        {
            int load = flown[sequence.Lifts.Count];
            broken.Add(load, WhyNot(grid, sequence, load));
            flown.Remove(load);
        }
        OrderTimeline timeline = OrderReasons.Add(grid, OrderSimulator.Trace(grid, sequence));
        Dictionary<int, LiftStep> lifts = timeline.Steps.OfType<LiftStep>().ToDictionary(l => l.Load);
        foreach (IGrouping<int, BrokenRule> rules in timeline.EveryBroken.GroupBy(b => b.Position))
            broken.Add(sequence.Lifts[Math.Max(0, rules.Key - 1)].Load, Sentence(string.Join("; ", rules.Select(r => r.Text))));
        return new([.. order.Select((l, i) => new TriedLoad(grid.Problem.Loads[l].Number, i + 1, lifts.GetValueOrDefault(l), broken.GetValueOrDefault(l, "")))], sequence, timeline);
    }

    /// <summary>What stops a load after those already flown: with the least fuel that flies it alone, and with a break before it where breaks are taken.</summary>
    private static string WhyNot(OrderGrid grid, OrderSequence before, int load)
    {
        int least = grid.LegFuel[grid.Base, grid.PickUp[grid.Route[load]]] + grid.LoadedFuel[grid.Route[load]] + grid.LegFuel[grid.Delivery[grid.Route[load]], grid.Base] + grid.Reserve;
        int place = before.Lifts.Count + 1;
        int aboard = place > 1 ? OrderGrid.Up(OrderSimulator.Trace(grid, before).FinishFuelKg, OrderGrid.PerKg) : grid.StartFuel ?? 0;
        bool startIsFree = place == 1 && grid.StartFuel is null;
        double start = startIsFree ? OrderGrid.Kg(grid.StepsUp(least)) : before.Lifts.Count > 0 ? before.StartFuelKg : OrderGrid.Kg(aboard);
        double uplift = startIsFree ? 0 : OrderGrid.Kg(grid.StepsUp(least - aboard));
        string why = "can’t be flown in this place";
        foreach (bool rest in place > 1 && grid.BreakDue is not null ? new[] { false, true } : [false])
        {
            OrderTimeline traced = OrderSimulator.Trace(grid, new(start, [.. before.Lifts, new(load, uplift, rest)]));
            if (traced.EveryBroken.FirstOrDefault(b => b.Position == place && b.Rule is not (OrderRule.Precedence or OrderRule.Grouping)) is { } rule)
                why = rule.Text;
        }
        return Sentence(why);
    }

    private static string Sentence(string text) => char.ToUpperInvariant(text[0]) + text[1..] + ".";
}
