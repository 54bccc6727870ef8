using Stillhook.Physics.Earth;
using Stillhook.Physics.Load;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Tests.Simulating;

public class DaySimulatorTests
{
    // Closed form: the same numbers drawn in the same order give the same doubles.
    [Fact]
    public void Fly_SameSeed_SameTruthAndMotion()
    {
        SimulatedDay a = DaySimulator.Fly(ScenarioDraw.Random(7), 7), b = DaySimulator.Fly(ScenarioDraw.Random(7), 7);
        Assert.Equal(a.Motion, b.Motion);
        Assert.Equal(a.Rotations, b.Rotations);
        Assert.NotEqual(a.Rotations, DaySimulator.Fly(ScenarioDraw.Random(7), 8).Rotations);
    }

    // Simulated truth: what is recorded must not change what happened.
    [Fact]
    public void Record_AnyRateAndNoise_LeavesTheDayAlone()
    {
        SimulatedDay day = DaySimulator.Fly(ScenarioDraw.Random(3, 2), 3);
        string before = TruthJson.Write(day);
        foreach (double rate in new[] { 1.0, 5, 10 })
        {
            FlightRecord record = Recorder.Record(day, RecorderModel.WithError(2) with { RateHz = rate }, 11);
            Assert.Equal(Math.Ceiling(day.Motion.Count * SimulatedDay.StepS * rate - 1e-6), record.Count);
        }
        Assert.Equal(before, TruthJson.Write(day));
    }

    // Closed form: the pendulum driven by second differences of the stored hook places, in steady wind, comes out where the truth has the load.
    [Fact]
    public void Fly_NoGusts_StoredHookMotionExplainsTheSwing()
    {
        DayScenario scenario = ScenarioDraw.Random(1004, 2, FaultMix.Clean) with { GustMs = 0 };
        SimulatedDay day = DaySimulator.Fly(scenario, 1004);
        Enu wind = scenario.ExactSetup().Wind!.Value.Value.VelocityEnu;
        IReadOnlyList<MotionSample> m = day.Motion;
        Enu Acceleration(int i) => (1 / (SimulatedDay.StepS * SimulatedDay.StepS)) * (m[i + 1].Hook - 2 * m[i].Hook + m[i - 1].Hook);
        foreach (TruthRotation r in day.Rotations)
        {
            PlannedRotation plan = scenario.Rotations[r.Number - 1];
            SlungLoad load = new(scenario.LineM, plan.LoadKg, plan.DragAreaM2, scenario.AirDensityKgM3);
            int first = (int)((r.PickupTimeS - scenario.StartTimeS) / SimulatedDay.StepS) + 2, last = (int)((r.DeliveryTimeS - scenario.StartTimeS) / SimulatedDay.StepS) - 2;
            SlungLoadState state = new(m[first].LoadFromHook, m[first].LoadFromHookVelocity);
            for (int i = first; i < last; i++)
            {
                state = SlungLoadMotion.Step(load, state, new(m[i].HookVelocity, Acceleration(i), Acceleration(i + 1), wind), SimulatedDay.StepS);
                Assert.InRange((state.LoadFromHookEnu - m[i + 1].LoadFromHook).Length, 0, 0.06);
            }
        }
    }
}
