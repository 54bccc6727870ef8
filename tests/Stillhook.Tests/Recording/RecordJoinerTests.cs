using Stillhook.Recording;

namespace Stillhook.Tests.Recording;

// Closed form: every expected count and order below follows by hand from the few fixes laid down in the test itself.
public class RecordJoinerTests
{
    private static FlightRecord Record(string name, double start, double step, int n, double lat = 46) => new()
    {
        Name = name, Format = "CSV", SegmentStarts = [0],
        TimeS = [.. Enumerable.Range(0, n).Select(i => start + i * step)],
        LatitudeDeg = [.. Enumerable.Range(0, n).Select(_ => lat)],
        LongitudeDeg = [.. Enumerable.Range(0, n).Select(i => 9 + i * 1e-5)],
        AltitudeM = [.. Enumerable.Range(0, n).Select(_ => 500.0)],
    };

    private const double Day = 1_750_032_000; // 2025-06-16 00:00 UTC

    [Fact]
    public void Join_MorningAndAfternoon_AreOneRecordInOrder()
    {
        FlightRecord am = Record("am", Day + 30000, 1, 50), pm = Record("pm", Day + 50000, 1, 60) with { GroundSpeedMs = new double[60], CourseDeg = new double[60] };
        FlightRecord joined = RecordJoiner.Join([pm, am]);
        Assert.Equal(110, joined.Count);
        Assert.Equal(joined.TimeS.Order(), joined.TimeS);
        Assert.Equal([0, 50], joined.SegmentStarts);
        Assert.Equal(double.NaN, joined.GroundSpeedMs[0]);
        Assert.Equal(0, joined.GroundSpeedMs[50]);
        Assert.Empty(joined.Findings);
    }

    [Fact]
    public void Join_Overlap_DenserWins()
    {
        FlightRecord slow = Record("slow", Day, 1, 100, 46), fast = Record("fast", Day + 40, 0.2, 101, 46.00001);
        FlightRecord joined = RecordJoiner.Join([slow, fast]);
        // The fast record covers seconds 40 to 60, both included: 21 fixes of the slow one go.
        Assert.Equal(79 + 101, joined.Count);
        Assert.Equal(21, Assert.Single(joined.Findings, f => f.Code == "records-overlap").Count);
        Assert.All(Enumerable.Range(0, joined.Count).Where(i => joined.TimeS[i] >= Day + 40 && joined.TimeS[i] <= Day + 60), i => Assert.Equal(46.00001, joined.LatitudeDeg[i]));
        Assert.Equal([0, 40, 141], joined.SegmentStarts);
    }

    [Fact]
    public void Join_DifferentDays_IsSaid() =>
        Assert.Equal(2, Assert.Single(RecordJoiner.Join([Record("a", Day, 1, 5), Record("b", Day + 86400 * 3, 1, 5)]).Findings, f => f.Code == "different-days").Count);

    [Fact]
    public void Join_Channels_AreMergedInOrder()
    {
        FlightRecord a = Record("a", Day + 100, 1, 5) with { Channels = [new(ChannelKind.LoadKg, [Day + 100, Day + 101], [1, 2])] };
        FlightRecord b = Record("b", Day, 1, 5) with { Channels = [new(ChannelKind.LoadKg, [Day], [7]), new(ChannelKind.HookOpen, [Day], [1])] };
        FlightRecord joined = RecordJoiner.Join([a, b]);
        Assert.Equal([7, 1, 2], joined.Find(ChannelKind.LoadKg)!.Value);
        Assert.NotNull(joined.Find(ChannelKind.HookOpen));
    }

    [Fact]
    public void Join_FixesWithoutTime_AreKeptForTheRepairToReport()
    {
        FlightRecord a = Record("a", Day, 1, 5), b = Record("b", Day + 100, 1, 5);
        a.TimeS[2] = double.NaN;
        FlightRecord joined = RecordJoiner.Join([a, b]);
        Assert.Equal(10, joined.Count);
        Assert.Equal(1, joined.TimeS.Count(double.IsNaN));
    }

    [Fact]
    public void Join_One_IsTheSame()
    {
        FlightRecord a = Record("a", Day, 1, 5);
        Assert.Same(a, RecordJoiner.Join([a]));
        Assert.Throws<ArgumentException>(() => RecordJoiner.Join([]));
    }
}
