using System.Net;
using Microsoft.Playwright;
using Stillhook.Following;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

/// <summary>A flight as it happens, over a real TCP connection, on the pages people look at. Times are those of the simulated day.</summary>
public sealed class LivePageTests(Site site) : IAsyncLifetime
{
    // The first load touches 349 s after the start of the demo day, the second leaves the ground at 457 s and touches at 559 s.
    private const double FirstTouched = 349, EmptyLeg = 400, SecondCarried = 500, SecondTouched = 559;
    private readonly LiveSite live = new();

    public async ValueTask InitializeAsync() => await live.Start();

    public ValueTask DisposeAsync() => live.DisposeAsync();

    private Task<Watched> Open(string path, int width = 820) => site.Open(path, width, address: live.Address);

    [Fact]
    public async Task Pages_OfAFlightAsItHappens_SayTheNextLineAndStayDarkWhenTheyMust()
    {
        await using Watched desk = await Open("/live");
        await using Watched cockpit = await Open("/live/cockpit");
        await Expect(desk.Page.Locator("[data-live-part]")).ToContainTextAsync("no position has arrived yet");
        await Expect(cockpit.Page.Locator("main")).ToBeHiddenAsync();

        await live.FeedUntil(FirstTouched + 12);
        await Expect(desk.Page.Locator("[data-live-part] tbody tr").First).ToContainTextAsync($"{live.Order[0]} by turn");
        await Expect(desk.Page.Locator("[data-live-part]")).ToContainTextAsync("1 of 24 loads delivered.");
        await Expect(desk.Page.Locator("[data-live-part]")).ToContainTextAsync($"Next: load {live.Order[1]},");
        await Expect(desk.Page.Locator("[data-next]").First).Not.ToContainTextAsync("Nothing to learn");

        bool lit = false;
        for (double t = FirstTouched + 12; t <= 445 && !lit; t += 2)
        {
            await live.FeedUntil(t);
            lit = live.Desk.Flight.Light().Reason == LightReason.EmptyLeg;
        }
        Assert.True(lit, $"never lit on the empty leg: {live.Desk.Flight.Light().Words}");
        await Expect(cockpit.Page.Locator("main")).ToBeVisibleAsync();
        await Expect(cockpit.Page.Locator("[data-line]")).Not.ToBeEmptyAsync();
        // One line and what it rests on; the rest is for the ground.
        await Expect(cockpit.Page.Locator("[data-rest] li")).ToHaveCountAsync(0);

        live.Silence(4);
        await Expect(cockpit.Page.Locator("main")).ToBeHiddenAsync();
        Assert.Equal("", await cockpit.Page.Locator("[data-line]").TextContentAsync());

        await live.FeedUntil(SecondCarried);
        Assert.False(live.Desk.Flight.Light().IsLit);
        await Expect(cockpit.Page.Locator("main")).ToBeHiddenAsync();
        await live.FeedUntil(SecondTouched + 30);
        await Expect(desk.Page.Locator("[data-live-part] tbody tr").First).ToContainTextAsync($"{live.Order[1]} by turn");
        desk.NothingWentWrong();
        cockpit.NothingWentWrong();
    }

