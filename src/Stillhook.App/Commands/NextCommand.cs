using System.CommandLine;
using Stillhook.Adjusting;
using Stillhook.Debriefing;
using Stillhook.Recording;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook next RECORD...</c>: only the line for the next approach, with its evidence.</summary>
internal static class NextCommand
{
    public static Command Create()
    {
        Argument<string[]> records = RecordArguments.Create();
        SetupOptions setup = new();
        Command command = new("next", """
            Only what to change on the next approach: at most two changes, or the same again.
            Example: stillhook next day.gpx --line 30m --load 780kg
            """) { records };
        foreach (Option option in setup.All)
            command.Options.Add(option);
        command.SetAction(arguments =>
        {
            if (RecordArguments.Debrief(arguments, records, setup) is not (Debrief debrief, NextApproach next))
                return ExitCode.BadInput;
            if (!debrief.Rotations.Any(r => r.Delivery is not null))
            {
                Console.Out.WriteLine(debrief.NoRotationsBecause ?? "No delivery could be measured.");
                return ExitCode.AnswerIsNo;
            }
            Console.Out.WriteLine(next.Line);
            if (next.Evidence.Length > 0)
                Console.Out.WriteLine(next.Evidence);
            foreach (string stopped in next.Stopped)
                Console.Out.WriteLine(stopped);
            return ExitCode.Done;
        });
        return command;
    }
}
