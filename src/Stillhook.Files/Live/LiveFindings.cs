using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>The findings of all sources: one for each source and code, counted; each is told when it is met, and not again while it goes on.</summary>
internal sealed class LiveFindings(TimeProvider clock, Action<LiveFinding>? told)
{
    private const double GoesOnS = 10; // met again within this it is the same; common practice, no source

    private readonly Lock _gate = new();
    private readonly List<LiveFinding> _all = [];

    public IReadOnlyList<LiveFinding> All
    {
        get
        {
            lock (_gate) return [.. _all];
        }
    }

    public void Add(string source, Finding finding)
    {
        var found = new LiveFinding(source, ArrivalTime.Now(clock), finding);
        bool again;
        lock (_gate)
        {
            int known = _all.FindIndex(f => f.Source == source && f.Finding.Code == finding.Code);
            again = known >= 0 && Math.Abs(found.AtS - _all[known].AtS) < GoesOnS; // such as with every packet
            if (known < 0) _all.Add(found);
            else _all[known] = found with { Finding = finding with { Count = _all[known].Finding.Count + finding.Count } };
        }

        if (!again) told?.Invoke(found);
    }
}
