using CsCheck;
using Stillhook.Files.Live;
using Stillhook.Files.Records;
using Stillhook.Recording;
using Stillhook.Tests.Files.Records;
using static Stillhook.Tests.Files.Live.Sentences;

namespace Stillhook.Tests.Files.Live;

/// <remarks>Where a case says no other kind, its expected values are simulated truth: what the sentences and lines were made from, at the time they were made for or arrived.</remarks>
public class LiveDecoderTests
{
    private readonly CollectingSink _sink = new();
    private readonly UtcOffset _offset = new();
    private readonly List<Finding> _found = [];

    public static TheoryData<string> NmeaFiles => [.. SharedRecords.Names.Where(n => n.StartsWith("nmea/", StringComparison.Ordinal))];

    // Real record: every NMEA record in pieces of random length gives the fixes of the file read whole.
    [Theory, MemberData(nameof(NmeaFiles))]
    public void Take_FileInPieces_GivesTheFixesOfTheFile(string name)
    {
        byte[] content = File.ReadAllBytes(SharedRecords.PathOf(name));
        FlightRecord whole = RecordReader.Read(new MemoryStream(content), Path.GetFileName(name));
        LiveDecoder decoder = Decoder();
        var random = new Random(content.Length);
        for (int at = 0; at < content.Length;)
        {
            int count = Math.Min(random.Next(1, 700), content.Length - at);
            decoder.Take(content.AsSpan(at, count), 1e9);
            at += count;
        }

        decoder.End();
        List<FixSample> fixes = [.. _sink.Fixes.Select(f => f.Fix)];
        Assert.True(whole.Count > 0);
        Assert.Equal(whole.LatitudeDeg, fixes.Select(f => f.LatitudeDeg));
        Assert.Equal(whole.LongitudeDeg, fixes.Select(f => f.LongitudeDeg));
        Assert.Equal(whole.AltitudeM, fixes.Select(f => f.AltitudeM));
        if (whole.GroundSpeedMs.Length > 0) Assert.Equal(whole.GroundSpeedMs, fixes.Select(f => f.GroundSpeedMs));
        for (int i = 0; i < whole.Count; i++) Assert.True(whole.TimeS[i] == fixes[i].TimeS || !(whole.TimeS[i] > 1e8), $"fix {i}");
        Assert.Equal(whole.Findings.Where(f => f.Code is "checksum-mismatch").Sum(f => f.Count), decoder.Findings.Where(f => f.Code is "checksum-mismatch").Sum(f => f.Count));
    }

    // Closed form: how a stream is cut into packets says nothing about what it holds.
    [Fact]
    public void Take_AnyPackets_GiveTheSameSamples()
    {
        byte[] stream = Bytes(Enumerable.Range(0, 60).SelectMany(n => new[] { Rmc(n), n % 3 == 0 ? "\u0001\u0002binary\n" : "", Gga(n), Load(n * 10) }));
        CollectingSink whole = Fed([stream]);
        Assert.Equal(60, whole.Fixes.Count);
        Assert.Equal(60, whole.Values.Count);
        Gen.Int[1, 200].Array[1, 60].Sample(lengths =>
        {
            var packets = new List<byte[]>();
            for (int at = 0, i = 0; at < stream.Length; i++)
            {
                int count = Math.Min(lengths[i % lengths.Length], stream.Length - at);
                packets.Add(stream[at..(at + count)]);
                at += count;
            }

            CollectingSink cut = Fed(packets);
            Assert.Equal(whole.Fixes, cut.Fixes);
            Assert.Equal(whole.Values, cut.Values);
        }, iter: 200);
    }

    // Closed form: each packet twice, such as over two radios, makes no fix twice.
    [Fact]
    public void Take_EachSentenceTwice_GivesEachFixOnce()
    {
        string[] sentences = [.. Enumerable.Range(0, 40).SelectMany(n => new[] { Rmc(n), Gga(n) })];
        CollectingSink twice = Fed([.. sentences.SelectMany(s => new[] { Bytes(s), Bytes(s) })]);
        Assert.Equal(Enumerable.Range(0, 40).Select(TimeS), twice.Fixes.Select(f => f.Fix.TimeS));
    }

