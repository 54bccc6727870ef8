using MathNet.Numerics.Distributions;
using UnitsNet;

namespace Stillhook.Planning.Quoting;

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
    public static RotationTime Of(PlanValue<int> lifts, PlanValue<Duration> cycle, QuoteBasis basis)
    {
        double n = lifts.Value, cycleS = cycle.Value.Seconds, spreadS = basis.CycleSpread?.Seconds ?? DefaultSpreadShare * cycleS;
        List<FigureInput> inputs =
        [
            new("lifts", Amount.Number(n, 1), lifts.From, lifts.Where), new("mean time of a rotation", Seconds(cycleS), cycle.From, cycle.Where),
            basis.CycleSpread is null
                ? new("spread, a fifth of the mean because none is entered", Seconds(spreadS), InputFrom.Default, "quote.cycleSpread")
                : new("spread of that time", Seconds(spreadS), InputFrom.JobFile, "quote.cycleSpread"),
        ];
        if (!IsMeasured(basis))
            return new(n * cycleS, Normal.InvCDF(0, 1, OneInTenAbove) * n * spreadS, "lifts x mean +/- 1.28 x lifts x spread", inputs, CheckItem.CommonPractice,
                "Somebody's estimate: its whole spread is taken as doubt about the mean.");

        int k = basis.MeasuredOn!.Value;
        inputs.Add(new("rotations it was measured on", Amount.Number(k, 1), InputFrom.JobFile, "quote.measuredOn"));
        double t = StudentT.InvCDF(0, 1, k - 1, OneInTenAbove);
        inputs.Add(new("spreads from the mean to one in ten, Student's t", Amount.Number(t), InputFrom.Rule, "STUDENT-T"));
        return new(n * cycleS, t * spreadS * Math.Sqrt(n + n * n / k), "lifts x mean +/- t x spread x root(lifts + lifts² / measured)", inputs, "STUDENT-T",
            "Rotations scatter independently; the mean is known to spread / root of the number measured.");
    }

    /// <summary>Mean and spread were both measured. A spread can't be measured on one rotation, and a default one was not measured at all.</summary>
    public static bool IsMeasured(QuoteBasis basis) => basis is { MeasuredOn: > 1, Cycle: not null, CycleSpread: not null };

    private static Amount Seconds(double s) => new(Duration.FromSeconds(s), 1);
}
