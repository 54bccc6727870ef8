using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using Stillhook.Bench.Baselines;
using Stillhook.Files.Records;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Bench;

/// <summary>Whole jobs against plain baselines, run in turn so that both meet the same machine; medians and fastest runs as a table of ratios.</summary>
public static class CommandRun
{
    private const int MatrixKnots = 20_000;

    /// <summary><c>commands [repeats] [folder for the result]</c></summary>
    public static int Run(string[] args)
    {
        int repeats = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 7;
        LongDay.Write();
        Compared[] rows =
        [
            Reading("GPX read / XML walk that parses nothing", 1.3, LongDay.Gpx, () => XmlWalk.Nodes(LongDay.Gpx), repeats),
            Reading("NMEA read with checksums / ReadLines + Split + Parse", 0.3, LongDay.Nmea, () => SplitNmea.Sum(LongDay.Nmea), repeats),
            Smoothing(repeats),
            .. Commands(repeats),
        ];
        string table = Table(rows, repeats);
        Console.WriteLine(table);
        if (args.Length > 1)
            File.WriteAllText(Path.Combine(args[1], $"{MachineName()}-{typeof(FlightRecord).Assembly.GetName().Version!.ToString(3)}.md"), table);
        return 0;
    }

    private static Compared Reading(string name, double goal, string path, Action baseline, int repeats)
    {
        FlightRecord record = RecordReader.ReadFile(path);
        if (record.Count != LongDay.Fixes)
            throw new InvalidOperationException($"{path}: {record.Count} fixes were read of {LongDay.Fixes}: {string.Join("; ", record.Findings.Select(f => f.What))}");
        (Times ours, Times theirs) = InTurn(() => RecordReader.ReadFile(path), baseline, repeats);
        return new(name, goal, AtMost: true, ours, theirs, "");
    }

    private static Compared Smoothing(int repeats)
    {
        var whole = new SmoothingCase(LongDay.Fixes);
        var part = new SmoothingCase(MatrixKnots);
        double apart = part.LargestDifferenceM();
        if (!(apart < 1e-6))
            throw new InvalidOperationException($"The two smoothers differ by {apart} m.");
        (Times ours, Times theirs) = InTurn(() => whole.Ours(), () => part.Matrix(), Math.Max(3, repeats / 2));
        double scale = (double)LongDay.Fixes / MatrixKnots;
        return new("matrix version / smoothing with covariance, 3 axes", 100, AtMost: false, theirs.Scaled(scale), ours,
            $"matrix version timed on {MatrixKnots:N0} knots and scaled linearly; largest difference of a smoothed position {apart:0.0e0} m");
    }

    private static IEnumerable<Compared> Commands(int repeats)
    {
        DayScenario scenario = LongDay.Scenario();
        string bench = typeof(LongDay).Assembly.Location, program = bench.Replace("Stillhook.Bench", "Stillhook.App", StringComparison.Ordinal);
        string[] baseline = [bench, "parse-only", LongDay.Gpx];
        foreach ((string format, string path) in new[] { ("GPX", LongDay.Gpx), ("NMEA", LongDay.Nmea), ("IGC", LongDay.Igc), ("CSV", LongDay.Csv) })
        {
            List<Finished> ours = [], theirs = [];
            for (int i = 0; i <= repeats; i++)
            {
                Finished walk = Start(baseline), debrief = Start([program, "debrief", path, .. LongDay.SetupOptions(scenario), "--json"]);
                if (debrief.ExitCode != 0 || walk.ExitCode != 0)
                    throw new InvalidOperationException($"debrief of {format}: exit code {debrief.ExitCode}; walk: {walk.ExitCode}");
                if (i == 0)
                    continue; // the first run fills the file cache
                ours.Add(debrief);
                theirs.Add(walk);
            }
            double peakMb = ours.Max(f => f.PeakMb);
            yield return new($"debrief of the {format} in a fresh process / fresh process that walks the GPX", format == "GPX" ? 2.5 : double.NaN, AtMost: true,
                new([.. ours.Select(f => f.Seconds)]), new([.. theirs.Select(f => f.Seconds)]), $"peak memory {peakMb:0} MB (walk {theirs.Max(f => f.PeakMb):0} MB)");
        }
    }

