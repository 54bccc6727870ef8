using System.IO.Compression;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Stillhook.App.Commands;
using static Microsoft.Playwright.Assertions;

namespace Stillhook.Browser;

/// <summary>An elevation grid as a surveying agency gives it, handed in on the approach page: in side view and in space, refused where it can't be used, still there the next morning.</summary>
public sealed class GroundTests(Site site)
{
    // Real record: SRTM of northern New Hampshire, tests/data/terrain/SOURCES.md. The example's sites are moved there, apart as they are.
    private const double NorthDeg = 44.72833 - 46.878134, EastDeg = -71.2225 - 10.197794;

    [Fact]
    public async Task Grid_RealOne_IsDrawnRefusedInWordsWhenBadAndKeptOverARestart()
    {
        await using OwnProgram program = new();
        await program.Start();
        string tile = Path.Combine(program.Folder, "N44W072.hgt"), bad = Path.Combine(program.Folder, "N45W072.hgt"), metres = Data("terrain/west_bijou_gully.asc");
        Unpack(Data("terrain/N44W072.hgt.gz"), tile);
        await File.WriteAllTextAsync(bad, "no heights at all", TestContext.Current.CancellationToken);
        Guid key = program.Store.Jobs.Save(new("in the mountains", Moved(DemoFlight.JobText())), "a test", DateTimeOffset.UnixEpoch).Key;
        string address = $"/jobs/{key}/approach?load=4";
        await using (Watched watched = await site.Open(address, 1180, address: program.Address))
        {
            IPage page = watched.Page;
            await Expect(page.Locator("[data-ground]")).ToContainTextAsync("No elevation grid is loaded");
            Assert.Equal(0, await Relief(page));
            await Expect(await Space(page)).ToHaveAttributeAsync("data-ground", "level");

            await HandIn(page, bad);
            await Expect(page.Locator("#ground-mistake")).ToContainTextAsync("N45W072.hgt was not taken:");
            await Expect(page.Locator("#ground-mistake")).ToBeInViewportAsync();
            await Expect(page.Locator("#ground-file")).ToHaveAttributeAsync("aria-describedby", "ground-mistake");
            await Expect(page.Locator("#answer-heading")).ToHaveTextAsync("As planned");
            await HandIn(page, metres);
            await Expect(page.Locator("#ground-mistake")).ToContainTextAsync("metres of a projection");

            await HandIn(page, tile);
            await Expect(page.Locator("[data-ground]")).ToContainTextAsync("N44W072.hgt is used");
            await Expect(page.Locator("h1")).ToContainTextAsync("Load 4");
            await Shows(page, "ground-1180.png");
        }
        await program.Stop();
        await program.Start();
        await using (Watched watched = await site.Open(address, 390, address: program.Address))
        {
            IPage page = watched.Page;
            await Expect(page.Locator("[data-ground]")).ToContainTextAsync("N44W072.hgt is used");
            await Shows(page, "ground-390.png");
            await page.GetByRole(AriaRole.Button, new() { Name = "Do without it" }).ClickAsync();
            await Expect(page.Locator("[data-ground]")).ToContainTextAsync("No elevation grid is loaded");
            watched.NothingWentWrong();
        }
    }

    /// <summary>Ground in the side view that is no level line, and a mesh in space.</summary>
    private static async Task Shows(IPage page, string picture)
    {
        double relief = await Relief(page);
        // Level ground is a straight line: 0.
        Assert.True(relief > 5, $"the ground is drawn level: {relief} px");
        ILocator box = await Space(page);
        // 48 by 48 squares of two triangles each, none of them a hole.
        await Expect(box).ToHaveAttributeAsync("data-ground", "4608");
        await Expect(box).ToHaveAttributeAsync("data-triangles", new Regex("^[1-9][0-9]{3,}$"));
        await page.ScreenshotAsync(new() { Path = Path.Combine(AppContext.BaseDirectory, "screenshots", picture), FullPage = true });
    }

    /// <summary>How far the ground of the side view goes up and down, in the picture's own units.</summary>
    private static Task<double> Relief(IPage page) => page.EvaluateAsync<double>("document.querySelector('[data-picture=side] path.ground').getBBox().height");

    private static async Task<ILocator> Space(IPage page)
    {
        await page.Locator("[data-space]").ScrollIntoViewIfNeededAsync();
        await Expect(page.Locator("[data-space][data-space-state=drawn]")).ToBeVisibleAsync();
        return page.Locator("[data-space-box]");
    }

    private static async Task HandIn(IPage page, string file)
    {
        await page.Locator("#ground-file").SetInputFilesAsync(file);
        await page.GetByRole(AriaRole.Button, new() { Name = "Use it" }).ClickAsync();
    }

    private static string Moved(string job) => Regex.Replace(job, @"""(latitude|longitude)Deg"": ([0-9.]+)", m =>
        FormattableString.Invariant($"\"{m.Groups[1].Value}Deg\": {double.Parse(m.Groups[2].Value, System.Globalization.CultureInfo.InvariantCulture) + (m.Groups[1].Value == "latitude" ? NorthDeg : EastDeg):0.000000}"));

    private static void Unpack(string packed, string file)
    {
        using GZipStream from = new(File.OpenRead(packed), CompressionMode.Decompress);
        using FileStream to = File.Create(file);
        from.CopyTo(to);
    }

    private static string Data(string name, [CallerFilePath] string here = "") => Path.Combine(Path.GetDirectoryName(here)!, "..", "data", name);
}