    [Fact]
    public async Task Desk_MarksAMomentWritesALoadAndTakesTheFlightIn()
    {
        await live.FeedUntil(FirstTouched + 20);
        await using Watched watched = await Open("/live");
        IPage page = watched.Page;
        await page.GetByRole(AriaRole.Button, new() { Name = "Mark this moment" }).ClickAsync();
        await Expect(page.Locator("[role=status]")).ToContainTextAsync("Marked 08:36:");
        await page.GetByLabel("Load number").FillAsync("3");
        await page.GetByLabel("Mass, kg").FillAsync("655");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await Expect(page.Locator("[data-live-part] tbody tr").First).ToContainTextAsync("3, 655 kg");
        await Expect(page.Locator("[data-live-part]")).ToContainTextAsync("Next: load 1,");
        // What was written before is taken back, not doubled.
        await page.GetByLabel("Load number").FillAsync("2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await Expect(page.Locator("[data-live-part] tbody tr").First).ToContainTextAsync("2");
        await page.GetByLabel("Load number").FillAsync("99");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await Expect(page.Locator("[role=alert].mistake").First).ToContainTextAsync("There is no load '99' on the list.");
        await page.GetByRole(AriaRole.Link, new() { Name = "Name them on the Day page" }).ClickAsync();
        await Expect(page.Locator("main")).ToContainTextAsync("Moment marked, not named yet");

        await page.GotoAsync(live.Address + "/live");
        await page.GetByRole(AriaRole.Button, new() { Name = "Take the flight in as a record" }).ClickAsync();
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/deliveries/[0-9]+$"));
        Assert.Single(live.Store.Lifts.OfFlight(live.Store.Flights.List()[0].Id));
        watched.NothingWentWrong();
    }

    // Simulated day, invented job: 6 °C over what is planned, limit 5 °C. Closed form: 400 kg of fuel leave less load than the stones weigh.
    [Fact]
    public async Task Readings_MovedPastTheLimit_OfferACheckThatStandsUntilTaken()
    {
        await live.FeedUntil(FirstTouched + 12);
        await using Watched watched = await Open("/live", 1440);
        IPage page = watched.Page;
        await Expect(page.Locator("[data-fuel-now]")).ToContainTextAsync("from the plan");
        await Expect(page.Locator("[data-next-load]")).ToContainTextAsync("with the fuel aboard now");
        await Expect(page.Locator("[data-offer]")).ToHaveCountAsync(0);
        await page.GetByLabel("Outside air temperature").FillAsync("14.5C");
        await page.GetByLabel("Fuel aboard").FillAsync("abc");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep the readings" }).ClickAsync();
        await Expect(page.Locator("#read-fuel-note")).ToContainTextAsync("such as");
        await Expect(page.Locator("[data-offer]")).ToHaveCountAsync(0);
        await page.GetByLabel("Fuel aboard").FillAsync("400kg");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep the readings" }).ClickAsync();
        await Expect(page.Locator("[data-offer]")).ToContainTextAsync("Re-check offered: temperature 14.5 °C is");
        await Expect(page.Locator("[data-offer]")).ToContainTextAsync("over the planned");
        await Expect(page.Locator("[data-offer]")).ToContainTextAsync("over what was reckoned with");
        await Expect(page.Locator("[data-fuel-now]")).ToContainTextAsync("400 kg entered at 08:36");
        await Expect(page.Locator("[data-over]")).ToContainTextAsync($"load {live.Order[1]}, ");
        await PagesTests.Rules(page, "live with an offer", enhanced: false);
        await PagesTests.Picture(page, "live-offer", 1440, kept: false);
        await page.SetViewportSizeAsync(390, 1000);
        Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0, await page.EvaluateAsync<string>(PagesTests.Widest));
        await PagesTests.Picture(page, "live-offer", 390, kept: false);
        await page.SetViewportSizeAsync(1440, 1000);
        // The working opens, and is that of now.
        await page.Locator("[data-fuel-now] [data-why]").ClickAsync();
        await Expect(page.Locator("dialog [data-why-figure]")).ToContainTextAsync("Gauge at 08:36", new() { IgnoreCase = true });
        await page.Keyboard.PressAsync("Escape");
        await page.GotoAsync(live.Address + "/live/ground");
        await Expect(page.Locator("[data-live-part]")).ToContainTextAsync("Re-check offered");
        await Expect(page.Locator("form")).ToHaveCountAsync(0);
        await PagesTests.Picture(page, "ground-offer", 1440, kept: false);

        // It stands after another load too, and on the cockpit page in flight there is nothing of it.
        await live.FeedUntil(EmptyLeg);
        Assert.DoesNotContain("check", System.Text.Json.JsonSerializer.Serialize((await CockpitLine()) ?? ""), StringComparison.OrdinalIgnoreCase);
        await page.GotoAsync(live.Address + "/live");
        await page.GetByRole(AriaRole.Button, new() { Name = "Open the check" }).ClickAsync();
        await Expect(page.GetByLabel("Outside air temperature")).ToHaveValueAsync("14.5C");
        await Expect(page.GetByLabel("Loads already delivered")).ToHaveValueAsync(live.Order[0]);
        await Expect(page.GetByLabel("Fuel aboard")).ToHaveValueAsync(new System.Text.RegularExpressions.Regex("^39[0-9]kg$|^400kg$"));
        await Expect(page.Locator("[data-recheck]")).ToContainTextAsync("warmer than planned");
        await PagesTests.Picture(page, "plan-recheck-live", 1440, kept: false);
        await page.Locator("[data-print-again]").ClickAsync();
        await Expect(page.Locator("body")).ToContainTextAsync("FOR what was read at 08:36: 14.5 °C");
        await PagesTests.Picture(page, "cards-recheck", 1440, kept: false);
        await page.GotoAsync(live.Address + "/live");
        await Expect(page.Locator("[data-offer]")).ToHaveCountAsync(0);
        watched.NothingWentWrong();

        async Task<string?> CockpitLine()
        {
            await using Watched cockpit = await Open("/live/cockpit");
            return await cockpit.Page.Locator("main").TextContentAsync();
        }
    }

