using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Tests.Debriefing;

public class TrackBuilderTests
{
    internal const double Noon = 1_750_000_000;

    /// <summary>A record of a motion given as east, north, up of an origin at 46° N 9° E, 1000 m.</summary>
    internal static FlightRecord Flight(int count, double stepS, Func<double, Enu> motion, double noiseM = 0, int seed = 1)
    {
        LocalFrame frame = new(46, 9, 1000);
        Random random = new(seed);
        double[] t = new double[count], lat = new double[count], lon = new double[count], alt = new double[count];
        for (int i = 0; i < count; i++)
        {
            t[i] = Noon + i * stepS;
            Enu p = motion(i * stepS);
            (lat[i], lon[i], _) = frame.ToGeodetic(new(p.East + noiseM * Normal(random), p.North + noiseM * Normal(random), 0));
            alt[i] = 1000 + p.Up + 1.5 * noiseM * Normal(random);
        }
        return new() { Name = "made for this test", Format = "simulated", TimeS = t, LatitudeDeg = lat, LongitudeDeg = lon, AltitudeM = alt, SegmentStarts = [0] };
    }

    internal static double Normal(Random r) => Math.Sqrt(-2 * Math.Log(1 - r.NextDouble())) * Math.Cos(2 * Math.PI * r.NextDouble());

    // Simulated truth: a straight pass at 20 m/s climbing 2 m/s, no noise; antenna 2 m above the hook by default.
    [Fact]
    public void Build_StraightPass_ReturnsHookMotion()
    {
        BuiltTrack built = TrackBuilder.Build(Flight(300, 1, t => new(20 * t, 0, 2 * t)), new LiftSetup());
        Track track = Assert.IsType<Track>(built.Track);
        Assert.Empty(built.Findings);
        Assert.Equal(300, track.Count);
        TrackPoint a = track.At(Noon + 100), b = track.At(Noon + 150.5);
        Assert.Equal(50.5 * 20, b.Position.East - a.Position.East, 0.06); // 0.048 m: the track's frame lies 300 m higher, where a degree is longer.
        Assert.Equal(20, b.Velocity.East, 0.001);
        Assert.Equal(2, b.Velocity.Up, 0.001);
        Assert.Equal(0, b.Acceleration.Horizontal, 0.001);
        Assert.Equal(1000 + 200 - 2, track.Frame.HeightM + a.Position.Up, 0.05);
    }

    private static FlightRecord Wandering(int n = 600, double step = 1, double noise = 0.3) =>
        Flight(n, step, t => new(400 * Math.Sin(t / 40), 300 * Math.Cos(t / 55), 60 + 40 * Math.Sin(t / 30)), noise);

    private static FlightRecord Picked(FlightRecord r, int[] index) => r with
    {
        TimeS = [.. index.Select(i => r.TimeS[i])],
        LatitudeDeg = [.. index.Select(i => r.LatitudeDeg[i])],
        LongitudeDeg = [.. index.Select(i => r.LongitudeDeg[i])],
        AltitudeM = [.. index.Select(i => r.AltitudeM[i])],
    };

    private static Finding Only(BuiltTrack built, string code) => Assert.Single(built.Findings, f => f.Code == code);

    // Closed form: order and repeats carry no information, so the track is the same.
    [Fact]
    public void Build_ShuffledAndRepeated_EqualsOrderly()
    {
        FlightRecord record = Wandering();
        int[] order = [.. Enumerable.Range(0, 600), .. Enumerable.Range(100, 50)];
        new Random(4).Shuffle(order);
        BuiltTrack built = TrackBuilder.Build(Picked(record, order), new()), orderly = TrackBuilder.Build(record, new());
        Assert.Equal(50, Only(built, "repeated-fix").Count);
        Only(built, "times-shuffled");
        Assert.Equal(orderly.Track!.East, built.Track!.East);
        Assert.Equal(orderly.Track.Up, built.Track.Up);
        Assert.Empty(orderly.Findings);
    }

    // Simulated truth: the spiked fixes are known; all others must stay.
    [Fact]
    public void Build_Spikes_AreFoundAndNothingElse()
    {
        FlightRecord record = Wandering(1200, 1);
        record.LatitudeDeg[200] += 0.001;
        record.LongitudeDeg[500] -= 0.0004;
        for (int i = 700; i < 704; i++)
            record.LatitudeDeg[i] += 0.05;
        record.AltitudeM[900] += 80;
        BuiltTrack built = TrackBuilder.Build(record, new());
        Assert.Equal(6, Only(built, "position-spike").Count);
        Assert.Equal(1, Only(built, "altitude-spike").Count);
        Assert.Equal(1194, built.Track!.Count);
        Assert.Single(built.Track.StretchStarts);
    }