    // Simulated truth: bytes changed and bits of packets lost; what is given is what was sent, and the rest is counted. The seed is fixed, as one damage in 256 fits its checksum.
    [Fact]
    public void Take_GarbledAndCut_GivesOnlyWhatWasSent()
    {
        var random = new Random(3);
        byte[] stream = Bytes(Enumerable.Range(0, 400).SelectMany(n => new[] { Rmc(n), Gga(n) }));
        var packets = new List<byte[]>();
        for (int at = 0; at < stream.Length; at += 97)
        {
            byte[] packet = stream[at..Math.Min(at + 97, stream.Length)];
            int fate = random.Next(10);
            if (fate == 0) packet[random.Next(packet.Length)] ^= (byte)(1 << random.Next(7));
            if (fate == 1) packet = packet[..random.Next(packet.Length)];
            packets.Add(packet);
        }

        LiveDecoder decoder = Decoder();
        foreach (byte[] packet in packets) decoder.Take(packet, 1e9);
        decoder.End();
        HashSet<double> sent = [.. Enumerable.Range(0, 400).Select(TimeS)];
        Assert.All(_sink.Fixes, f => Assert.Contains(f.Fix.TimeS, sent));
        Assert.InRange(_sink.Fixes.Count, 300, 400);
        Assert.True(decoder.Bad > 30);
        Assert.Contains(_found, f => f.Code == "checksum-mismatch");
    }

    // Simulated truth, but the 0.05 s of waiting: common practice, no source.
    [Fact]
    public void Quiet_AfterFiftyMilliseconds_GivesThePositionOnce()
    {
        LiveDecoder decoder = Decoder();
        decoder.Take(Bytes(Rmc(0), Gga(0)), 100.0);
        decoder.Quiet(100.03);
        Assert.Empty(_sink.Fixes);
        Assert.Equal(100.05, decoder.DueS, 9);
        decoder.Quiet(100.06);
        (string source, FixSample fix, double arrived) = Assert.Single(_sink.Fixes);
        Assert.Equal("gps", source);
        Assert.Equal(TimeS(0), fix.TimeS);
        Assert.Equal(500, fix.AltitudeM);
        Assert.Equal(100.0, arrived); // its own arrival, not the moment it was given
        Assert.True(double.IsNaN(decoder.DueS));

        decoder.Take(Bytes(Gga(0), Load(800)), 100.1); // late ones of the same instant
        decoder.Quiet(100.5);
        Assert.Single(_sink.Fixes);
        Assert.Equal(TimeS(0), Assert.Single(_sink.Values).Sample.TimeS);
        Assert.Equal(800, _sink.Values[0].Sample.Value, 2);

        decoder.Take(Bytes(Rmc(1)), 100.6);
        decoder.Quiet(101);
        Assert.Equal(TimeS(1), _sink.Fixes[1].Fix.TimeS);
    }

    // A source whose altitude sentence comes 0.12 s behind the position: the wait grows until the altitude is there.
    [Fact]
    public void Quiet_SentencesFarApart_WaitGrows()
    {
        LiveDecoder decoder = Decoder();
        for (int n = 0; n < 10; n++)
        {
            double at = 100 + n;
            decoder.Take(Bytes(Rmc(n * 10)), at);
            decoder.Quiet(at + 0.06);
            decoder.Quiet(at + 0.11);
            decoder.Take(Bytes(Gga(n * 10)), at + 0.12);
            decoder.Quiet(at + 0.9);
        }

        Assert.Equal(10, _sink.Fixes.Count);
        Assert.True(double.IsNaN(_sink.Fixes[0].Fix.AltitudeM));
        Assert.All(_sink.Fixes.Skip(3), f => Assert.True(f.Fix.AltitudeM >= 500));
    }

