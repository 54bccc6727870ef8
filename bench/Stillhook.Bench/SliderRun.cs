using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;

namespace Stillhook.Bench;

/// <summary>
/// From a slider's step to the new figures and pictures in the page, in a real Chromium on an approach of the started program:
/// <c>sliders "http://127.0.0.1:5080/jobs/…/approach?load=4"</c>. Two rounds of another value each time; the second is told, for the first waits for machine code.
/// </summary>
internal static class SliderRun
{
    private const int Steps = 15;

    // One step and its answer: until the parts are swapped, until they are laid out and drawn, and what the request itself took (asked to last byte).
    private const string OneStep = """
        async ([field, value, sliding]) => {
          const slider = document.querySelector(`[data-field=${field}] input[type=range]`), state = document.querySelector('[data-try-state]');
          performance.clearResourceTimings();
          slider.value = String(value);
          const begun = performance.now();
          slider.dispatchEvent(new Event(sliding ? 'input' : 'change'));
          await new Promise(done => {
            new MutationObserver((_, o) => { if (!state.classList.contains('waiting')) { o.disconnect(); done(); } }).observe(state, { attributes: true, childList: true });
          });
          const swapped = performance.now();
          document.body.getBoundingClientRect();
          const laidOut = performance.now();
          await new Promise(done => requestAnimationFrame(() => setTimeout(done)));
          const drawn = performance.now();
          const asked = performance.getEntriesByType('resource').filter(r => r.name.includes('/try?')).at(-1);
          return [swapped - begun, laidOut - swapped, drawn - begun, asked ? asked.responseEnd - asked.startTime : -1];
        }
        """;

    public static int Run(string page) => RunAsync(page).GetAwaiter().GetResult();

    private static async Task<int> RunAsync(string address)
    {
        await using BenchBrowser browser = await BenchBrowser.StartAsync();
        IPage page = await browser.OpenAsync(address, "[data-field=line] input[type=range]");
        Console.WriteLine($"{browser.Words}, {Environment.ProcessorCount} cores; load of the machine {BenchBrowser.Load}");
        Console.WriteLine("| moved | step to figures in the page: median (least, most), ms | laid out after that | drawn | request alone |");
        Console.WriteLine("|---|---|---|---|---|");
        foreach (string field in (string[])["wind-from", "wind-speed", "line", "load-mass", "temperature"])
        {
            await Row(page, field, sliding: true);
            await Row(page, field, sliding: false);
        }
        Console.WriteLine($"load of the machine at the end {BenchBrowser.Load}");
        return 0;
    }

    private static async Task Row(IPage page, string field, bool sliding)
    {
        ILocator slider = page.Locator($"[data-field={field}] input[type=range]");
        double low = await Number(slider, "min"), high = await Number(slider, "max"), step = await Number(slider, "step"), planned = await Number(slider, "value");
        List<double[]> told = [];
        for (int i = 0; i < 2 * Steps; i++)
        {
            // Either way from the planned value, never twice the same.
            double value = planned + ((i & 1) == 0 ? 1 : -1) * (i / 2 + 1) * step;
            value = Math.Clamp(value, low, high);
            JsonElement? one = await page.EvaluateAsync(OneStep, new object[] { field, value, sliding });
            if (i >= Steps)
                told.Add([.. one!.Value.EnumerateArray().Select(e => e.GetDouble())]);
        }
        await page.EvaluateAsync(OneStep, new object[] { field, planned, false });
        double[] swapped = [.. told.Select(t => t[0]).Order()];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"| {field}{(sliding ? "" : ", let go")} | {swapped[Steps / 2]:0} ({swapped[0]:0}, {swapped[^1]:0}) | {Median(told, 1):0} | {Median(told, 2):0} | {Median(told, 3):0} |"));
    }

    private static double Median(List<double[]> told, int column) => told.Select(t => t[column]).Order().ElementAt(told.Count / 2);

    private static async Task<double> Number(ILocator slider, string name) =>
        double.Parse((name == "value" ? await slider.InputValueAsync() : await slider.GetAttributeAsync(name))!, CultureInfo.InvariantCulture);
}
