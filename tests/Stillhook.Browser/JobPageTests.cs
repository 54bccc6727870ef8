using Microsoft.Playwright;
using Stillhook.Store;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

/// <summary>The Job page: made from nothing, saved while typing, two windows, a program that stops. Expected values are common practice, no source: what the page promises.</summary>
public sealed class JobPageTests(Site site) : IAsyncLifetime
{
    private readonly OwnProgram program = new();

    public async ValueTask InitializeAsync() => await program.Start();

    public ValueTask DisposeAsync() => program.DisposeAsync();

    [Fact]
    public async Task Field_Mistyped_SaysWhatToTypeBesideItAndKeepsIt()
    {
        await using Watched watched = await site.Open("/jobs", address: program.Address);
        IPage page = await NewJob(watched);
        await page.GotoAsync(page.Url.Split('?')[0] + "?part=rigging");
        await JobForms.Type(page, "line.length", "30,5");
        await Expect(page.Locator("[data-field='line.length'] [data-mistake]")).ToContainTextAsync("Type it with a decimal point, such as 30.5");
        await Expect(page.Locator(".parts")).ToContainTextAsync("(1 to mend)");
        await page.ReloadAsync();
        await Expect(page.Locator("[name='f:line.length']")).ToHaveValueAsync("30,5");
        await JobForms.Type(page, "line.length", "100 ft");
        await Expect(page.Locator("[data-field='line.length'] [data-unit]")).ToHaveTextAsync("ft = 30.5 m");
        await Expect(page.Locator("[data-field='line.length'] [data-mistake]")).ToBeEmptyAsync();
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Look_BrightSunChosen_StaysOnEveryPageAndDateIsInWords()
    {
        await using Watched watched = await site.Open("/jobs", address: program.Address);
        IPage page = await NewJob(watched);
        await page.Locator(".settings > summary").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Bright sun" }).ClickAsync();
        await Expect(page.Locator("html")).ToHaveAttributeAsync("data-look", "bright");
        await JobForms.Type(page, "date", "2026-11-26");
        await Expect(page.Locator("[data-field=date] [data-date-words]")).ToHaveTextAsync("Thu 26 November 2026");
        await JobForms.Saved(page);
        await page.GotoAsync(program.Address + "/flights");
        await Expect(page.Locator("html")).ToHaveAttributeAsync("data-look", "bright");
        watched.NothingWentWrong();
    }

    [Theory]
    [InlineData(820, "loads", "loads", true)]
    [InlineData(1440, "day", "crew", false)]
    public async Task Table_WiderThanItsBox_SaysThatItScrolls(int width, string part, string list, bool scrolls)
    {
        program.Store.Jobs.Save(Stillhook.App.Serving.JobEditing.Entry(JobForms.DemoText()), "planner A", DateTimeOffset.UnixEpoch);
        await using Watched watched = await site.Open($"/jobs/{program.Store.Jobs.List()[0].Key}?part={part}", width, address: program.Address);
        ILocator table = watched.Page.Locator($"[data-items={list}] .wide-table").First;
        if (scrolls)
            await Expect(table).ToHaveAttributeAsync("data-scrolls", "");
        else
            await Expect(table).Not.ToHaveAttributeAsync("data-scrolls", "");
        Assert.Equal(scrolls, await table.EvaluateAsync<bool>("b => b.scrollWidth > b.clientWidth + 1"));
    }

    [Fact]
    public async Task Decimals_CommaChosen_FieldsShowAndTakeItAndTheValueStaysTheSame()
    {
        await using Watched watched = await site.Open("/jobs", address: program.Address);
        IPage page = await NewJob(watched);
        string rigging = page.Url.Split('?')[0] + "?part=rigging";
        await page.GotoAsync(rigging);
        await JobForms.Type(page, "line.length", "30.5");
        await JobForms.Saved(page);
        await Decimals(page, "1,5");
        await Expect(page.Locator("[name='f:line.length']")).ToHaveValueAsync("30,5");
        await JobForms.Type(page, "line.dragArea", "0,45");
        await JobForms.Saved(page);
        Assert.Contains("\"lengthM\": 30.5", program.Store.Jobs.List()[0].Text, StringComparison.Ordinal);
        Assert.Contains("\"dragAreaM2\": 0.45", program.Store.Jobs.List()[0].Text, StringComparison.Ordinal);
        await JobForms.Type(page, "line.length", "1.260");
        await Expect(page.Locator("[data-field='line.length'] [data-mistake]")).ToContainTextAsync("such as 1260; a decimal comma stands before decimals");
        await JobForms.Type(page, "line.length", "31,5");
        await JobForms.Saved(page);
        await Decimals(page, "1.5");
        await Expect(page.Locator("[name='f:line.length']")).ToHaveValueAsync("31.5");
        await Expect(page.Locator("[name='f:line.dragArea']")).ToHaveValueAsync("0.45");
        watched.NothingWentWrong();
    }

    private static async Task Decimals(IPage page, string shown)
    {
        await page.Locator(".settings > summary").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = shown, Exact = true }).ClickAsync();
        await page.WaitForLoadStateAsync();
    }

    [Fact]
    public async Task TwoWindows_SameField_SecondIsToldAndChooses()
    {
        await using Watched one = await site.Open("/jobs", address: program.Address);
        IPage first = await NewJob(one);
        await using Watched two = await site.Open(new Uri(first.Url).PathAndQuery, address: program.Address);
        IPage second = two.Page;
        await JobForms.Type(first, "customer", "Trail club");
        await JobForms.Saved(first);
        await JobForms.Type(second, "day.start", "08:30");
        await JobForms.Saved(second);
        await JobForms.Type(second, "customer", "Hut keeper");
        await Expect(second.Locator("[data-field=customer] [data-mistake]")).ToContainTextAsync("Another window wrote “Trail club” here; you typed “Hut keeper”.");
        Assert.Contains("Trail club", program.Store.Jobs.List()[0].Text, StringComparison.Ordinal);
        await second.GetByRole(AriaRole.Button, new() { Name = "Keep “Hut keeper”" }).ClickAsync();
        await Expect(second.Locator("[data-field=customer] [data-mistake]")).ToBeEmptyAsync();
        await JobForms.Saved(second);
        KeptJob kept = program.Store.Jobs.List()[0];
        Assert.Contains("Hut keeper", kept.Text, StringComparison.Ordinal);
        Assert.Contains("08:30", kept.Text, StringComparison.Ordinal);
        one.NothingWentWrong();
        two.NothingWentWrong();
    }

    [Fact]
    public async Task TwoWindows_RowsMoved_SecondIsToldAndNothingIsWrittenInTheWrongRow()
    {
        await using Watched one = await site.Open("/jobs", address: program.Address);
        IPage first = await NewJob(one);
        string crew = new Uri(first.Url).PathAndQuery;
        await first.GetByRole(AriaRole.Button, new() { Name = "Add a person" }).ClickAsync();
        await JobForms.Type(first, "crew[0].name", "pilot B");
        await JobForms.Saved(first);
        await first.ReloadAsync();
        await using Watched two = await site.Open(crew, address: program.Address);
        await first.GetByRole(AriaRole.Button, new() { Name = "Take out pilot B" }).ClickAsync();
        await Expect(first.Locator("[data-items=crew] tbody tr")).ToHaveCountAsync(0);
        await JobForms.Type(two.Page, "crew[0].mass", "85");
        await Expect(two.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Another window added, moved or took out rows");
        Assert.DoesNotContain("85", program.Store.Jobs.List()[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Program_StoppedWhileTyping_NothingTypedIsLost()
    {
        await using Watched watched = await site.Open("/jobs", address: program.Address);
        IPage page = await NewJob(watched);
        string address = page.Url;
        await program.Stop();
        await JobForms.Type(page, "customer", "Typed while it was down");
        await Expect(page.Locator("[data-saved]")).ToContainTextAsync("Not saved yet");
        await program.Start();
        await JobForms.Saved(page);
        await page.GotoAsync(address);
        await Expect(page.Locator("[name='f:customer']")).ToHaveValueAsync("Typed while it was down");
    }

    [Fact]
    public async Task Map_TappedAndByKeys_PutsThePositionThere()
    {
        await using Watched watched = await site.Open("/jobs", address: program.Address);
        IPage page = await NewJob(watched);
        await page.GotoAsync(page.Url.Split('?')[0] + "?part=sites");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a site" }).ClickAsync();
        await JobForms.Type(page, "sites[0].name", "path bend");
        await JobForms.Type(page, "sites[0].use", "delivery");
        await JobForms.Type(page, "sites[0].latitude", "46.878134");
        await JobForms.Type(page, "sites[0].longitude", "10.197794");
        await JobForms.Saved(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a person on the ground" }).ClickAsync();
        await page.Locator(".site-map").FocusAsync();
        for (int i = 0; i < 14; i++)
            await page.Keyboard.PressAsync("ArrowUp");
        await page.Keyboard.PressAsync("Enter");
        await JobForms.Saved(page);
        // Closed form: 14 steps of 4 in 560 for 600 m are 60 m north, 0.000540 degrees of 111.2 km.
        double north = double.Parse(await page.Locator("[name='f:sites[0].people[0].latitude']").InputValueAsync(), System.Globalization.CultureInfo.InvariantCulture) - 46.878134;
        Assert.Equal(0.000540, north, 2e-6);
        await page.ReloadAsync();
        await Expect(page.Locator(".site-map circle.person")).ToHaveCountAsync(1);
        watched.NothingWentWrong();
    }

    [Theory]
    [InlineData(390)]
    [InlineData(820)]
    [InlineData(1440)]
    public async Task Parts_AtAnyWidth_DoNotScrollSideways(int width)
    {
        program.Store.Jobs.Save(Stillhook.App.Serving.JobEditing.Entry(JobForms.DemoText()), "planner A", DateTimeOffset.UnixEpoch);
        await using Watched watched = await site.Open($"/jobs/{program.Store.Jobs.List()[0].Key}", width, address: program.Address);
        foreach (string part in new[] { "day", "sites", "aircraft", "rigging", "loads", "rules" })
        {
            await watched.Page.GotoAsync(watched.Page.Url.Split('?')[0] + "?part=" + part);
            Assert.True(await watched.Page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= document.documentElement.clientWidth"), part);
        }
        watched.NothingWentWrong();
    }

    private static async Task<IPage> NewJob(Watched watched)
    {
        IPage page = watched.Page;
        await page.GetByLabel("What is the work called?").FillAsync("Spring work (invented)");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the job" }).ClickAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Spring work (invented)");
        return page;
    }
}
