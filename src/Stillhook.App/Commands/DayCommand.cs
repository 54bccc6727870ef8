using System.CommandLine;
using System.Globalization;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook day DATE</c>: the day sheet from what is kept.</summary>
internal static class DayCommand
{
    public static Command Create()
    {
        StoreOption store = new();
        Argument<string> day = new("DATE") { Description = "The day, such as 2026-06-01, in the sites' time zone" };
        Option<string?> aircraft = new("--aircraft") { Description = "One aircraft's day alone", HelpName = "NAME" };
        Command command = new("day", """
            The day sheet: lifts, tonnes, hours, lifts per hour, what to write up, plan against tally against record, counts of hook, line and rigging, breaks, how the time went.
            Example: stillhook day 2025-09-16
            Exit code: 0 nothing to look at, 1 something is, 2 nothing is kept of that day.
            """) { day, aircraft, store.Place };
        command.SetAction(arguments => StoreOption.Guarded(() =>
        {
            if (!DateOnly.TryParseExact(arguments.GetValue(day), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date))
            {
                Console.Error.WriteLine($"stillhook: '{arguments.GetValue(day)}' is no day. Write it as 2026-06-01.");
                return ExitCode.BadInput;
            }
            WorkStore work = store.Open(arguments);
            DayWork kept = work.Days.Read(new(date, arguments.GetValue(aircraft)));
            if (kept is { Flights.Count: 0, Lifts.Count: 0, Tally.Count: 0 })
            {
                Console.Error.WriteLine($"stillhook: nothing is kept of {arguments.GetValue(day)}. Days: {string.Join(", ", work.Days.List().Take(10).Select(d => d.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)))}. Take records in with: stillhook import");
                return ExitCode.BadInput;
            }
            DaySheet sheet = Job.Day(kept);
            new DaySheetText(Console.Out, sheet).Write();
            return sheet.WriteUps.Count > 0 || sheet.Prompts.Count > 0 || sheet.ToLookAt.Count > 0 || sheet.Reconciliation.Odd.Count > 0 ? ExitCode.AnswerIsNo : ExitCode.Done;
        }));
        return command;
    }
}
