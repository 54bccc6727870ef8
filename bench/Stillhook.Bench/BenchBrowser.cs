using Microsoft.Playwright;

namespace Stillhook.Bench;

/// <summary>The machine's own Chromium, with software graphics, in which pages of the started program are measured.</summary>
internal sealed class BenchBrowser : IAsyncDisposable
{
    private readonly IPlaywright playwright;
    private readonly IBrowser browser;

    private BenchBrowser(IPlaywright playwright, IBrowser browser) => (this.playwright, this.browser) = (playwright, browser);

    /// <summary>How busy the machine is: programs that want a core, mean of the last minute.</summary>
    public static string Load => File.Exists("/proc/loadavg") ? File.ReadAllText("/proc/loadavg").Split(' ')[0] : "not known";

    /// <summary>What it is, for the first line of a result.</summary>
    public string Words => $"Chromium {browser.Version}, software graphics";

    public static async Task<BenchBrowser> StartAsync()
    {
        IPlaywright playwright = await Playwright.CreateAsync();
        return new(playwright, await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = new[] { "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome" }.First(File.Exists),
            Args = ["--no-sandbox", "--disable-gpu"],
        }));
    }

    /// <summary>A page, ready when an element of it is there.</summary>
    public async Task<IPage> OpenAsync(string address, string ready)
    {
        IPage page = await browser.NewPageAsync(new() { ViewportSize = new() { Width = 1440, Height = 1000 } });
        await page.GotoAsync(address);
        await page.Locator(ready).WaitForAsync();
        return page;
    }

    public async ValueTask DisposeAsync()
    {
        await browser.DisposeAsync();
        playwright.Dispose();
    }
}