    // Simulated day: one delivery of the flight that goes on counts on the Next page, and what is read there is kept.
    [Fact]
    public async Task Next_OfTheFlightThatGoesOn_CountsItsDeliveriesAndKeepsWhatIsRead()
    {
        await live.FeedUntil(FirstTouched + 12);
        await using Watched watched = await Open("/live");
        IPage page = watched.Page;
        string line = await page.Locator("[data-next]").First.InnerTextAsync();
        await page.GetByLabel("QNH").FillAsync("1014hPa");
        await page.GetByRole(AriaRole.Button, new() { Name = "Check again" }).ClickAsync();
        await Expect(page.Locator("section.next").First).ToContainTextAsync("From 1 delivery");
        await Expect(page.Locator("[data-next]").First).ToHaveTextAsync(line);
        await Expect(page.Locator("#now")).ToContainTextAsync("altimeter now reads about");
        await page.GetByLabel("Wind").FillAsync("070/12kt");
        await page.GetByRole(AriaRole.Button, new() { Name = "Check again" }).ClickAsync();
        await Expect(page.GetByLabel("Wind")).ToHaveValueAsync("070/12kt");
        await page.GotoAsync(live.Address + "/live");
        await Expect(page.Locator("[data-offer]")).ToContainTextAsync("QNH 1014 hPa is 5 hPa under the planned 1019 hPa; wind 070/12 kt is");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put it aside" }).ClickAsync();
        await Expect(page.Locator("[role=status]").First).ToContainTextAsync("Put aside.");
        await Expect(page.Locator("[data-offer]")).ToHaveCountAsync(0);
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Listening_StoppedAndStartedAgain_GoesOnInTheSameFlight()
    {
        await live.FeedUntil(FirstTouched + 20);
        await live.Stop();
        await live.Start();
        Assert.True(live.Desk.Input.Resumed);
        await live.FeedUntil(SecondTouched + 30);
        Assert.Equal([1, 2], live.Desk.Flight.State().Deliveries.Where(d => !d.Withdrawn).Select(d => d.Number));
        Assert.True(live.Desk.WholeRecord()!.Count > 2000);
    }

    [Fact]
    public async Task GroundPage_FromTheNetwork_WantsACodeAndCannotChangeAnything()
    {
        await live.FeedUntil(FirstTouched + 12);
        using HttpClient outside = new(new HttpClientHandler { UseCookies = true, AllowAutoRedirect = false }) { BaseAddress = new(live.Open) };
        CancellationToken cancellation = TestContext.Current.CancellationToken;
        foreach (string closed in (string[])["/live", "/jobs", "/flights", "/days", "/aircraft", "/live/cockpit", "/live/events", "/live/cockpit/events"])
            Assert.Equal(HttpStatusCode.NotFound, (await outside.GetAsync(new Uri(closed, UriKind.Relative), cancellation)).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await outside.GetAsync(new Uri("/live/ground", UriKind.Relative), cancellation)).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await outside.GetAsync(new Uri("/live/ground/part", UriKind.Relative), cancellation)).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await Enter(outside, "00000000")).StatusCode);
        string code = live.Codes.Code;
        Assert.Equal(HttpStatusCode.Redirect, (await Enter(outside, code)).StatusCode);
        string part = await outside.GetStringAsync(new Uri("/live/ground/part", UriKind.Relative), cancellation);
        Assert.Contains("1 of 24 loads delivered.", part, StringComparison.Ordinal);
        // Nothing that was measured of the pilot's flying is told there.
        Assert.DoesNotContain("swing", part, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(HttpStatusCode.NotFound, (await outside.PostAsync(new Uri("/live/mark", UriKind.Relative), null, cancellation)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await outside.GetAsync(new Uri("/live", UriKind.Relative), cancellation)).StatusCode);
        using HttpClient another = new(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = new(live.Open) };
        Assert.Equal(HttpStatusCode.Forbidden, (await Enter(another, code)).StatusCode);
        for (int tries = 0; tries < 6; tries++)
            await Enter(another, "12345678");
        Assert.Equal(HttpStatusCode.Forbidden, (await Enter(another, live.Codes.Code)).StatusCode);
    }

    [Fact]
    public async Task Events_WithALastId_TellWhatCameMeanwhile()
    {
        await live.FeedUntil(FirstTouched + 12);
        long id = live.Desk.Flight.Events.NewestId;
        await live.FeedUntil(FirstTouched + 30);
        using HttpClient client = new();
        using HttpRequestMessage ask = new(HttpMethod.Get, live.Address + "/live/events");
        ask.Headers.Add("Last-Event-ID", id.ToString(System.Globalization.CultureInfo.InvariantCulture));
        CancellationToken cancellation = TestContext.Current.CancellationToken;
        using HttpResponseMessage answer = await client.SendAsync(ask, HttpCompletionOption.ResponseHeadersRead, cancellation);
        Assert.Equal("text/event-stream", answer.Content.Headers.ContentType?.MediaType);
        using StreamReader reader = new(await answer.Content.ReadAsStreamAsync(cancellation));
        List<string> told = [];
        while (!told.Exists(l => l.StartsWith("id:", StringComparison.Ordinal)))
            told.Add(await reader.ReadLineAsync(cancellation) ?? "");
        Assert.Contains(FormattableString.Invariant($"id: {id + 1}"), told);
        Assert.DoesNotContain("data: all", told);
    }

    [Fact]
    public async Task Pages_AtThreeWidthsAndInEveryLook_AreAccessibleAndFit()
    {
        await live.FeedUntil(FirstTouched + 12);
        for (double t = FirstTouched + 12; t <= 445 && !live.Desk.Flight.Light().IsLit; t += 2)
            await live.FeedUntil(t);
        await using Watched watched = await Open("/live", 1440);
        IPage page = watched.Page;
        foreach ((string name, string path, string shown) in ((string, string, string)[])[("live", "/live", "[data-live-part] tbody tr"), ("ground", "/live/ground", ".ground-tally li"), ("cockpit", "/live/cockpit", "[data-line]")])
        {
            foreach ((string look, int width) in ((string, int)[])[("day", 1440), ("day", 820), ("day", 390), ("night", 820), ("bright", 820)])
            {
                await page.Context.AddCookiesAsync([new() { Name = "look", Value = look, Url = live.Address }]);
                await page.SetViewportSizeAsync(width, 1000);
                await page.GotoAsync(live.Address + path);
                await Expect(page.Locator(shown).First).ToBeVisibleAsync();
                Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0, $"{name} is wider than {width}: {await page.EvaluateAsync<string>(PagesTests.Widest)}");
                await PagesTests.Rules(page, $"{name}, {look} at {width}", enhanced: look == "bright");
                await PagesTests.Picture(page, look == "day" ? name : $"{name}-{look}", width, kept: look == "day");
            }
        }
        watched.NothingWentWrong();
    }

    private static Task<HttpResponseMessage> Enter(HttpClient client, string code) =>
        client.PostAsync(new Uri("/live/code", UriKind.Relative), new FormUrlEncodedContent([new("code", code)]), TestContext.Current.CancellationToken);
}
