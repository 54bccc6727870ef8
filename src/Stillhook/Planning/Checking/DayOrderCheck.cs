namespace Stillhook.Planning.Checking;

/// <summary>An order set in the job file names loads that exist, each once.</summary>
internal static class DayOrderCheck
{
    public static IEnumerable<RequestFinding> Findings(LiftRequest request)
    {
        if (request.Day is not { Order: { Count: > 0 } order } || request.Loads.Count == 0)
            yield break;
        HashSet<string> known = new(request.Loads.Select(l => l.Number), StringComparer.OrdinalIgnoreCase), seen = new(StringComparer.OrdinalIgnoreCase);
        for (int i = 0; i < order.Count; i++)
            if (!known.Contains(order[i]))
                yield return RequestCheck.Warning("day-order-unknown", ChartAxes.At("day.order", i), $"There is no load '{LoadCheck.Shown(order[i])}'; the order passes over it.",
                    NearestWord.To(order[i], known) is { } nearest ? $"Did you mean '{nearest}'?" : "Write the number as it stands in the load list.");
            else if (!seen.Add(order[i]))
                yield return RequestCheck.Warning("day-order-twice", ChartAxes.At("day.order", i), $"Load '{LoadCheck.Shown(order[i])}' stands twice in the order; its first place counts.", "Take one of them out.");
    }
}
