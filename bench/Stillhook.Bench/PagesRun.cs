using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;

namespace Stillhook.Bench;

/// <summary>
/// Frames drawn while deliveries are played back and while a pointer runs along a plot, in a real Chromium on a page of the started program:
/// <c>pages http://127.0.0.1:5080/deliveries/1 3 5</c>. Software graphics, so a machine with a graphics chip draws no fewer.
/// </summary>
internal static class PagesRun
{
    private const int Seconds = 8;

    // Time between pictures by the browser's own frame clock, and time spent in the page's script for each moment shown.
    private const string CountFrames = """
        (seconds) => new Promise(done => {
          const steps = [];
          let before = performance.now(), first = before;
          const frame = now => {
            steps.push(now - before);
            before = now;
            if (now - first < seconds * 1000) requestAnimationFrame(frame); else done(steps.slice(1));
          };
          requestAnimationFrame(frame);
        })
        """;

    // What one moment costs: moved slider to moved marks and cursors, without waiting for the next picture.
    private const string CostOfAMoment = """
        async () => {
          const slider = document.querySelector('[data-time]'), from = Number(slider.min), to = Number(slider.max), costs = [];
          for (let i = 0; i < 600; i++) {
            slider.value = String(from + (to - from) * i / 600);
            const before = performance.now();
            slider.dispatchEvent(new Event('input'));
            await null; // the plots move their cursors in a microtask of their own
            document.body.getBoundingClientRect(); // and the page is laid out
            costs.push(performance.now() - before);
          }
          return costs;
        }
        """;

    private const string PointAlong = """
        (seconds) => {
          const over = document.querySelector('[data-plot=fore] .u-over') ?? document.querySelector('[data-plot=speed] .u-over');
          const box = over.getBoundingClientRect(), first = performance.now();
          const move = now => {
            const part = ((now - first) / 1000 / seconds) % 1;
            over.dispatchEvent(new MouseEvent('mousemove', { clientX: box.left + part * box.width, clientY: box.top + box.height / 2, bubbles: true }));
            if (now - first < seconds * 1000) requestAnimationFrame(move);
          };
          over.dispatchEvent(new MouseEvent('mouseenter', { clientX: box.left, clientY: box.top + 1 }));
          requestAnimationFrame(move);
        }
        """;

    public static int Run(string page, string[] show) => RunAsync(page, show).GetAwaiter().GetResult();

    private static async Task<int> RunAsync(string address, string[] show)
    {
        await using BenchBrowser browser = await BenchBrowser.StartAsync();
        IPage page = await browser.OpenAsync($"{address}?{string.Join('&', show.Select(s => "show=" + s))}", "[data-plot=right] canvas");
        Console.WriteLine($"{browser.Words}, {show.Length} deliveries, 4 pictures and 5 plots; load of the machine {BenchBrowser.Load}");
        Tell("nothing moving", await Frames(page));
        foreach (string speed in (string[])["1", "5", "20"])
        {
            await page.Locator($"input[name=play-speed][value='{speed}']").EvaluateAsync("e => { e.checked = true; }");
            await page.Locator("[data-time]").EvaluateAsync("e => { e.value = e.min; e.dispatchEvent(new Event('input')); }");
            await page.Locator("[data-play]").ClickAsync();
            // At 20 times a delivery is over in a few seconds.
            Tell($"played at {speed}x", await Frames(page, speed == "20" ? 2 : Seconds));
            if (await page.Locator("[data-play]").InnerTextAsync() == "Stop")
                await page.Locator("[data-play]").ClickAsync();
        }
        await page.EvaluateAsync(PointAlong, Seconds);
        Tell("pointer along a plot", await Frames(page));
        double[] cost = await Numbers(page.EvaluateAsync(CostOfAMoment));
        Array.Sort(cost);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"script for one moment shown: median {cost[cost.Length / 2]:0.00} ms, 95 % within {cost[cost.Length * 95 / 100]:0.00} ms, most {cost[^1]:0.0} ms; a picture at 60 a second has 16.7 ms"));
        Console.WriteLine($"load of the machine at the end {BenchBrowser.Load}");
        return 0;
    }

    private static Task<double[]> Frames(IPage page, int seconds = Seconds) => Numbers(page.EvaluateAsync(CountFrames, seconds));

    private static async Task<double[]> Numbers(Task<JsonElement?> answer) => [.. (await answer)!.Value.EnumerateArray().Select(e => e.GetDouble())];

    private static void Tell(string what, double[] stepMs)
    {
        double[] sorted = [.. stepMs.Order()];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{what}: {1000 * stepMs.Length / stepMs.Sum():0.0} pictures a second; between two of them median {sorted[sorted.Length / 2]:0.0} ms, 95 % within {sorted[sorted.Length * 95 / 100]:0.0} ms, most {sorted[^1]:0} ms"));
    }
}