    // Simulated truth; that a value belongs to a position up to 0.25 s after it: common practice, no source. Load sentences of a steady 20 Hz must not hold a 1 Hz position back.
    [Fact]
    public void Take_FastChannelsBetweenPositions_PositionIsNotHeldBack()
    {
        LiveDecoder decoder = Decoder();
        decoder.Take(Bytes(Rmc(0), Gga(0)), 100);
        for (int i = 1; i <= 10; i++) decoder.Take(Bytes(Load(800 + i)), 100 + i * 0.04);
        Assert.Single(_sink.Fixes);
        Assert.Equal(10, _sink.Values.Count);
        Assert.Equal(TimeS(0), _sink.Values[0].Sample.TimeS); // with the position
        Assert.Equal(100.4, _sink.Values[9].Sample.TimeS, 6); // too long after it: by arrival
    }

    // Closed form: the moment it was handed over.
    [Fact]
    public void Take_ChannelWithoutAnyTime_IsStampedByArrival()
    {
        LiveDecoder decoder = Decoder();
        decoder.Take(Bytes(Load(650)), 1234.5);
        Assert.Equal(1234.5, Assert.Single(_sink.Values).Sample.TimeS);
    }

    // Closed form: positions that arrive 0.2 s after their instant on a machine whose clock is 7 s behind; arrival + offset is 0.2 s less than the true arrival.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Take_ChannelBesidePositions_IsStampedByThePositionsTime(bool withDate)
    {
        LiveDecoder gps = Decoder(), load = new(Named("load"), _offset, _sink, _found.Add);
        for (int n = 0; n <= 50; n++) gps.Take(Bytes(withDate ? Rmc(n) : Gga(n)), TimeS(n) + 0.2 - 7);
        load.Take(Bytes(Load(700)), Nine + 5 - 7);
        Assert.Equal(Nine + 5 - 0.2, Assert.Single(_sink.Values).Sample.TimeS, 5);
    }

    // Closed form: half a second before and after midnight.
    [Theory]
    [InlineData("235959.50", -0.5)]
    [InlineData("000000.50", 0.5)]
    public void Take_PositionWithoutDate_IsPutOnTheNearestDay(string clock, double expectedFromMidnight)
    {
        LiveDecoder decoder = Decoder();
        double midnight = Nine + 15 * 3600;
        decoder.Take(Bytes(Whole($"GPGGA,{clock},4630.0000,N,00800.0000,E,1,10,0.9,500,M,,M,,")), midnight + 0.3);
        decoder.End();
        Assert.Equal(midnight + expectedFromMidnight, Assert.Single(_sink.Fixes).Fix.TimeS, 5);
    }

    [Fact]
    public void Take_TableWithHeading_GivesItsValues()
    {
        LiveDecoder decoder = Decoder();
        decoder.Take(Bytes("time,load_lb,torque_pct\r\n2026-06-01T09:00:00.5Z,1000,71.5\r\n,1100,72\r\n"), Nine + 2);
        Assert.Equal([453.59237, 71.5, 498.951607, 72], _sink.Values.Select(v => Math.Round(v.Sample.Value, 6))); // Closed form: 0.45359237 kg a pound
        Assert.Equal([Nine + 0.5, Nine + 0.5, Nine + 2, Nine + 2], _sink.Values.Select(v => v.Sample.TimeS));
        Assert.Equal(3, decoder.Good);
        Assert.Equal(0, decoder.Bad);
    }

    [Theory]
    [InlineData("load_kg", "831,5\n", 831.5)]
    [InlineData("-,load_kg", "17;831.5\n", 831.5)]
    [InlineData("time,load_kg", "12.25,831.5\n", 831.5)] // counts from its own start: by arrival
    [InlineData("load_kg", "load\n 831.5 \n", 831.5)] // its heading is passed over
    public void Take_LinesWithGivenColumns_AreStampedByArrival(string columns, string lines, double expected)
    {
        LiveDecoder decoder = new(Named("load") with { Columns = columns.Split(',') }, _offset, _sink, _found.Add);
        decoder.Take(Bytes(lines), 1e9 + 0.25);
        Assert.Equal((expected, 1e9 + 0.25), (Assert.Single(_sink.Values).Sample.Value, _sink.Values[0].Sample.TimeS));
        Assert.Empty(_found);
    }

