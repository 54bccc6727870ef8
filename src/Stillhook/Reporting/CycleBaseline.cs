using MathNet.Numerics.Statistics;
using Stillhook.Planning;
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
/// <param name="MeanS">Mean, s.</param>
/// <param name="SigmaS">Spread of one rotation (one standard deviation), s.</param>
public sealed record CycleBaseline(string? PickUpSite, string? DeliverySite, string? Family, int Count, int LeftOut, double MeanS, double SigmaS)
{
    private const int LeastCount = 5;
    private const double StopOverMedian = 2;

    /// <summary>Baselines of every leg and kind with five rotations or more, and of every leg over all kinds, the most rotations first.</summary>
    public static IReadOnlyList<CycleBaseline> Of(IEnumerable<KeptLift> lifts)
    {
        ArgumentNullException.ThrowIfNull(lifts);
        List<KeptLift> timed = [.. lifts.Where(l => !l.StruckOut && l.Measures?.CycleTimeS is > 0)];
        IEnumerable<CycleBaseline?> byKind = timed.Where(l => l.Family is not null).GroupBy(l => (l.PickUpSite, l.DeliverySite, l.Family)).Select(g => From(g.Key.PickUpSite, g.Key.DeliverySite, g.Key.Family, g));
        IEnumerable<CycleBaseline?> all = timed.GroupBy(l => (l.PickUpSite, l.DeliverySite)).Select(g => From(g.Key.PickUpSite, g.Key.DeliverySite, null, g));
        return [.. byKind.Concat(all).OfType<CycleBaseline>().OrderByDescending(b => b.Count).ThenBy(b => b.DeliverySite, StringComparer.Ordinal).ThenBy(b => b.Family, StringComparer.Ordinal)];
    }

    /// <summary>The basis of a quote with the measured time of its rotation: that of the job's own leg and kind, weighted by its loads; the basis as it was where nothing fits.</summary>
    /// <param name="basis">Prices and the rest, as entered. A time that somebody entered as measured stands.</param>
    /// <param name="job">The job.</param>
    /// <param name="baselines">What was measured.</param>
    public static QuoteBasis Into(QuoteBasis basis, LiftRequest job, IReadOnlyList<CycleBaseline> baselines)
    {
        ArgumentNullException.ThrowIfNull(basis);
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(baselines);
        if (basis is { Cycle: not null, MeasuredOn: not null } || job.Loads.Count == 0)
            return basis;
        List<CycleBaseline> fitting = [];
        foreach (PlannedLoad load in job.Loads)
        {
            string? from = job.SiteOf(load.PickUp, Debriefing.SiteUse.PickUp)?.Name, to = job.SiteOf(load.Delivery, Debriefing.SiteUse.Delivery)?.Name;
            IEnumerable<CycleBaseline> leg = baselines.Where(b => b.PickUpSite == from && b.DeliverySite == to);
            if ((leg.FirstOrDefault(b => b.Family == (load.Family ?? load.Name)) ?? leg.FirstOrDefault(b => b.Family is null)) is not { } found)
                return basis;
            fitting.Add(found);
        }
        double mean = fitting.Average(b => b.MeanS), spread = Math.Sqrt(fitting.Average(b => b.SigmaS * b.SigmaS + (b.MeanS - mean) * (b.MeanS - mean)));
        return basis with { Cycle = Duration.FromSeconds(mean), CycleSpread = Duration.FromSeconds(spread), MeasuredOn = fitting.Distinct().Sum(b => b.Count) };
    }

    private static CycleBaseline? From(string? pickUp, string? delivery, string? family, IEnumerable<KeptLift> lifts)
    {
        double[] cycles = [.. lifts.Select(l => l.Measures!.CycleTimeS!.Value).Order()];
        double most = StopOverMedian * SortedArrayStatistics.Median(cycles);
        double[] kept = [.. cycles.Where(c => c <= most)];
        if (kept.Length < LeastCount)
            return null;
        double mean = kept.Average();
        return new(pickUp, delivery, family, kept.Length, cycles.Length - kept.Length, mean, Math.Sqrt(kept.Sum(c => (c - mean) * (c - mean)) / (kept.Length - 1)));
    }
}
