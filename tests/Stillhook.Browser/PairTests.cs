using System.Globalization;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

public class PairTests(Site site)
{
    private string Deliveries => string.Create(CultureInfo.InvariantCulture, $"/deliveries/{site.FlightId}");

    [Fact]
    public async Task Pair_TwoChosen_SaysWhatDifferedAndWhatItCost()
    {
        await using Watched watched = await site.Open(Deliveries + "?show=1");
        IPage page = watched.Page;
        await page.Locator("#pair-0").SelectOptionAsync("3");
        await page.Locator("#pair-1").SelectOptionAsync("1");
        // Chosen the other way round: the earlier one stands first all the same.
        await Expect(page.Locator("[data-pair-cost]")).ToContainTextAsync("delivery 3 took");
        await Expect(page.Locator("[data-pair-cost]")).ToContainTextAsync("than delivery 1");
        ILocator rows = page.Locator("[data-differed] tbody tr");
        Assert.True(await rows.CountAsync() >= 5);
        string table = await page.Locator("[data-differed]").InnerTextAsync();
        Assert.Matches(@"Start height\s+\d+ ft\s+\d+ ft\s+([+−]\d+|0) ft", table);
        Assert.Contains("kt", table, StringComparison.Ordinal);
        // The parts add up to the whole, within their rounding to the second.
        double[] change = await page.Locator(".sided").First.Locator("tbody td:last-child").EvaluateAllAsync<double[]>("cells => cells.map(c => Number(c.innerText.replace('−', '-').replace(' s', '')))");
        Assert.Equal(4, change.Length);
        Assert.Equal(change[3], change[..3].Sum(), 2.0);
        Assert.DoesNotMatch("(?i)better|worse|best|faster|well done|rank", await page.Locator(".pair").InnerTextAsync());
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Pair_SameTwice_SaysToChooseAnother()
    {
        await using Watched watched = await site.Open(Deliveries + "?show=1&pair=2&pair=2#pair");
        await Expect(watched.Page.Locator("[data-pair-refused]")).ToContainTextAsync("choose another one");
        watched.NothingWentWrong();
    }

    [Theory]
    [InlineData(390)]
    [InlineData(820)]
    [InlineData(1440)]
    public async Task Page_WithCorrectionAndPair_NeverScrollsSidewaysAndHasLargeTargets(int width)
    {
        await using Watched watched = await site.Open(Deliveries + "?show=1&show=3&correct=2", width);
        IPage page = watched.Page;
        await Expect(page.Locator("[data-plot=right] canvas")).ToBeVisibleAsync();
        await Expect(page.Locator("[data-pair-cost]")).ToBeVisibleAsync();
        await page.Locator("[data-time]").EvaluateAsync("e => { e.value = -12; e.dispatchEvent(new Event('input')); }");
        Assert.Equal(width, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
        // Common practice, no source: 56 px can be hit with a gloved finger.
        Assert.Empty(await page.EvaluateAsync<string[]>("""
            [...document.querySelectorAll('main button, main summary, main select, main a.file, main .load-of a, .speeds label, main input:not([type=hidden]):not([type=checkbox])')]
              .filter(e => e.offsetParent && e.getBoundingClientRect().height < 55.5).map(e => e.outerHTML.slice(0, 80))
            """));
        await page.ScreenshotAsync(new() { Path = Path.Combine(AppContext.BaseDirectory, "screenshots", $"delivery-work-{width}.png"), FullPage = true });
        watched.NothingWentWrong();
    }
}