    // Closed form: closed is 0, open is 1.
    [Fact]
    public void Take_HookLines_GiveReleases()
    {
        LiveDecoder decoder = Decoder();
        decoder.Take(Bytes("time_utc,hook\n2026-06-01T09:00:00Z,closed\n2026-06-01T09:00:01Z,release\n"), Nine + 1);
        Assert.Equal([(0.0, Nine), (1.0, Nine + 1)], _sink.Values.Select(v => (v.Sample.Value, v.Sample.TimeS)));
    }

    [Fact]
    public void Take_NumbersWithoutHeading_SaysWhatToWrite()
    {
        LiveDecoder decoder = Decoder();
        for (int i = 0; i < 600; i++) decoder.Take(Bytes("12.5,831\n"), 100 + i);
        Assert.Empty(_sink.Values);
        Finding finding = Assert.Single(_found);
        Assert.Equal("columns-unknown", finding.Code);
        Assert.Contains("columns=", finding.Done, StringComparison.Ordinal);
        Assert.Equal(600, decoder.Bad);
    }

    [Theory]
    [InlineData(LiveSourceKind.Serial, "baud-wrong")]
    [InlineData(LiveSourceKind.Udp, "data-unknown")]
    public void Take_NoSentenceInTwoThousandBytes_IsSaidOnce(LiveSourceKind kind, string code)
    {
        LiveDecoder decoder = new(Named("x") with { Kind = kind, Baud = 9600 }, _offset, _sink, _found.Add);
        var random = new Random(1);
        byte[] garbled = new byte[500];
        for (int i = 0; i < 20; i++)
        {
            random.NextBytes(garbled);
            decoder.Take(garbled, 100 + i);
        }

        Assert.Equal(code, Assert.Single(_found).Code); // and nothing about the noise itself
        Assert.Empty(_sink.Fixes);
    }

    [Fact]
    public void Take_LineOverOneMegabyte_IsDroppedAndSaid()
    {
        LiveDecoder decoder = Decoder();
        byte[] piece = new byte[100_000];
        Array.Fill(piece, (byte)'x');
        for (int i = 0; i < 25; i++) decoder.Take(piece, 100 + i);
        decoder.Take(Bytes("\r\n", Rmc(0)), 200);
        decoder.End();
        Assert.Single(_sink.Fixes);
        Assert.Single(_found, f => f.Code == "line-too-long");
    }

    [Fact]
    public void LinkLost_HalfASentence_IsNotJoinedToTheNextLink()
    {
        LiveDecoder decoder = Decoder();
        decoder.Take(Bytes(Rmc(0))[..30], 100);
        decoder.LinkLost();
        decoder.Take(Bytes(Rmc(1)), 101);
        decoder.End();
        Assert.Equal(TimeS(1), Assert.Single(_sink.Fixes).Fix.TimeS);
        Assert.Equal(0, decoder.Bad);
    }

    // A file that could not be read for a while, or that the next run reads on: its half line's other half is no load of 31.5 kg.
    [Fact]
    public void LinkLost_FileGoesOnInTheMiddleOfALine_RestOfItIsPassedOver()
    {
        LiveDecoder decoder = new(Named("load") with { Kind = LiveSourceKind.File, Columns = ["load_kg"] }, _offset, _sink, _found.Add);
        decoder.Take(Bytes("1830.5\n18"), Nine);
        decoder.LinkLost();
        decoder.Take(Bytes("31.5\n1832.5\n"), Nine + 1);
        decoder.LinkLost();
        decoder.Take(Bytes("1833.5\n"), Nine + 2); // at the beginning of a line
        Assert.Equal([1830.5, 1832.5, 1833.5], _sink.Values.Select(v => v.Sample.Value));
    }

