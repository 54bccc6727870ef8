using System.Globalization;
using System.Text;
using Stillhook.Files.Jobs;
using Stillhook.Files.Records;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Solving;

namespace Stillhook.Bench;

/// <summary>How cost grows: ten times the hours, four times the loads, ten times the flights.</summary>
internal static class GrowthRun
{
    private const int Repeats = 3, MostHoursOfADay = 36;

    /// <summary>From the start of the long day to that of the next, s: eight hours and a break.</summary>
    private const double DayStepS = 29_400;
    private const double BytesOfAValue = 8, Mib = 1 << 20;

    /// <summary><c>growth [folder for the result]</c></summary>
    public static int Run(string[] folder)
    {
        LongDay.Write();
        StringBuilder text = new("# How cost grows\n\n");
        text.Append(CultureInfo.InvariantCulture, $"Medians of {Repeats} after one that isn't counted, each in a fresh process; linear would be the hours over the hours above, 4 for loads, 10 for flights.\n\n");
        Hours(text);
        Loads(text);
        Flights(text);
        text.Append('\n').Append(SideBySide.Machine()).Append('\n');
        Console.Write(text);
        if (folder.Length > 0)
            File.WriteAllText(Path.Combine(folder[0], "growth.md"), text.ToString());
        return 0;
    }

    private static void Hours(StringBuilder text)
    {
        string bench = typeof(LongDay).Assembly.Location, program = bench.Replace("Stillhook.Bench", "Stillhook.App", StringComparison.Ordinal);
        text.Append("| CSV at 10 Hz | fixes | reading, s | against the row above | peak memory, MiB | beyond a process that reads one fix and the fixes kept, MiB (goal at most 64) | whole debrief, s | against the row above | peak memory, MiB |\n|---|---|---|---|---|---|---|---|---|\n");
        string one = OfHours(1.0 / 36_000);
        double idle = SideBySide.Start([bench, "read-only", one]).PeakMb * 1e6 / Mib;
        (double readBefore, double debriefBefore) = (double.NaN, double.NaN);
        foreach (int hours in new[] { 1, 8, 32, 80 })
        {
            string path = OfHours(hours);
            FlightRecord record = RecordReader.ReadFile(path);
            double keptMib = BytesOfAValue * (new[] { record.TimeS, record.LatitudeDeg, record.LongitudeDeg, record.AltitudeM, record.GroundSpeedMs, record.CourseDeg, record.ClimbMs, record.PressureAltitudeM }.Sum(c => (long)c.Length)
                + record.Channels.Sum(c => 2L * c.TimeS.Length)) / Mib;
            int count = record.Count;
            record = null!;
            Finished[] read = Runs([bench, "read-only", path]);
            double peak = read.Max(r => r.PeakMb) * 1e6 / Mib, readS = new Times(read).Median;
            text.Append(CultureInfo.InvariantCulture, $"| {hours} h | {count:N0} | {readS:0.00} | {Against(readS, readBefore)} | {peak:0} | {peak - idle - keptMib:0} | ");
            readBefore = readS;
            if (hours > MostHoursOfADay)
            {
                text.Append("refused: one day's lifting at a time | | |\n");
                continue;
            }
            Finished[] debrief = Runs([program, "debrief", path, .. LongDay.SetupOptions(LongDay.Scenario()), "--json"]);
            double debriefS = new Times(debrief).Median;
            text.Append(CultureInfo.InvariantCulture, $"{debriefS:0.00} | {Against(debriefS, debriefBefore)} | {debrief.Max(r => r.PeakMb) * 1e6 / Mib:0} |\n");
            debriefBefore = debriefS;
        }
    }

