using System.Diagnostics;
using System.Globalization;
using System.Text;
using Stillhook.Files.Records;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Bench;

/// <summary>The first page after the start, with one flight in the store, against a program that serves one empty page.</summary>
internal static class OpeningRun
{
    private const int Repeats = 7, Warm = 100;

    /// <summary><c>opening [folder for the result]</c></summary>
    public static int Run(string[] folder)
    {
        string place = Directory.CreateTempSubdirectory("stillhook-opening").FullName, bench = typeof(OpeningRun).Assembly.Location;
        string program = bench.Replace("Stillhook.Bench", "Stillhook.App", StringComparison.Ordinal), store = Path.Combine(place, "one.db"), record = Path.Combine(place, "one.csv");
        try
        {
            using (FileStream file = File.Create(record))
                RecordWriter.Write(Recorder.Record(DaySimulator.Fly(DemoDay.Scenario, DemoDay.Seed), RecorderModel.WithError(1) with { RateHz = 5, LoadCell = true }, DemoDay.Seed), RecordFormat.Csv, file);
            if (SideBySide.Start([program, "import", record, "--store", store, "--by", "bench"]).ExitCode != 0)
                throw new InvalidOperationException("The flight was not taken in.");
            List<Opened> ours = [], empty = [];
            for (int i = 0; i <= Repeats; i++)
            {
                Opened a = Open([program, "serve", "--store", store, "--port", "0"], "/flights"), b = Open([bench, "empty-page"], "/");
                if (i == 0)
                    continue;
                ours.Add(a);
                empty.Add(b);
            }
            StringBuilder text = new("# The first page after the start\n\n");
            text.Append(CultureInfo.InvariantCulture, $"One flight filed, the page of the flights; beside it the same server with one empty rendered page. Each in a fresh process, in turn, {Repeats} times after one that isn't counted. {SideBySide.Machine()}\n\n");
            text.Append(SideBySide.Table(
            [
                Row("asked when the program said it is ready / empty page", 1.3, o => o.FirstS),
                Row("from starting the program to the page / empty page", double.NaN, o => o.StartS),
                Row("the page again, median of 100 / empty page", double.NaN, o => o.AgainS),
            ]));
            Console.Write(text);
            if (folder.Length > 0)
                File.WriteAllText(Path.Combine(folder[0], "opening.md"), text.ToString());
            return 0;

            Compared Row(string name, double goal, Func<Opened, double> of) => new(name, goal, AtMost: true, new([.. ours.Select(of)]), new([.. empty.Select(of)]), "");
        }
        finally
        {
            Directory.Delete(place, recursive: true);
        }
    }

    private static Opened Open(string[] arguments, string page)
    {
        ProcessStartInfo start = new("dotnet", arguments) { RedirectStandardOutput = true };
        long from = Stopwatch.GetTimestamp();
        using Process process = Process.Start(start)!;
        try
        {
            string? said = process.StandardOutput.ReadLine();
            string address = said?.Split(' ').FirstOrDefault(w => w.StartsWith("http", StringComparison.Ordinal)) ?? throw new InvalidOperationException($"'{said}' names no address.");
            using HttpClient client = new() { BaseAddress = new(address) };
            long asked = Stopwatch.GetTimestamp();
            Get();
            double first = Stopwatch.GetElapsedTime(asked).TotalSeconds, whole = Stopwatch.GetElapsedTime(from).TotalSeconds;
            double[] again = [.. Enumerable.Range(0, Warm).Select(_ => SideBySide.Seconds(Get))];
            return new(whole, first, again.Order().ElementAt(Warm / 2));

            void Get()
            {
                using HttpResponseMessage answer = client.GetAsync(new Uri(page, UriKind.Relative)).GetAwaiter().GetResult();
                answer.EnsureSuccessStatusCode();
                answer.Content.ReadAsStringAsync().GetAwaiter().GetResult();
            }
        }
        finally
        {
            process.Kill();
            process.WaitForExit();
        }
    }

    private sealed record Opened(double StartS, double FirstS, double AgainS);
}
