using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Net;
using Stillhook.Adjusting;
using Stillhook.App.Serving;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Live;
using Stillhook.Following;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Store;
using UnitsNet;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook listen</c>: a flight as it happens, recorded first, then followed; the Live page, the cockpit page and the ground page.</summary>
internal sealed class ListenCommand
{
    private readonly Argument<string[]> sources = new("sources") { Description = $"Where it comes from: {LiveSourceText.Forms}", Arity = ArgumentArity.OneOrMore, HelpName = "SOURCE" };
    private readonly ServingArguments serving = new("stillhook.db");
    private readonly Option<string?> job = new("--job") { Description = "Job file, or the name of a kept job; that of today when left out", HelpName = "JOB" };
    private readonly Option<DirectoryInfo?> folder = new("--record-in") { Description = "Folder in which what arrives is recorded; beside the store when left out", HelpName = "FOLDER" };
    private readonly Option<Length?> litAbove = QuantityOption.Create<Length>("--lit-above", "Least height of the hook over the straight line between the sites' grounds for the cockpit page to be lit in flight, such as 200ft", QuantityText.TryLength);
    private readonly Option<Speed?> litOver = QuantityOption.Create<Speed>("--lit-over", "Least ground speed for it, such as 40kt", QuantityText.TrySpeed);
    private readonly Option<bool> litByMotion = new("--lit-by-motion") { Description = "Lights it in flight also when neither a load cell nor a hook switch tells that the hook is empty: the operator answers for that" };
    private readonly Option<string?> open = new("--open") { Description = "Opens the ground page, read-only and by a one-time code, to the network at this address of this machine, such as 192.168.1.20:5081", HelpName = "ADDRESS:PORT" };

    public static Command Create()
    {
        ListenCommand listen = new();
        Command command = new("listen", """
            Listens to a flight: records every byte first, finds and measures each delivery as it ends, and shows what to change on the next.
            The cockpit page is dark from the start mark until the hook is clear, and whenever anything is not sure. Several sources are merged by time.
            Example: stillhook listen udp:10110 --job path-repair
            Example: stillhook listen tcp:192.168.1.10:2000 "serial:/dev/ttyUSB0@9600 columns=load_kg"
            Example: stillhook listen replay:day.gpx@10 --job examples/path-repair.json
            Exit code: 0 ended, 2 it can't be used.
            """) { listen.sources };
        foreach (Option option in (Option[])[listen.job, listen.folder, listen.litAbove, listen.litOver, listen.litByMotion, listen.open])
            command.Options.Add(option);
        listen.serving.AddTo(command);
        command.SetAction(listen.Run);
        return command;
    }

    private async Task<int> Run(ParseResult arguments, CancellationToken cancellation)
    {
        List<Finding> findings = [];
        IReadOnlyList<LiveSourceSetting> settings = LiveSourceText.ParseAll(arguments.GetValue(sources) ?? [], findings);
        FindingText.Write("listen", findings);
        if (findings.Any(f => f.Severity == Severity.Error))
            return ExitCode.BadInput;
        if (!TryOpen(arguments, out IPEndPoint? address))
            return ExitCode.BadInput;
        WorkStore store = serving.OpenStore(arguments);
        if (!TryJob(arguments, store, out OpenJob? meant))
            return ExitCode.BadInput;

        FollowSettings follow = new() { LitByMotionAlone = arguments.GetValue(litByMotion) };
        if (arguments.GetValue(litAbove) is { } above)
            follow = follow with { LitAbove = above };
        if (arguments.GetValue(litOver) is { } over)
            follow = follow with { LitOver = over };
        return await Follow(settings, Setup(store, meant, follow), arguments.GetValue(folder)?.FullName, store, serving, arguments, address, cancellation);
    }

