namespace Stillhook.Recording;

/// <summary>A flight record that grows sample by sample, and forgets what is older than a given time.</summary>
/// <remarks>
/// A record fed whole or sample by sample is the same record: nothing is filtered, order, repeats and gaps are as they arrived. Memory is
/// bounded by the time kept; what is older lies where the bytes were recorded.
/// </remarks>
/// <param name="name">Name for people.</param>
/// <param name="keepS">How much is kept behind the newest sample, s; infinite keeps all.</param>
public sealed class LiveRecord(string name, double keepS)
{
    private readonly List<FixSample> fixes = [];
    private readonly Dictionary<ChannelKind, List<ChannelSample>> channels = [];
    private readonly HashSet<int> starts = [];
    private bool newSegment = true;
    private double newestS = double.NegativeInfinity;

    /// <summary>Number of positions kept.</summary>
    public int Count => fixes.Count;

    /// <summary>Adds a position.</summary>
    public void Add(in FixSample fix)
    {
        if (newSegment)
            starts.Add(fixes.Count);
        newSegment = false;
        fixes.Add(fix);
        newestS = Math.Max(newestS, fix.TimeS);
        Forget();
    }

    /// <summary>Adds a value of a channel.</summary>
    public void Add(in ChannelSample sample)
    {
        if (!channels.TryGetValue(sample.Kind, out List<ChannelSample>? same))
            channels[sample.Kind] = same = [];
        same.Add(sample);
    }

    /// <summary>The next position starts a new segment.</summary>
    public void Break() => newSegment = true;

    /// <summary>What is kept, as a record of its own: it can be worked on while this one grows.</summary>
    public FlightRecord ToRecord() => new()
    {
        Name = name,
        Format = "live",
        TimeS = Column(f => f.TimeS),
        LatitudeDeg = Column(f => f.LatitudeDeg),
        LongitudeDeg = Column(f => f.LongitudeDeg),
        AltitudeM = Column(f => f.AltitudeM),
        PressureAltitudeM = Known(f => f.PressureAltitudeM),
        GroundSpeedMs = Known(f => f.GroundSpeedMs),
        CourseDeg = Known(f => f.CourseDeg),
        ClimbMs = Known(f => f.ClimbMs),
        SegmentStarts = [.. starts.Order()],
        Channels = [.. channels.OrderBy(c => c.Key).Select(c => new Channel(c.Key, [.. c.Value.Select(s => s.TimeS)], [.. c.Value.Select(s => s.Value)]))],
    };

    private double[] Column(Func<FixSample, double> of)
    {
        double[] column = new double[fixes.Count];
        for (int i = 0; i < column.Length; i++)
            column[i] = of(fixes[i]);
        return column;
    }

    private double[] Known(Func<FixSample, double> of)
    {
        double[] column = Column(of);
        return Array.TrueForAll(column, double.IsNaN) ? [] : column;
    }

    /// <summary>Drops what is too old, a quarter of the time kept at once, so that each sample is moved only a few times.</summary>
    private void Forget()
    {
        double before = newestS - keepS;
        if (!(fixes[0].TimeS < before - keepS / 4))
            return;
        int old = fixes.FindIndex(f => f.TimeS >= before);
        if (old <= 0)
            return;
        fixes.RemoveRange(0, old);
        int[] kept = [.. starts.Select(s => s - old).Where(s => s > 0)];
        starts.Clear();
        starts.UnionWith([0, .. kept]);
        foreach (List<ChannelSample> same in channels.Values)
            same.RemoveAll(s => s.TimeS < before);
    }
}
