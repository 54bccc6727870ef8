using System.Globalization;
using System.Net;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

public class DeliveriesPageTests(Site site)
{
    private string Deliveries => string.Create(CultureInfo.InvariantCulture, $"/deliveries/{site.FlightId}");

    [Fact]
    public async Task Page_DayInTheStore_ShowsVerdictAdviceRotationsAndPictures()
    {
        await using Watched watched = await site.Open(Deliveries);
        IPage page = watched.Page;
        await Expect(page.Locator("[data-quality]")).ToContainTextAsync("5 fixes a second");
        await Expect(page.Locator("[data-next]")).Not.ToBeEmptyAsync();
        // Simulated truth: so many were flown.
        await Expect(page.Locator(".rotations tbody tr")).ToHaveCountAsync(Site.Flown);
        await Expect(page.Locator(".rotations .sparkline")).ToHaveCountAsync(Site.Flown);
        await Expect(page.Locator("#panel figure svg.plan")).ToHaveCountAsync(2);
        await Expect(page.Locator("#panel figure svg.side")).ToHaveCountAsync(2);
        await Expect(page.Locator("[data-plot=speed] canvas")).ToBeVisibleAsync();
        await Expect(page.Locator("[data-plot=power] canvas")).ToBeVisibleAsync();
        await Expect(page.Locator("[data-plot=fore] canvas")).ToBeVisibleAsync();
        await Expect(page.Locator("footer")).ToContainTextAsync("the pilot decide");
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Rotations_TickingAnother_LaysItOverAndIsKeptInTheAddress()
    {
        await using Watched watched = await site.Open(Deliveries + "?show=1");
        IPage page = watched.Page;
        await Expect(page.Locator("#panel-heading")).ToHaveTextAsync("Delivery 1");
        string before = await page.Locator("#panel figure svg.plan").First.InnerHTMLAsync();
        await page.GetByRole(AriaRole.Checkbox, new() { Name = "2", Exact = true }).CheckAsync();
        await Expect(page.Locator("#panel-heading")).ToHaveTextAsync("Deliveries 1, 2");
        await Expect(page.Locator("#panel figure svg.plan").First.Locator("path.track")).ToHaveCountAsync(2);
        Assert.NotEqual(before, await page.Locator("#panel figure svg.plan").First.InnerHTMLAsync());
        await page.ReloadAsync();
        await Expect(page.Locator("#panel-heading")).ToHaveTextAsync("Deliveries 1, 2");
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Plots_Pointing_MovesTheMarksInAllPictures()
    {
        await using Watched watched = await site.Open(Deliveries + "?show=1");
        IPage page = watched.Page;
        ILocator plot = page.Locator("[data-plot=speed] .u-over");
        await plot.ScrollIntoViewIfNeededAsync();
        await plot.HoverAsync(new() { Position = new() { X = 60, Y = 60 } });
        await Expect(page.Locator("[data-plot=speed] output")).ToContainTextAsync("1:");
        await Expect(page.Locator("[data-plot=fore] output")).ToContainTextAsync("1:");
        foreach (ILocator mark in await page.Locator("#panel svg.plan g.hook-now, #panel svg.side g.hook-now").AllAsync())
            Assert.Equal("visible", await mark.GetAttributeAsync("visibility"));
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Rotations_ByKeyboardAlone_CanBeChosenAndWhyOpened()
    {
        await using Watched watched = await site.Open(Deliveries + "?show=1");
        IPage page = watched.Page;
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "To the content" })).ToBeFocusedAsync();
        await page.GetByRole(AriaRole.Checkbox, new() { Name = "1", Exact = true }).FocusAsync();
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "Correct lift 1" })).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Space");
        await Expect(page.Locator("#panel-heading")).ToHaveTextAsync("Deliveries 1, 2");
        ILocator why = page.Locator(".numbers details").First;
        await why.Locator("summary").FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(why).ToContainTextAsync("docs/method/delivery.md");
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Figures_TypedAndWorkedOut_AreMarkedTypedAndMistakesAreSaidBesideTheField()
    {
        await using Watched watched = await site.Open("/flights");
        IPage page = watched.Page;
        await page.Locator("#records").SetInputFilesAsync(site.OtherRecord);
        await page.Locator("[data-upload=kept] a.button").First.ClickAsync();
        ILocator note = page.Locator("#line-note");
        await Expect(note).ToContainTextAsync("assumed");
        await page.Locator("#line").FillAsync("30");
        await Expect(page.Locator("[data-draft]")).ToBeVisibleAsync();
        await page.ReloadAsync();
        await Expect(page.Locator("#line")).ToHaveValueAsync("30");
        await page.GetByRole(AriaRole.Button, new() { Name = "Work out again" }).ClickAsync();
        await Expect(note).ToContainTextAsync("'30' was not understood");
        await page.Locator("#line").FillAsync("100 ft");
        await page.GetByRole(AriaRole.Button, new() { Name = "Work out again" }).ClickAsync();
        // Closed form: 100 ft = 30.48 m.
        await Expect(note).ToContainTextAsync("30.5 m");
        await Expect(note).ToContainTextAsync("typed");
        await Expect(page.Locator("#load-note")).ToContainTextAsync("assumed");
    }

    [Fact]
    public async Task Upload_GoodAndBrokenTogether_GoodIsMeasuredBrokenSaysWhy()
    {
        await using Watched watched = await site.Open("/flights");
        IPage page = watched.Page;
        FilePayload good = new() { Name = "copy.gpx", MimeType = "application/gpx+xml", Buffer = await File.ReadAllBytesAsync(site.OtherRecord, TestContext.Current.CancellationToken) };
        FilePayload broken = new() { Name = "broken.gpx", MimeType = "application/gpx+xml", Buffer = "<gpx version=\"1.1\"><trk><trkseg><trkpt lat=\"x\" lon=\"8\"/>"u8.ToArray() };
        await page.Locator("#records").SetInputFilesAsync(new[] { broken, good });
        ILocator kept = page.Locator("[data-upload=kept]");
        // Simulated truth: three deliveries were flown.
        await Expect(kept).ToContainTextAsync("3 deliveries");
        ILocator refused = page.Locator("[data-upload=refused]");
        await Expect(refused).ToContainTextAsync("broken.gpx");
        await Expect(refused.Locator(".findings li").First).ToBeVisibleAsync();
        await kept.Locator("a.button").ClickAsync();
        await Expect(page.Locator(".rotations tbody tr")).ToHaveCountAsync(3);
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Upload_OverTheLimit_IsRefusedWithSizeLimitAndCommand()
    {
        await using Watched watched = await site.Open("/flights");
        IPage page = watched.Page;
        FilePayload large = new() { Name = "long.gpx", MimeType = "application/gpx+xml", Buffer = new byte[5_000_000] };
        await page.Locator("#records").SetInputFilesAsync(large);
        ILocator refused = page.Locator("[data-upload=refused]");
        await Expect(refused).ToContainTextAsync("5 MB");
        await Expect(refused).ToContainTextAsync("up to 2 MB");
        await Expect(refused).ToContainTextAsync("stillhook debrief long.gpx");
        watched.NothingWentWrong();

        // The program itself refuses too, whatever the page let through.
        using HttpClient client = new();
        // Asking first keeps the answer from crossing with a body that the program won't take.
        client.DefaultRequestHeaders.ExpectContinue = true;
        using HttpResponseMessage answer = await client.PostAsync(site.Address + "/flights?name=long.gpx", new ByteArrayContent(new byte[5_000_000]), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        string text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("stillhook debrief long.gpx", text, StringComparison.Ordinal);
        Assert.Contains("5 MB", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Answers_CarryAStrictPolicyAndFormsNeedTheirToken()
    {
        using HttpClient client = new();
        using HttpResponseMessage page = await client.GetAsync(site.Address + "/flights", TestContext.Current.CancellationToken);
        string policy = Assert.Single(page.Headers.GetValues("Content-Security-Policy"));
        Assert.StartsWith("default-src 'none'; script-src 'self'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(page.Headers.GetValues("X-Content-Type-Options")));

        using FormUrlEncodedContent sure = new(new Dictionary<string, string> { ["sure"] = "yes" });
        using HttpResponseMessage withoutToken = await client.PostAsync($"{site.Address}{Deliveries.Replace("deliveries", "flights", StringComparison.Ordinal)}/remove", sure, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, withoutToken.StatusCode);
        using HttpResponseMessage still = await client.GetAsync(site.Address + Deliveries, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, still.StatusCode);

        using HttpRequestMessage elsewhere = new(HttpMethod.Get, site.Address + "/flights") { Headers = { Host = "stillhook.example" } };
        using HttpResponseMessage refused = await client.SendAsync(elsewhere, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
    }

    [Theory]
    [InlineData(390)]
    [InlineData(820)]
    [InlineData(1180)]
    public async Task Pages_AtAnyWidth_NeverScrollSidewaysAndHaveLargeTargets(int width)
    {
        string pictures = Path.Combine(AppContext.BaseDirectory, "screenshots");
        foreach ((string name, string path) in new[] { ("flights", "/flights"), ("deliveries", Deliveries + "?show=1&show=2&show=3&show=4") })
        {
            await using Watched watched = await site.Open(path, width);
            IPage page = watched.Page;
            if (name == "deliveries")
                await Expect(page.Locator("[data-plot=fore] canvas")).ToBeVisibleAsync();
            Assert.Equal(width, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
            // Common practice, no source: 56 px can be hit with a gloved finger.
            Assert.Empty(await page.EvaluateAsync<string[]>("""
                [...document.querySelectorAll('button, summary, input:not([type=hidden]):not([type=checkbox]), .pick label, nav a')]
                  .filter(e => e.offsetParent && e.getBoundingClientRect().height < 55.5).map(e => e.outerHTML.slice(0, 80))
                """));
            await page.ScreenshotAsync(new() { Path = Path.Combine(pictures, $"{name}-{width}.png"), FullPage = true });
            watched.NothingWentWrong();
        }
    }

    [Fact]
    public async Task Units_Metres_ShowNoFeetAnywhere()
    {
        await using Watched watched = await site.Open(Deliveries);
        IPage page = watched.Page;
        await page.Locator(".settings > summary").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "m, km/h, kg" }).ClickAsync();
        string numbers = await page.Locator(".numbers").InnerTextAsync() + await page.Locator(".rotations").InnerTextAsync() + await page.Locator(".pictures").InnerTextAsync();
        Assert.Contains("km/h", numbers, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\d (ft|kt|ft/min)\b", numbers);
        watched.NothingWentWrong();
    }
}
