using Microsoft.Playwright;
using Stillhook.Store;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

public class NextPageTests(DaySite site) : IClassFixture<DaySite>
{
    private string Address => $"/jobs/{site.Job}/next";

    [Fact]
    public async Task Page_OfTheDemoDay_SaysOneLineASiteWithWhatItRestsOn()
    {
        await using Watched watched = await site.Open(Address);
        IPage page = watched.Page;
        await Expect(page.Locator(".caution")).ToContainTextAsync("Read now or on the ground.");
        // Simulated truth: the demo day flies past the torque limit once.
        await Expect(page.Locator("[data-write-up]")).ToContainTextAsync("Do not fly on until written up and checked.");
        ILocator line = page.Locator("section.next:not([data-write-up])");
        await Expect(line.Locator("[data-next]").First).Not.ToBeEmptyAsync();
        await Expect(line.First).ToContainTextAsync("as no card was issued");
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "Make the next card" })).ToHaveAttributeAsync("href", $"/jobs/{site.Job}/cards");
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task ReadAgain_Qnh_GivesTheAltimeterLineAndNewMarks()
    {
        await using Watched watched = await site.Open(Address);
        IPage page = watched.Page;
        await page.GetByLabel("QNH").FillAsync("1001hPa");
        await page.GetByLabel("Local time").FillAsync("08:30");
        await page.GetByRole(AriaRole.Button, new() { Name = "Check again" }).ClickAsync();
        await Expect(page.Locator("#now")).ToContainTextAsync("altimeter now reads about");
        await Expect(page.Locator("#now .site-marks table").First).ToBeVisibleAsync();
        await Expect(page.Locator("#now")).ToContainTextAsync("1001.0 hPa");
        // An altimeter set to the new QNH reads the same height, so no mark may differ from what it was by more than one 20 ft step.
        foreach (ILocator row in await page.Locator("#now .site-marks tbody tr").AllAsync())
        {
            string now = await row.Locator("td").Nth(1).Locator("b").InnerTextAsync(), was = await row.Locator("td").Nth(2).InnerTextAsync();
            if (was != "–")
                Assert.InRange(Math.Abs(Feet(now) - Feet(was)), 0, 20);
        }
        // What was not read again is said.
        await Expect(page.Locator("#now")).ToContainTextAsync("Not read now at");
        watched.NothingWentWrong();
    }

    private static int Feet(string text) => int.Parse(text.Replace(" ft", "", StringComparison.Ordinal), System.Globalization.CultureInfo.InvariantCulture);

    [Fact]
    public async Task ReadAgain_WithAMistake_SaysItBesideTheField()
    {
        await using Watched watched = await site.Open(Address + "?qnh=1011&wind=abc");
        await Expect(watched.Page.Locator("#read-qnh-note")).ToContainTextAsync("such as 1013hPa");
        await Expect(watched.Page.Locator("#read-wind-note")).ToContainTextAsync("such as 240/12kt");
        await Expect(watched.Page.GetByLabel("QNH")).ToHaveValueAsync("1011");
        await Expect(watched.Page.Locator("#now table")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Page_OfAJobWithoutADay_SaysWhereToWriteIt()
    {
        KeptJob undated = site.Store.Jobs.Save(new("Undated", "{ \"job\": \"Undated\" }"), "test", DateTimeOffset.UnixEpoch);
        await using Watched watched = await site.Open($"/jobs/{undated.Key}/next");
        await Expect(watched.Page.Locator("main")).ToContainTextAsync("on the Job page");
        watched.NothingWentWrong();
    }

    [Theory]
    [InlineData(390)]
    [InlineData(820)]
    [InlineData(1440)]
    public async Task Page_AtAnyWidth_NeverScrollsSideways(int width)
    {
        await using Watched watched = await site.Open(Address + "?qnh=1001hPa&time=08:30", width);
        Assert.Equal(width, await watched.Page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
        await watched.Page.ScreenshotAsync(new() { Path = Path.Combine(AppContext.BaseDirectory, "screenshots", $"next-{width}.png"), FullPage = true });
        watched.NothingWentWrong();
    }
}
