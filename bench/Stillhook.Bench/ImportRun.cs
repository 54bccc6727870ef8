using System.Diagnostics;
using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Records;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Simulating;

namespace Stillhook.Bench;

/// <summary>A season handed in at once: the program takes in many short records with their job, is killed half-way, goes on, and is asked once more.</summary>
internal static class ImportRun
{
    private const int Seeds = 20, Loads = 3, ADaySeconds = 86400;

    /// <summary><c>import FOLDER [flights]</c></summary>
    public static int Run(string folder, int flights)
    {
        string records = Path.Combine(folder, "records"), store = Path.Combine(folder, "season.db");
        Write(records, flights);
        string[] files = [.. Directory.GetFiles(records).Order(StringComparer.Ordinal)];
        double kb = files.Average(f => new FileInfo(f).Length) / 1e3;
        Console.WriteLine($"{files.Length:N0} records of {Loads} lifts, {kb:0} kB each (CSV, 1 Hz, torque and load cell); {Environment.ProcessorCount} cores, {File.ReadAllText("/proc/loadavg").Split(' ')[0]} programs wanted them at the start.");
        foreach (string old in Directory.GetFiles(folder, "season.db*"))
            File.Delete(old);
        (double firstS, double firstCpuS, int kept) = Import(files, store, killAt: files.Length / 2);
        (double restS, double restCpuS, int rest) = Import(files, store, killAt: int.MaxValue);
        (double againS, double againCpuS, int none) = Import(files, store, killAt: int.MaxValue);
        Console.WriteLine($"killed at {kept}: {firstS:0.0} s ({firstCpuS:0.0} s processor time); gone on, {rest} more: {restS:0.0} s ({restCpuS:0.0}); all once more, {none} kept: {againS:0.0} s ({againCpuS:0.0}).");
        Console.WriteLine($"a flight: {1000 * (firstS + restS) / files.Length:0} ms elapsed, {1000 * (firstCpuS + restCpuS) / files.Length:0} ms processor time; both cores {(firstCpuS + restCpuS) / (firstS + restS):0.0} at work; store {new FileInfo(store).Length / 1e6:0} MB");
        Hovers();
        // What was being kept on each core at the kill may have been kept without being told.
        return kept + rest <= files.Length && kept + rest >= files.Length - Environment.ProcessorCount && none == 0 ? 0 : 1;
    }

    /// <summary>How long a fresh process takes for so many flights.</summary>
    public static double Seconds(string folder, int flights)
    {
        string records = Path.Combine(folder, "records");
        Write(records, flights);
        (double seconds, _, int kept) = Import([.. Directory.GetFiles(records).Order(StringComparer.Ordinal)], Path.Combine(folder, "season.db"), killAt: int.MaxValue);
        return kept == flights ? seconds : throw new InvalidOperationException($"{kept} flights were kept of {flights}.");
    }

    private static (double Seconds, double CpuS, int Kept) Import(string[] files, string store, int killAt)
    {
        string program = typeof(ImportRun).Assembly.Location.Replace("Stillhook.Bench", "Stillhook.App", StringComparison.Ordinal);
        ProcessStartInfo start = new("dotnet", [program, "import", .. files, "--job", JobPath, "--store", store, "--by", "bench"]) { RedirectStandardOutput = true };
        long from = Stopwatch.GetTimestamp();
        using Process process = Process.Start(start)!;
        int kept = 0;
        TimeSpan used = TimeSpan.Zero;
        while (process.StandardOutput.ReadLine() is { } line)
        {
            if (!line.EndsWith(": kept.", StringComparison.Ordinal))
            {
                used = Used(process) ?? used;
                continue;
            }
            kept++;
            used = Used(process) ?? used;
            if (kept == killAt)
                process.Kill();
        }
        process.WaitForExit();
        return (Stopwatch.GetElapsedTime(from).TotalSeconds, used.TotalSeconds, kept);
    }

    /// <summary>What finding the hovers adds to the debrief of a whole day of 24 lifts.</summary>
    private static void Hovers()
    {
        LiftRequest job = JobFile.Read(File.OpenRead(JobPath)).Request;
        FlightRecord record = Recorder.Record(DaySimulator.Fly(DemoDay.Scenario, DemoDay.Seed), RecorderModel.WithError(1) with { RateHz = 5, Speed = true, Climb = true, LoadCell = true, Torque = true }, DemoDay.Seed);
        LiftPlan plan = Stillhook.Job.Plan(job, new());
        Debrief debrief = Stillhook.Job.Debrief(record, LiftSetup.From(job));
        IReadOnlyList<KeptLift> lifts = MeasuredFlight.From(debrief, record, job, MeasuredFlight.InOrder(plan)).Lifts;
        HoverGiven given = new() { Job = job, Fuel = new HoverFuel(job, plan).At, Clock = t => DateTimeOffset.UnixEpoch.AddSeconds(t) };
        int found = 0;
        double Least(Action what) => Enumerable.Range(0, 7).Min(_ =>
        {
            long from = Stopwatch.GetTimestamp();
            what();
            return Stopwatch.GetElapsedTime(from).TotalMilliseconds;
        });
        double debriefMs = Least(() => Stillhook.Job.Debrief(record, LiftSetup.From(job))), hoversMs = Least(() => found = HoverPoints.Find(debrief, record, lifts, given).Hovers.Count);
        Console.WriteLine($"a day of {lifts.Count} lifts, {record.Count:N0} fixes: debrief {debriefMs:0} ms, its {found} hovers {hoversMs:0.0} ms (least of 7)");
    }

    /// <summary>Processor time so far; null when the process has gone.</summary>
    private static TimeSpan? Used(Process process)
    {
        try
        {
            return process.TotalProcessorTime;
        }
        catch (Exception e) when (e is InvalidOperationException or System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }

    /// <summary>The example job.</summary>
    public static string JobPath => Path.Combine(Root(AppContext.BaseDirectory), "examples", "path-repair.json");

    private static string Root(string folder) => File.Exists(Path.Combine(folder, "Stillhook.slnx")) ? folder : Root(Path.GetDirectoryName(folder)!);

    /// <summary>The demonstration day's first lifts with twenty recorders' errors, each again and again on other dates: every record has other bytes.</summary>
    private static void Write(string folder, int flights)
    {
        if (Directory.Exists(folder) && Directory.GetFiles(folder).Length == flights)
            return;
        Directory.CreateDirectory(folder);
        for (int d = 0; d < Seeds; d++)
        {
            ulong seed = (ulong)d + 1;
            FlightRecord record = Recorder.Record(DaySimulator.Fly(DemoDay.Scenario with { Rotations = [.. DemoDay.Scenario.Rotations.Take(Loads)] }, seed), RecorderModel.WithError(1) with { RateHz = 1, Speed = true, Climb = true, LoadCell = true, Torque = true }, seed);
            for (int i = d; i < flights; i += Seeds)
            {
                double later = i / Seeds * ADaySeconds;
                using FileStream file = File.Create(Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"{i:0000}.csv")));
                RecordWriter.Write(record with { TimeS = [.. record.TimeS.Select(t => t + later)], Channels = [.. record.Channels.Select(c => c with { TimeS = [.. c.TimeS.Select(t => t + later)] })] }, RecordFormat.Csv, file);
            }
        }
    }
}
