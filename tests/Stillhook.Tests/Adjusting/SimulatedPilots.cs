using Stillhook.Adjusting;
using Stillhook.Debriefing;

namespace Stillhook.Tests.Adjusting;

/// <summary>
/// Pilots with habits of their own, flying a day of rotations under a rule. Simulated truth: the end follows from the full kinematic model with
/// each constant 12 % off (1 sigma), a delay of 0.7-2.5 s and unmodelled offsets (4 m, 3 m, 0.008 g); every load scatters (2 m, 1.3 m, 0.007 g).
/// The rules never see a habit or an offset. In tolerance: stop 3 m, arrival 2 m and slow-down 0.012 g off at most, all at once, scatter taken away.
/// </summary>
internal static class SimulatedPilots
{
    private const double G = 9.80665;

    public static readonly ApproachKnobs Plan = new(120, 600, 25, 12);

    public static readonly ApproachTargets Targets = new()
    {
        Knobs = Plan,
        PeakDecelMs2 = 0.9,
        Gates = [new(600, 120, 25, 2.5), new(50, 40, 5, 0.5)],
    };

    public sealed record World(double Noise = 1, double ShiftM = 0, double HeightShiftM = 0, int ShiftAt = 8, int Seed = 1, double HabitSpread = 0.12, double OffsetTimes = 1, int Rotations = 16);

    /// <summary>From what was flown so far, in knobs and outcomes against plan, the knobs of the next load.</summary>
    public delegate ApproachKnobs Rule(IReadOnlyList<ApproachKnobs> flown, IReadOnlyList<ApproachOutcome> outcomes);

    public sealed record Result(double[] InTolerance, double P50AfterTwo, double P90AfterTwo, double StopScatter);

    public static Result Fly(int pilots, World world, Func<Rule> newRule)
    {
        var good = new int[world.Rotations];
        var worst = new List<double>();
        double scatter = 0;
        object tally = new();
        Parallel.For(0, pilots, n =>
        {
            double[] miss = new double[world.Rotations];
            double square = FlyOne(new Random(unchecked(world.Seed * 100_003 + n)), world, newRule(), miss);
            lock (tally)
            {
                for (int r = 0; r < world.Rotations; r++)
                    good[r] += miss[r] <= 1 ? 1 : 0;
                worst.Add(miss[2]);
                scatter += square;
            }
        });
        worst.Sort();
        return new([.. good.Select(g => (double)g / pilots)], worst[pilots / 2], worst[pilots * 9 / 10], Math.Sqrt(scatter / pilots));
    }

    // Returns the variance of the stop over the last five loads; fills the systematic miss of each load, in tolerances.
    private static double FlyOne(Random random, World world, Rule rule, double[] miss)
    {
        ApproachHabit habit = Habit(random, world.HabitSpread);
        double times = world.OffsetTimes;
        double[] offset = [times * 4 * Normal(random), times * 3 * Normal(random), times * 0.008 * G * Normal(random)];
        double[] sigma = [2, 1.3, 0.007 * G];
        ApproachKnobs knobs = Plan;
        List<ApproachKnobs> flown = [];
        List<ApproachOutcome> outcomes = [];
        for (int r = 0; r < world.Rotations; r++)
        {
            ApproachOutcome model = KinematicApproach.Fly(knobs, Plan, habit);
            double shift = r >= world.ShiftAt ? 1 : 0;
            double[] end = [model.StopM + offset[0] + shift * world.ShiftM, model.ArrivalHeightM + offset[1] + shift * world.HeightShiftM, model.PeakDecelMs2 + offset[2]];
            miss[r] = Math.Max(Math.Abs(end[0]) / 3, Math.Max(Math.Abs(end[1]) / 2, Math.Abs(end[2]) / (0.012 * G)));
            flown.Add(knobs);
            outcomes.Add(new(end[0] + world.Noise * sigma[0] * Normal(random), end[1] + world.Noise * sigma[1] * Normal(random), end[2] + world.Noise * sigma[2] * Normal(random)));
            knobs = rule(flown, outcomes);
        }
        double[] last = [.. outcomes.TakeLast(5).Select(o => o.StopM)];
        double mean = last.Average();
        return last.Sum(x => (x - mean) * (x - mean)) / 4;
    }

