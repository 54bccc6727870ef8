using Stillhook.Planning;

namespace Stillhook.Reporting;

/// <summary>By what the parts of one lift were put together.</summary>
public enum MatchedBy
{
    /// <summary>Nothing to match: one of the three alone knows it.</summary>
    Nothing,

    /// <summary>The same load number, and times that do not contradict it.</summary>
    LoadNumber,

    /// <summary>Times within the tolerance.</summary>
    Time,

    /// <summary>No number is told by tally or record all day: by order only. Which load it was is not known.</summary>
    Order,
}

/// <summary>One lift as plan, tally and record know it; null where one does not.</summary>
/// <param name="Plan">Load on the list.</param>
/// <param name="Tally">Line of the crew's tally.</param>
/// <param name="Record">Lift found in the record.</param>
/// <param name="By">What put tally and record, or either and the plan, together: the weakest of them.</param>
public sealed record ReconciledLift(PlannedLoad? Plan, TallyEntry? Tally, KeptLift? Record, MatchedBy By)
{
    /// <summary>True when not all three know it.</summary>
    public bool IsOdd => Plan is null || Tally is null || Record is null;

    /// <summary>When, s since 1970 UTC: by the record, else by the tally; null when neither tells.</summary>
    public double? AtS => (Record is null ? null : CountedLift.TimeS(Record)) ?? Tally?.AtS;

    /// <summary>Number of the load: of the list, else of the tally, else of the record. Null where a load of the list stands here by its turn alone: which load it was is not known.</summary>
    public string? LoadNumber => By == MatchedBy.Order ? null : Plan?.Number ?? Tally?.LoadNumber ?? Record?.LoadNumber;

    /// <summary>True when tally and record agree about the time and not about the load.</summary>
    public bool NumbersDiffer => Tally?.LoadNumber is { } t && Record?.LoadNumber is { } r && !string.Equals(t, r, StringComparison.OrdinalIgnoreCase);

    /// <summary>Which of the three know it, in words.</summary>
    public string KnownTo => (Plan, Tally, Record) switch
    {
        (not null, not null, not null) => "plan, tally and record",
        (not null, not null, null) => "plan and tally, not the record",
        (not null, null, not null) => "plan and record, not the tally",
        (null, not null, not null) => "tally and record, not the plan",
        (not null, null, null) => "the plan alone",
        (null, not null, null) => "the tally alone",
        _ => "the record alone",
    };
}

/// <summary>How near is near enough.</summary>
/// <param name="TimeS">Tally and record within this are one lift, s. Common practice, no source.</param>
/// <param name="SameNumberTimeS">With the same load number within this, s: a tally may be written late. Common practice, no source.</param>
public sealed record MatchTolerance(double TimeS = 180, double SameNumberTimeS = 900);

/// <summary>Plan, crew tally and record of a day held against each other: every entry of the three stands in exactly one row.</summary>
/// <remarks>
/// Tally and record first: by load number and time; by time, those whose numbers do not contradict each other before the rest; by number with a tally written late; in each step pairs in order of time, as many as there can be, and of those the
/// smallest sum of time differences. Then to the plan by number; where tally and record tell no number all day, by order. Lifts struck out are left out; a lift added by hand is the
/// crew's word and not the record's, so it counts as no record. The order in which entries come does not matter.
/// </remarks>
/// <param name="Rows">All rows in order of time; those without one last.</param>
/// <param name="Planned">Loads on the list.</param>
/// <param name="Tallied">Lines of the tally.</param>
/// <param name="Recorded">Lifts of the record that count.</param>
/// <param name="Tolerance">How near was near enough.</param>
public sealed record Reconciliation(IReadOnlyList<ReconciledLift> Rows, int Planned, int Tallied, int Recorded, MatchTolerance Tolerance)
{
    /// <summary>Lifts that not all three know.</summary>
    public IReadOnlyList<ReconciledLift> Odd => [.. Rows.Where(r => r.IsOdd)];

    /// <summary>Lifts that are counted against the list by turn alone, because nothing tells which load they were.</summary>
    public int ByTurn => Rows.Count(r => r.By == MatchedBy.Order);

