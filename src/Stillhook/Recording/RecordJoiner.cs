using System.Globalization;

namespace Stillhook.Recording;

/// <summary>Joins several records of one day of lifting into one, in order of time.</summary>
/// <remarks>
/// Where two records cover the same time, the fixes of the denser one count: recorders differ by metres, and a mix of both would look like
/// motion. A change from one record to another starts a new segment. Channels of one kind are merged in order of time.
/// </remarks>
public static class RecordJoiner
{
    /// <summary>Further from a fix than this, a record doesn't cover a time, s.</summary>
    private const double CoverS = 5;

    /// <summary>One record from many. A single record comes back as it is.</summary>
    /// <exception cref="ArgumentException">No record.</exception>
    public static FlightRecord Join(IReadOnlyList<FlightRecord> records)
    {
        ArgumentNullException.ThrowIfNull(records);
        if (records.Count == 0)
            throw new ArgumentException("There is at least one record to join.", nameof(records));
        if (records.Count == 1)
            return records[0];
        List<Finding> findings = [.. records.SelectMany(r => r.Findings.Select(f => f with { What = $"{r.Name}: {f.What}" }))];
        Coverage[] coverage = [.. records.Select(r => new Coverage(r))];
        List<(int Record, int Fix)> kept = Choose(records, coverage, findings);
        NoteDays(records, coverage, findings);
        return Assemble(records, kept, findings);
    }

    /// <summary>Sorted times of a record and how dense they are.</summary>
    private sealed class Coverage
    {
        public Coverage(FlightRecord record)
        {
            Times = [.. record.TimeS.Where(double.IsFinite)];
            Array.Sort(Times);
            double duration = Times.Length > 1 ? Times[^1] - Times[0] : 0;
            Rate = duration > 0 ? (Times.Length - 1) / duration : 0;
        }

        public double[] Times { get; }

        public double Rate { get; }

        public bool Covers(double t)
        {
            if (Times.Length == 0 || !(t >= Times[0] && t <= Times[^1]))
                return false;
            int i = Array.BinarySearch(Times, t);
            if (i >= 0)
                return true;
            i = ~i;
            return t - Times[i - 1] <= CoverS && Times[i] - t <= CoverS;
        }
    }

    private static List<(int Record, int Fix)> Choose(IReadOnlyList<FlightRecord> records, Coverage[] coverage, List<Finding> findings)
    {
        int[] order = [.. Enumerable.Range(0, records.Count).OrderByDescending(r => coverage[r].Rate).ThenBy(r => r)];
        List<(int Record, int Fix)> kept = [];
        for (int rank = 0; rank < order.Length; rank++)
        {
            int r = order[rank];
            int[] left = new int[order.Length];
            for (int i = 0; i < records[r].Count; i++)
            {
                double t = records[r].TimeS[i];
                int denser = Array.FindIndex(order, 0, rank, o => coverage[o].Covers(t));
                if (denser < 0)
                    kept.Add((r, i));
                else
                    left[denser]++;
            }
            for (int d = 0; d < rank; d++)
                if (left[d] > 0)
                    findings.Add(Overlap(records[r].Name, records[order[d]].Name, left[d]));
        }
        // Fixes without a time come last; whoever works the motion reports and leaves them out.
        return [.. kept.OrderBy(k => records[k.Record].TimeS[k.Fix] is double t && double.IsFinite(t) ? t : double.PositiveInfinity)
            .ThenBy(k => k.Record).ThenBy(k => k.Fix)];
    }

    private static Finding Overlap(string left, string denser, int count) => new(
        Severity.Warning, "records-overlap", null, count,
        string.Create(CultureInfo.InvariantCulture, $"{count} fixes of {left} lie in the time of {denser}."),
        $"The fixes of {denser} count there: they are denser, or it was named first.");

    private static void NoteDays(IReadOnlyList<FlightRecord> records, Coverage[] coverage, List<Finding> findings)
    {
        var days = records.Zip(coverage).Where(x => x.Second.Times.Length > 0)
            .GroupBy(x => Math.Floor(x.Second.Times[0] / 86400)).OrderBy(g => g.Key).ToList();
        if (days.Count < 2)
            return;
        IEnumerable<string> each = days.Select(g =>
            $"{DateTime.UnixEpoch.AddDays(g.Key).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)} ({string.Join(", ", g.Select(x => x.First.Name))})");
        findings.Add(new(Severity.Warning, "different-days", null, days.Count, $"The records are of different days: {string.Join("; ", each)}.",
            "They were joined all the same; debrief each day by itself to compare a pilot only with his own day."));
    }

    private static FlightRecord Assemble(IReadOnlyList<FlightRecord> records, List<(int Record, int Fix)> kept, List<Finding> findings)
    {
        double[] Column(Func<FlightRecord, double[]> of) => records.All(r => of(r).Length == 0)
            ? []
            : [.. kept.Select(k => of(records[k.Record]) is { Length: > 0 } c ? c[k.Fix] : double.NaN)];

        return new()
        {
            Name = string.Join(" + ", records.Select(r => r.Name)),
            Format = string.Join(", ", records.Select(r => r.Format).Distinct()),
            TimeS = Column(r => r.TimeS),
            LatitudeDeg = Column(r => r.LatitudeDeg),
            LongitudeDeg = Column(r => r.LongitudeDeg),
            AltitudeM = Column(r => r.AltitudeM),
            PressureAltitudeM = Column(r => r.PressureAltitudeM),
            GroundSpeedMs = Column(r => r.GroundSpeedMs),
            CourseDeg = Column(r => r.CourseDeg),
            ClimbMs = Column(r => r.ClimbMs),
            SegmentStarts = Segments(records, kept),
            Channels = [.. records.SelectMany(r => r.Channels).GroupBy(c => c.Kind).Select(Merge)],
            WaypointCount = records.Sum(r => r.WaypointCount),
            Findings = findings,
        };
    }

    private static int[] Segments(IReadOnlyList<FlightRecord> records, List<(int Record, int Fix)> kept)
    {
        List<int> starts = [];
        for (int k = 0; k < kept.Count; k++)
        {
            (int r, int i) = kept[k];
            if (k == 0 || kept[k - 1].Record != r || SegmentOf(records[r], kept[k - 1].Fix) != SegmentOf(records[r], i))
                starts.Add(k);
        }
        return [.. starts];
    }

    private static int SegmentOf(FlightRecord record, int fix)
    {
        int s = Array.BinarySearch(record.SegmentStarts, fix);
        return s >= 0 ? s : ~s - 1;
    }

    private static Channel Merge(IGrouping<ChannelKind, Channel> same)
    {
        double[] t = [.. same.SelectMany(c => c.TimeS)], v = [.. same.SelectMany(c => c.Value)];
        int[] order = [.. Enumerable.Range(0, t.Length).OrderBy(i => t[i])];
        return new(same.Key, Array.ConvertAll(order, i => t[i]), Array.ConvertAll(order, i => v[i]));
    }
}