    /// <summary>Records what comes, follows the flight and opens the pages until interrupted.</summary>
    /// <param name="sources">Where it comes from.</param>
    /// <param name="setup">What is followed and how.</param>
    /// <param name="recordIn">Folder of the recordings; beside the store when null, so that both are found together.</param>
    /// <param name="store">The store.</param>
    /// <param name="serving">Port and limits of the pages.</param>
    /// <param name="arguments">What was typed.</param>
    /// <param name="address">Where the ground page is opened to; null for this machine alone.</param>
    /// <param name="cancellation">Ends it.</param>
    public static async Task<int> Follow(IReadOnlyList<LiveSourceSetting> sources, LiveSetup setup, string? recordIn, WorkStore store, ServingArguments serving, ParseResult arguments, IPEndPoint? address, CancellationToken cancellation)
    {
        LiveFlight flight = new(setup);
        LiveInput input;
        try
        {
            input = LiveInput.Start(sources, flight, new()
            {
                JournalRoot = recordIn ?? Path.Combine(store.Folder, "live"),
                Found = f => FindingText.Write(f.Source.Length > 0 ? f.Source : "listen", [f.Finding]),
            }, cancellation);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"listen: what arrives can't be recorded: {e.Message} Name another folder with --record-in.");
            return ExitCode.BadInput;
        }
        flight.Clock = input.Clock;
        if (input.Resumed)
            Console.Error.WriteLine($"listen: goes on in the flight recorded in {input.JournalFolder}.");
        OneTimeCodes? codes = address is null ? null : new(TimeProvider.System);
        if (codes is not null)
        {
            Console.Error.WriteLine($"listen: warning: the ground page is open to the network at http://{address}; it can be read there by whoever has the code, over a line that is not encrypted.");
            Console.WriteLine($"Code for the first screen at http://{address}{LiveRoutes.Code}: {codes.Code}");
            codes.Changed += code => Console.WriteLine($"A screen was let in. Code for the next one: {code}");
        }
        await using (flight)
        await using (input)
            return await serving.Run(arguments, store, cancellation, new(flight, input, store), address, codes);
    }

    /// <summary>What is followed: the job with the order and the cards in force, or a flight of which nothing is known.</summary>
    public static LiveSetup Setup(WorkStore store, OpenJob? meant, FollowSettings settings)
    {
        if (meant is null)
            return new() { Name = "flight without a job", Setup = new(), Cards = [new(null, null, new())], Settings = settings };
        int issued = store.Jobs.Cards(meant.Kept.Key).Count;
        IReadOnlyList<SiteCard> cards = KeptNext.CardsOf(store, meant.Kept);
        (LiftPlan plan, string orderOf) = JobMarks.PlanInForce(store, meant);
        return new() { Name = meant.Kept.Name, Job = meant, Plan = plan.IsPlanned ? plan : null, OrderOf = orderOf, Setup = LiftSetup.From(meant.File.Request), Cards = cards, Settings = settings, NewCards = NewCards };

        IReadOnlyList<SiteCard>? NewCards()
        {
            if (store.Jobs.Cards(meant.Kept.Key).Count is var now && now == issued)
                return null;
            issued = now;
            return KeptNext.CardsOf(store, store.Jobs.Find(meant.Kept.Key) ?? meant.Kept);
        }
    }

    /// <summary>The job named: a file, which is kept in the store, or a kept one; without a name the kept job of today, or none.</summary>
    private bool TryJob(ParseResult arguments, WorkStore store, out OpenJob? meant)
    {
        meant = null;
        string? name = arguments.GetValue(job);
        DateOnly today = DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().DateTime);
        KeptJob? kept;
        if (name is not null && File.Exists(name))
        {
            string text = File.ReadAllText(name);
            JobFile file = JobFiles.Read(new FileInfo(name));
            FindingText.Write(name, file.Findings.Where(f => f.Severity != Severity.Note));
            if (!file.IsUsable)
                return false;
            kept = ImportCommand.Keep(store, file, text, "listen", TimeProvider.System.GetUtcNow());
        }
        else if (name is null)
            kept = store.Jobs.List().FirstOrDefault(j => j.Day == today);
        else
        {
            kept = KeptNext.Choose(store.Jobs.List(), name, today, out string problem);
            if (kept is null)
            {
                Console.Error.WriteLine($"listen: {problem}");
                return false;
            }
        }
        if (kept is null)
            return true;
        meant = new(kept, JobFile.Read(kept.Text));
        if (meant.File.IsUsable)
            return true;
        Console.Error.WriteLine($"listen: the job '{kept.Name}' can't be used as it stands; mend it on the Job page, or name another with --job.");
        return false;
    }

    private bool TryOpen(ParseResult arguments, out IPEndPoint? address)
    {
        address = null;
        if (arguments.GetValue(open) is not { } text)
            return true;
        if (IPEndPoint.TryParse(text, out address) && address.Port > 0)
            return true;
        Console.Error.WriteLine($"listen: --open '{text}' is no address with a port; type one of this machine's addresses, such as 192.168.1.20:5081.");
        return false;
    }
}
