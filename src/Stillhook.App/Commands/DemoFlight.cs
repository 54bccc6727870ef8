using System.Globalization;
using Stillhook.Files.Records;
using Stillhook.Files.Reports;
using Stillhook.Physics.Earth;
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

    /// <summary>What the invented crew wrote down the evening before.</summary>
    public static string JobText()
    {
        DayScenario scenario = DemoDay.Scenario;
        SimulatedDay day = new() { Scenario = scenario, Seed = DemoDay.Seed, Motion = [], Rotations = [] };
        return string.Create(CultureInfo.InvariantCulture, $$"""
            // {{Cautions.Invented}}
            {
              "job": "{{scenario.Name}}",
              "date": "{{UtcText.Day(scenario.StartTimeS)}}",
              "aircraft": { "name": "invented single-engine helicopter", "massKg": {{scenario.AircraftKg}}, "antennaAboveHookM": 2 },
              "line": { "lengthM": {{scenario.LineM}}, "riggingM": {{scenario.RiggingM}} },
              "load": { "name": "stone bag", "massKg": 735, "heightM": 0.8, "dragAreaM2": 1.1 },
              "wind": { "fromDeg": {{scenario.WindFromDeg}}, "speedKt": 5 },
              "sites": [
                { "name": "turning place", "use": "pickUp", {{Position(day, default)}} },
                {
                  "name": "path bend", "use": "delivery", {{Position(day, scenario.TargetEnu)}},
                  "recon": { "altimeterFt": 6100, "qnhHPa": 1019, "time": "{{UtcText.Iso(scenario.StartTimeS - 1200)}}", "temperatureC": 6 },
                  "people": [ { "name": "receiver", {{Position(day, scenario.TargetEnu + new Enu(-16, 9, 0))}} } ]
                }
              ],
              "gates": [
                { "distanceM": 360, "heightAboveTargetFt": 300, "groundSpeedKt": 33, "sinkFtPerMin": 500 },
                { "distanceM": 200, "heightAboveTargetFt": 210, "groundSpeedKt": 33, "sinkFtPerMin": 500 },
                { "distanceM": 100, "heightAboveTargetFt": 160, "groundSpeedKt": 20, "sinkFtPerMin": 300 },
                { "distanceM": 50, "heightAboveTargetFt": 130, "groundSpeedKt": 12, "sinkFtPerMin": 200 }
              ]
            }

            """);
    }

    private static string Position(SimulatedDay day, Enu place)
    {
        (double latitude, double longitude, _) = day.ToGeodetic(place);
        return string.Create(CultureInfo.InvariantCulture, $"\"latitudeDeg\": {latitude:0.000000}, \"longitudeDeg\": {longitude:0.000000}");
    }
}
