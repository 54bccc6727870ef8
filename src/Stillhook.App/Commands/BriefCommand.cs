using System.CommandLine;
using System.CommandLine.Parsing;
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
using Stillhook.Store;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook brief JOB -o FOLDER</c>: the cards of pilot, load master, receiver and crew, and what changed since the last ones.</summary>
internal static class BriefCommand
{
    public static Command Create()
    {
        Argument<FileInfo> job = JobArgument.Create();
        Option<DirectoryInfo?> folder = new("--output", "-o") { Description = "Where the cards go, as PDF and HTML with brief.json; those of the brief before are replaced", HelpName = "FOLDER" };
        Option<string?> load = new("--load") { Description = "Number of the load that the approach is worked for; the heaviest that lifts to each site when left out", HelpName = "NUMBER" };
        Option<FileInfo?> terrain = new("--terrain") { Description = "Elevation grid in degrees; the job file's own when left out", HelpName = "FILE" };
        Option<Wind?> wind = QuantityOption.Create<Wind>("--wind", "A further cockpit card for this wind, from degrees true / speed, such as 070/8kt", QuantityText.TryWind);
        Option<string?> issued = new("--issued") { Description = "Moment of issue, such as 2026-06-01T06:40:00Z; now when left out. The same moment gives the same bytes", HelpName = "TIME" };
        Option<string?> by = new("--by") { Description = "Who issues the cards", HelpName = "NAME" };
        Option<string?> since = new("--since") { Description = "Earlier brief to tell the changes from: its folder or its brief.json. With --store the last one kept, when left out", HelpName = "FOLDER" };
        Option<string?> store = new("--store") { Description = "Keep the cards as issued in this store, with the job: a file, or a PostgreSQL connection string (Host=...)", HelpName = "PLACE" };
        Option<bool> json = new("--json") { Description = "Write the brief for machines (schema: stillhook schema brief)" };
        Option<string?> units = PlanCommand.UnitsOption();
        Option<bool> quick = new("--quick") { Description = "Order by the quick search alone, without the solver" };
        Command command = new("brief", """
            Cards to print on A5, black and white: cockpit, load master, receiver, and the brief of the whole crew. With an earlier brief, first of all what changed.
            Example: stillhook brief examples/path-repair.json -o cards
            Example: stillhook brief examples/path-repair.json -o cards --wind 070/8kt --units m
            Example: stillhook brief examples/path-repair.json -o noon --since cards
            Exit code: 0 written, 1 written, and an approach is blocked or a load does not lift, 2 the job file can't be planned, or folder, store or earlier brief can't be used.
            """) { job, folder, load, terrain, wind, issued, by, since, store, json, units, quick };
        command.SetAction(arguments => StoreOption.Guarded(() =>
        {
            FileInfo file = arguments.GetValue(job)!;
            if (arguments.GetValue(folder) is null && arguments.GetValue(store) is null && !arguments.GetValue(json))
                return Refuse("say where the cards go: -o FOLDER, --store PLACE, or --json.");
            if (!TryMoment(arguments.GetValue(issued), out DateTimeOffset at) || !TryEarlier(arguments.GetValue(since), out EarlierBrief? earlier))
                return ExitCode.BadInput;
            if (JobArgument.Read(file) is not { } jobFile || !ApproachCommand.TryGround(file, jobFile, arguments.GetValue(terrain), out Physics.Earth.ElevationGrid? grid))
                return ExitCode.BadInput;
            if (earlier is not null && arguments.GetValue(units) is { } asked && asked != earlier.Units)
                return Refuse($"--units {asked}: the earlier brief is in '{earlier.Units}'; in other units everything would seem to have changed. Leave out --units or --since.");
            LiftPlan plan = Job.Plan(jobFile.Request, JobArgument.PlanOptions(jobFile, arguments.GetValue(quick)));
            if (!plan.IsPlanned)
            {
                JobArgument.WriteFindings(file, jobFile, plan);
                return ExitCode.BadInput;
            }
            ApproachOptions options = ApproachCommand.Options(jobFile, grid) with { Load = arguments.GetValue(load) };
            BriefedApproach[] approaches = [.. BriefedApproaches.Of(jobFile.Request, plan, options, arguments.GetValue(wind) is { } other ? [other] : [])];
            if (approaches.Length == 0)
                return Refuse(options.Load is { } number ? $"--load {number}: there is no such load with a delivery site. Loads: {string.Join(", ", jobFile.Request.Loads.Select(l => l.Number))}" : "no delivery site with a load is entered.");
            Brief brief = Job.Brief(jobFile.Request, plan, approaches, new(JobArgument.Local(jobFile, at), arguments.GetValue(by)));
            WorkStore? kept = arguments.GetValue(store) is { } place ? WorkStore.Open(place, StoreOption.Options) : null;
            KeptJob? keptJob = kept is null ? null : ImportCommand.Keep(kept, jobFile, File.ReadAllText(file.FullName), arguments.GetValue(by) ?? "somebody", at.ToUniversalTime());
            string shown = arguments.GetValue(units) ?? earlier?.Units ?? PlanCommand.Units(null, jobFile).Name;
            earlier ??= keptJob is null ? null : CardFiles.LastKept(kept!, keptJob.Key, shown);
            Issue(brief, DisplayUnits.Named(shown), earlier, arguments.GetValue(folder), kept, keptJob?.Key, tell: !arguments.GetValue(json));
            if (arguments.GetValue(json))
                PlanCommand.WriteJson(output => BriefDocuments.Write(output, brief, DisplayUnits.Named(shown), earlier));
            return brief.AllFlyable && plan.AllLift ? ExitCode.Done : ExitCode.AnswerIsNo;
        }));
        return command;
    }

