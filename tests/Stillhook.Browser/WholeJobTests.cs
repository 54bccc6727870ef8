using System.Text;
using Microsoft.Playwright;
using Stillhook.App.Commands;
using Stillhook.Store;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

/// <summary>The whole job made by clicking: from an empty store to the printed card, and, after the day's record was handed in, to the next card.</summary>
public sealed class WholeJobTests(Site site) : IAsyncLifetime
{
    private readonly OwnProgram program = new();

    public async ValueTask InitializeAsync() => await program.Start();

    public ValueTask DisposeAsync() => program.DisposeAsync();

    [Fact]
    public async Task Job_FromNothingByForms_PlansPrintsDebriefsAndPrintsAgain()
    {
        await using Watched watched = await site.Open("/jobs", address: program.Address);
        IPage page = watched.Page;
        string job = await JobForms.Make(page, program.Address, loads: 17);

        await page.GetByRole(AriaRole.Link, new() { Name = "Next: Lift plan" }).ClickAsync();
        await Expect(page.Locator("[data-answer]")).ToContainTextAsync("17");
        await page.GetByRole(AriaRole.Link, new() { Name = "Approach", Exact = true }).ClickAsync();
        await Expect(page.Locator("[data-answer]").First).ToContainTextAsync("Fly course");

        await page.GetByRole(AriaRole.Link, new() { Name = "Cards", Exact = true }).ClickAsync();
        await Expect(page.Locator(".printed-card").First).ToContainTextAsync("Advice only.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Issue these cards" }).ClickAsync();
        await Expect(page.Locator(".issued-cards a").First).ToBeVisibleAsync();
        IReadOnlyList<IssuedCard> issued = program.Store.Jobs.Cards(Guid.Parse(job.Split('/')[^1]));
        IssuedCard pdf = issued.First(c => c.MediaType == "application/pdf");
        Assert.Equal("%PDF", Encoding.ASCII.GetString(program.Store.Jobs.CardContent(pdf.Key)!, 0, 4));

        await page.GetByRole(AriaRole.Link, new() { Name = "Next: Flights" }).ClickAsync();
        string record = Path.Combine(program.Folder, DemoFlight.FileName);
        await File.WriteAllBytesAsync(record, DemoFlight.Record(), TestContext.Current.CancellationToken);
        await page.Locator("#records").SetInputFilesAsync(record);
        await Expect(page.Locator(".upload-result")).ToContainTextAsync("deliveries", new() { Timeout = 120_000 });
        await page.Locator(".upload-result a").First.ClickAsync();
        // Simulated truth: the invented day has 24 deliveries.
        await Expect(page.Locator(".rotations tbody tr")).ToHaveCountAsync(24);

        await page.GetByRole(AriaRole.Link, new() { Name = "Next", Exact = true }).ClickAsync();
        await Expect(page.Locator("[data-next]").First).Not.ToBeEmptyAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Cards", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Issue these cards" }).ClickAsync();
        await Expect(page.Locator("#issued h3")).ToHaveCountAsync(2);
        await page.GetByRole(AriaRole.Link, new() { Name = "Day", Exact = true }).ClickAsync();
        await Expect(page.Locator("main")).ToContainTextAsync("24");
        await page.GetByRole(AriaRole.Link, new() { Name = "Reports", Exact = true }).ClickAsync();
        await Expect(page.Locator("main")).ToContainTextAsync("24: ");
        watched.NothingWentWrong();
    }
}
