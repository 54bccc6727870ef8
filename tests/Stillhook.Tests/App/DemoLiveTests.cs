using System.Diagnostics;
using System.Text.RegularExpressions;
using Stillhook.Files.Live;
using Stillhook.Files.Records;
using Stillhook.Recording;
using Stillhook.Simulating;
using Stillhook.Tests.Files.Live;

namespace Stillhook.Tests.App;

/// <summary>The demonstration day played as a flight that is listened to, by the program as a user starts it, killed in the middle.</summary>
public sealed partial class DemoLiveTests : IDisposable
{
    private const double Patience = 120;

    private readonly string folder = Directory.CreateTempSubdirectory("stillhook-demo-live").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    // Simulated truth: the demonstration day's first deliveries, on both pages; what the pages had told is whole on the disk after the kill, position by position as in the record.
    [Fact]
    public async Task DemoLive_KilledInTheMiddle_HasToldAndKeptTheFlight()
    {
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "Stillhook.App.dll"), "demo", "--live", "--speed", "100", "--port", "0", "--store", Path.Combine(folder, "demo.db")]) { RedirectStandardOutput = true };
        using Process process = Process.Start(start)!;
        try
        {
            string? line;
            do
                line = await process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken);
            while (line is not null && !line.StartsWith("Open ", StringComparison.Ordinal));
            using HttpClient client = new() { BaseAddress = new(line!.Split(' ')[1]) };
            foreach (string page in (string[])["/live", "/live/ground"])
                await Until(async () => Delivered().IsMatch(await client.GetStringAsync(page, TestContext.Current.CancellationToken)));
        }
        finally
        {
            process.Kill();
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        }

        CollectingSink kept = new();
        LiveInput.Rebuild(Directory.GetDirectories(Path.Combine(folder, "live")).Single(), kept);
        FlightRecord flown = RecordReader.ReadFile(Directory.GetFiles(Path.Combine(folder, "demo"), "*.csv").Single());
        // Two deliveries had been told, so the record is kept beyond the second of them; the time of a position is written to the millisecond.
        Assert.True(kept.Fixes[^1].Fix.TimeS > DemoDay.Fly().Rotations[1].DeliveryTimeS);
        Assert.Equal(flown.TimeS.Take(kept.Fixes.Count).Select(t => Math.Round(t, 3)), kept.Fixes.Select(f => Math.Round(f.Fix.TimeS, 3)));
    }

    private static async Task Until(Func<Task<bool>> there)
    {
        for (long from = Stopwatch.GetTimestamp(); !await there(); await Task.Delay(100, TestContext.Current.CancellationToken))
            Assert.True(Stopwatch.GetElapsedTime(from).TotalSeconds < Patience, "the pages told no delivery");
    }

    [GeneratedRegex(@"\b([2-9]|1\d) of 24 loads delivered")]
    private static partial Regex Delivered();
}