    private static void Loads(StringBuilder text)
    {
        text.Append("\n| loads, one delivery site | lift plan without the solver, ms | against the row above | with it, ms | against the row above |\n|---|---|---|---|---|\n");
        (double quickBefore, double wholeBefore) = (double.NaN, double.NaN);
        foreach (int loads in new[] { 10, 40, 160 })
        {
            LiftRequest request = OfLoads(loads);
            Times quick = new([.. Enumerable.Range(0, Repeats + 1).Select(_ => SideBySide.Seconds(() => Job.Plan(request, new()))).Skip(1)]);
            Times whole = new([.. Enumerable.Range(0, Repeats + 1).Select(_ => SideBySide.Seconds(() => Job.Plan(request, new() { Solver = new CpSatOrderSolver() }))).Skip(1)]);
            text.Append(CultureInfo.InvariantCulture, $"| {loads} | {quick.Median * 1000:0} | {Against(quick.Median, quickBefore)} | {whole.Median * 1000:0} | {Against(whole.Median, wholeBefore)} |\n");
            (quickBefore, wholeBefore) = (quick.Median, whole.Median);
        }
    }

    private static void Flights(StringBuilder text)
    {
        text.Append("\n| flights taken in by one command | s | against the row above |\n|---|---|---|\n");
        double before = double.NaN;
        foreach (int flights in new[] { 1, 10, 100 })
        {
            string folder = Directory.CreateTempSubdirectory("stillhook-flights").FullName;
            try
            {
                double seconds = ImportRun.Seconds(folder, flights);
                text.Append(CultureInfo.InvariantCulture, $"| {flights} | {seconds:0.00} | {Against(seconds, before)} |\n");
                before = seconds;
            }
            finally
            {
                Directory.Delete(folder, recursive: true);
            }
        }
    }

    /// <summary>The example job with so many loads, its own again and again.</summary>
    private static LiftRequest OfLoads(int count)
    {
        LiftRequest request = JobFile.Read(new MemoryStream(File.ReadAllBytes(ImportRun.JobPath))).Request;
        return request with { Loads = [.. Enumerable.Range(0, count).Select(i => request.Loads[i % request.Loads.Count] with { Number = (i + 1).ToString(CultureInfo.InvariantCulture), After = [] })] };
    }

    private static Finished[] Runs(string[] arguments)
    {
        Finished[] runs = [.. Enumerable.Range(0, Repeats + 1).Select(_ => SideBySide.Start(arguments)).Skip(1)];
        return runs.All(r => r.ExitCode == 0) ? runs : throw new InvalidOperationException($"'{string.Join(' ', arguments)}' ended with {runs.First(r => r.ExitCode != 0).ExitCode}");
    }

    private static string Against(double now, double before) => double.IsNaN(before) ? "" : FormattableString.Invariant($"{now / before:0.0}");

    /// <summary>The long day cut, or again and again with a break between.</summary>
    private static string OfHours(double hours)
    {
        string path = Path.Combine(LongDay.Folder, string.Create(CultureInfo.InvariantCulture, $"hours-{hours:0.####}.csv"));
        if (File.Exists(path))
            return path;
        FlightRecord day = RecordReader.ReadFile(LongDay.Csv);
        int wanted = Math.Max(1, (int)(hours * 36_000)), whole = (wanted + day.Count - 1) / day.Count, rest = Math.Min(wanted, day.Count);
        double[] Again(double[] column, double step) => column.Length == 0 ? column : [.. Enumerable.Range(0, whole).SelectMany(k => column.Take(rest).Select(v => v + k * step))];
        FlightRecord made = day with
        {
            TimeS = Again(day.TimeS, DayStepS), LatitudeDeg = Again(day.LatitudeDeg, 0), LongitudeDeg = Again(day.LongitudeDeg, 0), AltitudeM = Again(day.AltitudeM, 0),
            PressureAltitudeM = Again(day.PressureAltitudeM, 0), GroundSpeedMs = Again(day.GroundSpeedMs, 0), CourseDeg = Again(day.CourseDeg, 0), ClimbMs = Again(day.ClimbMs, 0), SegmentStarts = [0],
            Channels = [.. day.Channels.Select(c => c with { TimeS = Again(c.TimeS, DayStepS), Value = Again(c.Value, 0) })],
        };
        using FileStream file = File.Create(path);
        RecordWriter.Write(made, RecordFormat.Csv, file);
        return path;
    }
}
