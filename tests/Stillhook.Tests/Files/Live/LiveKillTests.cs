using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Stillhook.Files.Live;
using Stillhook.Files.Records;
using Stillhook.Recording;
using Stillhook.Tests.Store;
using static Stillhook.Tests.Files.Live.Sentences;

namespace Stillhook.Tests.Files.Live;

/// <summary>A program that takes live input is killed (SIGKILL): what arrived is on the disk, and the next run goes on in the same flight.</summary>
public sealed class LiveKillTests : IDisposable
{
    private const int Kills = 3;

    private readonly string _root = Directory.CreateTempSubdirectory("stillhook-kill").FullName;
    private readonly List<byte> _kept = [];
    private int _sentence;

    public void Dispose() => Directory.Delete(_root, recursive: true);

    // Simulated truth: numbered sentences a few milliseconds apart; everything sent up to a second before the kill is kept, in order, with nothing between.
    [Fact]
    public async Task LiveInput_KilledWhileItRecords_KeepsWhatArrivedAndGoesOn()
    {
        using var server = new TcpListener(IPAddress.Loopback, 0);
        server.Start();
        string source = $"tcp:127.0.0.1:{((IPEndPoint)server.LocalEndpoint).Port}";
        var random = new Random(1);
        string folder = "";
        for (int kill = 0; kill < Kills; kill++)
        {
            using Process child = StoreChild.Start("journal", _root, source);
            string said = await child.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) ?? "";
            Assert.True(kill == 0 || said == folder, "the flight did not go on in its folder");
            Assert.Equal(kill > 0 ? "True" : "False", await child.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken));
            folder = said;
            using TcpClient link = await server.AcceptTcpClientAsync(TestContext.Current.CancellationToken);
            List<(byte[] Bytes, long At)> sent = await Send(link, child, random.Next(1300, 1700));
            Check(folder, sent, Stopwatch.GetTimestamp());
        }

        FlightRecord record = RecordReader.ReadFile(Directory.GetFiles(folder, "*.dat").Single());
        Assert.True(record.Count >= 3 * 50, $"{record.Count} fixes");
        var again = new CollectingSink();
        LiveInput.Rebuild(folder, again);
        Assert.Equal(Kills - 1, again.Links.Count(l => !l.Up));
        Assert.InRange(again.Fixes.Count, record.Count - Kills, record.Count); // a sentence that was cut by a kill is in neither or, when a half of the next fits, in one
    }

    // Sends until the time is over, kills, and says what was sent when.
    private async Task<List<(byte[] Bytes, long At)>> Send(TcpClient link, Process child, int milliseconds)
    {
        var sent = new List<(byte[] Bytes, long At)>();
        long began = Stopwatch.GetTimestamp();
        while (Stopwatch.GetElapsedTime(began).TotalMilliseconds < milliseconds || sent.Count < 60)
        {
            byte[] bytes = Bytes(Rmc(_sentence++));
            await link.GetStream().WriteAsync(bytes, TestContext.Current.CancellationToken);
            sent.Add((bytes, Stopwatch.GetTimestamp()));
            await Task.Delay(5, TestContext.Current.CancellationToken);
        }

        child.Kill();
        await child.WaitForExitAsync(TestContext.Current.CancellationToken);
        return sent;
    }

    private void Check(string folder, List<(byte[] Bytes, long At)> sent, long killed)
    {
        byte[] raw = File.ReadAllBytes(Directory.GetFiles(folder, "*.dat").Single());
        byte[] all = [.. sent.SelectMany(s => s.Bytes)];
        int kept = raw.Length - _kept.Count;
        Assert.True(kept >= 0 && kept <= all.Length);
        Assert.Equal([.. _kept, .. all[..kept]], raw);
        int certain = sent.Where(s => Stopwatch.GetElapsedTime(s.At, killed).TotalSeconds > 1).Sum(s => s.Bytes.Length);
        Assert.True(kept >= certain, string.Create(CultureInfo.InvariantCulture, $"{kept} bytes kept, {certain} were sent more than a second before the kill"));
        Assert.Equal(raw, LiveJournal.Read(folder).SelectMany(c => c.Bytes.ToArray()));
        _kept.Clear();
        _kept.AddRange(raw);
    }
}
