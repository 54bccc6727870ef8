using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;

namespace Stillhook.Bench;

/// <summary>Two ways of doing the same, in turn so that both meet the same machine.</summary>
internal static class SideBySide
{
    /// <summary>So many uncounted runs: the runtime compiles what runs often a second time, in the background, after some 30 calls and a pause.</summary>
    public const int WarmRuns = 6;
    private const int PauseMs = 150;

    /// <summary>Both warmed up, then each in turn.</summary>
    public static (Times First, Times Second) InTurn(Action first, Action second, int repeats)
    {
        for (int i = 0; i < WarmRuns; i++)
        {
            first();
            second();
            Thread.Sleep(PauseMs);
        }
        var a = new double[repeats];
        var b = new double[repeats];
        for (int i = 0; i < repeats; i++)
        {
            a[i] = Seconds(first);
            b[i] = Seconds(second);
        }
        return (new(a), new(b));
    }

    /// <summary>Two programs in turn, each in a fresh process; the first run of each fills the file cache and isn't counted. The exit code must be 0.</summary>
    public static (Finished[] First, Finished[] Second) Processes(string[] first, string[] second, int repeats)
    {
        List<Finished> a = [], b = [];
        for (int i = 0; i <= repeats; i++)
        {
            Finished one = Start(first), two = Start(second);
            if (one.ExitCode != 0 || two.ExitCode != 0)
                throw new InvalidOperationException($"'{string.Join(' ', first)}' ended with {one.ExitCode}, '{string.Join(' ', second)}' with {two.ExitCode}");
            if (i == 0)
                continue;
            a.Add(one);
            b.Add(two);
        }
        return ([.. a], [.. b]);
    }

    /// <summary>A run of <c>dotnet</c> to its end.</summary>
    public static Finished Start(string[] arguments)
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

    /// <summary>How long it takes, after a collection.</summary>
    public static double Seconds(Action work)
    {
        GC.Collect();
        long from = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(from).TotalSeconds;
    }

    /// <summary>Machine and versions, in one line.</summary>
    public static string Machine() => string.Create(CultureInfo.InvariantCulture,
        $"{MachineName()}, {Environment.ProcessorCount} logical processors, {RuntimeInformation.FrameworkDescription}, {RuntimeInformation.OSDescription}, {Load()}.");

    /// <summary>The rows as a table of ratios.</summary>
    public static string Table(IEnumerable<Compared> rows)
    {
        var text = new StringBuilder("| what | ratio | goal | first, median (fastest) | second, median (fastest) | note |\n|---|---|---|---|---|---|\n");
        foreach (Compared row in rows)
            text.Append(CultureInfo.InvariantCulture, $"| {row.Name} | {row.First.Median / row.Second.Median:0.00} ({row.First.Fastest / row.Second.Fastest:0.00}) | {row.GoalText} | {row.First} | {row.Second} | {row.Note} |\n");
        return text.ToString();
    }

    /// <summary>The processor's name, fit for a file name.</summary>
    public static string MachineName()
    {
        const string cpuInfo = "/proc/cpuinfo";
        string? name = File.Exists(cpuInfo)
            ? File.ReadLines(cpuInfo).FirstOrDefault(l => l.StartsWith("model name", StringComparison.Ordinal))?.Split(':')[1].Trim()
            : Environment.GetEnvironmentVariable("PROCESSOR_IDENTIFIER");
        return string.Concat((name ?? "unknown-cpu").Replace(' ', '-').Where(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '.'));
    }

    private static string Load() => File.Exists("/proc/loadavg") ? $"{File.ReadAllText("/proc/loadavg").Split(' ')[0]} programs at work when it ended" : "load not known";
}

/// <summary>A program that has ended.</summary>
internal sealed record Finished(double Seconds, double PeakMb, int ExitCode);

/// <summary>A row: first over second.</summary>
internal sealed record Compared(string Name, double Goal, bool AtMost, Times First, Times Second, string Note)
{
    public string GoalText => double.IsNaN(Goal) ? "" : FormattableString.Invariant($"{(AtMost ? "at most" : "at least")} {Goal:0.#}");
}

/// <summary>Times of the same work.</summary>
internal sealed record Times(double[] Seconds)
{
    public Times(IEnumerable<Finished> runs) : this([.. runs.Select(r => r.Seconds)]) { }
    public double Median => Seconds.Order().ElementAt(Seconds.Length / 2);
    public double Fastest => Seconds.Min();
    public Times Scaled(double by) => new([.. Seconds.Select(s => s * by)]);
    public override string ToString() => FormattableString.Invariant($"{Median:0.000} s ({Fastest:0.000})");
}
