using System.Net;
using System.Net.Sockets;
using Stillhook.Files.Live;
using Stillhook.Files.Records;
using Stillhook.Recording;
using static Stillhook.Tests.Files.Live.Sentences;

namespace Stillhook.Tests.Files.Live;

/// <summary>Real sockets on the loopback address, real files, a real pseudo terminal.</summary>
/// <remarks>Every expected value is simulated truth: what was sent, written or done to the link.</remarks>
public sealed class LiveInputTests : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("stillhook-live").FullName;
    private readonly CollectingSink _sink = new();

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(_root, recursive: true);

    [Fact]
    public async Task Udp_SentencesInHalves_ReachTheSinkAndTheJournal()
    {
        int port = FreePort.Udp();
        await using LiveInput input = Start(journal: true, $"udp:{port} name=gps");
        await Up(input);
        using var sender = new UdpClient();
        byte[] sent = Bytes(Enumerable.Range(0, 10).SelectMany(n => new[] { Rmc(n), Gga(n) }));
        for (int at = 0; at < sent.Length; at += 90)
            await sender.SendAsync(sent.AsMemory(at, Math.Min(90, sent.Length - at)), new IPEndPoint(IPAddress.Loopback, port), Cancellation);
        await CollectingSink.Until(() => _sink.Fixes.Count == 10, "ten positions"); // the last one without a sentence behind it
        Assert.Equal(Enumerable.Range(0, 10).Select(TimeS), _sink.Fixes.Select(f => f.Fix.TimeS));
        Assert.Equal(1, _sink.Threads);
        SourceState state = Assert.Single(input.States());
        Assert.Equal(("gps", true, (long)sent.Length, 20L, 0L, 10L), (state.Name, state.Up, state.Bytes, state.Good, state.Bad, state.Fixes));
        Assert.InRange(state.LastGoodAgeS, 0, 30);
        Assert.Equal(sent, LiveJournal.Read(input.JournalFolder!).SelectMany(c => c.Bytes.ToArray()));
        Assert.Empty(_sink.Links);
        Assert.DoesNotContain(input.Findings, f => f.Finding.Code != "date-differs"); // the sentences are of a fixed day
    }

    [Fact]
    public async Task Udp_PortInUse_IsSaidAndTriedUntilItIsFree()
    {
        int port = FreePort.Udp();
        var other = new Socket(AddressFamily.InterNetwork, SocketType.Dgram, ProtocolType.Udp) { ExclusiveAddressUse = true };
        other.Bind(new IPEndPoint(IPAddress.Loopback, port));
        await using LiveInput input = Start(journal: false, $"udp:{port}");
        await CollectingSink.Until(() => input.Findings.Count > 0, "a finding");
        Assert.Equal("port-in-use", Assert.Single(input.Findings).Finding.Code);
        Assert.False(input.States()[0].Up);
        other.Dispose();
        await Up(input);
        Assert.Empty(_sink.Links); // it had never been there
    }

    [Fact]
    public async Task Udp_TwoSenders_IsSaid()
    {
        int port = FreePort.Udp();
        await using LiveInput input = Start(journal: false, $"udp:{port}");
        await Up(input);
        using UdpClient one = new(), two = new();
        foreach (UdpClient sender in new[] { one, two, one })
            await sender.SendAsync(Bytes(Rmc(0)), new IPEndPoint(IPAddress.Loopback, port), Cancellation);
        await CollectingSink.Until(() => input.Findings.Any(f => f.Finding.Code == "two-senders"), "two-senders");
    }

    [Fact]
    public async Task TcpClient_ServerGoesAndComesBack_LinkIsToldOnceEach()
    {
        using var server = new TcpListener(IPAddress.Loopback, 0);
        server.Start();
        int port = ((IPEndPoint)server.LocalEndpoint).Port;
        await using LiveInput input = Start(journal: true, $"tcp:127.0.0.1:{port}");
        using (TcpClient first = await server.AcceptTcpClientAsync(Cancellation))
        {
            await first.GetStream().WriteAsync(Bytes(Rmc(0), Rmc(1)[..40]), Cancellation);
            await CollectingSink.Until(() => _sink.Fixes.Count == 1, "the first position");
        }

        await CollectingSink.Until(() => _sink.Links.Count == 1, "the lost link");
        using TcpClient second = await server.AcceptTcpClientAsync(Cancellation);
        await second.GetStream().WriteAsync(Bytes(Rmc(2)), Cancellation);
        await CollectingSink.Until(() => _sink.Fixes.Count == 2, "the second position");
        Assert.Equal([false, true], _sink.Links.Select(l => l.Up));
        Assert.Equal([TimeS(0), TimeS(2)], _sink.Fixes.Select(f => f.Fix.TimeS));
        Assert.Equal([true, false, true], LiveJournal.Read(input.JournalFolder!).Where(c => c.LinkUp is not null).Select(c => c.LinkUp!.Value));
    }

    [Fact]
    public async Task TcpClient_NobodyListens_IsSaidOnce()
    {
        await using LiveInput input = Start(journal: false, $"tcp:127.0.0.1:{FreePort.Tcp()}");
        await CollectingSink.Until(() => input.Findings.Count > 0, "a finding");
        Assert.Equal("connection-refused", Assert.Single(input.Findings).Finding.Code);
    }

    [Fact]
    public async Task TcpListen_SecondConnection_TakesThePlaceOfTheFirst()
    {
        int port = FreePort.Tcp();
        await using LiveInput input = Start(journal: false, $"tcp-listen:{port}");
        using TcpClient first = await Connect(port), second = new();
        await first.GetStream().WriteAsync(Bytes(Rmc(0)), Cancellation);
        await CollectingSink.Until(() => _sink.Fixes.Count == 1, "the first position");
        await second.ConnectAsync(IPAddress.Loopback, port, Cancellation);
        await CollectingSink.Until(() => input.Findings.Any(f => f.Finding.Code == "connection-replaced"), "connection-replaced");
        await second.GetStream().WriteAsync(Bytes(Rmc(1)), Cancellation);
        await CollectingSink.Until(() => _sink.Fixes.Count == 2, "the second position");
        Assert.Equal([false, true], _sink.Links.Select(l => l.Up));
    }

    [Fact]
    public async Task File_GrowsIsCutAndReplaced_IsFollowed()
    {
        string path = Path.Combine(_root, "flight.log");
        await using LiveInput input = Start(journal: false, $"file:{path} name=file");
        await CollectingSink.Until(() => input.Findings.Any(f => f.Finding.Code == "file-missing"), "file-missing");
        File.WriteAllText(path, Rmc(0) + Rmc(1)[..30]);
        await CollectingSink.Until(() => _sink.Fixes.Count == 1, "the first position");
        File.AppendAllText(path, Rmc(1)[30..]);
        await CollectingSink.Until(() => _sink.Fixes.Count == 2, "the half line's other half");

        File.WriteAllText(path, Rmc(2)); // shorter
        await CollectingSink.Until(() => _sink.Fixes.Count == 3, "the position after the cut");
        File.Move(path, path + ".1");
        File.WriteAllText(path, Rmc(3) + Rmc(4)); // another file, longer
        await CollectingSink.Until(() => _sink.Fixes.Count == 5, "the positions of the next file");
        Assert.Equal(Enumerable.Range(0, 5).Select(TimeS), _sink.Fixes.Select(f => f.Fix.TimeS));
        Assert.Equal(2, input.Findings.Single(f => f.Finding.Code == "file-started-anew").Finding.Count);
        Assert.Equal([false, true, false, true], _sink.Links.Select(l => l.Up));
    }

    [Fact]
    public async Task File_AfterARestart_GoesOnWhereItWas()
    {
        string path = Path.Combine(_root, "flight.log");
        File.WriteAllText(path, Rmc(0) + Rmc(1));
        await using (LiveInput first = Start(journal: true, $"file:{path}"))
            await CollectingSink.Until(() => _sink.Fixes.Count == 2, "two positions");
        File.AppendAllText(path, Rmc(2));
        var sink = new CollectingSink();
        await using LiveInput second = LiveInput.Start(LiveSourceText.ParseAll([$"file:{path}"], []), sink, Options(true), Cancellation);
        Assert.True(second.Resumed);
        await CollectingSink.Until(() => sink.Fixes.Count == 3, "the positions of both runs");
        Assert.Equal([TimeS(0), TimeS(1), TimeS(2)], sink.Fixes.Select(f => f.Fix.TimeS));
        Assert.Equal(Bytes(Rmc(0), Rmc(1), Rmc(2)), File.ReadAllBytes(Directory.GetFiles(second.JournalFolder!, "*.dat").Single()));
    }

    [Fact]
    public async Task Serial_PseudoTerminal_IsReadAndItsEndIsSaid()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "a pseudo terminal is made the Linux way");
        using var terminal = new PseudoTerminal();
        await using LiveInput input = Start(journal: false, $"serial:{terminal.Name}@9600 name=gps");
        await Up(input);
        terminal.Write(Bytes(Rmc(0), Gga(0)));
        await CollectingSink.Until(() => _sink.Fixes.Count == 1, "a position over the serial line");
        Assert.Equal(500, _sink.Fixes[0].Fix.AltitudeM);
        terminal.Dispose();
        await CollectingSink.Until(() => _sink.Links.Count == 1, "the lost line");
        await CollectingSink.Until(() => input.Findings.Any(f => f.Finding.Code.StartsWith("device-", StringComparison.Ordinal)), "a finding");
    }

    [Fact]
    public async Task Serial_MissingDevice_IsSaid()
    {
        await using LiveInput input = Start(journal: false, OperatingSystem.IsWindows() ? "serial:COM97@9600" : "serial:/dev/ttyNONE9@9600");
        await CollectingSink.Until(() => input.Findings.Count > 0, "a finding");
        Assert.Equal("device-missing", input.Findings[0].Finding.Code);
    }

    [Fact]
    public async Task Replay_AtFiftyTimes_GivesTheRecordAndItsTimeAsNow()
    {
        string path = Path.Combine(_root, "flight.csv");
        // Positions each second, loads each tenth, two releases.
        File.WriteAllText(path, "time_utc,lat_deg,lon_deg,alt_m,load_kg,hook\n" + string.Concat(Enumerable.Range(0, 300).Select(i =>
            FormattableString.Invariant($"2026-06-01T09:00:{i / 10:00}.{i % 10}00Z,") + (i % 10 == 0 ? FormattableString.Invariant($"46.{i:0000},8.0,{500 + i}") : ",,") + FormattableString.Invariant($",{i}.25,{(i is 105 or 205 ? "1" : i is 0 or 150 ? "0" : "")}\n"))));
        await using LiveInput input = Start(journal: false, $"replay:{path}@50");
        await CollectingSink.Until(() => _sink.Fixes.Count > 0, "a position");
        Assert.InRange((input.Clock.GetUtcNow() - DateTimeOffset.UnixEpoch).TotalSeconds, Nine, Nine + 1800); // the record's day, not today
        await input.Ended.WaitAsync(TimeSpan.FromSeconds(30), Cancellation);
        FlightRecord record = RecordReader.ReadFile(path);
        Assert.Equal(record.TimeS, _sink.Fixes.Select(f => f.Fix.TimeS));
        Assert.Equal(30, record.Count);
        foreach (ChannelKind kind in (ChannelKind[])[ChannelKind.LoadKg, ChannelKind.HookOpen])
        {
            ChannelSample[] given = [.. _sink.Values.Select(v => v.Sample).Where(s => s.Kind == kind)];
            Assert.Equal(record.Find(kind)!.TimeS, given.Select(s => s.TimeS));
            Assert.Equal(record.Find(kind)!.Value, given.Select(s => s.Value));
        }

        Assert.All(_sink.Fixes, f => Assert.True(f.ArrivedS >= f.Fix.TimeS, "arrived before its instant"));
    }

    [Fact]
    public async Task Replay_NoSuchRecord_IsSaidAndEnds()
    {
        await using LiveInput input = Start(journal: false, $"replay:{Path.Combine(_root, "none.igc")}@10");
        await input.Ended.WaitAsync(TimeSpan.FromSeconds(30), Cancellation);
        Assert.Equal("file-not-found", Assert.Single(input.Findings).Finding.Code);
    }

    // What a run gave to its sink comes again from its journal.
    [Fact]
    public async Task Rebuild_FromTheJournal_GivesTheSamples()
    {
        int gps = FreePort.Udp(), load = FreePort.Udp();
        string folder;
        await using (LiveInput input = Start(journal: true, $"udp:{gps} name=gps", $"udp:{load} name=load columns=load_kg"))
        {
            folder = input.JournalFolder!;
            await CollectingSink.Until(() => input.States().All(s => s.Up), "both ports");
            using var sender = new UdpClient();
            for (int n = 0; n < 20; n++)
            {
                await sender.SendAsync(Bytes(Rmc(n), Gga(n)), new IPEndPoint(IPAddress.Loopback, gps), Cancellation);
                await sender.SendAsync(Bytes($"{700 + n}\n"), new IPEndPoint(IPAddress.Loopback, load), Cancellation);
            }

            await CollectingSink.Until(() => _sink.Fixes.Count == 20 && _sink.Values.Count == 20, "all samples");
        }

        var again = new CollectingSink();
        LiveInput.Rebuild(folder, again);
        Assert.Equal(_sink.Fixes, again.Fixes);
        Assert.Equal(_sink.Values, again.Values);
    }

    [Fact]
    public async Task Sink_ThatFails_DoesNotEndTheRecording()
    {
        int port = FreePort.Udp();
        await using LiveInput input = LiveInput.Start(LiveSourceText.ParseAll([$"udp:{port}"], []), new FailingSink(), Options(true), Cancellation);
        await Up(input);
        using var sender = new UdpClient();
        for (int n = 0; n < 5; n++) await sender.SendAsync(Bytes(Rmc(n)), new IPEndPoint(IPAddress.Loopback, port), Cancellation);
        await CollectingSink.Until(() => input.Findings.Any(f => f.Finding.Code == "following-failed" && f.Finding.Count == 5), "five failures");
        Assert.Equal(5, input.States()[0].Fixes);
    }

    private LiveInput Start(bool journal, params string[] sources)
    {
        var findings = new List<Finding>();
        IReadOnlyList<LiveSourceSetting> settings = LiveSourceText.ParseAll(sources, findings);
        Assert.Empty(findings);
        return LiveInput.Start(settings, _sink, Options(journal), Cancellation);
    }

    private LiveInputOptions Options(bool journal) => new() { JournalRoot = journal ? Path.Combine(_root, "flights") : null, Seed = 1 };

    private static Task Up(LiveInput input) => CollectingSink.Until(() => input.States()[0].Up, "the link");

    private static async Task<TcpClient> Connect(int port)
    {
        while (true)
        {
            var client = new TcpClient();
            try
            {
                await client.ConnectAsync(IPAddress.Loopback, port, Cancellation);
                return client;
            }
            catch (SocketException)
            {
                client.Dispose();
                await Task.Delay(20, Cancellation);
            }
        }
    }

    private sealed class FailingSink : ISampleSink
    {
        public void Take(string source, in FixSample fix, double arrivedS) => throw new InvalidOperationException("no");

        public void Take(string source, in ChannelSample sample, double arrivedS) => throw new InvalidOperationException("no");

        public void Link(string source, bool up, string why, double atS) => throw new InvalidOperationException("no");
    }
}
