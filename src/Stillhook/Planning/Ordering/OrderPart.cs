namespace Stillhook.Planning.Ordering;

/// <summary>A problem with only some of its loads, and sequences carried over to it and back.</summary>
internal static class OrderPart
{
    /// <summary>The problem with these loads only, in this order; ties to others fall away.</summary>
    public static OrderProblem Of(OrderProblem problem, IReadOnlyList<int> loads)
    {
        HashSet<string> numbers = [.. loads.Select(l => problem.Loads[l].Number)];
        return problem with { Loads = [.. loads.Select(l => problem.Loads[l] with { After = [.. problem.Loads[l].After.Where(numbers.Contains)] })] };
    }

    /// <summary>A sequence of the whole problem in the places of the part; null where it isn't one of exactly these loads.</summary>
    public static OrderSequence? Into(OrderSequence? sequence, IReadOnlyList<int> loads)
    {
        Dictionary<int, int> places = loads.Select((l, i) => (l, i)).ToDictionary(p => p.l, p => p.i);
        return sequence is null || sequence.Lifts.Count != loads.Count || sequence.Lifts.Any(l => !places.ContainsKey(l.Load)) ? null
            : sequence with { Lifts = [.. sequence.Lifts.Select(l => l with { Load = places[l.Load] })] };
    }

    /// <summary>A sequence of the part in the places of the whole problem; null for none, or where a place doesn't exist.</summary>
    public static OrderSequence? Back(OrderSequence? sequence, IReadOnlyList<int> loads) =>
        sequence is null || sequence.Lifts.Any(l => l.Load < 0 || l.Load >= loads.Count) ? null
        : sequence with { Lifts = [.. sequence.Lifts.Select(l => l with { Load = loads[l.Load] })] };
}

/// <summary>Groups that are to stay together.</summary>
internal static class OrderGroups
{
    /// <summary>Whether precedence runs both ways between groups, so that they can't be flown one after the other.</summary>
    public static bool Contradict(OrderGrid grid, IReadOnlyCollection<int> loads)
    {
        List<(int Before, int After)> ties = [.. loads.SelectMany(l => grid.Before[l].Select(b => (grid.Block[b], grid.Block[l]))).Where(t => t.Item1 != t.Item2).Distinct()];
        HashSet<int> left = [.. loads.Select(l => grid.Block[l])];
        while (left.FirstOrDefault(b => !ties.Any(t => t.After == b && left.Contains(t.Before)), int.MinValue) is int free and > int.MinValue)
            left.Remove(free);
        return left.Count > 0;
    }
}
