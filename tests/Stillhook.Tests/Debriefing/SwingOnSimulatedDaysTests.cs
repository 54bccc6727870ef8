using Stillhook.Debriefing;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Tests.Debriefing;

public class SwingOnSimulatedDaysTests(ITestOutputHelper output)
{
    private sealed record Judged(double[] Errors, int Covered)
    {
        public double Quantile(double q) => Errors.Order().ElementAt((int)(q * Errors.Length));
    }

    [Fact]
    public void Estimate_over_400_rotations_errors_are_small_and_bands_cover_the_truth()
    {
        int covered = 0, count = 0;
        // Limits p50 and p90 for 50 m, after stop, contact: about 1.4 times what an open-loop pendulum reached on other simulated days.
        foreach ((RecorderModel model, double[] limits) in new[]
        {
            (RecorderModel.WithError(1) with { RateHz = 1, Speed = false }, new[] { 0.8, 2.0, 0.75, 1.9, 0.85, 2.2 }),
            (RecorderModel.WithError(1) with { RateHz = 5, Speed = true }, [0.6, 1.8, 0.5, 1.6, 0.55, 1.6]),
        })
        {
            Judged[] measures = Fly(model, days: 42);
            for (int i = 0; i < measures.Length; i++)
            {
                Judged m = measures[i];
                output.WriteLine($"{model.RateHz} Hz, speed {model.Speed}, measure {i}: {m.Quantile(0.5):F2} / {m.Quantile(0.9):F2} m, covered {m.Covered} of {m.Errors.Length}");
                covered += m.Covered;
                count += m.Errors.Length;
                if (2 * i < limits.Length)
                {
                    // Simulated truth: the load's true motion.
                    Assert.InRange(m.Quantile(0.5), 0, limits[2 * i]);
                    Assert.InRange(m.Quantile(0.9), 0, limits[2 * i + 1]);
                }
            }
        }
        output.WriteLine($"pooled: {100.0 * covered / count:F1} % of {count} values");
        Assert.True(count >= 4 * 400, $"{count} values are too few");
        // Simulated truth: a band that says 90 % holds 85 to 95 %.
        Assert.InRange((double)covered / count, 0.85, 0.95);
    }

    /// <summary>Errors and coverage of 50 m, after stop, contact and largest, with lift-off, contact and sites as the program finds them.</summary>
    private static Judged[] Fly(RecorderModel model, int days)
    {
        var errors = new List<double>[] { [], [], [], [] };
        int[] covered = new int[4];
        Parallel.For(1, days + 1, number =>
        {
            ulong seed = (ulong)number;
            DayScenario scenario = ScenarioDraw.Random(seed, 5, FaultMix.Usual);
            SimulatedDay day = DaySimulator.Fly(scenario, seed);
            FlightRecord record = Recorder.Record(day, model, seed + 1000);
            Debrief debrief = Debriefer.Debrief(record, scenario.CrewSetup(seed));
            foreach (TruthRotation truth in day.Rotations)
            {
                Delivery? found = debrief.Rotations.FirstOrDefault(r => r.DeliveryTimeS is { } t && Math.Abs(t - truth.DeliveryTimeS) < 30)?.Delivery;
                if (found is null)
                    continue;
                Banded?[] values = [found.Swing50m, found.SwingAfterStopM, found.SwingContactM, found.SwingMaxM];
                double?[] truths = [truth.Swing50mM, truth.SwingAfterStopM, truth.SwingContactM, truth.SwingMaxM];
                for (int i = 0; i < values.Length; i++)
                    if (values[i] is { } v && truths[i] is { } t)
                    {
                        lock (errors)
                        {
                            errors[i].Add(Math.Abs(v.Value - t));
                            covered[i] += t >= v.Low && t <= v.High ? 1 : 0;
                        }
                    }
            }
        });
        return [.. errors.Select((e, i) => new Judged([.. e], covered[i]))];
    }
}
