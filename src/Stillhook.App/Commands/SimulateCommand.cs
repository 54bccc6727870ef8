using System.CommandLine;
using System.Globalization;
using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
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
        Option<FileInfo?> plan = new("--plan") { Description = "Fly the planned approach of a job instead of a drawn day, without a pilot's scatter", HelpName = "JOB" };
        Option<string?> flown = new("--flown") { Description = "With --plan: what goes wrong in each rotation, such as none,overshoot,highStart; nothing when left out", HelpName = "FAULTS" };
        Option<bool> demo = new("--demo") { Description = "Fly the demo day instead of a drawn one" };
        Command command = new("simulate", """
            Flies an invented day through the full model and writes it as GPX, IGC, NMEA and CSV, with the truth as JSON.
            Example: stillhook simulate -o day1 --seed 7 --rotations 12 --faults Hard
            Example: stillhook simulate -o day2 --plan examples/path-repair.json --flown none,overshoot,none
            """) { folder, seed, rotations, faults, rate, demo, plan, flown };
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
            if (arguments.GetValue(plan) is { } job)
                return FlyPlan(job, arguments.GetValue(flown), loads) is { } planned ? Write(arguments.GetValue(folder)!, planned, s, fixesPerSecond, JobWithoutGates(job)) : ExitCode.BadInput;
            DayScenario scenario = arguments.GetValue(demo) ? DemoDay.Scenario : ScenarioDraw.Random(s, loads, arguments.GetValue(faults));
            return Write(arguments.GetValue(folder)!, Job.Simulate(scenario, s), s, fixesPerSecond);
        });
        return command;
    }

    /// <summary>The planned approach flown; null, with what is wrong told, when there is none or a fault is not one of the path.</summary>
    private static SimulatedDay? FlyPlan(FileInfo job, string? faults, int rotations)
    {
        if (JobArgument.Read(job) is not { } file)
            return null;
        ApproachPlan plan = ApproachCommand.Planned(file.Request, ApproachCommand.Options(file, null));
        if (!plan.IsOffered)
        {
            Console.Error.WriteLine($"simulate: {job.Name}: no approach is offered: {plan.Refused ?? "the job can't be planned"} See: stillhook approach {job.Name}");
            return null;
        }
        string[] names = faults?.Split(',', StringSplitOptions.TrimEntries) ?? [.. Enumerable.Repeat("none", rotations)];
        List<Fault> flown = [];
        foreach (string name in names)
            if (Enum.TryParse(name, ignoreCase: true, out Fault fault) && Enum.IsDefined(fault) && !int.TryParse(name, out _) && fault != Fault.GoAround)
                flown.Add(fault);
            else
            {
                Console.Error.WriteLine($"simulate: --flown: '{name}' is none of: {string.Join(", ", Enum.GetValues<Fault>().Where(f => f != Fault.GoAround).Select(TruthJson.FaultName))}.");
                return null;
            }
        return PlanFlight.Fly(plan, flown);
    }

    /// <summary>The job without gates of its own: with it a debrief measures against the approach that was flown.</summary>
    private static string JobWithoutGates(FileInfo job) => JobWriter.Text(JobFiles.Read(job).Request with { Gates = [] });

    private static int Write(DirectoryInfo folder, SimulatedDay day, ulong seed, double rateHz, string? jobText = null)
    {
        DayScenario scenario = day.Scenario;
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
            if (jobText is not null)
                File.WriteAllText(Path.Combine(folder.FullName, "job.json"), jobText);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"simulate: {folder}: can't be written: {e.Message} Choose another folder with -o.");
            return ExitCode.BadInput;
        }
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{day.Rotations.Count} rotations, line {scenario.LineM:0.#} m, wind {scenario.WindFromDeg:0}/{scenario.WindMs / 0.514444:0}kt: day.gpx, day.igc, day.nmea, day.csv, truth.json{(jobText is null ? "" : ", job.json")} in {folder}."));
        Console.WriteLine(Cautions.Invented);
        return ExitCode.Done;
    }
}
