using System.Globalization;
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
            FreshRead(repeats),
            Reading("NMEA read with checksums / ReadLines + Split + Parse", 0.3, LongDay.Nmea, () => SplitNmea.Sum(LongDay.Nmea), repeats),
            Reading("CSV read / Sep with the same fields parsed", 0.5, LongDay.Csv, () => SepCsv.Sum(LongDay.Csv), repeats),
            Reading("IGC read / every byte looked at", double.NaN, LongDay.Igc, () => ByteScan.Lines(LongDay.Igc), repeats),
            Smoothing(repeats),
            .. Commands(repeats),
        ];
        var text = new StringBuilder("# Speed and memory on the long day\n\n");
        text.Append(SideBySide.Machine()).Append('\n');
        text.Append(CultureInfo.InvariantCulture, $"Record: 8 h at 10 Hz, {LongDay.Fixes:N0} fixes; GPX {Mb(LongDay.Gpx)}, NMEA {Mb(LongDay.Nmea)}, IGC {Mb(LongDay.Igc)}, CSV {Mb(LongDay.Csv)}.\n");
        text.Append(CultureInfo.InvariantCulture, $"Both sides of a row run in turn, {repeats} times each: in one process after {SideBySide.WarmRuns} runs that aren't counted, so that both are compiled to the end; in fresh processes after one. The ratio is that of the medians; the one in brackets that of the fastest runs.\n\n");
        text.Append(SideBySide.Table(rows));
        Console.Write(text);
        if (args.Length > 1)
            File.WriteAllText(Path.Combine(args[1], $"{SideBySide.MachineName()}-{typeof(FlightRecord).Assembly.GetName().Version!.ToString(3)}.md"), text.ToString());
        return 0;
    }

    private static Compared Reading(string name, double goal, string path, Action baseline, int repeats)
    {
        FlightRecord record = RecordReader.ReadFile(path);
        if (record.Count != LongDay.Fixes)
            throw new InvalidOperationException($"{path}: {record.Count} fixes were read of {LongDay.Fixes}: {string.Join("; ", record.Findings.Select(f => f.What))}");
        (Times ours, Times theirs) = SideBySide.InTurn(() => RecordReader.ReadFile(path), baseline, repeats);
        return new(name, goal, AtMost: true, ours, theirs, "");
    }

    /// <summary>The same program started twice, so that both sides load and compile as much of the runtime as they need and no more.</summary>
    private static Compared FreshRead(int repeats)
    {
        string bench = typeof(LongDay).Assembly.Location;
        (Finished[] ours, Finished[] theirs) = SideBySide.Processes([bench, "read-only", LongDay.Gpx], [bench, "xml-double", LongDay.Gpx], repeats);
        return new("GPX in a fresh process / the same with XmlReader and double.Parse", 0.6, AtMost: true, new(ours), new(theirs), Peaks(ours, theirs));
    }

    private static Compared Smoothing(int repeats)
    {
        var whole = new SmoothingCase(LongDay.Fixes);
        var part = new SmoothingCase(MatrixKnots);
        double apart = part.LargestDifferenceM();
        if (!(apart < 1e-6))
            throw new InvalidOperationException($"The two smoothers differ by {apart} m.");
        (Times ours, Times theirs) = SideBySide.InTurn(() => whole.Ours(), () => part.Matrix(), Math.Max(3, repeats / 2));
        double scale = (double)LongDay.Fixes / MatrixKnots;
        return new("matrix version / smoothing with covariance, 3 axes", 100, AtMost: false, theirs.Scaled(scale), ours,
            $"matrix version timed on {MatrixKnots:N0} knots and scaled linearly; largest difference of a smoothed position {apart:0.0e0} m");
    }

    private static IEnumerable<Compared> Commands(int repeats)
    {
        DayScenario scenario = LongDay.Scenario();
        string bench = typeof(LongDay).Assembly.Location, program = bench.Replace("Stillhook.Bench", "Stillhook.App", StringComparison.Ordinal);
        foreach ((string format, string path) in new[] { ("GPX", LongDay.Gpx), ("NMEA", LongDay.Nmea), ("IGC", LongDay.Igc), ("CSV", LongDay.Csv) })
        {
            (Finished[] ours, Finished[] theirs) = SideBySide.Processes([program, "debrief", path, .. LongDay.SetupOptions(scenario), "--json"], [bench, "parse-only", LongDay.Gpx], repeats);
            yield return new($"debrief of the {format} in a fresh process / fresh process that walks the GPX", format == "GPX" ? 2.5 : double.NaN, AtMost: true, new(ours), new(theirs), Peaks(ours, theirs));
        }
    }

    private static string Peaks(Finished[] ours, Finished[] theirs) => string.Create(CultureInfo.InvariantCulture, $"peak memory {ours.Max(f => f.PeakMb):0} MB and {theirs.Max(f => f.PeakMb):0} MB");

    private static string Mb(string path) => FormattableString.Invariant($"{new FileInfo(path).Length / 1e6:0} MB");
}