    private static void Issue(Brief brief, DisplayUnits units, EarlierBrief? earlier, DirectoryInfo? folder, WorkStore? store, Guid? job, bool tell)
    {
        IReadOnlyList<PrintedCard> cards = CardPrints.Of(brief, units, earlier);
        IReadOnlyList<CardFile> files = CardFiles.Of(brief, cards, units, earlier);
        if (folder is not null)
            Write(folder, files);
        if (store is not null && job is { } key)
            CardFiles.Keep(store, key, files, brief.Issue.At);
        if (tell)
            foreach (PrintedCard card in cards)
                Console.WriteLine($"{(folder is null ? card.Name : Path.Combine(folder.Name, card.Name))}.pdf and .html: {card.Title}");
    }

    /// <summary>Writes the cards; those of the brief that stood here before are taken away first, so that none is left that nobody stands by.</summary>
    private static void Write(DirectoryInfo folder, IReadOnlyList<CardFile> files)
    {
        folder.Create();
        string document = Path.Combine(folder.FullName, CardFiles.DocumentName);
        if (File.Exists(document) && BriefDocuments.Read(File.ReadAllText(document), out _) is { } before)
            foreach (string name in before.Cards.Where(c => c.All(x => char.IsAsciiLetterOrDigit(x) || x == '-')))
                foreach (string ending in new[] { ".pdf", ".html" })
                    File.Delete(Path.Combine(folder.FullName, name + ending));
        foreach (CardFile file in files)
            WholeFile.Write(Path.Combine(folder.FullName, file.Name), file.Content);
    }

    /// <summary>The moment typed, or now to the whole second; false, with the reason told, when it can't be read.</summary>
    private static bool TryMoment(string? typed, out DateTimeOffset at)
    {
        DateTimeOffset now = TimeProvider.System.GetUtcNow();
        at = now.AddTicks(-(now.Ticks % TimeSpan.TicksPerSecond));
        if (typed is null || DateTimeOffset.TryParse(typed, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out at))
            return true;
        _ = Refuse($"--issued: found '{typed}'. Expected a moment such as 2026-06-01T06:40:00Z.");
        return false;
    }

    /// <summary>Reads the earlier brief named; false, with the reason told, when it can't be used.</summary>
    private static bool TryEarlier(string? place, out EarlierBrief? earlier)
    {
        earlier = null;
        if (place is null)
            return true;
        string path = Directory.Exists(place) ? Path.Combine(place, CardFiles.DocumentName) : place;
        if (!File.Exists(path))
        {
            _ = Refuse($"--since {place}: no brief is there; expected a folder that 'brief' wrote, or its {CardFiles.DocumentName}.");
            return false;
        }
        earlier = BriefDocuments.Read(File.ReadAllText(path), out string? wrong);
        if (earlier is null)
            _ = Refuse($"--since {place}: {wrong}");
        return earlier is not null;
    }

    private static int Refuse(string why)
    {
        Console.Error.WriteLine("stillhook: " + why);
        return ExitCode.BadInput;
    }
}
