using CsCheck;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Tests.Planning;
using UnitsNet;

namespace Stillhook.Tests.Reporting;

public class ExceedanceFinderTests
{
    private static readonly ExceedanceLimits Limits = new(100, 1000, 900, "swivel", 700);

    private static FlightRecord Record(ChannelKind kind, params (double T, double V)[] samples) => new()
    {
        Name = "invented", Format = "simulated", TimeS = [], LatitudeDeg = [], LongitudeDeg = [], AltitudeM = [],
        Channels = [new(kind, [.. samples.Select(s => s.T)], [.. samples.Select(s => s.V)])],
    };

    private static IReadOnlyList<Exceedance> Torque(params (double T, double V)[] samples) => ExceedanceFinder.Find(Record(ChannelKind.TorquePercent, samples), Limits).Exceedances;

    // Closed form: up and down at 6 % a second with 103 % held for a second: beyond 100 % from 0.5 s before the hold to 0.5 s after it, 2 s.
    [Fact]
    public void Find_Torque103For2Seconds_ValueTimeDuration()
    {
        Exceedance e = Assert.Single(Torque((0, 97), (1, 103), (2, 103), (3, 97), (4, 90)));
        Assert.Equal((LimitKind.Torque, 100.0, 103.0, 1.0), (e.Kind, e.Limit, e.Peak, e.AtS));
        Assert.Equal(2, e.DurationS, 1e-9);
    }

    [Fact]
    public void Find_AtTheLimit_IsNotBeyond() => Assert.Empty(Torque((0, 99), (1, 100), (2, 100), (3, 99)));

    // Closed form: runs from 0.5 to 1.5 s and from 3 to 4 s are 1.5 s apart: one, 3.5 s. From 4.5 to 5.5 s it is 3 s: two of 1 s each.
    [Theory]
    [InlineData(3, 1, 3.5)]
    [InlineData(4.5, 2, 1)]
    public void Find_ShortDip_IsJoined(double second, int runs, double firstS)
    {
        IReadOnlyList<Exceedance> found = Torque((0, 98), (1, 102), (2, 98), (second - 0.5, 98), (second + 0.5, 102.5), (second + 1.5, 97.5));
        Assert.Equal(runs, found.Count);
        Assert.Equal(firstS, found[0].DurationS, 1e-9);
        Assert.Equal(102.5, found[^1].Peak);
    }

    // Closed form: nothing is assumed across a minute without samples: only the second from crossing to the last sample before it counts.
    [Fact]
    public void Find_GapInTheRecord_EndsTheRun() => Assert.Equal(0.5, Torque((0, 98), (1, 102), (61, 102), (62, 98))[0].DurationS, 1e-9);

    [Fact]
    public void Find_LoadCell_HookAndWeakestPart()
    {
        (IReadOnlyList<Exceedance> found, IReadOnlyList<Finding> findings) = ExceedanceFinder.Find(Record(ChannelKind.LoadKg, (0, 30), (1, 30), (2, 720), (3, 950), (4, 720), (5, 30)), Limits);
        Assert.Equal((LimitKind.RiggingLoad, 900.0, 950.0), (Assert.Single(found).Kind, found[0].Limit, found[0].Peak));
        Assert.Empty(findings);
    }

    // A torque column in shares, a load cell in pounds or tonnes: said, and what is found is still listed.
    [Theory]
    [InlineData(ChannelKind.TorquePercent, 0.93, "torque-unit")]
    [InlineData(ChannelKind.LoadKg, 1543, "load-unit")]
    [InlineData(ChannelKind.LoadKg, 0.7, "load-unit")]
    public void Find_UnlikelyUnit_IsSaid(ChannelKind kind, double value, string code)
    {
        (IReadOnlyList<Exceedance> found, IReadOnlyList<Finding> findings) = ExceedanceFinder.Find(Record(kind, [.. Enumerable.Range(0, 40).Select(i => ((double)i, i % 20 < 10 ? 0 : value))]), Limits);
        Assert.Equal(code, Assert.Single(findings).Code);
        Assert.Equal(value > 1000, found.Count > 0);
    }

    [Fact]
    public void From_Job_TheWeakestMarkedPart()
    {
        LiftRequest job = Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(3600)) with { TorqueLimit = Ratio.FromPercent(97) }, [], Jobs.Load("1", 600));
        job = job with { Rigging = [.. job.Rigging, new() { Name = "swivel 7", Kind = PartKind.Swivel, RatedLoad = Jobs.Kg(3000) }] };
        Assert.Equal(new ExceedanceLimits(97, 5000, 3000, "swivel 7", 600), ExceedanceLimits.From(job));
    }

    // Samples in any order, on a grid of 1 Hz, values around the limit: as many seconds as there are samples beyond, give or take one a run; every sample beyond lies in a run.
    [Fact]
    public void Find_AnyRecord_EverySampleBeyondIsInARun() =>
        Gen.Select(Gen.Double[90, 110].Array[2, 60], Gen.Int).Sample((values, seed) =>
        {
            (double T, double V)[] samples = [.. values.Select((v, i) => ((double)i, v))];
            IReadOnlyList<Exceedance> found = Torque(samples);
            Assert.Equal(values.Any(v => v > 100), found.Count > 0);
            if (found.Count > 0)
                Assert.Equal(values.Max(), found.Max(e => e.Peak));
            Assert.True(found.Sum(e => e.DurationS) <= values.Length - 1 + 1e-9);
            new Random(seed).Shuffle(samples);
            Assert.Equal(found, Torque(samples));
        });
}
