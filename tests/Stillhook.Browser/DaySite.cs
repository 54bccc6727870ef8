using Microsoft.AspNetCore.Builder;
using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Records;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.Browser;

/// <summary>The real program with a store that holds the invented demo day: its job, its record with 24 lifts, and no word of the crew yet. It can be stopped and started again.</summary>
public sealed class DaySite(Site site) : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("days").FullName;
    private WebApplication? app;

    /// <summary>The demo day.</summary>
    public const string Day = "2025-09-16";

    /// <summary>Simulated truth: lifts flown on the demo day.</summary>
    public const int Lifts = 24;

    /// <summary>Where the pages are.</summary>
    public string Address { get; private set; } = "";

    /// <summary>The job of the day.</summary>
    public Guid Job { get; private set; }

    /// <summary>The flight of the day.</summary>
    public long Flight { get; private set; }

    public WorkStore Store { get; private set; } = null!;

    /// <summary>A path in a folder of its own.</summary>
    public string In(string name) => Path.Combine(folder, name);

    public async ValueTask InitializeAsync()
    {
        Store = WorkStore.Open(In("day.db"), StoreOption.Options);
        string text = DemoFlight.JobText();
        JobFile job = JobFile.Read(text);
        KeptJob kept = Store.Jobs.Save(new(job.Request.Job!, text, job.Request.Date, job.Request.TimeZone, job.Request.Aircraft!.Name), "planner A", DateTimeOffset.UnixEpoch);
        Job = kept.Key;
        byte[] bytes = DemoFlight.Record();
        FlightRecord record = RecordReader.Read(new MemoryStream(bytes), DemoFlight.FileName);
        Debrief debrief = Stillhook.Job.Debrief(record, LiftSetup.From(job.Request));
        MeasuredFlight measured = MeasuredFlight.From(debrief, record, job.Request, [.. job.Request.Loads]);
        Flight = Store.Flights.Add(DemoFlight.FileName, new MemoryStream(bytes), DateTimeOffset.UnixEpoch, text, new()
        {
            Recorded = measured.Flight.Recorded, Airborne = measured.Flight.Airborne, Pilot = measured.Flight.Pilot, Aircraft = measured.Flight.Aircraft, Job = kept.Key, Lifts = measured.Lifts, Exceedances = measured.Flight.Exceedances,
        }).Flight.Id;
        await Start(0);
    }

    public async Task Start(int port)
    {
        app = WebServer.Build(new()
        {
            Store = Store,
            Steps = DebriefSteps.Usual(400),
            Port = port,
        });
        await app.StartAsync();
        Address = WebServer.Address(app);
    }

    /// <summary>Stops the program; its pages answer no more.</summary>
    public async Task Stop()
    {
        await app!.StopAsync();
        await app.DisposeAsync();
        app = null;
    }

    /// <summary>Starts it again where it was.</summary>
    public Task StartAgain() => Start(new Uri(Address).Port);

    /// <summary>A page that remembers what went wrong on it.</summary>
    public Task<Watched> Open(string path, int width = 1180) => site.Open(path, width, address: Address);

    public async ValueTask DisposeAsync()
    {
        if (app is not null)
            await Stop();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }
}
