namespace Stillhook.Planning.Ordering;

/// <summary>An order by the loads' numbers, as a person gives it.</summary>
internal static class OrderGiven
{
    /// <summary>Places of the loads in the problem's list: those named, each once and in the order named, then the rest in the order of the list. Numbers that are no load's are passed over.</summary>
    public static int[] Places(OrderProblem problem, IReadOnlyList<string> numbers)
    {
        Dictionary<string, int> byNumber = problem.Loads.Select((l, i) => (l.Number, i)).ToDictionary(p => p.Number, p => p.i, StringComparer.OrdinalIgnoreCase);
        int[] named = [.. numbers.Where(byNumber.ContainsKey).Select(n => byNumber[n]).Distinct()];
        return [.. named, .. Enumerable.Range(0, problem.Loads.Count).Except(named)];
    }
}
