namespace Stillhook.Files.Jobs;

/// <summary>Paths of values that are missing or could not be read.</summary>
internal sealed class SpoiltPaths
{
    private readonly HashSet<string> spoilt = new(StringComparer.Ordinal), around = new(StringComparer.Ordinal);

    public void Add(string path)
    {
        spoilt.Add(path);
        foreach (string outer in Outer(path))
            around.Add(outer);
    }

    /// <summary>Whether the path is spoilt, lies in something spoilt, or holds something spoilt: what is said of it would be about a stand-in.</summary>
    public bool Concern(string path) => spoilt.Contains(path) || around.Contains(path) || Outer(path).Any(spoilt.Contains);

    // loads[3].mass lies in loads[3], loads and the job.
    private static IEnumerable<string> Outer(string path)
    {
        for (int at = path.Length; at > 0;)
        {
            at = path.LastIndexOfAny(['.', '['], at - 1);
            yield return at < 0 ? "" : path[..at];
            if (at < 0)
                yield break;
        }
    }
}
