using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.Playwright;
using Stillhook.App.Serving;
using Stillhook.Store;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

/// <summary>Corrections by hand, in a program and a store of their own.</summary>
public sealed class CorrectionTests(Site site) : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("corrections").FullName;
    private WebApplication app = null!;
    private WorkStore store = null!;
    private long flight;

    private string Address => WebServer.Address(app);

    private string Deliveries => string.Create(CultureInfo.InvariantCulture, $"/deliveries/{flight}");

    public async ValueTask InitializeAsync()
    {
        await Start();
        using FileStream content = File.OpenRead(site.OtherRecord);
        flight = store.Flights.Add("other-day.gpx", content, DateTimeOffset.UnixEpoch).Flight.Id;
    }

    public async ValueTask DisposeAsync()
    {
        await app.StopAsync();
        await app.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Correct_WeightAndTime_KeptOverARestartAndTakenBack()
    {
        string measured;
        await using (Watched watched = await site.Open(Deliveries + "?show=1", address: Address))
        {
            IPage page = watched.Page;
            await page.GetByRole(AriaRole.Link, new() { Name = "Correct lift 2" }).ClickAsync();
            measured = await page.GetByLabel("Delivered", new() { Exact = true }).InputValueAsync();
            await page.GetByLabel("Weight of the load").FillAsync("812 kg");
            await page.GetByLabel("Load number").FillAsync("17");
            await page.GetByLabel("Delivered", new() { Exact = true }).FillAsync(Later(measured, 5));
            await page.GetByLabel("Who corrects it").FillAsync("Jo Hand");
            await page.GetByLabel("Why", new() { Exact = true }).FillAsync("as the tally has it");
            await page.GetByRole(AriaRole.Button, new() { Name = "Keep the correction" }).ClickAsync();
            await Expect(page.Locator("#rotation-2")).ToContainTextAsync("No. 17, 812 kg");
            watched.NothingWentWrong();
        }
        // The record's own value stays; what was measured can still be read.
        CorrectedLift kept = store.Lifts.Find(flight, 2)!;
        Assert.Null(kept.AsKept.LoadNumber);
        Assert.Equal(812, kept.Lift.LoadKg!.Value, 1e-9);
        Assert.Equal(5, kept.Lift.DeliveryTimeS!.Value - Math.Round(kept.AsKept.DeliveryTimeS!.Value), 1.0);

        await app.StopAsync(TestContext.Current.CancellationToken);
        await app.DisposeAsync();
        await Start();

        await using Watched again = await site.Open(Deliveries + "?show=1", address: Address);
        ILocator said = again.Page.Locator(".by-hand").First;
        await Expect(said).ToContainTextAsync("Delivered: corrected by Jo Hand at");
        await Expect(said).ToContainTextAsync($"to {Later(measured, 5)}, was {measured}");
        await Expect(said).ToContainTextAsync("to 812 kg, was not told. Why: as the tally has it");
        await again.Page.GetByRole(AriaRole.Link, new() { Name = "Correct lift 2" }).ClickAsync();
        await again.Page.GetByLabel("Who corrects it").FillAsync("Jo Hand");
        await again.Page.GetByRole(AriaRole.Button, new() { Name = "Take back: delivered as" }).ClickAsync();
        await Expect(again.Page.Locator("#rotation-2 [data-name='Delivered']")).ToContainTextAsync(measured);
        Assert.Equal(store.Lifts.Find(flight, 2)!.AsKept.DeliveryTimeS, store.Lifts.Find(flight, 2)!.Lift.DeliveryTimeS);
        await Expect(again.Page.Locator("#rotation-2")).ToContainTextAsync("No. 17, 812 kg");
        again.NothingWentWrong();
    }

    [Fact]
    public async Task Correct_TwoTabs_SecondIsToldWhatChangedAndKeepsWhatItTyped()
    {
        await using Watched first = await site.Open(Deliveries + "?show=1&correct=1#correct", address: Address);
        await using Watched second = await site.Open(Deliveries + "?show=1&correct=1#correct", address: Address);
        await Type(first.Page, "700 kg", "Ann");
        await Expect(first.Page.Locator("#rotation-1")).ToContainTextAsync("700 kg");
        await Type(second.Page, "650 kg", "Ben");
        ILocator told = second.Page.Locator("[data-meanwhile]");
        await Expect(told).ToContainTextAsync("Ann changed it at");
        await Expect(told).ToContainTextAsync("now it is '700 kg'");
        await Expect(second.Page.GetByLabel("Weight of the load")).ToHaveValueAsync("650 kg");
        Assert.Equal(700, store.Lifts.Find(flight, 1)!.Lift.LoadKg!.Value, 1e-9);
        await second.Page.GetByRole(AriaRole.Button, new() { Name = "Keep the correction" }).ClickAsync();
        await Expect(second.Page.Locator("#rotation-1")).ToContainTextAsync("650 kg");
        await Expect(second.Page.Locator(".by-hand").First).ToContainTextAsync("corrected by Ben");
        first.NothingWentWrong();
    }

    [Fact]
    public async Task Correct_MistakesAndNoName_AreSaidBesideTheFieldsAndNothingIsKept()
    {
        await using Watched watched = await site.Open(Deliveries + "?correct=3#correct", address: Address);
        IPage page = watched.Page;
        await page.GetByLabel("Weight of the load").FillAsync("780");
        await page.GetByLabel("Picked up", new() { Exact = true }).FillAsync("quarter past");
        await page.GetByLabel("Who corrects it").EvaluateAsync("e => e.removeAttribute('required')");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep the correction" }).ClickAsync();
        await Expect(page.Locator("#lift-weight-note")).ToContainTextAsync("'780' was not understood; type a mass with its unit");
        await Expect(page.Locator("#lift-pickup-note")).ToContainTextAsync("type hours, minutes and seconds");
        await Expect(page.Locator("#lift-who-note")).ToContainTextAsync("Write who corrects this");
        Assert.Empty(store.Lifts.Find(flight, 3)!.Corrections);
    }

    [Fact]
    public async Task Upload_Record_ItsLiftsAreKept()
    {
        byte[] bytes = await File.ReadAllBytesAsync(site.OtherRecord, TestContext.Current.CancellationToken);
        store.Flights.Remove(flight);
        await using Watched watched = await site.Open("/flights", address: Address);
        await watched.Page.Locator("#records").SetInputFilesAsync(new FilePayload { Name = "flown.gpx", MimeType = "application/gpx+xml", Buffer = bytes });
        await Expect(watched.Page.Locator("[data-upload=kept]")).ToContainTextAsync("3 deliveries");
        Flight kept = Assert.Single(store.Flights.List());
        // Simulated truth: three deliveries were flown.
        Assert.Equal(3, store.Lifts.OfFlight(kept.Id).Count);
        Assert.All(store.Lifts.OfFlight(kept.Id), l => Assert.NotNull(l.Lift.Measures));
    }

    private async Task Start()
    {
        store = WorkStore.Open(Path.Combine(folder, "flights.db"));
        app = Site.Program(store);
        await app.StartAsync();
    }

    private static async Task Type(IPage page, string weight, string who)
    {
        await page.GetByLabel("Weight of the load").FillAsync(weight);
        await page.GetByLabel("Who corrects it").FillAsync(who);
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep the correction" }).ClickAsync();
    }

    private static string Later(string clock, int seconds) =>
        TimeOnly.ParseExact(clock, "HH:mm:ss", CultureInfo.InvariantCulture).Add(TimeSpan.FromSeconds(seconds)).ToString("HH:mm:ss", CultureInfo.InvariantCulture);
}
