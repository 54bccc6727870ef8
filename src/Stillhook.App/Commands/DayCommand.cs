using System.CommandLine;
using System.Globalization;
using Stillhook.App.Serving;
using Stillhook.Files.Reports;
using Stillhook.Pdf;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook day DATE</c>: the day sheet from what is kept, to read, for machines, or as HTML and PDF.</summary>
internal static class DayCommand
{
    public static Command Create()
    {
        StoreOption store = new();
        Argument<string> day = new("DATE") { Description = "The day, such as 2026-06-01, in the sites' time zone" };
        Option<string?> aircraft = new("--aircraft") { Description = "One aircraft's day alone", HelpName = "NAME" };
        Option<DirectoryInfo?> folder = new("--output", "-o") { Description = "Write the sheet as HTML and PDF into this folder instead", HelpName = "FOLDER" };
        Option<bool> json = new("--json") { Description = "Write the sheet for machines (schema: stillhook schema day)" };
        Command command = new("day", """
            The day sheet: lifts, tonnes, hours, lifts per hour, what to write up, plan against tally against record, counts of hook, line and rigging, breaks, how the time went.
            Example: stillhook day 2025-09-16
            Example: stillhook day 2025-09-16 -o sheets
            Exit code: 0 nothing to look at, 1 something is, 2 nothing is kept of that day.
            """) { day, aircraft, folder, json, store.Place };
        command.Validators.Add(result =>
        {
            if (result.GetValue(folder) is not null && result.GetValue(json))
                result.AddError("Ask for -o FOLDER or for --json, not for both.");
        });
        command.SetAction(arguments => StoreOption.Guarded(() =>
        {
            if (!DateOnly.TryParseExact(arguments.GetValue(day), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly date))
            {
                Console.Error.WriteLine($"stillhook: '{arguments.GetValue(day)}' is no day. Write it as 2026-06-01.");
                return ExitCode.BadInput;
            }
            WorkStore work = store.Open(arguments);
            DayWork kept = work.Days.Read(new(date, arguments.GetValue(aircraft)));
            if (kept is { Flights.Count: 0, Lifts.Count: 0, Tally.Count: 0, TimeMarks.Count: 0, Events.Count: 0, Fuel.Count: 0, Duty.Count: 0 })
            {
                Console.Error.WriteLine($"stillhook: nothing is kept of {arguments.GetValue(day)}. Days: {string.Join(", ", work.Days.List().Take(10).Select(d => d.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)))}. Take records in with: stillhook import");
                return ExitCode.BadInput;
            }
            DaySheet sheet = Job.Day(kept);
            HoverDay? hover = MeasuredWork.OfDay(work, kept);
            if (arguments.GetValue(json))
                PlanCommand.WriteJson(output => DaySheetDocuments.Write(output, sheet));
            else if (arguments.GetValue(folder) is not null)
                Write(arguments.GetValue(folder)!, sheet);
            else
            {
                new DaySheetText(Console.Out, sheet).Write();
                if (hover is not null)
                    MeasuredText.Write(Console.Out, hover);
            }
            return hover is { ToWriteUp: true } || sheet.WriteUps.Count > 0 || sheet.Prompts.Count > 0 || sheet.ToLookAt.Count > 0 || sheet.Reconciliation.Odd.Count > 0 ? ExitCode.AnswerIsNo : ExitCode.Done;
        }));
        return command;
    }

    private static void Write(DirectoryInfo folder, DaySheet sheet)
    {
        folder.Create();
        string name = $"day-{sheet.Work.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}";
        WholeFile.Write(Path.Combine(folder.FullName, name + ".html"), to => DaySheetHtml.Write(to, sheet));
        WholeFile.Write(Path.Combine(folder.FullName, name + ".pdf"), new PdfMaker().Make(DayPrint.Of(sheet)));
        foreach (string ending in (string[])[".html", ".pdf"])
            Console.WriteLine(Path.Combine(folder.Name, name + ending));
    }
}
