using Stillhook.Files.Records;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Bench;

/// <summary>The record every speed figure is taken on: 8 h at 10 Hz, 288,000 fixes, flown by the simulator, in four formats.</summary>
public static class LongDay
{
    public const int Fixes = 288_000;
    private const double KnotMs = 0.514444;
    private const int RotationsToFillEightHours = 160;

    /// <summary>Folder the files are kept in between runs.</summary>
    public static string Folder => Path.Combine(Path.GetTempPath(), "stillhook-bench");

    public static string Gpx => Path.Combine(Folder, "day.gpx");
    public static string Nmea => Path.Combine(Folder, "day.nmea");
    public static string Igc => Path.Combine(Folder, "day.igc");
    public static string Csv => Path.Combine(Folder, "day.csv");

    /// <summary>Line, load and wind of the flown day as command line options.</summary>
    public static string[] SetupOptions(DayScenario scenario) =>
    [
        "--line", Text($"{scenario.LineM:0.0}m"), "--load", Text($"{scenario.Rotations[0].LoadKg:0}kg"),
        "--drag-area", Text($"{scenario.Rotations[0].DragAreaM2:0.00}m2"),
        "--wind", Text($"{scenario.WindFromDeg:000}/{scenario.WindMs / KnotMs:0}kt"), "--antenna-above-hook", "2m",
    ];

    public static DayScenario Scenario() => ScenarioDraw.Random(20, RotationsToFillEightHours);

    /// <summary>Writes the files that aren't there yet.</summary>
    public static void Write()
    {
        Directory.CreateDirectory(Folder);
        if (new[] { Gpx, Nmea, Igc, Csv }.All(File.Exists))
            return;
        SimulatedDay day = DaySimulator.Fly(Scenario(), 20);
        FlightRecord record = Recorder.Record(day, RecorderModel.WithError(1) with { RateHz = 10, LoadCell = true, LoadCellDropouts = 0 }, 20);
        if (record.Count < Fixes)
            throw new InvalidOperationException($"The flown day has only {record.Count} fixes of {Fixes}.");
        record = EightHours(record);
        Write(record, RecordFormat.Gpx, Gpx);
        Write(record, RecordFormat.Nmea, Nmea);
        Write(record, RecordFormat.Igc, Igc);
        Write(record, RecordFormat.Csv, Csv);
    }

    private static void Write(FlightRecord record, RecordFormat format, string path)
    {
        // The load cell stays out of the formats that have no place for it, so that their files are those of a plain recorder.
        using FileStream file = File.Create(path);
        RecordWriter.Write(format == RecordFormat.Csv ? record : record with { Channels = [] }, format, file);
    }

    private static FlightRecord EightHours(FlightRecord r) => r with
    {
        TimeS = r.TimeS[..Fixes],
        LatitudeDeg = r.LatitudeDeg[..Fixes],
        LongitudeDeg = r.LongitudeDeg[..Fixes],
        AltitudeM = r.AltitudeM[..Fixes],
        GroundSpeedMs = r.GroundSpeedMs[..Fixes],
        CourseDeg = r.CourseDeg[..Fixes],
        Channels = [.. r.Channels.Select(c => c with { TimeS = c.TimeS[..Fixes], Value = c.Value[..Fixes] })],
    };

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}
