using System.CommandLine;
using System.Globalization;
using Stillhook.Files.Records;
using Stillhook.Files.Reports;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook simulate -o FOLDER</c>: an invented lifting day, recorded in all four formats, with the truth beside it.</summary>
internal static class SimulateCommand
{
    public static Command Create()
    {
        Option<DirectoryInfo> folder = new("--output", "-o") { Description = "Folder for the records and the truth; made when missing", HelpName = "FOLDER", Required = true };
        Option<ulong> seed = new("--seed") { Description = "Same seed, same day", DefaultValueFactory = _ => 1 };
        Option<int> rotations = new("--rotations") { Description = "Loads to fly", DefaultValueFactory = _ => 5 };
        Option<FaultMix> faults = new("--faults") { Description = "How many deliveries go wrong", DefaultValueFactory = _ => FaultMix.Usual };
        Option<double> rate = new("--rate") { Description = "Fixes a second, such as 1, 5 or 10", DefaultValueFactory = _ => 5 };
        Option<bool> demo = new("--demo") { Description = "Fly the demo day instead of a drawn one" };
        Command command = new("simulate", """
            Flies an invented day through the full model and writes it as GPX, IGC, NMEA and CSV, with the truth as JSON.
            Example: stillhook simulate -o day1 --seed 7 --rotations 12 --faults Hard
            """) { folder, seed, rotations, faults, rate, demo };
        command.SetAction(arguments =>
        {
            int loads = arguments.GetValue(rotations);
            double fixesPerSecond = arguments.GetValue(rate);
            if (loads is < 1 or > 200 || fixesPerSecond is not (>= 0.2 and <= 10))
            {
                Console.Error.WriteLine("simulate: expected 1 to 200 rotations and 0.2 to 10 fixes a second.");
                return ExitCode.BadInput;
            }
            ulong s = arguments.GetValue(seed);
            DayScenario scenario = arguments.GetValue(demo) ? DemoDay.Scenario : ScenarioDraw.Random(s, loads, arguments.GetValue(faults));
            return Write(arguments.GetValue(folder)!, scenario, s, fixesPerSecond);
        });
        return command;
    }

    private static int Write(DirectoryInfo folder, DayScenario scenario, ulong seed, double rateHz)
    {
        SimulatedDay day = Job.Simulate(scenario, seed);
        RecorderModel model = RecorderModel.WithError(1) with { RateHz = rateHz, Speed = true, Climb = true, LoadCell = true, Torque = true };
        FlightRecord record = Recorder.Record(day, model, seed);
        try
        {
            folder.Create();
            foreach (RecordFormat format in Enum.GetValues<RecordFormat>())
            {
                string path = Path.Combine(folder.FullName, "day." + format.ToString().ToLowerInvariant());
                using FileStream stream = File.Create(path);
                FindingText.Write(path, RecordWriter.Write(record, format, stream));
            }
            File.WriteAllText(Path.Combine(folder.FullName, "truth.json"), TruthJson.Write(day));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"simulate: {folder}: can't be written: {e.Message} Choose another folder with -o.");
            return ExitCode.BadInput;
        }
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{day.Rotations.Count} rotations, line {scenario.LineM:0.#} m, wind {scenario.WindFromDeg:0}/{scenario.WindMs / 0.514444:0}kt: day.gpx, day.igc, day.nmea, day.csv, truth.json in {folder}."));
        Console.WriteLine(Cautions.Invented);
        return ExitCode.Done;
    }
}