    // Simulated truth: 0.3 g turns, a quick stop from 80 m/s at 0.3 g and 10 m/s climbs are flown, not spiked.
    [Theory]
    [InlineData(0.1), InlineData(0.2), InlineData(1), InlineData(2), InlineData(4)]
    public void Build_HardFlying_LosesNothing(double step)
    {
        const double g = 9.80665, w = 0.3 * g / 30;
        Enu Stop(double t) => new(80 * t - 0.15 * g * t * t, 0, 100);
        FlightRecord turn = Flight((int)(110 / step), step, t => new(30 / w * Math.Sin(w * t), 30 / w * Math.Cos(w * t), 100 + 40 * Math.Sin(t / 4)), 0.3);
        FlightRecord stop = Flight((int)(50 / step) + 1, step, t => Stop(Math.Min(t, 80 / (0.3 * g))), 0.3);
        foreach (FlightRecord record in new[] { turn, stop })
        {
            BuiltTrack built = TrackBuilder.Build(record, new());
            Assert.DoesNotContain(built.Findings, f => f.Code is "position-spike" or "altitude-spike" or "position-jump");
            Assert.Equal(record.Count, built.Track!.Count);
        }
    }

    // Simulated truth: a minute taken out is a gap; nothing is interpolated across it.
    [Fact]
    public void Build_Gap_SplitsTheTrack()
    {
        FlightRecord record = Wandering();
        BuiltTrack built = TrackBuilder.Build(Picked(record, [.. Enumerable.Range(0, 300), .. Enumerable.Range(360, 240)]), new());
        Assert.Equal([0, 300], built.Track!.StretchStarts);
        Assert.Equal(1, built.Quality.GapCount);
        Assert.Equal(built.Track.East[299], built.Track.At(Noon + 310).Position.East);
    }

    // Closed form: places either side of 180° are neighbours.
    [Fact]
    public void Build_AcrossDateLine_IsContinuous()
    {
        FlightRecord record = Wandering(noise: 0);
        double[] moved = [.. record.LongitudeDeg.Select(x => Math.IEEERemainder(x - 9 + 180, 360))];
        BuiltTrack built = TrackBuilder.Build(record with { LongitudeDeg = moved }, new());
        Assert.Contains(moved, x => x < 0);
        Assert.Contains(moved, x => x > 0);
        Track expected = TrackBuilder.Build(record, new()).Track!;
        for (int i = 0; i < 600; i++)
            Assert.Equal(expected.East[i], built.Track!.East[i], 1e-3);
    }

    [Theory]
    [InlineData(0), InlineData(1), InlineData(2), InlineData(3)]
    public void Build_FewFixes_SaysSoAndDoesNotThrow(int n)
    {
        BuiltTrack built = TrackBuilder.Build(Wandering(n), new());
        Assert.Equal(n > 0, built.Track is not null);
        Assert.Empty(built.Quality.CanJudge);
        Assert.NotEmpty(built.Quality.CannotJudge);
        Assert.False(built.Quality.CanJudgeRotations || built.Quality.CanJudgeHeights || built.Quality.CanJudgeSwing || built.Quality.CanJudgePlaces);
        if (built.Track is Track track)
            Assert.True(double.IsFinite(track.At(Noon + 0.5).Position.East));
    }

    [Fact]
    public void Build_AllAtOnePlace_StandsStill()
    {
        BuiltTrack built = TrackBuilder.Build(Flight(300, 1, _ => default), new());
        Assert.All(built.Track!.VelocityEast, v => Assert.Equal(0, v, 1e-6));
        Assert.Empty(built.Findings);
    }

    [Fact]
    public void Build_ClockNotSetAtFirst_DropsTheEarlyFixes()
    {
        FlightRecord record = Wandering();
        for (int i = 0; i < 20; i++)
            record.TimeS[i] = 315964800 + i; // 1980-01-06
        BuiltTrack built = TrackBuilder.Build(record, new());
        Assert.Equal(20, Only(built, "clock-not-set").Count);
        Assert.Equal(580, built.Track!.Count);
    }

