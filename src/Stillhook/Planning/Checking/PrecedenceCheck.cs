namespace Stillhook.Planning.Checking;

/// <summary>Which load comes before which: every number exists and no load waits for itself.</summary>
internal static class PrecedenceCheck
{
    public static IEnumerable<RequestFinding> Findings(IReadOnlyList<PlannedLoad> loads)
    {
        Dictionary<string, int> known = new(StringComparer.OrdinalIgnoreCase);
        for (int i = 0; i < loads.Count; i++)
            known.TryAdd(loads[i].Number, i);
        return [.. known.ContainsKey("") ? [] : Unknown(loads, known), .. Circles(loads, known)];
    }

    private static IEnumerable<RequestFinding> Unknown(IReadOnlyList<PlannedLoad> loads, Dictionary<string, int> known)
    {
        for (int i = 0; i < loads.Count; i++)
            for (int a = 0; a < loads[i].After.Count; a++)
                if (!known.ContainsKey(loads[i].After[a]))
                    yield return RequestCheck.Error("load-after-unknown", ChartAxes.At(LoadCheck.Path(i) + ".after", a), $"There is no load '{LoadCheck.Shown(loads[i].After[a])}'.",
                        NearestWord.To(loads[i].After[a], known.Keys) is { } nearest ? $"Did you mean '{nearest}'?" : "Write the number as it stands in the load list.");
    }

    /// <summary>Depth first with its own stack, as a chain may be as long as the list; each load is entered once.</summary>
    private static IEnumerable<RequestFinding> Circles(IReadOnlyList<PlannedLoad> loads, Dictionary<string, int> known)
    {
        bool[] done = new bool[loads.Count];
        int[] place = new int[loads.Count]; // 1 + place on the way, 0 when not on it
        for (int start = 0; start < loads.Count; start++)
        {
            List<(int Load, int Next)> way = [];
            Enter(start);
            while (way.Count > 0)
            {
                (int load, int next) = way[^1];
                if (next == loads[load].After.Count)
                {
                    way.RemoveAt(way.Count - 1);
                    (place[load], done[load]) = (0, true);
                    continue;
                }
                way[^1] = (load, next + 1);
                if (!known.TryGetValue(loads[load].After[next], out int before))
                    continue;
                if (place[before] > 0)
                    yield return Circle([.. way.Skip(place[before] - 1).Select(w => loads[w.Load].Number)], ChartAxes.At(LoadCheck.Path(load) + ".after", next));
                else
                    Enter(before);
            }

            void Enter(int load)
            {
                if (done[load])
                    return;
                way.Add((load, 0));
                place[load] = way.Count;
            }
        }
    }

    private static RequestFinding Circle(List<string> numbers, string path)
    {
        const int shown = 10;
        string circle = string.Join(", which waits for ", numbers.Take(shown).Select(LoadCheck.Shown)) + (numbers.Count > shown ? ", and so on" : "");
        return RequestCheck.Error("load-circle", path, $"Load {circle}, which waits for {LoadCheck.Shown(numbers[0])} again.", "Take one of these out of the list 'after'.");
    }
}