    private static ApproachHabit Habit(Random random, double spread)
    {
        var usual = new ApproachHabit();
        double Spread() => 1 + spread * Normal(random);
        return new()
        {
            DelayS = 0.7 + 1.8 * random.NextDouble(),
            EyeGain = 1 - (1 - usual.EyeGain) * Spread(),
            PowerSlows = usual.PowerSlows * Spread(),
            HeightCarriesOn = usual.HeightCarriesOn * Spread(),
            EndSpeedMs = usual.EndSpeedMs * Spread(),
            PeakRatio = usual.PeakRatio * (1 + 0.25 * (Spread() - 1)),
            HeightCarried = usual.HeightCarried * Spread(),
            EndSinkRatio = usual.EndSinkRatio * Spread(),
            PowerLagS = usual.PowerLagS * Spread(),
            PowerGain = usual.PowerGain * Spread(),
        };
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    /// <summary>A delivery as a record would show it.</summary>
    public static Delivery Shown(ApproachKnobs knobs, ApproachOutcome o) => new()
    {
        StartHeightM = knobs.StartHeightM,
        StartDistanceM = knobs.StartDistanceM,
        EntrySpeedMs = knobs.EntrySpeedMs,
        StopShortM = -o.StopM,
        OvershootM = Math.Max(0, o.StopM),
        PeakDecelMs2 = 0.9 + o.PeakDecelMs2,
        Gates = [new(600, 0, knobs.StartHeightM, knobs.EntrySpeedMs, 2.5), new(50, 60, 40 + o.ArrivalHeightM, 5, 0.5)],
    };

    // ------------------------------------------------------------------ rules

    public static Rule NoChange() => (flown, _) => flown[^1];

    /// <summary>The rule under test, through its public door; what it says is done.</summary>
    public static Func<Rule> Ours(AdjustLimits limits, AdjustSettings settings) => () =>
    {
        List<Delivery> deliveries = [];
        return (flown, outcomes) =>
        {
            deliveries.Add(Shown(flown[^1], outcomes[^1]));
            ApproachKnobs p = flown[^1];
            foreach (Adjustment a in Adjuster.Next(deliveries, limits, settings).Changes)
                p = a.Knob switch
                {
                    Knob.StartHeight => p with { StartHeightM = p.StartHeightM + a.Change },
                    Knob.StartDistance => p with { StartDistanceM = p.StartDistanceM + a.Change },
                    Knob.EntrySpeed => p with { EntrySpeedMs = p.EntrySpeedMs + a.Change },
                    Knob.PowerIn => p with { PowerInHeightM = p.PowerInHeightM + a.Change },
                    _ => p,
                };
            return p;
        };
    };

    /// <summary>Stop by distance, arrival by start height, slow-down by speed: each half of its own miss, at most 15 m, outside half a tolerance.</summary>
    public static Func<Rule> EachKnobAlone(double gain) => () =>
    {
        double[,] j = KinematicApproach.Sensitivities(Plan);
        return (flown, outcomes) =>
        {
            ApproachKnobs p = flown[^1];
            ApproachOutcome o = outcomes[^1];
            double distance = Math.Abs(o.StopM) > 1.5 ? Math.Clamp(-gain * o.StopM / j[0, 1] * 50, -40, 40) : 0;
            double height = Math.Abs(o.ArrivalHeightM) > 1 ? Math.Clamp(-gain * o.ArrivalHeightM / j[1, 0] * 6.096, -15, 15) : 0;
            double speed = Math.Abs(o.PeakDecelMs2) > 0.006 * G ? Math.Clamp(-gain * o.PeakDecelMs2 / j[2, 2] * 2.572, -2, 2) : 0;
            return p with { StartDistanceM = p.StartDistanceM + distance, StartHeightM = p.StartHeightM + height, EntrySpeedMs = p.EntrySpeedMs + speed };
        };
    };

    /// <summary>
    /// The continuous rule that ours has to beat: offset learnt with fixed slopes (drift 0.3, innovations clipped at 2.5 sigma), all four knobs moved at
    /// once to the least Σ(miss/tolerance)² + 0.05 Σ(Δp/step)², steps of 15 m, 40 m, 2 m/s, 20 m, still inside half a tolerance. No rounding, no two-knob rule.
    /// </summary>
    public static Func<Rule> ContinuousOffset() => () =>
    {
        double[,] j = KinematicApproach.Sensitivities(Plan);
        double[] tradeStep = [6.096, 50, 2.5722, 6.096], step = [15, 40, 2, 20], tol = [3, 2, 0.012 * G], sigma = [2.2, 1.4, 0.008 * G];
        double[] b = new double[3], variance = [144, 16, 0.0384], lastInnovation = new double[3];
        return (flown, outcomes) =>
        {
            ApproachKnobs p = flown[^1];
            double[] at = [p.StartHeightM - Plan.StartHeightM, p.StartDistanceM - Plan.StartDistanceM, p.EntrySpeedMs - Plan.EntrySpeedMs, p.PowerInHeightM - Plan.PowerInHeightM];
            double[] y = [outcomes[^1].StopM, outcomes[^1].ArrivalHeightM, outcomes[^1].PeakDecelMs2];
            double[] expected = new double[3];
            bool moved = false;
            for (int i = 0; i < 3; i++)
            {
                double model = Enumerable.Range(0, 4).Sum(k => j[i, k] * at[k] / tradeStep[k]);
                variance[i] += 0.09 * sigma[i] * sigma[i];
                double s = Math.Sqrt(variance[i] + sigma[i] * sigma[i]), innovation = y[i] - model - b[i], gain = variance[i] / (s * s);
                moved |= Math.Abs(innovation / s) > 3 && Math.Abs(lastInnovation[i]) > 3 && innovation * lastInnovation[i] > 0;
                lastInnovation[i] = innovation / s;
                b[i] += gain * Math.Clamp(innovation, -2.5 * s, 2.5 * s);
                variance[i] *= 1 - gain;
                expected[i] = model + b[i];
            }
            if (moved)
                variance = [144, 16, 0.0384];
            if (Enumerable.Range(0, 3).All(i => Math.Abs(expected[i]) < 0.5 * tol[i]))
                return p;
            double[] d = new double[4];
            for (int sweep = 0; sweep < 200; sweep++)
                for (int k = 0; k < 4; k++)
                {
                    double top = 0, bottom = 0.05;
                    for (int i = 0; i < 3; i++)
                    {
                        double slope = j[i, k] * step[k] / tradeStep[k] / tol[i];
                        double rest = expected[i] / tol[i];
                        for (int q = 0; q < 4; q++)
                            if (q != k)
                                rest += j[i, q] * step[q] / tradeStep[q] / tol[i] * d[q];
                        top -= slope * rest;
                        bottom += slope * slope;
                    }
                    d[k] = Math.Clamp(top / bottom, -1, 1);
                }
            return new(p.StartHeightM + d[0] * step[0], p.StartDistanceM + d[1] * step[1], p.EntrySpeedMs + d[2] * step[2], p.PowerInHeightM + d[3] * step[3]);
        };
    };
}
