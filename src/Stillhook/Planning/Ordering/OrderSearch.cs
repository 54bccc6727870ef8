namespace Stillhook.Planning.Ordering;

/// <summary>Finds a usable order quickly: built tank by tank from the heavy end, then improved by small changes.</summary>
/// <remarks>
/// Late acceptance hill climbing (a change is kept when it is no worse than the order of some changes ago) with a fixed seed and a fixed number of
/// tries: the same problem gives the same order. More loads count first, then the finish. See docs/method/order.md.
/// </remarks>
public static class OrderSearch
{
    /// <summary>A sequence that breaks no rule; it may leave loads out.</summary>
    public static OrderSequence Find(OrderProblem problem)
    {
        OrderGrid grid = new(problem);
        return Find(grid, [.. Enumerable.Range(0, grid.Loads)]);
    }

    /// <summary>The best order found of a set of loads; where not all can be flown, loads in the way are dropped one by one.</summary>
    /// <param name="grid">The problem.</param>
    /// <param name="loads">The loads to fly.</param>
    /// <param name="effort">How much longer than the quick search; 1 is the quick one.</param>
    internal static OrderSequence Find(OrderGrid grid, IReadOnlyList<int> loads, double effort = 1)
    {
        OrderDecoder decoder = new(grid);
        List<int> wanted = [.. loads];
        int[] best = [];
        OrderDecoder.Score score = new(0, int.MaxValue, 0, 0);
        for (int sinceBetter = 0, drops = 0; wanted.Count > score.Loads && sinceBetter < 4 && drops < 12; sinceBetter++, drops++)
        {
            int[] order = new OrderClimb(grid, decoder, wanted).Best(drops == 0 ? effort : effort / 4);
            OrderDecoder.Score found = decoder.Evaluate(order);
            if (found.CompareTo(score) < 0)
                (best, score, sinceBetter) = (order, found, found.Loads > score.Loads ? 0 : sinceBetter);
            if (found.Loads == wanted.Count)
                break;
            Drop(grid, wanted, order[found.Loads]);
        }
        return decoder.Decode(best);
    }

    private static void Drop(OrderGrid grid, List<int> wanted, int load)
    {
        wanted.Remove(load);
        while (wanted.FirstOrDefault(l => grid.Before[l].Any(b => !wanted.Contains(b)), -1) is int next and >= 0)
            wanted.Remove(next);
    }
}
