using System.Globalization;
using Stillhook.Planning;
using Stillhook.Recording;

namespace Stillhook.Reporting;

/// <summary>Limits that recorded values are held against, as entered; null where none was.</summary>
/// <param name="TorquePercent">Torque limit for lifting, percent of the instrument.</param>
/// <param name="HookKg">Rated load of the cargo hook, kg.</param>
/// <param name="RiggingKg">Rated load of the weakest part between hook and load, kg.</param>
/// <param name="RiggingPart">That part.</param>
/// <param name="HeaviestLoadKg">Heaviest load on the list, kg: tells whether a load cell's unit can be right.</param>
public sealed record ExceedanceLimits(double? TorquePercent, double? HookKg, double? RiggingKg, string? RiggingPart, double? HeaviestLoadKg)
{
    /// <summary>The limits of a job. Slings of single loads are not in it: which load hung when is not known for sure.</summary>
    public static ExceedanceLimits From(LiftRequest? job)
    {
        RiggingPart? weakest = job?.Rigging.Where(r => r.RatedLoad is not null).MinBy(r => r.RatedLoad!.Value.Kilograms);
        return new(job?.Aircraft?.TorqueLimit?.Percent, job?.Aircraft?.HookLimit?.Kilograms, weakest?.RatedLoad?.Kilograms, weakest?.Name, job?.Loads.Select(l => (double?)l.Mass.Kilograms).Max());
    }
}

/// <summary>Finds recorded values beyond entered limits: value, time, duration, nothing more.</summary>
/// <remarks>
/// Beyond is above the limit. Between two samples the value is taken as a straight line; across a gap of more than 5 s and five median steps nothing is assumed. Runs less than 2 s apart are one,
/// lasting from its first crossing to its last, dips counted in. Nothing is filtered: a spike of the instrument is listed too, for maintenance to judge.
/// The load cell's reading is held against the weakest part as it stands, though parts above it do not hang on it.
/// </remarks>
public static class ExceedanceFinder
{
    private const double JoinS = 2, LeastGapS = 5, StepsInGap = 5;
    private const double LargestShare = 3, LargestPercent = 200, MostOverHeaviest = 1.8, LeastOverHeaviest = 0.3;

    /// <summary>Exceedances of a record in order of time, and what makes a channel's unit doubtful.</summary>
    public static (IReadOnlyList<Exceedance> Exceedances, IReadOnlyList<Finding> Findings) Find(FlightRecord record, ExceedanceLimits limits)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(limits);
        List<Finding> findings = [];
        List<Exceedance> found = [];
        if (Samples(record.Find(ChannelKind.TorquePercent)) is { } torque)
        {
            findings.AddRange(TorqueUnit(torque.Value));
            found.AddRange(Runs(torque.Time, torque.Value, LimitKind.Torque, limits.TorquePercent));
        }
        if (Samples(record.Find(ChannelKind.LoadKg)) is { } load)
        {
            findings.AddRange(LoadUnit(load.Value, limits.HeaviestLoadKg));
            found.AddRange(Runs(load.Time, load.Value, LimitKind.HookLoad, limits.HookKg));
            found.AddRange(Runs(load.Time, load.Value, LimitKind.RiggingLoad, limits.RiggingKg));
        }
        return ([.. found.OrderBy(e => e.AtS).ThenBy(e => e.Kind)], findings);
    }

    private static (double[] Time, double[] Value)? Samples(Channel? channel)
    {
        int[] real = channel is null ? [] : [.. Enumerable.Range(0, channel.TimeS.Length).Where(i => double.IsFinite(channel.TimeS[i]) && double.IsFinite(channel.Value[i])).OrderBy(i => channel.TimeS[i])];
        return real.Length == 0 ? null : (Array.ConvertAll(real, i => channel!.TimeS[i]), Array.ConvertAll(real, i => channel!.Value[i]));
    }

    private static List<Exceedance> Runs(double[] time, double[] value, LimitKind kind, double? entered)
    {
        List<Exceedance> runs = [];
        if (entered is not { } limit)
            return runs;
        double gapS = Math.Max(LeastGapS, StepsInGap * MedianStep(time)), from = double.NaN, to = double.NegativeInfinity;
        for (int i = 0; i < value.Length; i++)
        {
            if (!(value[i] > limit))
                continue;
            double begins = i > 0 && time[i] - time[i - 1] <= gapS ? Crossing(time, value, i - 1, limit) : time[i];
            double ends = i + 1 < value.Length && time[i + 1] - time[i] <= gapS ? Crossing(time, value, i, limit) : time[i];
            bool joins = runs.Count > 0 && begins - to < JoinS;
            from = joins ? from : begins;
            to = ends;
            (double peak, double at) = joins && runs[^1].Peak >= value[i] ? (runs[^1].Peak, runs[^1].AtS) : (value[i], time[i]);
            if (joins)
                runs.RemoveAt(runs.Count - 1);
            runs.Add(new(kind, limit, peak, at, to - from));
        }
        return runs;
    }

    /// <summary>Where the straight line between a sample and the next passes the limit; the end that lies beyond when both do.</summary>
    private static double Crossing(double[] time, double[] value, int i, double limit)
    {
        bool first = value[i] > limit, second = value[i + 1] > limit;
        return first && second ? time[i + 1] : time[i] + (limit - value[i]) / (value[i + 1] - value[i]) * (time[i + 1] - time[i]);
    }

    private static double MedianStep(double[] time)
    {
        double[] steps = [.. time.Zip(time.Skip(1), (a, b) => b - a).Order()];
        return steps.Length > 0 ? steps[steps.Length / 2] : 0;
    }

    private static IEnumerable<Finding> TorqueUnit(double[] value)
    {
        double most = value.Max();
        if (most is > 0 and < LargestShare or > LargestPercent)
            yield return new(Severity.Warning, "torque-unit", null, 1, string.Create(CultureInfo.InvariantCulture, $"The largest recorded torque is {most:0.##}: that is hardly percent."), "Its exceedances can't be trusted; check the column's unit.");
    }

    private static IEnumerable<Finding> LoadUnit(double[] value, double? heaviestKg)
    {
        double[] sorted = [.. value.Order()];
        double carried = sorted[(int)(0.98 * (sorted.Length - 1))] - sorted[(int)(0.1 * (sorted.Length - 1))];
        if (heaviestKg is { } heaviest && carried > 0 && (carried > MostOverHeaviest * heaviest || carried < LeastOverHeaviest * heaviest))
            yield return new(Severity.Warning, "load-unit", null, 1,
                string.Create(CultureInfo.InvariantCulture, $"The load cell shows about {carried:0} kg carried; the heaviest load on the list is {heaviest:0} kg."), "Check the column's unit and the list before reading its exceedances.");
    }
}
