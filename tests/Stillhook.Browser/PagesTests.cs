using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;
using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Store;

namespace Stillhook.Browser;

/// <summary>The program with the invented day in its store: job, record with its lifts, cards issued once, aircraft and parts.</summary>
public class DemoProgram : IAsyncLifetime
{
    /// <summary>The program itself.</summary>
    protected OwnProgram Program { get; } = new();

    /// <summary>How it is opened to a network; null when it is not.</summary>
    protected virtual OpenedPages? Opened => null;

    /// <summary>Where its pages are.</summary>
    public string Address => Program.Address;

    /// <summary>The pages by name, in the order of the work.</summary>
    public IReadOnlyDictionary<string, string> Pages { get; private set; } = new Dictionary<string, string>();

    public virtual async ValueTask InitializeAsync()
    {
        await Program.Start(Opened);
        WorkStore store = Program.Store;
        KeptJob job = store.Jobs.Save(JobEditing.Entry(JobForms.DemoText()), "planner A", DateTimeOffset.UnixEpoch);
        string record = Path.Combine(Program.Folder, DemoFlight.FileName);
        await File.WriteAllBytesAsync(record, DemoFlight.Record());
        string jobFile = Path.Combine(Program.Folder, "job.json");
        await File.WriteAllTextAsync(jobFile, JobForms.DemoText());
        string place = Path.Combine(Program.Folder, "work.db");
        Assert.Equal(0, ImportCommand.Create().Parse([record, "--job", jobFile, "--store", place, "--by", "planner A"]).Invoke());
        long flight = store.Flights.List()[0].Id;
        job = store.Jobs.List()[0];
        string of = $"/jobs/{job.Key}";
        Pages = new Dictionary<string, string>
        {
            ["jobs"] = "/jobs", ["job-day"] = of, ["job-sites"] = of + "?part=sites", ["job-aircraft"] = of + "?part=aircraft", ["job-rigging"] = of + "?part=rigging", ["job-loads"] = of + "?part=loads&open=loads%5B0%5D", ["job-rules"] = of + "?part=rules",
            ["lift-plan"] = of + "/plan", ["approach"] = of + "/approach", ["cards"] = of + "/cards", ["flights"] = "/flights", ["deliveries"] = string.Create(CultureInfo.InvariantCulture, $"/deliveries/{flight}"),
            ["next"] = of + "/next", ["day"] = "/days/2025-09-16", ["reports"] = of + "/report", ["aircraft"] = "/aircraft",
        };
    }

    public async ValueTask DisposeAsync()
    {
        await Program.DisposeAsync();
        GC.SuppressFinalize(this);
    }
}

/// <summary>Every page at three widths: rules of accessibility, nothing wider than the window, nothing asked from elsewhere; its picture is kept.</summary>
public sealed class PagesTests(Site site, DemoProgram demo) : IClassFixture<DemoProgram>
{
    private static readonly string Axe = File.ReadAllText(Path.Combine(Root(), "web", "node_modules", "axe-core", "axe.min.js"));

    public static TheoryData<string> Names => ["jobs", "job-day", "job-sites", "job-aircraft", "job-rigging", "job-loads", "job-rules", "lift-plan", "approach", "cards", "flights", "deliveries", "next", "day", "reports", "aircraft"];

    [Theory]
    [MemberData(nameof(Names))]
    public async Task Page_AtThreeWidths_IsAccessibleAndFits(string name)
    {
        await using Watched watched = await site.Open(demo.Pages[name], 1440, address: demo.Address);
        IPage page = watched.Page;
        string of = demo.Pages["job-day"];
        await page.GotoAsync(demo.Address + of);
        foreach (int width in new[] { 1440, 820, 390 })
        {
            await page.SetViewportSizeAsync(width, 1000);
            await page.GotoAsync(demo.Address + demo.Pages[name], new() { WaitUntil = WaitUntilState.NetworkIdle });
            Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0, $"{name} is wider than {width}: {await page.EvaluateAsync<string>(Widest)}");
            await Rules(page, $"{name} at {width}");
            await Picture(page, name, width);
        }
        watched.NothingWentWrong();
    }

    [Theory]
    [MemberData(nameof(Names))]
    public async Task Page_ByNightAndInBrightSun_IsReadable(string name)
    {
        await using Watched watched = await site.Open(demo.Pages["job-day"], 820, address: demo.Address);
        IPage page = watched.Page;
        foreach (string look in new[] { "night", "bright" })
        {
            await page.Context.AddCookiesAsync([new() { Name = "look", Value = look, Url = demo.Address }]);
            await page.GotoAsync(demo.Address + demo.Pages[name], new() { WaitUntil = WaitUntilState.NetworkIdle });
            Assert.Equal(look, await page.EvaluateAsync<string>("document.documentElement.dataset.look"));
            Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0, $"{name}, {look}, is too wide: {await page.EvaluateAsync<string>(Widest)}");
            await Rules(page, $"{name}, {look}", enhanced: look == "bright");
            await Picture(page, $"{name}-{look}", 820, kept: false);
        }
        watched.NothingWentWrong();
    }

    /// <summary>Published: the rules of WCAG 2.2 AA that a program can check, by axe-core; enhanced asks for its contrast of 7 to 1.</summary>
    internal static async Task Rules(IPage page, string where, bool enhanced = false)
    {
        await page.EvaluateAsync(Axe);
        JsonElement found = await page.EvaluateAsync<JsonElement>("""
            async (enhanced) => (await axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"], rules: { "color-contrast-enhanced": { enabled: enhanced } } })).violations.map(v => v.id + ": " + v.help + " at " + v.nodes.slice(0, 3).map(n => n.target.join(" ") + " " + (n.failureSummary ?? "").split("\n").slice(1, 2).join("")).join("; "))
            """, enhanced);
        string[] broken = [.. found.EnumerateArray().Select(v => v.GetString()!)];
        Assert.True(broken.Length == 0, $"{where}:\n{string.Join('\n', broken)}");
    }

    internal const string Widest = "[...document.querySelectorAll('body *')].filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1).slice(0, 4).map(e => e.tagName + '.' + e.className + '#' + e.id).join(' | ')";

    /// <summary>Kept among the build's artefacts; with STILLHOOK_PICTURES=docs in docs/pages.</summary>
    internal static async Task Picture(IPage page, string name, int width, bool kept = true)
    {
        string folder = kept && Environment.GetEnvironmentVariable("STILLHOOK_PICTURES") == "docs" ? Path.Combine(Root(), "docs", "pages") : Path.Combine(Root(), "artifacts", "pages");
        Directory.CreateDirectory(folder);
        int height = await page.EvaluateAsync<int>("document.documentElement.scrollHeight");
        await page.ScreenshotAsync(new()
        {
            Path = Path.Combine(folder, FormattableString.Invariant($"{name}-{width}.jpg")), Type = ScreenshotType.Jpeg, Quality = 60, FullPage = true,
            Clip = new() { X = 0, Y = 0, Width = width, Height = Math.Min(height, 2000) },
        });
    }

    private static string Root()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "Stillhook.slnx")))
                return folder.FullName;
        throw new InvalidOperationException("The tests run from inside the repository: Stillhook.slnx was not found above them.");
    }
}
