namespace Stillhook.Files.Live;

/// <summary>How long to wait before a link is tried again: 0.5 s, doubled up to 30 s, each between 75 % and 125 % of it, never over 30 s (common practice, no source).</summary>
internal sealed class BackOff(Random random)
{
    private const double FirstS = 0.5, LongestS = 30;

    private double _next = FirstS;

    /// <summary>The wait before the next try.</summary>
    public TimeSpan Next()
    {
        double wait = _next * (0.75 + 0.5 * random.NextDouble());
        _next = Math.Min(_next * 2, LongestS);
        return TimeSpan.FromSeconds(Math.Min(wait, LongestS));
    }

    /// <summary>The link works: the next wait is short again.</summary>
    public void Reset() => _next = FirstS;
}
