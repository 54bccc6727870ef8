using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Live;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Store;
using Stillhook.Tests.Files.Live;

namespace Stillhook.Tests.App;

/// <summary>What plan and day add to a flight that goes on, on an invented flight by hand: 100 s on the ground at the fuel site, 600 s of flying, then on the same ground again. Closed form throughout: sums of these times.</summary>
public sealed class LiveShownTests : IAsyncLifetime
{
    // 2025-09-16 08:30 at the sites of the example job.
    private const double StartS = 1_758_004_200, FuelLatitudeDeg = 46.8713, FuelLongitudeDeg = 10.1894;
    private readonly string folder = Directory.CreateTempSubdirectory("live-shown").FullName;
    private readonly SetClock clock = new(DateTimeOffset.FromUnixTimeSeconds((long)StartS));
    private LiveDesk desk = null!;
    private WorkStore store = null!;

    public ValueTask InitializeAsync()
    {
        store = WorkStore.Open(Path.Combine(folder, "work.db"), StoreOption.Options);
        string text = File.ReadAllText(Repository.File("examples/path-repair.json"));
        JobFile file = JobFile.Read(text);
        OpenJob job = new(ImportCommand.Keep(store, file, text, "planner A", DateTimeOffset.UnixEpoch), file);
        LiftPlan plan = Job.Plan(file.Request, new());
        LiveFlight flight = new(new() { Name = "by hand", Job = job, Plan = plan, Setup = LiftSetup.From(file.Request), Cards = [new(null, null, new())] }) { Clock = clock };
        desk = new(flight, LiveInput.Start(LiveSourceText.ParseAll([$"udp:{FreePort.Udp()}"], []), flight, new() { Clock = clock }), store);
        return ValueTask.CompletedTask;
    }

    public async ValueTask DisposeAsync()
    {
        await desk.Input.DisposeAsync();
        await desk.Flight.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    // Closed form: what is read out of it is in each line.
    [Fact]
    public void Of_StoodAtTheFuelSite_NoFuelFigureACheckOfferedAndABreakToBeMarked()
    {
        FlyAndStandUntil(720);
        LiveShown flying = LiveShown.Of(desk);
        Stillhook.Planning.Ordering.OrderTimeline day = desk.Flight.Setup.Plan!.Order!.Timeline;
        double startKg = day.Steps[0].FuelFromKg, burn = day.BurntKg / day.FlyingMinutes;
        // 600 s flown, and up to half a minute until the stand is told.
        Assert.InRange(flying.Fuel.Kg!.Value, startKg - burn * 10.8, startKg - burn * 9.5);
        Assert.Equal(flying.Loads.NextLoad!.OnHook.Load.Number, flying.NextLimit!.Load.OnHook.Load.Number);
        Assert.Null(flying.Offer);
        Assert.Empty(flying.MayBeBreaks);

        FlyAndStandUntil(700 + 1900);
        LiveShown stood = LiveShown.Of(desk);
        Assert.Null(stood.Fuel.Kg);
        Assert.Null(stood.Limits);
        Assert.Contains("stood at the fuel site", Assert.Single(stood.Offer!.Reasons), StringComparison.Ordinal);
        Assert.InRange(stood.Break.SinceBreakS, 570, 640);

        // The gauge gives a figure again; the check stands, now with the fuel.
        desk.Read(new() { FuelKg = 300, TemperatureC = 9 }, "pilot B");
        LiveShown read = LiveShown.Of(desk);
        Assert.Equal(300, read.Fuel.Kg!.Value, 0.5);
        Assert.NotNull(read.Limits);
        Assert.Equal(2, read.Offer!.Reasons.Count);
        Assert.StartsWith("300 kg of fuel entered at ", read.Offer.Reasons[1], StringComparison.Ordinal);
        Assert.Contains("fuel=300kg", desk.Recheck(putAside: false, "pilot B"), StringComparison.Ordinal);
        Assert.Null(LiveShown.Of(desk).Offer);

        // The long stand before the first flight is no break, this one may be.
        Stretch stand = Assert.Single(LiveShown.Of(desk).MayBeBreaks);
        Assert.False(desk.WasBreak(stand.FromS + 50, "pilot B"));
        Assert.True(desk.WasBreak(stand.FromS, "pilot B"));
        LiveShown rested = LiveShown.Of(desk);
        Assert.Equal(0, rested.Break.SinceBreakS);
        Assert.Empty(rested.MayBeBreaks);
        Assert.Single(store.Days.Read(desk.Day).TimeMarks, m => m.IsBreak);
    }

    private double fed = -1;

    private void FlyAndStandUntil(double untilS)
    {
        while (fed < untilS)
        {
            fed++;
            // Out to the north and back at 20 m/s, 100 m up; 111 320 m a degree.
            bool stands = fed is < 100 or > 700;
            double awayM = stands ? 0 : 20 * Math.Min(fed - 100, 700 - fed);
            clock.Now = DateTimeOffset.FromUnixTimeMilliseconds((long)((StartS + fed) * 1000) + 100);
            FixSample fix = new(StartS + fed, FuelLatitudeDeg + awayM / 111_320, FuelLongitudeDeg, stands ? 1640 : 1640 + Math.Min(100, awayM), stands ? 0 : 20, stands ? double.NaN : fed < 400 ? 0 : 180, double.NaN, double.NaN);
            desk.Flight.Take("by hand", fix, StartS + fed + 0.1);
        }
    }
}
