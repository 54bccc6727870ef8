using System.Globalization;
using CsCheck;
using Stillhook.Files.Records;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Records;

public class RecordWriterTests
{
    // Closed form: what is written is what was given, to the digits that the format holds.
    [Theory, InlineData(RecordFormat.Gpx), InlineData(RecordFormat.Igc), InlineData(RecordFormat.Nmea), InlineData(RecordFormat.Csv)]
    public void Write_AnyRecord_ReadsBackEqual(RecordFormat format) =>
        Flights.Sample(flight => SameAfterRoundTrip(flight, format), iter: 200);

    // Closed form, under a culture whose decimals have a comma.
    [Theory, InlineData(RecordFormat.Gpx), InlineData(RecordFormat.Igc), InlineData(RecordFormat.Nmea), InlineData(RecordFormat.Csv)]
    public void Write_UnderCommaCulture_ReadsBackEqual(RecordFormat format)
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Flights.Sample(flight => SameAfterRoundTrip(flight, format), iter: 20, threads: 1);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    // Closed form: a channel at five times the rate of the fixes keeps all its values in a table.
    [Fact]
    public void WriteCsv_FastChannel_KeepsEveryValue()
    {
        FlightRecord flight = Flight(1_717_232_400_000, 20, 1000, 7, channelStep: 200);
        FlightRecord read = RoundTrip(flight, RecordFormat.Csv, out IReadOnlyList<Finding> lost);
        Assert.Empty(lost);
        Assert.Equal(flight.Find(ChannelKind.LoadKg)!.TimeS.Length, read.Find(ChannelKind.LoadKg)!.TimeS.Length);
        Near(flight.Find(ChannelKind.LoadKg)!.Value, read.Find(ChannelKind.LoadKg)!.Value, 0.0006);
        Near(flight.Find(ChannelKind.LoadKg)!.TimeS, read.Find(ChannelKind.LoadKg)!.TimeS, 0.0006);
    }

    // Closed form: 96 values of 100 stand between fixes.
    [Fact]
    public void WriteGpx_FastChannel_SaysWhatWasLeftOut()
    {
        FlightRecord flight = Flight(1_717_232_400_000, 20, 1000, 7, channelStep: 200);
        RoundTrip(flight, RecordFormat.Gpx, out IReadOnlyList<Finding> lost);
        Finding thinned = Assert.Single(lost, f => f.Code == "channels-at-fixes");
        Assert.Equal(flight.Channels.Sum(c => c.Value.Length) - flight.Channels.Count * flight.Count, thinned.Count);
    }

    private static readonly Gen<FlightRecord> Flights =
        from start in Gen.Long[631_200_000_000, 3_000_000_000_000] // 1990 to 2065, ms
        from count in Gen.Int[1, 60]
        from step in Gen.OneOf(Gen.Const(50), Gen.Const(100), Gen.Const(200), Gen.Const(1000), Gen.Const(5000))
        from seed in Gen.Int[0, 1_000_000]
        select Flight(start, count, step, seed, step);

    private static FlightRecord Flight(long startMs, int count, int stepMs, int seed, int channelStep)
    {
        var random = new Random(seed);
        double latitude = random.NextDouble() * 170 - 85, longitude = random.NextDouble() * 350 - 175;
        double[] Values(int n, double low, double high) => [.. Enumerable.Range(0, n).Select(_ => low + random.NextDouble() * (high - low))];
        double[] times = [.. Enumerable.Range(0, count).Select(i => (startMs + i * (long)stepMs) / 1000.0)];
        double[] fast = [.. Enumerable.Range(0, (count - 1) * (stepMs / channelStep) + 1).Select(i => (startMs + i * (long)channelStep) / 1000.0)];
        return new FlightRecord
        {
            Name = "a <flight> & more",
            Format = "simulated",
            TimeS = times,
            LatitudeDeg = [.. Values(count, -0.01, 0.01).Select(d => latitude + d)],
            LongitudeDeg = [.. Values(count, -0.01, 0.01).Select(d => longitude + d)],
            AltitudeM = Values(count, 300, 2500),
            GroundSpeedMs = Values(count, 0, 70),
            CourseDeg = Values(count, 0, 359),
            ClimbMs = Values(count, -10, 10),
            PressureAltitudeM = Values(count, 300, 2500),
            SegmentStarts = [0],
            Channels =
            [
                new Channel(ChannelKind.LoadKg, fast, Values(fast.Length, 0, 4000)),
                new Channel(ChannelKind.TorquePercent, fast, Values(fast.Length, 0, 110)),
                new Channel(ChannelKind.RollDeg, fast, Values(fast.Length, -30, 30)),
                new Channel(ChannelKind.PitchDeg, fast, Values(fast.Length, -20, 20)),
                new Channel(ChannelKind.HeadingDeg, fast, Values(fast.Length, 0, 359)),
                new Channel(ChannelKind.HookOpen, fast, [.. Values(fast.Length, 0, 1).Select(v => Math.Round(v))]),
            ],
        };
    }

    private static void SameAfterRoundTrip(FlightRecord flight, RecordFormat format)
    {
        FlightRecord read = RoundTrip(flight, format, out _);
        Assert.Equal(flight.Count, read.Count);
        Near(flight.TimeS, read.TimeS, 0.00001);
        Near(flight.LatitudeDeg, read.LatitudeDeg, 1.1e-8);
        Near(flight.LongitudeDeg, read.LongitudeDeg, 1.1e-8);
        Near(flight.AltitudeM, read.AltitudeM, format == RecordFormat.Igc ? 0.5001 : 0.00051);
        Near(flight.PressureAltitudeM, read.PressureAltitudeM, format == RecordFormat.Igc ? 0.5001 : 0.0051);
        Near(flight.GroundSpeedMs, read.GroundSpeedMs, 0.0015);
        Near(flight.CourseDeg, read.CourseDeg, 0.0051);
        Near(flight.ClimbMs, read.ClimbMs, 0.0051);
        foreach (Channel channel in flight.Channels)
        {
            Channel back = Assert.Single(read.Channels, c => c.Kind == channel.Kind);
            Near(channel.TimeS, back.TimeS, 0.00001);
            Near(channel.Value, back.Value, channel.Kind is ChannelKind.LoadKg or ChannelKind.TorquePercent ? 0.051 : 0.0051);
        }

        Assert.Equal(flight.SegmentStarts, read.SegmentStarts);
    }

    private static FlightRecord RoundTrip(FlightRecord flight, RecordFormat format, out IReadOnlyList<Finding> lost)
    {
        using var stream = new MemoryStream();
        lost = RecordWriter.Write(flight, format, stream);
        stream.Position = 0;
        return RecordReader.Read(stream, "flight");
    }

    private static void Near(double[] expected, double[] actual, double tolerance)
    {
        Assert.Equal(expected.Length, actual.Length);
        for (int i = 0; i < expected.Length; i++) Assert.Equal(expected[i], actual[i], tolerance);
    }
}
