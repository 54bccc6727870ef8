using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

/// <summary>The lift plan of the example job: the answer, an order tried by mouse and keyboard, the working of a figure.</summary>
public class PlanPageTests(Site site)
{
    private string Plan => $"/jobs/{site.JobKey}/plan";

    [Theory]
    [InlineData(390)]
    [InlineData(820)]
    [InlineData(1440)]
    public async Task Page_AtEveryWidth_AnswersFirstAndDoesNotScrollSideways(int width)
    {
        await using Watched watched = await site.Open(Plan, width);
        IPage page = watched.Page;
        await Expect(page.Locator("[data-answer]")).ToHaveTextAsync("All 24 loads lift.");
        await Expect(page.Locator("[data-load-row]")).ToHaveCountAsync(24);
        await Expect(page.Locator("[data-order-panel] svg.time-line")).ToHaveCountAsync(1);
        await Expect(page.Locator("svg.chain")).ToHaveCountAsync(2);
        Assert.False(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth > innerWidth + 1"));
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Order_MovedByKeyboard_SaysWhatBreaksAndGoesBack()
    {
        await using Watched watched = await site.Open(Plan);
        IPage page = watched.Page;
        // Load 18 must come after load 4: before it and it does not.
        ILocator answer = page.Locator("[data-order-answer]");
        string planned = await answer.InnerTextAsync();
        await page.Locator("[data-load-by-load] > summary").PressAsync("Enter");
        string[] order = await page.EvaluateAsync<string[]>("[...document.querySelectorAll('[data-order-list] > li')].map(l => l.dataset.load)");
        int at = Array.IndexOf(order, "18"), other = Array.IndexOf(order, "4");
        Assert.True(at > other);
        for (int i = at - 1; i >= other; i--)
        {
            ILocator earlier = page.GetByRole(AriaRole.Button, new() { Name = "Load 18 one place earlier" });
            if (i == at - 1)
                await earlier.FocusAsync();
            await page.Keyboard.PressAsync("Enter");
            await Expect(page.Locator("[data-order-list] > li").Nth(i)).ToHaveAttributeAsync("data-load", "18");
            await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Load 18 one place earlier" })).ToBeFocusedAsync();
        }
        await Expect(answer).ToContainTextAsync("Load 18 must come after load 4.");
        await Expect(page.Locator("[data-order-panel]")).ToHaveAttributeAsync("data-holds", "no");
        await page.GetByText("Back to the planned order").ClickAsync();
        await Expect(answer).ToHaveTextAsync(planned, new() { UseInnerText = true });
        await Expect(page.Locator("[data-order-list] > li").Nth(at)).ToHaveAttributeAsync("data-load", "18");
        watched.NothingWentWrong();
    }

    [Theory]
    [InlineData(390)]
    [InlineData(1180)]
    public async Task Order_DraggedByTheHandle_IsTried(int width)
    {
        await using Watched watched = await site.Open(Plan, width);
        IPage page = watched.Page;
        ILocator rows = page.Locator("[data-order-list] > li");
        await page.Locator("[data-load-by-load] > summary").ClickAsync();
        await rows.Nth(19).ScrollIntoViewIfNeededAsync();
        string load = (await rows.Nth(19).GetAttributeAsync("data-load"))!;
        LocatorBoundingBoxResult from = (await rows.Nth(19).Locator("[data-handle]").BoundingBoxAsync())!, to = (await rows.Nth(17).BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(from.X + from.Width / 2, from.Y + from.Height / 2);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(from.X + from.Width / 2, to.Y + to.Height, new() { Steps = 4 });
        await page.Mouse.MoveAsync(from.X + from.Width / 2, to.Y + 4, new() { Steps = 8 });
        await page.Mouse.UpAsync();
        await Expect(page.Locator("[data-order-panel]")).ToHaveAttributeAsync("data-moved", "yes");
        await Expect(rows.Nth(17)).ToHaveAttributeAsync("data-load", load);
        await Expect(page.Locator("[data-order-answer]")).ToContainTextAsync("This order");
        watched.NothingWentWrong();
    }

    [Theory]
    [InlineData(390)]
    [InlineData(820)]
    public async Task Order_DraggedWithAFinger_IsTriedAndThePageDoesNotScroll(int width)
    {
        await using Watched watched = await site.Open(Plan, width, touch: true);
        IPage page = watched.Page;
        ILocator rows = page.Locator("[data-order-list] > li");
        await page.Locator("[data-load-by-load] > summary").ClickAsync();
        // Away from both edges, where holding a load scrolls on purpose.
        await rows.Nth(18).EvaluateAsync("e => e.scrollIntoView({ block: 'center', behavior: 'instant' })");
        string load = (await rows.Nth(19).GetAttributeAsync("data-load"))!;
        LocatorBoundingBoxResult from = (await rows.Nth(19).Locator("[data-handle]").BoundingBoxAsync())!, to = (await rows.Nth(17).BoundingBoxAsync())!;
        double scrolled = await page.EvaluateAsync<double>("scrollY");
        ICDPSession finger = await page.Context.NewCDPSessionAsync(page);
        double x = from.X + from.Width / 2, y = from.Y + from.Height / 2, end = to.Y + 4;
        Task Touch(string kind, double? at) => finger.SendAsync("Input.dispatchTouchEvent", new() { ["type"] = kind, ["touchPoints"] = at is { } down ? new[] { new { x, y = down } } : [] });
        await Touch("touchStart", y);
        for (int i = 1; i <= 12; i++)
            await Touch("touchMove", y + (end - y) * i / 12);
        Assert.Equal(scrolled, await page.EvaluateAsync<double>("scrollY"), 1.0);
        await Touch("touchEnd", null);
        await Expect(page.Locator("[data-order-panel]")).ToHaveAttributeAsync("data-moved", "yes");
        await Expect(rows.Nth(17)).ToHaveAttributeAsync("data-load", load);
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Why_OpenedByKeyboard_ShowsTheWorkingAndLeadsOn()
    {
        await using Watched watched = await site.Open(Plan, 820);
        IPage page = watched.Page;
        foreach (ILocator alike in await page.Locator("[data-alike] > details > summary").AllAsync())
            await alike.PressAsync("Enter");
        ILocator link = page.Locator("[data-load-row='7'] a[data-why]").Nth(1);
        await link.FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        ILocator dialog = page.Locator("dialog.why-dialog");
        await Expect(dialog.Locator("h2")).ToHaveTextAsync("Most that load 7 may weigh");
        await dialog.Locator("a[data-why]").First.PressAsync("Enter");
        await Expect(dialog.Locator("h2")).ToContainTextAsync("at turning place");
        await Expect(dialog).ToContainTextAsync("aircraft.hookLimit");
        await dialog.GetByText("Back", new() { Exact = true }).PressAsync("Enter");
        await Expect(dialog.Locator("h2")).ToHaveTextAsync("Most that load 7 may weigh");
        await page.Keyboard.PressAsync("Escape");
        await Expect(dialog).ToBeHiddenAsync();
        await Expect(link).ToBeFocusedAsync();
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Recheck_WarmerAndWrong_SaysWhatMovedAndWhatToType()
    {
        await using Watched watched = await site.Open(Plan, 820);
        IPage page = watched.Page;
        await page.GetByLabel("Outside air temperature").FillAsync("warm");
        await page.GetByText("Check again").ClickAsync();
        await Expect(page.Locator("#shift-oat-help")).ToContainTextAsync("24C");
        await page.GetByLabel("Outside air temperature").FillAsync("16C");
        await page.GetByText("Check again").ClickAsync();
        await Expect(page.Locator("[data-recheck]")).ToContainTextAsync("Loads still to fly");
    }
}