    [Fact]
    public void Build_ClockNeverSet_UsesRelativeTimes()
    {
        FlightRecord record = Wandering();
        BuiltTrack built = TrackBuilder.Build(record with { TimeS = [.. record.TimeS.Select(t => t - Noon + 315964800)] }, new());
        Only(built, "clock-never-set");
        Assert.Equal(600, built.Track!.Count);
    }

    [Fact]
    public void Build_WithoutTimes_HasNoTrack()
    {
        FlightRecord record = Wandering();
        BuiltTrack built = TrackBuilder.Build(record with { TimeS = [.. record.TimeS.Select(_ => double.NaN)] }, new());
        Assert.Null(built.Track);
        Assert.Equal(600, Only(built, "no-time").Count);
        Assert.Equal(Severity.Error, Only(built, "no-usable-fix").Severity);
    }

    // Simulated truth: five fixes a second stamped with whole seconds.
    [Fact]
    public void Build_WholeSecondsAtFiveHertz_SpreadsThem()
    {
        FlightRecord record = Wandering(1000, 0.2, 0.1);
        BuiltTrack built = TrackBuilder.Build(record with { TimeS = [.. record.TimeS.Select(t => Math.Floor(t + 1e-3))] }, new());
        Assert.Equal(800, Only(built, "times-too-coarse").Count);
        Assert.Equal(0.2, built.Quality.MedianStepS, 1e-6);
    }

    [Fact]
    public void Build_TwoPlacesAtOnce_KeepsTheLikelier()
    {
        FlightRecord record = Wandering();
        record.TimeS[301] = record.TimeS[300];
        record.LatitudeDeg[301] += 0.01;
        BuiltTrack built = TrackBuilder.Build(record, new());
        Assert.Equal(1, Only(built, "two-places-at-once").Count);
        Assert.Equal(599, built.Track!.Count);
        Assert.DoesNotContain(built.Findings, f => f.Code == "position-spike");
    }

    [Fact]
    public void Build_NoAltitude_KeepsTheRest()
    {
        FlightRecord record = Wandering();
        foreach (double missing in new[] { double.NaN, 0 })
        {
            BuiltTrack built = TrackBuilder.Build(record with { AltitudeM = [.. record.AltitudeM.Select(_ => missing)] }, new());
            Only(built, "no-altitude");
            Assert.False(built.Track!.HasHeight);
            Assert.False(built.Quality.CanJudgeHeights);
            Assert.True(built.Quality.CanJudgePlaces);
        }
    }

    [Fact]
    public void Build_OnlyPressureAltitude_UsesItAndSaysSo()
    {
        FlightRecord record = Wandering();
        BuiltTrack built = TrackBuilder.Build(record with { AltitudeM = new double[600], PressureAltitudeM = record.AltitudeM }, new());
        Only(built, "pressure-altitude-only");
        Assert.True(built.Track!.HasHeight);
        Assert.Contains(built.Quality.CanJudge, c => c.Contains("pressure altitude"));
    }

    // Common practice, no source: coarse altitude can't carry a delivery height; the rest of the record can still be used.
    [Fact]
    public void Build_AltitudeStepsOf30FtEvery5S_HeightNotAssessableRestKept()
    {
        FlightRecord record = Wandering(600, 5);
        BuiltTrack built = TrackBuilder.Build(record with { AltitudeM = [.. record.AltitudeM.Select(a => Math.Round(a / 9.144) * 9.144)] }, new());
        Assert.Contains(built.Quality.CannotJudge, c => c.StartsWith("Delivery height", StringComparison.Ordinal) && c.Contains("30 ft"));
        Assert.Equal(9.144, built.Quality.AltitudeStepM, 0.001);
        Assert.False(built.Quality.CanJudgeHeights || built.Quality.CanJudgeSink || built.Quality.CanJudgeTimes || built.Quality.CanJudgeSwing);
        Assert.True(built.Quality.CanJudgeRotations && built.Quality.CanJudgePlaces);
        Assert.NotNull(built.Track);
    }

