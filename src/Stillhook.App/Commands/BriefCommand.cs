using System.CommandLine;
using System.Globalization;
using System.Text;
using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Briefing.Printing;
using Stillhook.Debriefing;
using Stillhook.Files.Cards;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Pdf;
using Stillhook.Planning;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook brief JOB -o FOLDER</c>: the cards of pilot, load master, receiver and crew.</summary>
internal static class BriefCommand
{
    public static Command Create()
    {
        Argument<FileInfo> job = JobArgument.Create();
        Option<DirectoryInfo> folder = new("--output", "-o") { Description = "Where the cards go, as PDF and HTML; those of before are replaced", HelpName = "FOLDER", Required = true };
        Option<string?> load = new("--load") { Description = "Number of the load that the approach is worked for; the heaviest that lifts to each site when left out", HelpName = "NUMBER" };
        Option<FileInfo?> terrain = new("--terrain") { Description = "Elevation grid in degrees; the job file's own when left out", HelpName = "FILE" };
        Option<Wind?> wind = QuantityOption.Create<Wind>("--wind", "A further cockpit card for this wind, from degrees true / speed, such as 070/8kt", QuantityText.TryWind);
        Option<string?> issued = new("--issued") { Description = "Moment of issue, such as 2026-06-01T06:40:00Z; now when left out. The same moment gives the same bytes", HelpName = "TIME" };
        Option<string?> by = new("--by") { Description = "Who issues the cards", HelpName = "NAME" };
        Option<string?> units = PlanCommand.UnitsOption();
        Option<bool> quick = new("--quick") { Description = "Order by the quick search alone, without the solver" };
        Command command = new("brief", """
            Cards to print on A5, black and white: a cockpit card for each delivery site.
            Example: stillhook brief examples/path-repair.json -o cards
            Example: stillhook brief examples/path-repair.json -o cards --wind 070/8kt --units m
            Exit code: 0 written, 1 written, and an approach is blocked or a load does not lift, 2 the job file can't be planned or the folder can't be used.
            """) { job, folder, load, terrain, wind, issued, by, units, quick };
        command.SetAction(arguments => StoreOption.Guarded(() =>
        {
            FileInfo file = arguments.GetValue(job)!;
            if (!TryMoment(arguments.GetValue(issued), out DateTimeOffset at))
                return ExitCode.BadInput;
            if (JobArgument.Read(file) is not { } jobFile || !ApproachCommand.TryGround(file, jobFile, arguments.GetValue(terrain), out Physics.Earth.ElevationGrid? grid))
                return ExitCode.BadInput;
            LiftPlan plan = Job.Plan(jobFile.Request, JobArgument.PlanOptions(jobFile, arguments.GetValue(quick)));
            if (!plan.IsPlanned)
            {
                JobArgument.WriteFindings(file, jobFile, plan);
                return ExitCode.BadInput;
            }
            ApproachOptions options = ApproachCommand.Options(jobFile, grid) with { Load = arguments.GetValue(load) };
            Brief brief = Job.Brief(jobFile.Request, plan, [.. BriefedApproaches.Of(jobFile.Request, plan, options, arguments.GetValue(wind) is { } other ? [other] : [])], new(JobArgument.Local(jobFile, at), arguments.GetValue(by)));
            Write(arguments.GetValue(folder)!, CardPrints.Of(brief, PlanCommand.Units(arguments.GetValue(units), jobFile)));
            return brief.AllFlyable && plan.AllLift ? ExitCode.Done : ExitCode.AnswerIsNo;
        }));
        return command;
    }

    /// <summary>The moment typed, or now to the whole second; false, with the reason told, when it can't be read.</summary>
    private static bool TryMoment(string? typed, out DateTimeOffset at)
    {
        DateTimeOffset now = TimeProvider.System.GetUtcNow();
        at = now.AddTicks(-(now.Ticks % TimeSpan.TicksPerSecond));
        if (typed is null || DateTimeOffset.TryParse(typed, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out at))
            return true;
        Console.Error.WriteLine($"stillhook: --issued: found '{typed}'. Expected a moment such as 2026-06-01T06:40:00Z.");
        return false;
    }

    private static void Write(DirectoryInfo folder, IReadOnlyList<PrintedCard> cards)
    {
        folder.Create();
        PdfCardMaker pdf = new();
        foreach (PrintedCard card in cards)
        {
            File.WriteAllBytes(Path.Combine(folder.FullName, card.Name + ".pdf"), pdf.Make(card));
            File.WriteAllText(Path.Combine(folder.FullName, card.Name + ".html"), CardHtml.Page(card), new UTF8Encoding(false));
            Console.WriteLine($"{Path.Combine(folder.Name, card.Name)}.pdf and .html: {card.Title}");
        }
    }
}
