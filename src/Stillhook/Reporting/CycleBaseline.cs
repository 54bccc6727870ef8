using MathNet.Numerics.Statistics;
using Stillhook.Planning;
using Stillhook.Planning.Quoting;
using UnitsNet;

namespace Stillhook.Reporting;

/// <summary>How long rotations between two sites with one kind of load took.</summary>
/// <remarks>
/// Lift-off to next lift-off in the same flight. What takes longer than twice the median is a stop, not a rotation: it is left out and counted (own choice). docs/method/baselines.md.
/// </remarks>
/// <param name="PickUpSite">From; null when no site was near.</param>
/// <param name="DeliverySite">To; null when no site was near.</param>
/// <param name="Family">Kind of load; null when not told, or all kinds together.</param>
/// <param name="Count">Rotations counted.</param>
/// <param name="LeftOut">Stops left out.</param>
/// <param name="Days">Days they were flown on: six hours without one begin another, in whatever time zone.</param>
/// <param name="MeanS">Mean, s.</param>
/// <param name="SigmaS">Spread of one rotation (one standard deviation), s.</param>
public sealed record CycleBaseline(string? PickUpSite, string? DeliverySite, string? Family, int Count, int LeftOut, int Days, double MeanS, double SigmaS)
{
    private const int LeastCount = 5;
    private const double StopOverMedian = 2;

    /// <summary>Nothing for so long begins another day, in whatever time zone, s. Own choice.</summary>
    internal const double NightS = 6 * 3600;

    /// <summary>Baselines of every leg and kind with five rotations or more, and of every leg over all kinds, the most rotations first.</summary>
    public static IReadOnlyList<CycleBaseline> Of(IEnumerable<KeptLift> lifts) => Of([.. MeasuredLift.Of(lifts)]);

    /// <inheritdoc cref="Of(IEnumerable{KeptLift})"/>
    public static IReadOnlyList<CycleBaseline> Of(IReadOnlyList<MeasuredLift> lifts)
    {
        ArgumentNullException.ThrowIfNull(lifts);
        Dictionary<(string?, string?, string?), List<(double CycleS, double AtS)>> byKind = [];
        foreach (MeasuredLift l in lifts)
            if (l.CycleTimeS is > 0 and double cycle)
            {
                if (!byKind.TryGetValue((l.PickUpSite, l.DeliverySite, l.Family), out List<(double, double)>? of))
                    byKind.Add((l.PickUpSite, l.DeliverySite, l.Family), of = []);
                of.Add((cycle, l.AtS ?? double.NaN));
            }
        IEnumerable<CycleBaseline?> kinds = byKind.Where(k => k.Key.Item3 is not null).Select(k => From(k.Key.Item1, k.Key.Item2, k.Key.Item3, k.Value));
        IEnumerable<CycleBaseline?> legs = byKind.GroupBy(k => (k.Key.Item1, k.Key.Item2)).Select(g => From(g.Key.Item1, g.Key.Item2, null, [.. g.SelectMany(k => k.Value)]));
        return [.. kinds.Concat(legs).OfType<CycleBaseline>().OrderByDescending(b => b.Count).ThenBy(b => b.DeliverySite, StringComparer.Ordinal).ThenBy(b => b.Family, StringComparer.Ordinal)];
    }

    /// <summary>The mean rotation of a job as measured: that of its own legs and kinds, weighted by its loads; null where one of its legs was never flown often enough.</summary>
    /// <param name="job">The job.</param>
    /// <param name="baselines">What was measured.</param>
    public static MeasuredRotation? Fit(LiftRequest job, IReadOnlyList<CycleBaseline> baselines)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(baselines);
        List<CycleBaseline> fitting = [];
        foreach (PlannedLoad load in job.Loads)
        {
            string? from = job.SiteOf(load.PickUp, Debriefing.SiteUse.PickUp)?.Name, to = job.SiteOf(load.Delivery, Debriefing.SiteUse.Delivery)?.Name;
            IEnumerable<CycleBaseline> leg = baselines.Where(b => b.PickUpSite == from && b.DeliverySite == to);
            if ((leg.FirstOrDefault(b => b.Family == (load.Family ?? load.Name)) ?? leg.FirstOrDefault(b => b.Family is null)) is not { } found)
                return null;
            fitting.Add(found);
        }
        if (fitting.Count == 0)
            return null;
        double mean = fitting.Average(b => b.MeanS), spread = Math.Sqrt(fitting.Average(b => b.SigmaS * b.SigmaS + (b.MeanS - mean) * (b.MeanS - mean)));
        CycleBaseline[] used = [.. fitting.Distinct()];
        // A leg over all kinds holds the rotations of each kind too: it is counted alone.
        IEnumerable<CycleBaseline> apart = used.Where(b => b.Family is null || !used.Any(u => u.Family is null && u.PickUpSite == b.PickUpSite && u.DeliverySite == b.DeliverySite));
        return new(Duration.FromSeconds(mean), Duration.FromSeconds(spread), apart.Sum(b => b.Count), used.Max(b => b.Days), [.. used.Select(b => $"{b.PickUpSite} to {b.DeliverySite}, {b.Family ?? "all kinds"}")]);
    }

    private static CycleBaseline? From(string? pickUp, string? delivery, string? family, List<(double CycleS, double AtS)> rotations)
    {
        double[] cycles = [.. rotations.Select(r => r.CycleS)];
        Array.Sort(cycles);
        double most = StopOverMedian * SortedArrayStatistics.Median(cycles);
        double[] kept = [.. cycles.TakeWhile(c => c <= most)];
        if (kept.Length < LeastCount)
            return null;
        double mean = kept.Average();
        return new(pickUp, delivery, family, kept.Length, cycles.Length - kept.Length, DaysOf(rotations), mean, Math.Sqrt(kept.Sum(c => (c - mean) * (c - mean)) / (kept.Length - 1)));
    }

    private static int DaysOf(List<(double CycleS, double AtS)> rotations)
    {
        double[] times = [.. rotations.Select(r => r.AtS).Where(double.IsFinite)];
        Array.Sort(times);
        int days = 1;
        for (int i = 1; i < times.Length; i++)
            if (times[i] - times[i - 1] >= NightS)
                days++;
        return days;
    }
}
