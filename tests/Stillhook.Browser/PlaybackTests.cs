using System.Globalization;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

public class PlaybackTests(Site site)
{
    private string Deliveries => string.Create(CultureInfo.InvariantCulture, $"/deliveries/{site.FlightId}");

    private const string CloseSide = "#panel figure.wide:last-child svg.side ";

    [Fact]
    public async Task Play_AtTwentyTimes_MovesHookAndLoadAndStopsAtTheEnd()
    {
        await using Watched watched = await site.Open(Deliveries + "?show=1");
        IPage page = watched.Page;
        await Expect(page.Locator("[data-player]")).ToBeVisibleAsync();
        await Expect(page.Locator("[data-no-load]")).ToHaveCountAsync(0);
        ILocator load = page.Locator("#panel svg.plan").First.Locator("g.load-now");
        await Expect(load).ToHaveAttributeAsync("visibility", "hidden");
        await page.Locator("[data-time]").EvaluateAsync("e => { e.value = -20; e.dispatchEvent(new Event('input')); }");
        await Expect(load).ToHaveAttributeAsync("visibility", "visible");
        string before = (await load.GetAttributeAsync("transform"))!;
        // A load's ring is as wide as its band, which is never nothing.
        Assert.True(await load.Locator("ellipse").EvaluateAsync<double>("e => Number(e.getAttribute('rx'))") > 0);
        await Expect(page.Locator("[data-moments] li")).ToContainTextAsync("plumb (±");
        await page.Locator(".speeds label", new() { HasTextString = "20×" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Play", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Play again" })).ToBeVisibleAsync();
        Assert.NotEqual(before, await load.GetAttributeAsync("transform"));
        string end = await page.Locator("[data-time]").EvaluateAsync<string>("e => e.value === e.max ? 'end' : e.value");
        Assert.Equal("end", end);
        await Expect(page.Locator("[data-moments] li")).ToContainTextAsync("load down");
        await Expect(load).ToHaveAttributeAsync("visibility", "hidden");
        // Every plot followed: each says a value for delivery 1.
        foreach (string plot in new[] { "speed", "sink", "power", "fore", "right" })
            await Expect(page.Locator($"[data-plot={plot}] output")).ToContainTextAsync("1:");
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Keys_SpaceAndArrows_PlayStopAndMoveByASecond()
    {
        await using Watched watched = await site.Open(Deliveries + "?show=1");
        IPage page = watched.Page;
        ILocator slider = page.Locator("[data-time]");
        await Expect(slider).ToBeVisibleAsync();
        await slider.FocusAsync();
        double start = double.Parse(await slider.InputValueAsync(), CultureInfo.InvariantCulture);
        await page.Keyboard.PressAsync("ArrowRight");
        await page.Keyboard.PressAsync("ArrowRight");
        await page.Keyboard.PressAsync("ArrowLeft");
        // Closed form: two seconds on, one back. The slider shows tenths.
        Assert.Equal(start + 1, double.Parse(await slider.InputValueAsync(), CultureInfo.InvariantCulture), 0.11);
        await page.Keyboard.PressAsync("Shift+ArrowRight");
        Assert.Equal(start + 11, double.Parse(await slider.InputValueAsync(), CultureInfo.InvariantCulture), 0.11);
        await page.Keyboard.PressAsync("Space");
        await Expect(page.Locator("[data-play]")).ToHaveTextAsync("Stop");
        await page.Locator("[data-play]").FocusAsync();
        await page.Keyboard.PressAsync("Space");
        await Expect(page.Locator("[data-play]")).ToHaveTextAsync("Play");
        double stopped = double.Parse(await slider.InputValueAsync(), CultureInfo.InvariantCulture);
        await page.WaitForTimeoutAsync(300);
        Assert.Equal(stopped, double.Parse(await slider.InputValueAsync(), CultureInfo.InvariantCulture));
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Play_LessMotionAskedFor_StepsOnceASecond()
    {
        await using Watched watched = await site.Open(Deliveries + "?show=1", calm: true);
        IPage page = watched.Page;
        await Expect(page.Locator("[data-calm]")).ToBeVisibleAsync();
        await page.Locator("[data-play]").ClickAsync();
        // Common practice, no source: with motion about 60 pictures a second would be drawn; one a second is no motion.
        int pictures = await page.EvaluateAsync<int>("""
            () => new Promise(done => {
              const hook = document.querySelector('#panel svg.plan g.hook-now');
              let changes = 0;
              const seen = new MutationObserver(() => { changes++; });
              seen.observe(hook, { attributes: true, attributeFilter: ['transform'] });
              setTimeout(() => { seen.disconnect(); done(changes); }, 2500);
            })
            """);
        Assert.InRange(pictures, 1, 4);
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Play_SwingCannotBeJudged_NoLoadIsDrawnAndThePageSaysSo()
    {
        await using Watched watched = await site.Open("/flights");
        IPage page = watched.Page;
        await page.Locator("#records").SetInputFilesAsync(site.SparseRecord);
        await page.Locator("[data-upload=kept] a.button").First.ClickAsync();
        await Expect(page.Locator("[data-no-load]")).ToContainTextAsync("its swing cannot be judged");
        await page.Locator("[data-time]").EvaluateAsync("e => { e.value = -15; e.dispatchEvent(new Event('input')); }");
        await Expect(page.Locator("[data-moments] li")).ToContainTextAsync("load not known");
        await Expect(page.Locator(CloseSide + "g.load-now")).ToHaveAttributeAsync("visibility", "hidden");
        await Expect(page.Locator(CloseSide + "g.line-now")).ToHaveAttributeAsync("visibility", "hidden");
        await Expect(page.Locator(CloseSide + "g.hook-now")).ToHaveAttributeAsync("visibility", "visible");
        await Expect(page.Locator("a.file[href*='/fore.']")).ToHaveCountAsync(0);
        watched.NothingWentWrong();
    }

    [Theory]
    [InlineData("plan.svg", "<svg ", "delivery 1")]
    [InlineData("side-close.svg", "<svg ", "delivery 1")]
    [InlineData("fore.svg", "<svg ", "nine times in ten")]
    [InlineData("plan.csv", "delivery,timeUtc,toContactS,hookEastM,hookNorthM,loadEastM,loadNorthM,loadEastBandM,loadNorthBandM", "")]
    [InlineData("speed.csv", "delivery,timeUtc,toContactS,toGoM,groundSpeedKt", "")]
    public async Task Files_LinkUnderAPicture_IsSaved(string file, string begins, string holds)
    {
        await using Watched watched = await site.Open(Deliveries + "?show=1");
        IPage page = watched.Page;
        IDownload saved = await page.RunAndWaitForDownloadAsync(() => page.Locator($"a.file[href*='/{file}']").First.ClickAsync());
        Assert.Equal($"day-in-the-store delivery 1 {file}", saved.SuggestedFilename);
        string text = await File.ReadAllTextAsync((await saved.PathAsync())!, TestContext.Current.CancellationToken);
        Assert.StartsWith(begins, text, StringComparison.Ordinal);
        Assert.Contains(holds, text, StringComparison.OrdinalIgnoreCase);
        if (file.EndsWith(".svg", StringComparison.Ordinal))
            System.Xml.Linq.XElement.Parse(text);
        else
            Assert.True(text.Split("\r\n").Length > 100);
        watched.NothingWentWrong();
    }
}
