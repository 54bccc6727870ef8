using System.CommandLine;
using Stillhook.Adjusting;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Reports;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook debrief RECORD...</c>: rotations, deliveries, swing and the next approach from a record.</summary>
internal static class DebriefCommand
{
    public static Command Create()
    {
        Argument<string[]> records = RecordArguments.Create();
        SetupOptions setup = new();
        Option<bool> json = new("--json") { Description = "Write the debrief for machines (docs/debrief-json.md)" };
        Option<string?> store = new("--store") { Description = "Store whose flights before are set beside this one: the aircraft's hovers, with --pilot that pilot's deliveries", HelpName = "PLACE" };
        Option<string?> pilot = new("--pilot") { Description = "With --store: whose own usual deliveries to set beside these; for that pilot's eyes", HelpName = "NAME" };
        Command command = new("debrief", """
            From the record of a lifting day: the rotations, each delivery measured, the swing, the next approach.
            Example: stillhook debrief day.gpx --line 30m --load 780kg --drag-area 1.8m2 --wind 240/12kt --antenna-above-hook 2m
            Exit code: 0 a delivery was measured, 1 read but none found or assessable, 2 nothing readable.
            """) { records, json, store, pilot };
        foreach (Option option in setup.All)
            command.Options.Add(option);
        command.SetAction(arguments => StoreOption.Guarded(() =>
        {
            WorkStore? flights = StoreOption.Existing(arguments.GetValue(store));
            if (RecordArguments.Record(arguments, records, setup) is not { } given)
                return ExitCode.BadInput;
            Debrief debrief = Job.Debrief(given.Record, given.Setup);
            NextApproach next = Job.Next(debrief);
            if (arguments.GetValue(json))
                WriteJson(debrief, next);
            else
                DebriefText.Write(Console.Out, debrief, next);
            if (flights is not null && !arguments.GetValue(json))
                WriteBefore(flights, debrief, given.Record, given.Job, arguments.GetValue(pilot));
            return debrief.Rotations.Any(r => r.Delivery is not null) ? ExitCode.Done : ExitCode.AnswerIsNo;
        }));
        return command;
    }

    /// <summary>Beside flights before: the aircraft's hovers, and the deliveries of the one pilot who is named.</summary>
    private static void WriteBefore(WorkStore store, Debrief debrief, FlightRecord record, JobFile? job, string? pilot)
    {
        if (job is null)
        {
            Console.Out.WriteLine("Hovers and deliveries are set beside those before with the job's aircraft and loads: name the job with --job.");
            return;
        }
        LiftPlan plan = Job.Plan(job.Request, JobArgument.PlanOptions(job));
        MeasuredText.Write(Console.Out, MeasuredWork.OfRecord(store, debrief, record, job, plan));
        if (pilot is { Length: > 0 })
            MeasuredText.Write(Console.Out, pilot, DeliveryBaseline.Of(pilot, store.Lifts.ForBaselines(pilot, null)), MeasuredFlight.From(debrief, record, job.Request, plan.IsPlanned ? MeasuredFlight.InOrder(plan) : null, pilot).Lifts);
    }

    private static void WriteJson(Debrief debrief, NextApproach next)
    {
        using Stream output = Console.OpenStandardOutput();
        DebriefJson.Write(output, debrief, next);
        output.WriteByte((byte)'\n');
    }
}