    private static Finished Start(string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true };
        foreach (string argument in arguments)
            start.ArgumentList.Add(argument);
        long from = Stopwatch.GetTimestamp();
        using Process process = Process.Start(start)!;
        var peak = new PeakMemory(process);
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        double seconds = Stopwatch.GetElapsedTime(from).TotalSeconds;
        return new(seconds, peak.Stop(), process.ExitCode);
    }

    private static (Times Ours, Times Theirs) InTurn(Action ours, Action theirs, int repeats)
    {
        ours();
        theirs();
        var a = new double[repeats];
        var b = new double[repeats];
        for (int i = 0; i < repeats; i++)
        {
            a[i] = Seconds(ours);
            b[i] = Seconds(theirs);
        }
        return (new(a), new(b));
    }

    private static double Seconds(Action work)
    {
        GC.Collect();
        long from = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(from).TotalSeconds;
    }

    private static string Table(Compared[] rows, int repeats)
    {
        var text = new StringBuilder();
        text.AppendLine("# Speed and memory on the long day").AppendLine();
        text.AppendLine(CultureInfo.InvariantCulture, $"{MachineName()}, {Environment.ProcessorCount} logical processors, {RuntimeInformation.FrameworkDescription}, {RuntimeInformation.OSDescription}.");
        text.AppendLine(CultureInfo.InvariantCulture, $"Record: 8 h at 10 Hz, {LongDay.Fixes:N0} fixes; GPX {Mb(LongDay.Gpx)}, NMEA {Mb(LongDay.Nmea)}, IGC {Mb(LongDay.Igc)}, CSV {Mb(LongDay.Csv)}.");
        text.AppendLine(CultureInfo.InvariantCulture, $"Both sides of a row run in turn, {repeats} times each after one run that isn't counted. The ratio is that of the medians; the one in brackets that of the fastest runs.").AppendLine();
        text.AppendLine("| what | ratio | goal | first, median (fastest) | second, median (fastest) | note |").AppendLine("|---|---|---|---|---|---|");
        foreach (Compared row in rows)
            text.AppendLine(CultureInfo.InvariantCulture, $"| {row.Name} | {row.First.Median / row.Second.Median:0.00} ({row.First.Fastest / row.Second.Fastest:0.00}) | {row.GoalText} | {row.First} | {row.Second} | {row.Note} |");
        return text.ToString();
    }

    private static string Mb(string path) => FormattableString.Invariant($"{new FileInfo(path).Length / 1e6:0} MB");

    private static string MachineName()
    {
        const string cpuInfo = "/proc/cpuinfo";
        string? name = File.Exists(cpuInfo)
            ? File.ReadLines(cpuInfo).FirstOrDefault(l => l.StartsWith("model name", StringComparison.Ordinal))?.Split(':')[1].Trim()
            : Environment.GetEnvironmentVariable("PROCESSOR_IDENTIFIER");
        return string.Concat((name ?? "unknown-cpu").Replace(' ', '-').Where(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '.'));
    }

    private sealed record Finished(double Seconds, double PeakMb, int ExitCode);

    private sealed record Compared(string Name, double Goal, bool AtMost, Times First, Times Second, string Note)
    {
        public string GoalText => double.IsNaN(Goal) ? "" : FormattableString.Invariant($"{(AtMost ? "at most" : "at least")} {Goal:0.#}");
    }

    private sealed record Times(double[] Seconds)
    {
        public double Median => Seconds.Order().ElementAt(Seconds.Length / 2);
        public double Fastest => Seconds.Min();
        public Times Scaled(double by) => new([.. Seconds.Select(s => s * by)]);
        public override string ToString() => FormattableString.Invariant($"{Median:0.000} s ({Fastest:0.000})");
    }
}
