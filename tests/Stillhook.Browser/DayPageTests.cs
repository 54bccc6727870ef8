using Microsoft.Playwright;
using Stillhook.Reporting;
using Stillhook.Store;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

public class DayPageTests(DaySite site) : IClassFixture<DaySite>
{
    private const string Address = "/days/" + DaySite.Day;

    private static ILocator Entry(IPage page, string title) => page.Locator(".writing details.entry", new() { Has = page.Locator("summary", new() { HasText = title }) });

    private static async Task<ILocator> OpenForm(IPage page, string title)
    {
        ILocator form = Entry(page, title);
        if (await form.GetAttributeAsync("open") is null)
            await form.Locator("summary").ClickAsync();
        return form;
    }

    [Fact]
    public async Task Page_OfTheDemoDay_ShowsLiftsTimeAndFigures()
    {
        await using Watched watched = await site.Open(Address);
        IPage page = watched.Page;
        await Expect(page.Locator("h1")).ToContainTextAsync("Day " + DaySite.Day);
        // Simulated truth: 24 lifts were flown.
        await Expect(page.Locator(".whys")).ToContainTextAsync($"Lifts: {DaySite.Lifts}");
        await Expect(page.Locator("#sheet")).ToContainTextAsync("correct them here");
        await Expect(page.Locator("footer")).ToContainTextAsync("the pilot decide");
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Forms_Filled_AreKeptUnderTheNameAndTheNameIsRemembered()
    {
        await using Watched watched = await site.Open(Address);
        IPage page = watched.Page;
        ILocator fuel = await OpenForm(page, "Fuel");
        await fuel.GetByLabel("At", new() { Exact = true }).FillAsync("08:21");
        await fuel.GetByLabel("Gauge").FillAsync("661lb");
        await fuel.GetByLabel("Your name").FillAsync("Anna Müller");
        await fuel.GetByRole(AriaRole.Button, new() { Name = "Keep" }).ClickAsync();
        ILocator line = page.Locator(".written > li", new() { HasText = "Fuel gauge" });
        // Closed form: 661 lb · 0.45359237 = 299.8 kg.
        await Expect(line).ToContainTextAsync("08:21");
        await Expect(line).ToContainTextAsync("300 kg");
        await Expect(line).ToContainTextAsync("Anna Müller");
        ILocator duty = await OpenForm(page, "Somebody’s duty");
        await Expect(duty.GetByLabel("Your name")).ToHaveValueAsync("Anna Müller");
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Forms_WithMistakes_SayBesideEachFieldWhatToType()
    {
        await using Watched watched = await site.Open(Address);
        IPage page = watched.Page;
        ILocator form = await OpenForm(page, "A stretch of time");
        await form.GetByLabel("From", new() { Exact = true }).FillAsync("quarter past nine");
        await form.GetByLabel("To", new() { Exact = true }).FillAsync("09:20");
        await form.GetByRole(AriaRole.Button, new() { Name = "Keep" }).ClickAsync();
        await Expect(form.Locator("#time-from-note")).ToContainTextAsync("such as 14:05");
        await Expect(form.Locator("#time-use-note")).ToContainTextAsync("Choose what it was for.");
        await Expect(form.Locator("#time-by-note")).ToContainTextAsync("Write your name");
        await Expect(form.GetByLabel("From", new() { Exact = true })).ToHaveValueAsync("quarter past nine");
        Assert.DoesNotContain(site.Store.Days.Entries<TimeMark>(new(DateOnly.Parse(DaySite.Day, System.Globalization.CultureInfo.InvariantCulture))), e => e.Entry.Note == "never kept");

        // The same without JavaScript: the page comes back with the form open.
        using HttpClient client = new();
        string text = await client.GetStringAsync(site.Address + Address, TestContext.Current.CancellationToken);
        Assert.Contains("name=\"kind-of-entry\" value=\"duty\"", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TimeEditor_EveryStretchExplained_AddsUpToTheDay()
    {
        WorkDay day = new(DateOnly.Parse("2025-09-16", System.Globalization.CultureInfo.InvariantCulture));
        // Duty before and after the flight, so that there is time to explain.
        DayWork before = site.Store.Days.Read(day);
        double first = before.Flights[0].Airborne[0].FromS, last = before.Flights[^1].Airborne[^1].ToS;
        Guid duty = site.Store.Days.Add(day, new DutySpell("pilot B", new(first - 3600, last + 1800), null), "test", DateTimeOffset.UnixEpoch);
        await using Watched watched = await site.Open(Address);
        IPage page = watched.Page;
        ILocator rows = page.Locator(".stretches li");
        int count = await rows.CountAsync();
        Assert.True(count >= 2, $"{count} stretches to explain");
        for (int i = 0; i < count; i++)
            await rows.Nth(i).Locator("select").SelectOptionAsync(i == 0 ? "WaitingOnCustomer" : "Weather");
        ILocator editor = page.Locator("section", new() { Has = page.Locator("#time-heading") });
        await editor.GetByLabel("Your name").FillAsync("Anna");
        await editor.GetByRole(AriaRole.Button, new() { Name = "Keep what was chosen" }).ClickAsync();
        await Expect(editor).ToContainTextAsync("Every minute on the ground is explained.");
        // Closed form: the first hour was marked; parts add up to the day to the minute.
        TimeSplit split = TimeSplit.Of(site.Store.Days.Read(day))!;
        Assert.Equal(60, split.Minutes[TimeUse.WaitingOnCustomer]);
        Assert.Equal(split.TotalMinutes, split.Minutes.Values.Sum());
        Assert.Equal(0, split.UnmarkedS, 0.001);
        site.Store.Days.Withdraw(duty, "test", DateTimeOffset.UnixEpoch);
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Withdraw_InOneWindow_IsToldInTheOther()
    {
        WorkDay day = new(DateOnly.Parse(DaySite.Day, System.Globalization.CultureInfo.InvariantCulture));
        Guid key = site.Store.Days.Add(day, new EventMark(1758006000, EventKind.Snag, "sling on a root"), "Bert", DateTimeOffset.UnixEpoch);
        await using Watched first = await site.Open(Address);
        IPage second = await first.Page.Context.NewPageAsync();
        await second.GotoAsync(site.Address + Address);
        await Expect(second.Locator("[data-changed]")).ToBeHiddenAsync();
        ILocator line = first.Page.Locator($"[data-entry='{key}']");
        await line.Locator("summary").ClickAsync();
        await line.GetByLabel("Why").FillAsync("was the day before");
        await line.GetByLabel("Your name").FillAsync("Anna");
        await line.GetByRole(AriaRole.Button, new() { Name = "Withdraw it" }).ClickAsync();
        await Expect(line).ToContainTextAsync("Withdrawn by Anna: was the day before.");
        await Expect(second.Locator("[data-changed]")).ToBeVisibleAsync();
        // The other window still has the form: it is told that it came second, and nothing is changed.
        ILocator stale = second.Locator($"[data-entry='{key}']");
        await stale.Locator("summary").ClickAsync();
        await stale.GetByLabel("Your name").FillAsync("Carl");
        await stale.GetByRole(AriaRole.Button, new() { Name = "Withdraw it" }).ClickAsync();
        await Expect(stale).ToContainTextAsync("had withdrawn it already");
        DayEntry<EventMark> entry = site.Store.Days.Entries<EventMark>(day).Single(e => e.Key == key);
        Assert.Equal(("Anna", "was the day before"), (entry.WithdrawnBy, entry.WithdrawnWhy));
    }

    [Fact]
    public async Task Restart_WhileTyping_LosesNothing()
    {
        await using Watched watched = await site.Open(Address);
        IPage page = watched.Page;
        ILocator tally = await OpenForm(page, "A delivery of the tally");
        await tally.GetByLabel("Delivered at").FillAsync("09:14");
        await tally.GetByLabel("Number of the load").FillAsync("restart-7");
        await tally.GetByLabel("Your name").FillAsync("Anna");
        await site.Stop();
        await tally.GetByRole(AriaRole.Button, new() { Name = "Keep" }).ClickAsync();
        await Expect(tally).ToContainTextAsync("the program does not answer");
        await site.StartAgain();
        await page.ReloadAsync();
        tally = await OpenForm(page, "A delivery of the tally");
        await Expect(tally.GetByLabel("Number of the load")).ToHaveValueAsync("restart-7");
        await tally.GetByRole(AriaRole.Button, new() { Name = "Keep" }).ClickAsync();
        await Expect(page.Locator(".written")).ToContainTextAsync("load restart-7");
        await page.ReloadAsync();
        tally = await OpenForm(page, "A delivery of the tally");
        await Expect(tally.GetByLabel("Number of the load")).ToHaveValueAsync("");
    }

    [Theory]
    [InlineData(390)]
    [InlineData(820)]
    [InlineData(1440)]
    public async Task Pages_AtAnyWidth_NeverScrollSideways(int width)
    {
        foreach ((string name, string path) in new[] { ("days", "/days"), ("day", Address) })
        {
            await using Watched watched = await site.Open(path, width);
            Assert.Equal(width, await watched.Page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
            // WCAG 2.2, 2.5.8 asks for 24 px; 44 px is its enhanced level.
            Assert.Empty(await watched.Page.EvaluateAsync<string[]>("""
                [...document.querySelectorAll('main button, main summary, main select, main input:not([type=hidden]):not([type=checkbox]), main a.button')]
                  .filter(e => e.offsetParent && e.getBoundingClientRect().height < 44).map(e => e.outerHTML.slice(0, 80))
                """));
            await watched.Page.ScreenshotAsync(new() { Path = Path.Combine(AppContext.BaseDirectory, "screenshots", $"{name}-{width}.png"), FullPage = true });
            watched.NothingWentWrong();
        }
    }

    [Theory]
    [InlineData("/days/yesterday", 404)]
    [InlineData("/days/2025-02-30", 404)]
    [InlineData("/days/2031-01-01", 200)]
    public async Task Days_OddAddresses_AreAnsweredInWords(string path, int status)
    {
        using HttpClient client = new();
        using HttpResponseMessage answer = await client.GetAsync(site.Address + path, TestContext.Current.CancellationToken);
        Assert.Equal(status, (int)answer.StatusCode);
        Assert.Contains("<h1>", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }
}
