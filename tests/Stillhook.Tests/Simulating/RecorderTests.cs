using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Tests.Simulating;

public class RecorderTests
{
    private static readonly SimulatedDay Day = DaySimulator.Fly(ScenarioDraw.Random(21, 3, FaultMix.Clean), 21);

    /// <summary>East errors of a record against the truth, m.</summary>
    private static double[] EastErrors(RecorderModel model, ulong seed)
    {
        FlightRecord record = Recorder.Record(Day, model, seed);
        LocalFrame frame = new(Day.Scenario.LatitudeDeg, Day.Scenario.LongitudeDeg, Day.Scenario.AltitudeM);
        int every = (int)Math.Round(10 / model.RateHz);
        double[] off = new double[record.Count];
        for (int i = 0; i < off.Length; i++)
            off[i] = frame.ToEnu(record.LatitudeDeg[i], record.LongitudeDeg[i], Day.Scenario.AltitudeM).East - Day.Motion[i * every].Hook.East;
        return off;
    }

    private static double Rms(IEnumerable<double> x) => Math.Sqrt(x.Average(v => v * v));

    // Closed form: σ = 1 m with 90 % of the variance slow: half the mean square of successive differences is the white part's variance, 0.1 m², plus 1 − e^(−1/τs) of the slow part.
    [Fact]
    public void Record_PositionNoise_HasItsSizeAndSplit()
    {
        RecorderModel model = RecorderModel.WithError(1) with { SlowTimeS = 200, RateHz = 5 };
        double[][] runs = [.. Enumerable.Range(0, 30).Select(s => EastErrors(model, (ulong)s))];
        Assert.Equal(1, Rms(runs.SelectMany(r => r)), 0.15);
        double fast = runs.Average(r => Enumerable.Range(1, r.Length - 1).Average(i => Math.Pow(r[i] - r[i - 1], 2) / 2));
        Assert.Equal(0.1 + 0.9 * (1 - Math.Exp(-0.2 / 200)), fast, 0.003);
    }

    // Closed form: velocity noise 0.07 m/s an axis; ground speed while fast sees one axis of it. Rounded to 0.01 m/s.
    [Fact]
    public void Record_Speed_HasItsNoise()
    {
        FlightRecord record = Recorder.Record(Day, RecorderModel.WithError(1) with { RateHz = 10 }, 4);
        List<double> off = [];
        for (int i = 0; i < record.Count; i++)
        {
            if (Day.Motion[i].HookVelocity.Horizontal > 8)
                off.Add(record.GroundSpeedMs[i] - Day.Motion[i].HookVelocity.Horizontal);
        }
        Assert.Equal(0.07, Rms(off), 0.003);
    }

    // Closed form: whole thousandths of a minute and whole metres, antenna 2 m over the hook.
    [Fact]
    public void Record_PlainIgc_IsRounded()
    {
        FlightRecord record = Recorder.Record(Day, new RecorderModel { Rounding = Rounding.Igc, RateHz = 1, PositionErrorM = 0, VelocityErrorMs = 0 }, 4);
        for (int i = 0; i < record.Count; i++)
        {
            Assert.Equal(Math.Round(record.LatitudeDeg[i] * 60_000), record.LatitudeDeg[i] * 60_000, 1e-6);
            Assert.Equal(Day.Scenario.AltitudeM + Day.Motion[i * 10].Hook.Up + 2, record.AltitudeM[i], 0.51);
        }
    }

    // Simulated truth: the load cell reads the load in the air and nothing on the empty leg; the hook opens once a rotation.
    [Fact]
    public void Record_Channels_TellLoadAndRelease()
    {
        FlightRecord record = Recorder.Record(Day, new RecorderModel { LoadCell = true, ReleaseEvent = true, Torque = true, Attitude = true }, 4);
        Channel cell = record.Find(ChannelKind.LoadKg)!, open = record.Find(ChannelKind.HookOpen)!;
        TruthRotation r = Day.Rotations[2];
        double[] aloft = [.. cell.TimeS.Zip(cell.Value).Where(p => p.First > r.PickupTimeS + 2 && p.First < r.DeliveryTimeS - 1).Select(p => p.Second)];
        Assert.Equal(Day.Scenario.Rotations[2].LoadKg, aloft.Order().ElementAt(aloft.Length / 2), 0.03 * Day.Scenario.Rotations[2].LoadKg);
        Assert.True(cell.TimeS.Zip(cell.Value).Where(p => p.First > r.ReleaseTimeS && p.First < r.ReleaseTimeS + 10).All(p => Math.Abs(p.Second) < 50));
        Assert.Equal(Day.Rotations.Count, Enumerable.Range(1, open.Value.Length - 1).Count(i => open.Value[i] > open.Value[i - 1]));
        Assert.NotNull(record.Find(ChannelKind.TorquePercent));
        Assert.NotNull(record.Find(ChannelKind.PitchDeg));
    }

    // Simulated truth: spoiling on request changes the record as asked.
    [Fact]
    public void Record_SpoiledOnRequest_HasGapsRepeatsAndShuffles()
    {
        FlightRecord clean = Recorder.Record(Day, new RecorderModel(), 9);
        FlightRecord spoiled = Recorder.Record(Day, new RecorderModel { GapsPerHour = 12, Repeats = 0.01, Shuffles = 0.01, SpikesPerHour = 20 }, 9);
        double longest = spoiled.TimeS.Order().Zip(spoiled.TimeS.Order().Skip(1), (a, b) => b - a).Max();
        Assert.InRange(longest, 5.5, 90);
        Assert.Contains(Enumerable.Range(1, spoiled.Count - 1), i => spoiled.TimeS[i] == spoiled.TimeS[i - 1]);
        Assert.Contains(Enumerable.Range(1, spoiled.Count - 1), i => spoiled.TimeS[i] < spoiled.TimeS[i - 1]);
        Assert.Equal(clean.TimeS[0], spoiled.TimeS[0], 0.3);
    }
}
