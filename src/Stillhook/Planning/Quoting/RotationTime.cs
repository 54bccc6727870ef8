using MathNet.Numerics.Distributions;
using UnitsNet;

namespace Stillhook.Planning.Quoting;

/// <summary>What the time of a rotation is taken from: what somebody entered as measured, else what is kept of flights on the same legs, else what somebody estimated, else the plan.</summary>
internal sealed record RotationGiven(PlanValue<Duration> Mean, PlanValue<Duration>? Spread, PlanValue<int>? MeasuredOn, MeasuredRotation? Kept)
{
    /// <summary>Null when there is no time of a rotation at all.</summary>
    public static RotationGiven? From(QuoteBasis basis, QuotedDay day)
    {
        bool entered = basis is { MeasuredOn: not null, Cycle: not null };
        if (!entered && day.Measured is { } kept)
        {
            string where = "kept flights: " + string.Join("; ", kept.Legs);
            return new(new(kept.Mean, InputFrom.Kept, where), new(kept.Spread, InputFrom.Kept, where), new(kept.Rotations, InputFrom.Kept, where), kept);
        }
        PlanValue<Duration>? mean = basis.Cycle is { } cycle ? new(cycle, InputFrom.JobFile, "quote.cycle") : day.PlannedCycle;
        return mean is not { } given ? null : new(given,
            basis.CycleSpread is { } spread ? new(spread, InputFrom.JobFile, "quote.cycleSpread") : null,
            entered ? new(basis.MeasuredOn!.Value, InputFrom.JobFile, "quote.measuredOn") : null, null);
    }

    /// <summary>Mean and spread were both measured. A spread can't be measured on one rotation, and a default one was not measured at all.</summary>
    public bool IsMeasured => MeasuredOn is { Value: > 1 } && Spread is not null;
}

/// <summary>Time of all rotations together with its spread, and how that was reached.</summary>
internal sealed record RotationTime(double MeanS, double ToPercentileS, string Formula, IReadOnlyList<FigureInput> Inputs, string Source, string Note)
{
    /// <summary>Spread over mean when nobody gave one. Common practice, no source.</summary>
    public const double DefaultSpreadShare = 0.2;

    private const double OneInTenAbove = 0.9;

    /// <remarks>
    /// Measured on k rotations, n to fly: variance n·s² (each rotation scatters by itself) + n²·s²/k (the mean is known to s/√k), times
    /// Student's t with k − 1. An estimate: the whole spread is doubt about the mean, n²·s², normal.
    /// </remarks>
    public static RotationTime Of(PlanValue<int> lifts, RotationGiven given)
    {
        double n = lifts.Value, cycleS = given.Mean.Value.Seconds, spreadS = given.Spread?.Value.Seconds ?? DefaultSpreadShare * cycleS;
        List<FigureInput> inputs =
        [
            new("lifts", Amount.Number(n, 1), lifts.From, lifts.Where), new("mean time of a rotation", Seconds(cycleS), given.Mean.From, given.Mean.Where),
            given.Spread is { } spread
                ? new("spread of that time", Seconds(spreadS), spread.From, spread.Where)
                : new("spread, a fifth of the mean because none is entered", Seconds(spreadS), InputFrom.Default, "quote.cycleSpread"),
        ];
        if (!given.IsMeasured)
            return new(n * cycleS, Normal.InvCDF(0, 1, OneInTenAbove) * n * spreadS, "lifts x mean +/- 1.28 x lifts x spread", inputs, CheckItem.CommonPractice,
                "Somebody's estimate: its whole spread is taken as doubt about the mean.");

        (int k, InputFrom from, string where) = (given.MeasuredOn!.Value.Value, given.MeasuredOn.Value.From, given.MeasuredOn.Value.Where);
        inputs.Add(new("rotations it was measured on", Amount.Number(k, 1), from, where));
        if (given.Kept is { } kept)
            inputs.Add(new("days they were flown on", Amount.Number(kept.Days, 1), from, where));
        double t = StudentT.InvCDF(0, 1, k - 1, OneInTenAbove);
        inputs.Add(new("spreads from the mean to one in ten, Student's t", Amount.Number(t), InputFrom.Rule, "STUDENT-T"));
        return new(n * cycleS, t * spreadS * Math.Sqrt(n + n * n / k), "lifts x mean +/- t x spread x root(lifts + lifts² / measured)", inputs, "STUDENT-T",
            "Rotations scatter independently; the mean is known to spread / root of the number measured.");
    }

    private static Amount Seconds(double s) => new(Duration.FromSeconds(s), 1);
}
