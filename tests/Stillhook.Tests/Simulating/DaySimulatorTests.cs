using Stillhook.Debriefing;
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
}