    // Closed form: the first whole line. A connection that begins in the middle of a line: the rest of '1831.5' is no load of 31.5 kg, the rest of a sentence is no damage.
    [Theory]
    [InlineData("31.5\r\n1832.5\r\n")]
    [InlineData("load_kg\r\n1832.5\r\n")]
    [InlineData("31.5,W*43\r\n1832.5\r\n")]
    public void Take_BeginsInTheMiddleOfALine_RestOfItIsPassedOver(string lines)
    {
        LiveDecoder decoder = new(Named("load") with { Kind = LiveSourceKind.TcpClient, Columns = ["load_kg"] }, _offset, _sink, _found.Add);
        decoder.Take(Bytes(lines, Rmc(0)[20..], Rmc(1)), Nine);
        Assert.Equal(1832.5, Assert.Single(_sink.Values).Sample.Value);

        LiveDecoder gps = new(Named("gps") with { Kind = LiveSourceKind.TcpClient }, _offset, _sink, _found.Add);
        _found.Clear();
        gps.Take(Bytes(Rmc(0)[20..], Rmc(1)), Nine);
        gps.End();
        Assert.Equal(TimeS(1), Assert.Single(_sink.Fixes).Fix.TimeS);
        Assert.Equal(0, gps.Bad);
        Assert.Empty(_found);
    }

    // Closed form: 1024 weeks are 7168 days, which is how far an old receiver is off when its week counter began anew.
    [Fact]
    public void Take_DateFarFromThisMachines_IsSaid()
    {
        LiveDecoder decoder = Decoder();
        decoder.Take(Bytes(Rmc(0), Rmc(1)), Nine + 7168 * 86_400.0);
        decoder.End();
        Assert.Equal(TimeS(0), _sink.Fixes[0].Fix.TimeS);
        Assert.Contains("7168 days before", Assert.Single(_found, f => f.Code == "date-differs").What, StringComparison.Ordinal);
    }

    [Fact]
    public void Cut_InTheMiddleOfASentence_IsNoDamage()
    {
        LiveDecoder decoder = Decoder();
        decoder.Take(Bytes(Rmc(0), Rmc(1)[..30]), Nine);
        decoder.Cut();
        decoder.Take(Bytes(Rmc(5)[40..], Rmc(6)), Nine + 1);
        decoder.End();
        Assert.Equal([TimeS(0), TimeS(6)], _sink.Fixes.Select(f => f.Fix.TimeS));
        Assert.Equal(0, decoder.Bad);
    }

    // The rest of a load sentence looks like a heading of one word that is known.
    [Theory]
    [InlineData("N,LOAD*5C\r\n")]
    [InlineData(",N,LOAD\r\n")]
    public void Take_RestOfALoadSentence_IsNoHeading(string rest)
    {
        LiveDecoder decoder = Decoder();
        decoder.Take(Bytes(Rmc(0), rest, "1,2\r\n", Rmc(1)), Nine);
        decoder.End();
        Assert.Equal(2, _sink.Fixes.Count);
        Assert.Empty(_sink.Values);
        Assert.DoesNotContain(_found, f => f.Code is "column-not-used" or "row-column-count");
    }

    [Fact]
    public void Quiet_SentenceWithoutLineEnd_IsTaken()
    {
        LiveDecoder decoder = Decoder();
        decoder.Take(Bytes(Rmc(0).TrimEnd()), 100);
        decoder.Quiet(100.06);
        decoder.Quiet(100.2);
        Assert.Single(_sink.Fixes);
    }

    [Fact]
    public void Take_OnlyGll_PositionsAreGivenAfterFive()
    {
        LiveDecoder decoder = Decoder();
        for (int n = 0; n < 8; n++) decoder.Take(Bytes(Whole($"GPGLL,4630.000{n},N,00800.0000,E,09000{n}.00,A")), Nine + n);
        Assert.Equal(8, _sink.Fixes.Count);
        Assert.Single(_found, f => f.Code == "positions-from-gll");
    }

    private static LiveSourceSetting Named(string name) => new() { Text = name, Name = name, Kind = LiveSourceKind.Udp };

    private LiveDecoder Decoder() => new(Named("gps"), _offset, _sink, _found.Add);

    private static CollectingSink Fed(IEnumerable<byte[]> packets)
    {
        var sink = new CollectingSink();
        var decoder = new LiveDecoder(Named("gps"), new UtcOffset(), sink, _ => { });
        foreach (byte[] packet in packets) decoder.Take(packet, 1e9);
        decoder.End();
        return sink;
    }
}
