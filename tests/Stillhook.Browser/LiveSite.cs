using System.Net;
using System.Net.Sockets;
using Microsoft.AspNetCore.Builder;
using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Live;
using Stillhook.Files.Records;
using Stillhook.Following;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Store;
using Stillhook.Tests;
using Stillhook.Tests.Files.Live;

namespace Stillhook.Browser;

/// <summary>The program listening to the invented demo day over a real TCP connection; the time of the record is its clock, and the test drives it.</summary>
public sealed class LiveSite : IAsyncDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("live").FullName;
    private readonly SetClock clock = new(DateTimeOffset.FromUnixTimeSeconds(1_757_000_000));
    private readonly FlightRecord record = RecordReader.Read(new MemoryStream(DemoFlight.Record()), "demo.csv");
    private WebApplication? app;
    private TcpClient? link;
    private readonly int port = FreePort.Tcp();
    private int sent;

    /// <summary>Numbers of the loads in the order of the plan.</summary>
    public string[] Order { get; private set; } = [];

    /// <summary>What is listened to.</summary>
    public LiveDesk Desk { get; private set; } = null!;

    public WorkStore Store { get; private set; } = null!;

    public string Address { get; private set; } = "";

    /// <summary>Address that stands for the one on the network.</summary>
    public string Open { get; private set; } = "";

    public OneTimeCodes Codes { get; } = new(TimeProvider.System);

    /// <summary>Folder of what is recorded.</summary>
    public string Recorded => Path.Combine(folder, "live");

    /// <summary>Begins to listen, or goes on after <see cref="Stop"/>.</summary>
    public async Task Start()
    {
        Store = WorkStore.Open(Path.Combine(folder, "work.db"), StoreOption.Options);
        string text = DemoFlight.JobText();
        JobFile file = JobFile.Read(text);
        KeptJob kept = ImportCommand.Keep(Store, file, text, "planner A", DateTimeOffset.UnixEpoch);
        OpenJob job = new(kept, file);
        (LiftPlan plan, string orderOf) = JobMarks.PlanInForce(Store, job);
        Order = [.. plan.Order!.Lifts.Select(l => l.Number)];
        LiveFlight flight = new(new() { Name = kept.Name, Job = job, Plan = plan, OrderOf = orderOf, Setup = LiftSetup.From(file.Request), Cards = KeptNext.CardsOf(Store, kept), Settings = DemoCommand.LitInTheHollow }) { Clock = clock };
        int openPort = FreePort.Tcp();
        List<Finding> findings = [];
        LiveInput input = LiveInput.Start(LiveSourceText.ParseAll([$"tcp-listen:{port}"], findings), flight, new() { JournalRoot = Recorded, Clock = clock });
        Desk = new(flight, input, Store);
        app = WebServer.Build(new()
        {
            Store = Store,
            Steps = DebriefSteps.Usual(400),
            Port = 0,
            Live = Desk,
            Open = new(IPAddress.Loopback, openPort),
            Codes = Codes,
        });
        await app.StartAsync();
        Address = WebServer.Address(app);
        Open = $"http://127.0.0.1:{openPort}";
        for (int tries = 0; link is null; tries++)
        {
            TcpClient client = new();
            try
            {
                await client.ConnectAsync(IPAddress.Loopback, port);
                link = client;
            }
            catch (SocketException) when (tries < 200)
            {
                client.Dispose();
                await Task.Delay(50);
            }
        }
    }

    /// <summary>Sends the record up to so many seconds after its start, second by second, and waits until it was taken in and looked at.</summary>
    public async Task FeedUntil(double seconds)
    {
        double start = record.TimeS[0], until = start + seconds;
        while (sent < record.Count && record.TimeS[sent] <= until)
        {
            int from = sent;
            double second = record.TimeS[from] + 1;
            while (sent < record.Count && record.TimeS[sent] < second && record.TimeS[sent] <= until)
                sent++;
            clock.Now = DateTimeOffset.FromUnixTimeMilliseconds((long)(record.TimeS[sent - 1] * 1000) + 100);
            await link!.GetStream().WriteAsync(Sentences(from, sent));
            for (int tries = 0; !(Desk.Flight.State().NewestS >= record.TimeS[sent - 1] - 0.5); tries++)
            {
                Assert.True(tries < 3000, "what was sent was not taken in");
                await Task.Delay(1);
            }
            await Desk.Flight.LookDone();
        }
    }

    /// <summary>Time goes on, and nothing arrives.</summary>
    public void Silence(double seconds) => clock.Now += TimeSpan.FromSeconds(seconds);

    /// <summary>Time of the record after so many seconds.</summary>
    public double At(double seconds) => record.TimeS[0] + seconds;

    private byte[] Sentences(int from, int to)
    {
        Channel load = record.Find(ChannelKind.LoadKg)!;
        double first = record.TimeS[from], last = record.TimeS[to - 1];
        int[] values = [.. Enumerable.Range(0, load.TimeS.Length).Where(i => load.TimeS[i] >= first && load.TimeS[i] <= last)];
        double[] Part(double[] column) => column.Length == 0 ? [] : column[from..to];
        using MemoryStream bytes = new();
        RecordWriter.Write(record with
        {
            TimeS = Part(record.TimeS), LatitudeDeg = Part(record.LatitudeDeg), LongitudeDeg = Part(record.LongitudeDeg), AltitudeM = Part(record.AltitudeM),
            PressureAltitudeM = Part(record.PressureAltitudeM), GroundSpeedMs = Part(record.GroundSpeedMs), CourseDeg = Part(record.CourseDeg), ClimbMs = Part(record.ClimbMs),
            SegmentStarts = [0],
            Channels = [new(ChannelKind.LoadKg, [.. values.Select(i => load.TimeS[i])], [.. values.Select(i => load.Value[i])])],
        }, RecordFormat.Nmea, bytes);
        return bytes.ToArray();
    }

    /// <summary>Ends the program; what was recorded stays.</summary>
    public async Task Stop()
    {
        link?.Dispose();
        link = null;
        await app!.StopAsync();
        await app.DisposeAsync();
        await Desk.Input.DisposeAsync();
        await Desk.Flight.DisposeAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await Stop();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }
}