    /// <summary>The reconciliation of a day.</summary>
    public static Reconciliation Of(IReadOnlyList<PlannedLoad> plan, IReadOnlyList<TallyEntry> tally, IReadOnlyList<KeptLift> lifts, MatchTolerance? tolerance = null)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(tally);
        ArgumentNullException.ThrowIfNull(lifts);
        tolerance ??= new();
        KeptLift[] record = [.. CountedLift.Of(lifts).Where(l => !l.AddedByHand)];
        List<ReconciledLift> rows = new Matching(tally, record, tolerance).Rows();
        return new(WithPlan(rows, plan), plan.Count, tally.Count, record.Length, tolerance);
    }

    private static List<ReconciledLift> WithPlan(List<ReconciledLift> rows, IReadOnlyList<PlannedLoad> plan)
    {
        // What both know claims its load before what one knows, the earlier before the later.
        rows = [.. rows.OrderBy(r => r.Tally is null || r.Record is null).ThenBy(Order)];
        List<PlannedLoad> left = [.. plan];
        List<ReconciledLift> planned = [.. rows.Select(r => Claim(r, r.Tally?.LoadNumber, left))];
        planned = [.. planned.Select(r => r.Plan is null ? Claim(r, r.Record?.LoadNumber, left) : r)];
        bool anyNumber = planned.Any(r => Number(r.Tally?.LoadNumber) is not null || Number(r.Record?.LoadNumber) is not null);
        for (int i = 0; !anyNumber && i < planned.Count && left.Count > 0; i++)
        {
            planned[i] = planned[i] with { Plan = left[0], By = MatchedBy.Order };
            left.RemoveAt(0);
        }
        return [.. planned.Concat(left.Select(l => new ReconciledLift(l, null, null, MatchedBy.Nothing))).OrderBy(Order)];
    }

    private static ReconciledLift Claim(ReconciledLift row, string? number, List<PlannedLoad> left)
    {
        if (Number(number) is not { } wanted || left.FindIndex(l => Number(l.Number) == wanted) is not (>= 0 and var at))
            return row;
        ReconciledLift claimed = row with { Plan = left[at], By = row.By == MatchedBy.Nothing ? MatchedBy.LoadNumber : row.By };
        left.RemoveAt(at);
        return claimed;
    }

    // Written numbers differ in case and blanks from the list's.
    internal static string? Number(string? written) => string.IsNullOrWhiteSpace(written) ? null : written.Trim().ToUpperInvariant();

    private static (double, string, int, long, int) Order(ReconciledLift r) =>
        (r.AtS ?? double.PositiveInfinity, Number(r.LoadNumber) ?? "", r.Tally?.Number ?? int.MaxValue, r.Record?.FlightId ?? long.MaxValue, r.Record?.Number ?? int.MaxValue);

    /// <summary>Tally against record.</summary>
    private sealed class Matching
    {
        private readonly List<TallyEntry> tally;
        private readonly List<KeptLift> record;
        private readonly MatchTolerance tolerance;
        private readonly List<ReconciledLift> rows = [];

        public Matching(IReadOnlyList<TallyEntry> tally, KeptLift[] record, MatchTolerance tolerance)
        {
            this.tally = [.. tally.OrderBy(t => t.AtS ?? double.PositiveInfinity).ThenBy(t => t.Number).ThenBy(t => t.LoadNumber, StringComparer.Ordinal).ThenBy(t => t.LoadKg)];
            this.record = [.. record];
            this.tolerance = tolerance;
        }

        public List<ReconciledLift> Rows()
        {
            ByNumber(tolerance.TimeS);
            Take([.. tally], [.. record], (t, l) => Number(t.LoadNumber) is { } a && Number(l.LoadNumber) is { } b && a != b ? null : Apart(t, l), tolerance.TimeS, MatchedBy.Time);
            // The record's number may be a guess from the order of the list: a time that fits says more than a number far off in time.
            Take([.. tally], [.. record], Apart, tolerance.TimeS, MatchedBy.Time);
            ByNumber(tolerance.SameNumberTimeS);
            rows.AddRange(tally.Select(t => new ReconciledLift(null, t, null, MatchedBy.Nothing)));
            rows.AddRange(record.Select(l => new ReconciledLift(null, null, l, MatchedBy.Nothing)));
            return rows;
        }

        private void ByNumber(double withinS)
        {
            foreach (string number in tally.Select(t => Number(t.LoadNumber)).Intersect(record.Select(l => Number(l.LoadNumber))).OfType<string>().ToList())
                Take([.. tally.Where(t => Number(t.LoadNumber) == number)], [.. record.Where(l => Number(l.LoadNumber) == number)], (t, l) => Apart(t, l) ?? 0, withinS, MatchedBy.LoadNumber);
        }

        private static double? Apart(TallyEntry t, KeptLift l) => t.AtS is { } a && CountedLift.TimeS(l) is { } b ? Math.Abs(a - b) : null;

        private void Take(TallyEntry[] entries, KeptLift[] lifts, Func<TallyEntry, KeptLift, double?> apartS, double withinS, MatchedBy by)
        {
            foreach ((int t, int l) in BestPairs.Of(entries.Length, lifts.Length, (t, l) => apartS(entries[t], lifts[l]) is { } d && d <= withinS ? d : null))
            {
                rows.Add(new(null, entries[t], lifts[l], by));
                tally.Remove(entries[t]);
                record.Remove(lifts[l]);
            }
        }
    }
}

/// <summary>Pairs of two rows in which none crosses another: as many as there can be, and of those the least costly.</summary>
/// <remarks>Longest common subsequence with costs, by dynamic programming. For two rows in order of time and a cost that grows with the time between, an uncrossed pairing is among the best.</remarks>
internal static class BestPairs
{
    /// <summary>The pairs in order.</summary>
    /// <param name="first">Length of the first row.</param>
    /// <param name="second">Length of the second.</param>
    /// <param name="cost">Cost of a pair; null when the two do not go together.</param>
    public static IReadOnlyList<(int First, int Second)> Of(int first, int second, Func<int, int, double?> cost)
    {
        var best = new (int Pairs, double Cost)[first + 1, second + 1];
        for (int i = 1; i <= first; i++)
            for (int j = 1; j <= second; j++)
            {
                best[i, j] = Better(best[i - 1, j], best[i, j - 1]);
                if (cost(i - 1, j - 1) is { } c)
                    best[i, j] = Better(best[i, j], (best[i - 1, j - 1].Pairs + 1, best[i - 1, j - 1].Cost + c));
            }
        List<(int, int)> pairs = [];
        for (int i = first, j = second; i > 0 && j > 0;)
            if (best[i, j] == best[i - 1, j])
                i--;
            else if (best[i, j] == best[i, j - 1])
                j--;
            else
                pairs.Add((--i, --j));
        pairs.Reverse();
        return pairs;
    }

    private static (int Pairs, double Cost) Better((int Pairs, double Cost) a, (int Pairs, double Cost) b) => b.Pairs > a.Pairs || b.Pairs == a.Pairs && b.Cost < a.Cost ? b : a;
}
