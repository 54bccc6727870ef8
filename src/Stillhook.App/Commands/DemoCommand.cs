using System.CommandLine;
using Stillhook.Adjusting;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Records;
using Stillhook.Files.Reports;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook demo</c>: the invented day, debriefed in the terminal or opened in the browser.</summary>
internal static class DemoCommand
{
    public static Command Create()
    {
        Option<bool> serve = new("--serve") { Description = "Put the day into a store of its own and open the pages" };
        Option<DirectoryInfo?> folder = new("--output", "-o") { Description = "Also write the day's record and job file into this folder", HelpName = "FOLDER" };
        ServingArguments serving = new("demo.db");
        Command command = new("demo", """
            Debriefs an invented lifting day: 24 loads, some of them instructive. Nothing in it is for flight.
            Example: stillhook demo --serve
            """) { serve, folder };
        serving.AddTo(command);
        command.SetAction(async (arguments, cancellation) =>
        {
            byte[] record = DemoFlight.Record();
            string jobText = DemoFlight.JobText();
            if (arguments.GetValue(folder) is { } output && !Write(output, record, jobText))
                return ExitCode.BadInput;
            if (!arguments.GetValue(serve))
                return Debrief(record, jobText);
            WorkStore store = serving.OpenStore(arguments);
            Keep(store, record, jobText);
            return await serving.Run(arguments, store, cancellation);
        });
        return command;
    }

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
