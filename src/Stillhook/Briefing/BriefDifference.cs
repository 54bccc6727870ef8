namespace Stillhook.Briefing;

/// <summary>One fact of a brief, as it was read out.</summary>
/// <param name="Topic">What it belongs to.</param>
/// <param name="Name">What it is about; once in its topic.</param>
/// <param name="Value">What it says.</param>
public sealed record BriefLine(string Topic, string Name, string Value);

/// <summary>A fact that is no longer the same.</summary>
/// <param name="Topic">What it belongs to.</param>
/// <param name="Name">What it is about.</param>
/// <param name="Was">What was said before; null when it is new.</param>
/// <param name="Now">What is said now; null when it is gone.</param>
public sealed record BriefChange(string Topic, string Name, string? Was, string? Now);

/// <summary>What changed between two briefs: only that is briefed again.</summary>
public static class BriefDifference
{
    /// <summary>The changes in the order of the later brief; what is gone stands last.</summary>
    public static IReadOnlyList<BriefChange> Between(IReadOnlyList<BriefLine> before, IReadOnlyList<BriefLine> after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        Dictionary<(string, string), string> was = Joined(before), now = Joined(after);
        return
        [
            .. now.Where(n => !was.TryGetValue(n.Key, out string? old) || old != n.Value).Select(n => new BriefChange(n.Key.Item1, n.Key.Item2, was.GetValueOrDefault(n.Key), n.Value)),
            .. was.Where(w => !now.ContainsKey(w.Key)).Select(w => new BriefChange(w.Key.Item1, w.Key.Item2, w.Value, null)),
        ];
    }

    private static Dictionary<(string, string), string> Joined(IReadOnlyList<BriefLine> lines)
    {
        Dictionary<(string, string), string> joined = [];
        foreach (BriefLine line in lines)
            joined[(line.Topic, line.Name)] = joined.TryGetValue((line.Topic, line.Name), out string? said) ? said + "; " + line.Value : line.Value;
        return joined;
    }
}
