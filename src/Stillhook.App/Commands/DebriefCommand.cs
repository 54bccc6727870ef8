using System.CommandLine;
using Stillhook.Adjusting;
using Stillhook.Debriefing;
using Stillhook.Files.Reports;
using Stillhook.Recording;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook debrief RECORD...</c>: rotations, deliveries, swing and the next approach from a record.</summary>
internal static class DebriefCommand
{
    public static Command Create()
    {
        Argument<string[]> records = RecordArguments.Create();
        SetupOptions setup = new();
        Option<bool> json = new("--json") { Description = "Write the debrief for machines (docs/debrief-json.md)" };
        Command command = new("debrief", """
            From the record of a lifting day: the rotations, each delivery measured, the swing, the next approach.
            Example: stillhook debrief day.gpx --line 30m --load 780kg --drag-area 1.8m2 --wind 240/12kt --antenna-above-hook 2m
            Exit code: 0 a delivery was measured, 1 read but none found or assessable, 2 nothing readable.
            """) { records, json };
        foreach (Option option in setup.All)
            command.Options.Add(option);
        command.SetAction(arguments =>
        {
            if (RecordArguments.Debrief(arguments, records, setup) is not (Debrief debrief, NextApproach next))
                return ExitCode.BadInput;
            if (arguments.GetValue(json))
                WriteJson(debrief, next);
            else
                DebriefText.Write(Console.Out, debrief, next);
            return debrief.Rotations.Any(r => r.Delivery is not null) ? ExitCode.Done : ExitCode.AnswerIsNo;
        });
        return command;
    }

    private static void WriteJson(Debrief debrief, NextApproach next)
    {
        using Stream output = Console.OpenStandardOutput();
        DebriefJson.Write(output, debrief, next);
        output.WriteByte((byte)'\n');
    }
}
