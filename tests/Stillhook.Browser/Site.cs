using Microsoft.AspNetCore.Builder;
using Microsoft.Playwright;
using Stillhook.Adjusting;
using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Records;
using Stillhook.Simulating;
using Stillhook.Store;

[assembly: AssemblyFixture(typeof(Stillhook.Browser.Site))]

namespace Stillhook.Browser;

/// <summary>The real program on a free port with a real store holding one simulated day, and one real Chromium; nothing of ours is replaced.</summary>
public sealed class Site : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("pages").FullName;
    private WebApplication app = null!;
    private IPlaywright playwright = null!;
    private IBrowser browser = null!;

    /// <summary>Deliveries flown on the day in the store.</summary>
    public const int Flown = 4;

    /// <summary>Where the pages are.</summary>
    public string Address { get; private set; } = "";

    /// <summary>The day in the store.</summary>
    public long FlightId { get; private set; }

    /// <summary>The example job in the store.</summary>
    public Guid JobKey { get; private set; }

    /// <summary>The example job once more, which no test changes.</summary>
    public Guid ApproachJobKey { get; private set; }

    /// <summary>Another day, as a file to hand in.</summary>
    public string OtherRecord => Path.Combine(folder, "other-day.gpx");

    /// <summary>The same day with a fix every 5 s only: too few to tell the swing.</summary>
    public string SparseRecord => Path.Combine(folder, "sparse-day.gpx");

    public async ValueTask InitializeAsync()
    {
        WriteRecord(OtherRecord, seed: 12, rotations: 3);
        WriteRecord(SparseRecord, seed: 12, rotations: 3, rateHz: 0.2);
        string record = Path.Combine(folder, "day-in-the-store.csv");
        DayScenario scenario = WriteRecord(record, seed: 3, rotations: Flown);
        WorkStore store = WorkStore.Open(Path.Combine(folder, "flights.db"));
        using (FileStream content = File.OpenRead(record))
            FlightId = store.Flights.Add("day-in-the-store.csv", content, DateTimeOffset.UnixEpoch).Flight.Id;
        store.Flights.SaveTyped(FlightId, new Dictionary<string, string>
        {
            ["line"] = FormattableString.Invariant($"{scenario.LineM:0.0}m"),
            ["load"] = "700kg",
            ["wind"] = FormattableString.Invariant($"{scenario.WindFromDeg:0}/{scenario.WindMs:0}m/s"),
        });
        JobKey = store.Jobs.Save(new("example", DemoFlight.JobText()), "a test", DateTimeOffset.UnixEpoch).Key;
        ApproachJobKey = store.Jobs.Save(new("example left as it is", DemoFlight.JobText()), "a test", DateTimeOffset.UnixEpoch).Key;
        app = Program(store);
        await app.StartAsync();
        Address = WebServer.Address(app);
        // Generous: a busy machine makes a page slow, not wrong.
        Assertions.SetDefaultExpectTimeout(30_000);
        playwright = await Playwright.CreateAsync();
        browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = new[] { "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome" }.FirstOrDefault(File.Exists)
                ?? throw new FileNotFoundException("The browser tests need Chromium; install the package 'chromium'."),
            Args = ["--no-sandbox", "--disable-gpu", "--enable-unsafe-swiftshader", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });
    }

    /// <summary>The program on a store, on any free port, not yet started.</summary>
    public static WebApplication Program(WorkStore store) => WebServer.Build(new()
    {
        Store = store,
        Steps = new((stream, name) => RecordReader.Read(stream, name), (r, setup) =>
        {
            Debrief debrief = Debriefer.Debrief(r, setup);
            return (debrief, Adjuster.Next(debrief.Rotations, new AdjustLimits(), new AdjustSettings()));
        }),
        Port = 0,
        UploadLimitMb = 2,
    });

    /// <summary>A page that remembers what went wrong on it.</summary>
    /// <param name="path">Which page.</param>
    /// <param name="width">Width of the window, pixels.</param>
    /// <param name="height">Height of the window, pixels.</param>
    /// <param name="address">Another program's address; null takes the shared one's.</param>
    /// <param name="calm">Whether the device asks for less motion.</param>
    /// <param name="touch">Whether it is held in the hand and touched.</param>
    public async Task<Watched> Open(string path, int width = 1180, int height = 900, string? address = null, bool calm = false, bool touch = false)
    {
        address ??= Address;
        IBrowserContext context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, ReducedMotion = calm ? ReducedMotion.Reduce : ReducedMotion.NoPreference, HasTouch = touch, IsMobile = touch, IgnoreHTTPSErrors = address.StartsWith("https:", StringComparison.Ordinal) });
        IPage page = await context.NewPageAsync();
        Watched watched = new(page, address);
        await page.GotoAsync(address + path);
        return watched;
    }

    public async ValueTask DisposeAsync()
    {
        await browser.CloseAsync();
        playwright.Dispose();
        await app.StopAsync();
        await app.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    private static DayScenario WriteRecord(string path, ulong seed, int rotations, double rateHz = 5)
    {
        DayScenario scenario = ScenarioDraw.Random(seed, rotations);
        SimulatedDay day = DaySimulator.Fly(scenario, seed);
        var record = Recorder.Record(day, new() { RateHz = rateHz, Speed = true, Torque = path.EndsWith(".csv", StringComparison.Ordinal) }, seed);
        using FileStream file = File.Create(path);
        RecordWriter.Write(record, path.EndsWith(".csv", StringComparison.Ordinal) ? RecordFormat.Csv : RecordFormat.Gpx, file);
        return scenario;
    }
}

/// <summary>A page, its console and its requests.</summary>
public sealed class Watched : IAsyncDisposable
{
    private readonly List<string> wrong = [];

    public Watched(IPage page, string address)
    {
        Page = page;
        page.Console += (_, message) =>
        {
            // Where a picture in space is drawn without a graphics card the browser says that reading it back is slow; that is no fault of the page.
            if (message.Type is "error" or "warning" && !message.Text.Contains("GPU stall due to ReadPixels", StringComparison.Ordinal))
                wrong.Add(message.Text);
        };
        page.PageError += (_, error) => wrong.Add(error);
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(address, StringComparison.Ordinal) && !request.Url.StartsWith("data:", StringComparison.Ordinal))
                wrong.Add("asked for " + request.Url);
        };
    }

    public IPage Page { get; }

    /// <summary>No error in the console, no request to anywhere else.</summary>
    public void NothingWentWrong() => Assert.Empty(wrong);

    public async ValueTask DisposeAsync() => await Page.Context.CloseAsync();
}