    // Simulated truth: white noise of this size was put on; a step of s is worth s/√12.
    [Theory]
    [InlineData(1, 0.3, 0), InlineData(0.2, 0.3, 0), InlineData(0.1, 0.5, 0), InlineData(1, 2, 0), InlineData(0.2, 2, 0), InlineData(1, 0.05, 1 / 60000.0)]
    public void Build_KnownNoise_IsFound(double step, double noise, double gridDeg)
    {
        FlightRecord record = Wandering((int)(900 / step), step, noise);
        if (gridDeg > 0)
            record = record with
            {
                LatitudeDeg = [.. record.LatitudeDeg.Select(x => Math.Round(x / gridDeg) * gridDeg)],
                LongitudeDeg = [.. record.LongitudeDeg.Select(x => Math.Round(x / gridDeg) * gridDeg)],
            };
        QualityVerdict q = TrackBuilder.Build(record, new()).Quality;
        double expected = gridDeg > 0 ? gridDeg * 111_170 / Math.Sqrt(12) : noise;
        Assert.InRange(q.PositionNoiseM, 0.85 * expected, 1.2 * expected);
        Assert.Equal(gridDeg * 111_170, q.PositionStepM, 0.01 * gridDeg * 111_170 + 0.001);
        if (noise >= 0.3)
            Assert.InRange(q.AltitudeNoiseM, 0.8 * 1.5 * noise, 1.2 * 1.5 * noise);
    }

    // Simulated truth: speed in knots taken for m/s is 1.94 times too large.
    [Fact]
    public void Build_SpeedInAnotherUnit_IsNotUsed()
    {
        FlightRecord record = Wandering();
        Track track = TrackBuilder.Build(record, new()).Track!;
        FlightRecord With(double factor) => record with
        {
            GroundSpeedMs = [.. Enumerable.Range(0, 600).Select(i => factor * Math.Sqrt(track.VelocityEast[i] * track.VelocityEast[i] + track.VelocityNorth[i] * track.VelocityNorth[i]))],
            CourseDeg = [.. Enumerable.Range(0, 600).Select(i => double.RadiansToDegrees(Math.Atan2(track.VelocityEast[i], track.VelocityNorth[i])))],
        };
        BuiltTrack wrong = TrackBuilder.Build(With(1.9438), new()), right = TrackBuilder.Build(With(1), new());
        Only(wrong, "speed-disagrees");
        Assert.False(wrong.Quality.HasSpeed);
        Assert.True(right.Quality.HasSpeed);
        Assert.Equal(track.East, wrong.Track!.East);
        Assert.True(right.Track!.HorizontalAccelerationErrorMs2[300] < track.HorizontalAccelerationErrorMs2[300]);
    }

    [Fact]
    public void Build_TwoPlacesFarApart_WarnsAboutDistances()
    {
        FlightRecord record = Wandering();
        for (int i = 500; i < 600; i++)
        {
            record.LatitudeDeg[i] += 4;
            record.TimeS[i] += 90000;
        }
        Assert.Equal(100, Only(TrackBuilder.Build(record, new()), "wide-record").Count);
    }

    // Closed form: steady motion changes by the same amount at every fix; that is no recording step.
    [Fact]
    public void Build_SteadyMotion_ShowsNoStep()
    {
        QualityVerdict q = TrackBuilder.Build(Flight(300, 1, t => new(0, 12 * t, 3 * t)), new()).Quality;
        Assert.Equal(0, q.AltitudeStepM);
        Assert.Equal(0, q.PositionStepM);
    }

    // Simulated truth: 1 sigma of the slow part 0.95 m wandering over 200 s, fast part 0.3 m, as a receiver of 1 m has it:
    // what is to be found is the fast part, and the smoothed velocity is good to 0.25 m/s at 1 Hz and 0.2 at 5 Hz (own measurement, kept as a bound).
    [Theory]
    [InlineData(1, 0.25), InlineData(0.2, 0.2)]
    public void Build_SlowlyWanderingReceiver_FindsTheFastPart(double step, double boundMs)
    {
        Random random = new(11);
        double e = 0, n = 0, u = 0, keep = Math.Exp(-step / 200), fresh = 0.95 * Math.Sqrt(1 - keep * keep);
        Enu Flown(double t) => new(200 * Math.Sin(t / 20), 150 * Math.Cos(t / 25), 40 + 30 * Math.Sin(t / 30));
        int count = (int)(1200 / step);
        BuiltTrack built = TrackBuilder.Build(Flight(count, step, t =>
        {
            (e, n, u) = (keep * e + fresh * Normal(random), keep * n + fresh * Normal(random), keep * u + 1.5 * fresh * Normal(random));
            return Flown(t) + new Enu(e, n, u);
        }, 0.3), new());
        Assert.InRange(built.Quality.PositionNoiseM, 0.25, 0.4);
        double sum = 0;
        for (int i = 0; i < count; i++)
            sum += Math.Pow(built.Track!.VelocityEast[i] - 10 * Math.Cos(i * step / 20), 2);
        Assert.InRange(Math.Sqrt(sum / count), 0.01, boundMs);
    }
}
