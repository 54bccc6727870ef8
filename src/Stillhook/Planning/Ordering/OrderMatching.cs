namespace Stillhook.Planning.Ordering;

/// <summary>Which load of a group flies at which of the group's positions, when only the positions were decided.</summary>
/// <remarks>
/// Loads are alike but for their need when route, group and ties to other loads are the same: exchanging them changes neither time nor fuel.
/// Each position has an allowance (capacity of its hour less its fuel); a matching exists if and only if, for each need m, at least as many
/// positions allow m as loads need m or more (Hall's condition for nested sets). Among all matchings the one nearest to the given order is taken,
/// except that the lightest of a family comes first in it where that is permitted: its proving lift.
/// </remarks>
internal static class OrderMatching
{
    /// <summary>Kinds of loads that may be exchanged; loads under precedence are a kind of their own each.</summary>
    public static int[] Kinds(OrderGrid grid, IReadOnlyCollection<int> loads)
    {
        HashSet<int> tied = [.. loads.SelectMany(l => grid.Before[l].Append(l).Where(_ => grid.Before[l].Length > 0))];
        Dictionary<(int, int, int), int> known = [];
        int[] kinds = new int[grid.Loads];
        Array.Fill(kinds, -1);
        foreach (int load in loads)
        {
            (int, int, int) key = (grid.Route[load], grid.Block[load], tied.Contains(load) ? load : -1);
            kinds[load] = known.TryGetValue(key, out int kind) ? kind : known[key] = known.Count;
        }
        return kinds;
    }

    /// <summary>Loads for positions of one kind, in the order of the positions; null when there is no matching.</summary>
    /// <param name="needs">Need by load.</param>
    /// <param name="loads">The loads of the kind, in the given order.</param>
    /// <param name="allowances">Most need allowed at each position, in the order flown.</param>
    public static int[]? Match(int[] needs, IReadOnlyList<int> loads, IReadOnlyList<int> allowances)
    {
        List<int> left = [.. loads], open = [.. allowances];
        int[] matched = new int[allowances.Count];
        for (int p = 0; p < matched.Length; p++)
        {
            int allowed = open[0];
            open.RemoveAt(0);
            int at = left.FindIndex(l => needs[l] <= allowed && Matches(needs, left.Where(o => o != l), open));
            if (at < 0)
                return null;
            matched[p] = left[at];
            left.RemoveAt(at);
        }
        return matched;
    }

    /// <summary>The same positions and fuel with the loads rearranged: given order, proving lifts light. Never worse, always within the rules.</summary>
    public static OrderSequence Rearrange(OrderGrid grid, OrderSequence sequence)
    {
        OrderTimeline timeline = OrderSimulator.Run(grid, sequence);
        int[] order = [.. sequence.Lifts.Select(l => l.Load)];
        int[] kinds = Kinds(grid, order);
        int[] allowances = [.. timeline.Steps.OfType<LiftStep>().Select(l => OrderGrid.Down(l.AllowedKg, OrderGrid.PerKg))];
        foreach (IGrouping<int, int> kind in Enumerable.Range(0, order.Length).GroupBy(p => kinds[order[p]]).ToList())
        {
            int[] positions = [.. kind], loads = [.. positions.Select(p => order[p]).Order()];
            if (Match(grid.Need, loads, [.. positions.Select(p => allowances[p])]) is int[] matched)
                for (int i = 0; i < positions.Length; i++)
                    order[positions[i]] = matched[i];
        }
        LightestFirst(grid, order, kinds, allowances);
        OrderSequence rearranged = sequence with { Lifts = [.. sequence.Lifts.Select((l, i) => l with { Load = order[i] })] };
        return OrderSimulator.Run(grid, rearranged).Broken is null ? rearranged : sequence;
    }

    private static void LightestFirst(OrderGrid grid, int[] order, int[] kinds, int[] allowances)
    {
        foreach (IGrouping<string, int> family in Enumerable.Range(0, order.Length).GroupBy(p => grid.Problem.Loads[order[p]].Family).ToList())
        {
            if (family.Key.Length == 0)
                continue;
            int first = family.First();
            foreach (int lighter in family.OrderBy(p => grid.Need[order[p]]).ThenBy(p => p).ToList())
            {
                if (grid.Need[order[lighter]] >= grid.Need[order[first]])
                    break;
                if (kinds[order[lighter]] != kinds[order[first]] || grid.Need[order[first]] > allowances[lighter])
                    continue;
                (order[first], order[lighter]) = (order[lighter], order[first]);
                break;
            }
        }
    }

    private static bool Matches(int[] needs, IEnumerable<int> loads, IEnumerable<int> allowances) =>
        loads.Select(l => needs[l]).OrderDescending().Zip(allowances.OrderDescending(), (need, allowed) => need <= allowed).All(fits => fits);
}
