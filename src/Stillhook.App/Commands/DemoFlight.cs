using Stillhook.Files.Records;
using Stillhook.Files.Reports;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.App.Commands;

/// <summary>The demo day as a recorder would have written it, and the job file of its crew. Invented, not for flight.</summary>
internal static class DemoFlight
{
    public const string FileName = "demo-day (invented, not for flight).csv";

    /// <summary>The record as a table with load cell and torque: the same bytes every time.</summary>
    public static byte[] Record()
    {
        RecorderModel recorder = DemoDay.RecorderModel with { Climb = true, LoadCell = true, Torque = true };
        FlightRecord record = Recorder.Record(DemoDay.Fly(), recorder, DemoDay.Seed);
        using MemoryStream bytes = new();
        RecordWriter.Write(record, RecordFormat.Csv, bytes);
        return bytes.ToArray();
    }

    /// <summary>What the invented crew wrote down the evening before: the example job, carried in the program.</summary>
    public static string JobText()
    {
        using Stream carried = typeof(DemoFlight).Assembly.GetManifestResourceStream("path-repair.json")!;
        using StreamReader reader = new(carried);
        return reader.ReadToEnd();
    }
}
