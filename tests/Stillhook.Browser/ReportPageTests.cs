using System.Net;
using System.Text;
using System.Text.Json;
using System.Xml.Linq;
using Microsoft.Playwright;
using Stillhook.Files.Jobs;
using Stillhook.Store;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

public class ReportPageTests(DaySite site) : IClassFixture<DaySite>
{
    private string Address => $"/jobs/{site.Job}/report";

    private async Task<byte[]> Get(string file, string type)
    {
        using HttpClient client = new();
        using HttpResponseMessage answer = await client.GetAsync($"{site.Address}{Address}/{file}", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(type, answer.Content.Headers.ContentType?.MediaType);
        return await answer.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Page_OfTheDemoDay_ShowsWhatTheCustomerReads()
    {
        await using Watched watched = await site.Open(Address);
        ILocator printed = watched.Page.Locator(".sheet .printed");
        // Simulated truth: 24 lifts; how many of them are of the list is the reconciliation's matter.
        await Expect(printed).ToContainTextAsync("Loads placed");
        await Expect(printed.Locator("svg.picture").First).ToBeVisibleAsync();
        Assert.DoesNotContain("invoice", (await printed.InnerTextAsync()).ToLowerInvariant(), StringComparison.Ordinal);
        watched.NothingWentWrong();
    }

    [Fact]
    public async Task Files_AreWhatTheirNamesSay()
    {
        Assert.Equal("%PDF-", Encoding.ASCII.GetString(await Get("report.pdf", "application/pdf"), 0, 5));
        Assert.True((await Get("report-with-invoice.pdf", "application/pdf")).Length > (await Get("report.pdf", "application/pdf")).Length);
        // Simulated truth: 24 loads and two sites.
        Assert.Equal(DaySite.Lifts + 2, XDocument.Load(new MemoryStream(await Get("placed.gpx", "application/gpx+xml"))).Descendants().Count(e => e.Name.LocalName == "wpt"));
        using JsonDocument geo = JsonDocument.Parse(await Get("placed.geojson", "application/geo+json"));
        Assert.Equal("FeatureCollection", geo.RootElement.GetProperty("type").GetString());
        Assert.NotEmpty(await Get("placed.csv", "text/csv"));
        Assert.NotEmpty(await Get("invoice.csv", "text/csv"));
        Assert.StartsWith("<!DOCTYPE html>", Encoding.UTF8.GetString(await Get("report.html", "text/html")), StringComparison.Ordinal);
        Assert.DoesNotContain(JobFile.Read(new MemoryStream(await Get("next-job.json", "application/json"))).Findings, f => f.Code.StartsWith("json", StringComparison.Ordinal));
    }

    [Fact]
    public async Task NextJob_Started_HoldsTheSitesAndTheMeasuredRotation()
    {
        await using Watched watched = await site.Open(Address);
        IPage page = watched.Page;
        ILocator form = page.Locator(".next-job form");
        await form.GetByRole(AriaRole.Button, new() { Name = "Start it" }).ClickAsync();
        await Expect(form.Locator("#next-name-note")).ToContainTextAsync("Write a name");
        await form.GetByLabel("Name of the next job").FillAsync("Hut supply in spring");
        await form.GetByLabel("Your name").FillAsync("Anna");
        await form.GetByRole(AriaRole.Button, new() { Name = "Start it" }).ClickAsync();
        await page.WaitForURLAsync(url => !url.Contains(site.Job.ToString(), StringComparison.Ordinal) && url.Contains("/jobs/", StringComparison.Ordinal));
        KeptJob next = site.Store.Jobs.List().Single(j => j.Name == "Hut supply in spring");
        Assert.EndsWith($"/jobs/{next.Key}", page.Url, StringComparison.Ordinal);
        JobFile file = JobFile.Read(next.Text);
        Assert.Equal(JobFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(site.Store.Jobs.Find(site.Job)!.Text))).Request.Sites.Count, file.Request.Sites.Count);
        // Simulated truth: 24 lifts in one flight have 23 times from lift-off to lift-off; long stops are left out.
        Assert.InRange(file.Request.Quote!.MeasuredOn!.Value, 15, DaySite.Lifts - 1);
        Assert.InRange(file.Request.Quote.Cycle!.Value.Seconds, 100, 400);
        Assert.All(file.Request.Sites, s => Assert.Null(s.Weather));
    }

    [Fact]
    public async Task Page_OfAJobWithoutLifts_SaysWhatToDo()
    {
        KeptJob empty = site.Store.Jobs.Save(new("Nothing flown yet", "{ \"job\": \"Nothing flown yet\" }"), "test", DateTimeOffset.UnixEpoch);
        await using Watched watched = await site.Open($"/jobs/{empty.Key}/report");
        await Expect(watched.Page.Locator("main")).ToContainTextAsync("No lift of this job is kept yet");
        watched.NothingWentWrong();
    }

    [Theory]
    [InlineData(390)]
    [InlineData(820)]
    [InlineData(1440)]
    public async Task Page_AtAnyWidth_NeverScrollsSideways(int width)
    {
        await using Watched watched = await site.Open(Address, width);
        Assert.Equal(width, await watched.Page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
        await watched.Page.ScreenshotAsync(new() { Path = Path.Combine(AppContext.BaseDirectory, "screenshots", $"report-{width}.png"), FullPage = true });
        watched.NothingWentWrong();
    }
}
