using System.CommandLine;
using System.Globalization;
using Stillhook.Adjusting;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Live;
using Stillhook.Files.Records;
using Stillhook.Files.Reports;
using Stillhook.Following;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook demo</c>: the invented day, debriefed in the terminal or opened in the browser.</summary>
internal static class DemoCommand
{
    public static Command Create()
    {
        Option<bool> serve = new("--serve") { Description = "Put the day into a store of its own and open the pages" };
        Option<bool> live = new("--live") { Description = "Play the day as a flight that is listened to, and open the Live, cockpit and ground pages" };
        Option<double> speed = new("--speed") { Description = "With --live: how many times faster than flown, 1 to 100", DefaultValueFactory = _ => 20, CustomParser = r => double.TryParse(r.Tokens[0].Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double times) ? times : double.NaN };
        speed.Validators.Add(r => { if (!(r.GetValueOrDefault<double>() is >= 1 and <= 100)) r.AddError("--speed is a number from 1 to 100, such as 20."); });
        Option<DirectoryInfo?> folder = new("--output", "-o") { Description = "Also write the day's record and job file into this folder", HelpName = "FOLDER" };
        ServingArguments serving = new("demo.db");
        Command command = new("demo", """
            Debriefs an invented lifting day: 24 loads, some of them instructive. Nothing in it is for flight.
            Example: stillhook demo --serve
            Example: stillhook demo --live --speed 20
            """) { serve, live, speed, folder };
        serving.AddTo(command);
        command.SetAction(async (arguments, cancellation) =>
        {
            byte[] record = DemoFlight.Record();
            string jobText = DemoFlight.JobText();
            if (arguments.GetValue(folder) is { } output && !Write(output, record, jobText))
                return ExitCode.BadInput;
            if (arguments.GetValue(live))
                return await Live(serving, arguments, arguments.GetValue(speed), record, jobText, cancellation);
            if (!arguments.GetValue(serve))
                return Debrief(record, jobText);
            WorkStore store = serving.OpenStore(arguments);
            Keep(store, record, jobText);
            return await serving.Run(arguments, store, cancellation);
        });
        return command;
    }

    /// <summary>Plays the record as if it came from a receiver and a load cell; started again it begins anew, in a recording of its own.</summary>
    private static async Task<int> Live(ServingArguments serving, ParseResult arguments, double speed, byte[] record, string jobText, CancellationToken cancellation)
    {
        WorkStore store = serving.OpenStore(arguments);
        DirectoryInfo folder = new(Path.Combine(store.Folder, "demo"));
        if (!Write(folder, record, jobText))
            return ExitCode.BadInput;
        JobFile job = JobFile.Read(jobText);
        OpenJob open = new(ImportCommand.Keep(store, job, jobText, "planner A", TimeProvider.System.GetUtcNow()), job);
        LiveSourceSetting replay = new() { Text = "the demo day", Name = "demo", Kind = LiveSourceKind.Replay, Path = Path.Combine(folder.FullName, DemoFlight.FileName), Speed = speed };
        Console.WriteLine(Cautions.Invented);
        return await ListenCommand.Follow([replay], ListenCommand.Setup(store, open, LitInTheHollow), Path.Combine(store.Folder, "live"), store, serving, arguments, null, cancellation);
    }

    /// <summary>The invented empty leg runs through a hollow, lower than a straight slope from site to site: with the shipped height the cockpit page would stay dark in flight all day.</summary>
    public static FollowSettings LitInTheHollow { get; } = new() { LitAbove = UnitsNet.Length.FromMeters(-60) };

    /// <summary>Takes the day in once, with its job, its lifts and its summary; what was changed in the store since stays.</summary>
    private static void Keep(WorkStore store, byte[] record, string jobText)
    {
        if (store.Jobs.List().Count == 0)
            store.Jobs.Save(JobEditing.Entry(jobText), "planner A", TimeProvider.System.GetUtcNow());
        if (store.Flights.List().Any(f => f.Name == DemoFlight.FileName) || ImportCommand.TakeIn(store, DemoFlight.FileName, record, jobText, "planner A") is not { } flight)
            return;
        Debrief debrief = Work(record, jobText);
        store.Flights.SaveSummary(flight.Id, new(ServingOptions.ProgramVersion, debrief.Track?.TimeS[0], debrief.Rotations.Count, Job.Next(debrief).Line));
    }

    private static Debrief Work(byte[] record, string jobText) =>
        Job.Debrief(RecordReader.Read(new MemoryStream(record), DemoFlight.FileName), JobMarks.Setup(JobFile.Read(jobText)));

    private static int Debrief(byte[] record, string jobText)
    {
        Debrief debrief = Work(record, jobText);
        Console.WriteLine(Cautions.Invented);
        DebriefText.Write(Console.Out, debrief, Job.Next(debrief));
        return ExitCode.Done;
    }

    private static bool Write(DirectoryInfo folder, byte[] record, string jobText)
    {
        try
        {
            folder.Create();
            File.WriteAllBytes(Path.Combine(folder.FullName, DemoFlight.FileName), record);
            File.WriteAllText(Path.Combine(folder.FullName, "demo-job (invented, not for flight).json"), jobText);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"demo: {folder}: can't be written: {e.Message} Choose another folder with -o.");
            return false;
        }
    }
}
