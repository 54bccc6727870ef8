using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Stillhook.Files.Jobs;
using Stillhook.Reporting;
using Stillhook.Store;
using UnitsNet;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook correct DATE LIFT</c>: what the crew knows better than the record. What was measured stays and can be put back.</summary>
internal sealed class CorrectCommand
{
    private const string NewLift = "new";

    private readonly StoreOption store = new();
    private readonly Argument<string> day = KeptDay.CreateArgument();
    private readonly Argument<string?> lift = new("LIFT") { Description = "Number of the lift as listed; 'new' for one that no record shows; left out: lists the day's lifts", Arity = ArgumentArity.ZeroOrOne };
    private readonly Option<string?> aircraft = KeptDay.CreateAircraft();
    private readonly Option<Mass?> mass = QuantityOption.Create<Mass>("--mass", "Mass of the load, such as 640kg or 1410lb", QuantityText.TryMass);
    private readonly Option<string?> loadNumber = new("--load-number") { Description = "Number of the load on the list", HelpName = "NUMBER" };
    private readonly Option<string?> kind = new("--kind") { Description = "Kind of load, as on the list", HelpName = "NAME" };
    private readonly Option<string?> site = new("--site") { Description = "Delivery site it went to", HelpName = "SITE" };
    private readonly Option<string?> pickUp = new("--pick-up") { Description = "Site it was picked up at", HelpName = "SITE" };
    private readonly Option<Length?> line = QuantityOption.Create<Length>("--line", "Length of the line alone, such as 45m", QuantityText.TryLength);
    private readonly Option<TimeOnly?> delivered = QuantityOption.Create<TimeOnly>("--delivered", "Local time at which the load touched, such as 10:05", QuantityText.TryClock, "CLOCK");
    private readonly Option<bool> noLift = new("--no-lift") { Description = "This was no lift of a load: it counts nowhere" };
    private readonly Option<bool> isLift = new("--lift") { Description = "It was a lift after all" };
    private readonly Option<bool> withdraw = new("--withdraw") { Description = "Puts everything back as it was measured" };
    private readonly Option<string> by = KeptDay.CreateBy();
    private readonly Option<string?> why = new("--why") { Description = "Reason", HelpName = "TEXT" };

    public static Command Create()
    {
        CorrectCommand correct = new();
        Command command = new("correct", """
            Corrects a lift of a day. What was measured stays; who changed what, when and why is kept and shown on the day sheet.
            Example: stillhook correct 2025-09-16
            Example: stillhook correct 2025-09-16 3 --mass 640kg --by "load master C" --why "weighed again"
            Example: stillhook correct 2025-09-16 new --delivered 10:05 --load-number 12 --by "pilot B"
            Exit code: 0 done, 1 nothing is changed by it or there is no lift to list, 2 it can't be used.
            """) { correct.day, correct.lift };
        foreach (Option option in (Option[])[correct.mass, correct.loadNumber, correct.kind, correct.site, correct.pickUp, correct.line, correct.delivered, correct.noLift, correct.isLift, correct.withdraw, correct.by, correct.why, correct.aircraft, correct.store.Place])
            command.Options.Add(option);
        command.SetAction(arguments => StoreOption.Guarded(() => correct.Run(arguments)));
        return command;
    }

    private int Run(ParseResult arguments)
    {
        if (KeptDay.Open(arguments, store, day, aircraft) is not { } kept)
            return ExitCode.BadInput;
        List<CorrectedLift> lifts = Lifts(kept);
        string? which = arguments.GetValue(lift);
        if (which is null)
            return List(kept, lifts);
        if (Impossible(arguments, kept) is { } problem)
            return KeptDay.Refused(problem);
        if (string.Equals(which, NewLift, StringComparison.OrdinalIgnoreCase))
            return Add(arguments, kept);
        if (!int.TryParse(which, NumberStyles.None, CultureInfo.InvariantCulture, out int number) || number < 1 || number > lifts.Count)
            return KeptDay.Refused(lifts.Count == 0 ? $"no lift of {arguments.GetValue(day)} is kept." : string.Create(CultureInfo.InvariantCulture, $"there is no lift '{which}' on {kept.Key.Day:yyyy-MM-dd}. Lifts: 1 to {lifts.Count}; stillhook correct {kept.Key.Day:yyyy-MM-dd} lists them."));
        CorrectedLift was = lifts[number - 1];
        KeptLift asked = arguments.GetValue(withdraw) ? was.AsKept : Asked(arguments, kept, was.Lift);
        if (asked == was.Lift)
        {
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"lift {number}: nothing is changed by that."));
            return ExitCode.AnswerIsNo;
        }
        CorrectedLift now = kept.Store.Lifts.Correct(was.Lift, asked, arguments.GetValue(by)!, TimeProvider.System.GetUtcNow(), arguments.GetValue(why))!;
        foreach (Correction c in now.Corrections.Skip(was.Corrections.Count))
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"lift {number}: {CorrectionText.Of(c, kept.Work)}"));
        return ExitCode.Done;
    }

    /// <summary>The day's lifts in the order of their numbers here: by time as measured, those added by hand last.</summary>
    private static List<CorrectedLift> Lifts(KeptDay kept) =>
    [
        .. kept.Work.Flights.SelectMany(f => kept.Store.Lifts.OfFlight(f.Id)).OrderBy(l => l.AsKept.AddedByHand),
        .. kept.Work.Lifts.Where(l => l is { AddedByHand: true, FlightId: 0 }).OrderBy(l => l.Number).Select(l => kept.Store.Lifts.Find(0, l.Number, addedByHand: true)!),
    ];

    private static int List(KeptDay kept, List<CorrectedLift> lifts)
    {
        if (lifts.Count == 0)
        {
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"No lift of {kept.Key.Day:yyyy-MM-dd} is kept."));
            return ExitCode.AnswerIsNo;
        }
        TextTable table = new TextTable("Lift", "Delivered", "Load", "Kind", "Mass", "To", "").Words(2, 3, 5, 6);
        foreach ((CorrectedLift l, int i) in lifts.Select((l, i) => (l, i + 1)))
            table.Add(i.ToString(CultureInfo.InvariantCulture), l.Lift.DeliveryTimeS is { } at ? kept.Clock(at) : "-", l.Lift.LoadNumber ?? "-", l.Lift.Family ?? "-",
                l.Lift.LoadKg is { } kg ? string.Create(CultureInfo.InvariantCulture, $"{kg:0} kg") : "-", l.Lift.DeliverySite ?? "-", l.Lift.StruckOut ? "no lift of a load" : l.Lift.AddedByHand ? "added by hand" : l.Corrections.Count > 0 ? "corrected" : "");
        table.Write(Console.Out);
        return ExitCode.Done;
    }

    private string? Impossible(ParseResult arguments, KeptDay kept)
    {
        if (arguments.GetValue(noLift) && arguments.GetValue(isLift))
            return "--no-lift and --lift say the opposite: leave one out.";
        if (arguments.GetValue(mass) is { } m && m.Kilograms is not (> 0 and < 30_000))
            return string.Create(CultureInfo.InvariantCulture, $"--mass: found {m.Kilograms:0.###} kg. Expected more than 0 and under 30000 kg.");
        if (QuantityOption.Outside("--line", arguments.GetValue(line)?.Meters, "m", typeof(Planning.LongLine), nameof(Planning.LongLine.Length)) is { } outside)
            return outside["stillhook: ".Length..];
        if (arguments.GetValue(delivered) is { } time && kept.MomentS(time) is null)
            return string.Create(CultureInfo.InvariantCulture, $"--delivered: the clocks skip {time:HH:mm} on {kept.Key.Day:yyyy-MM-dd}.");
        return Unknown("--site", arguments.GetValue(site), kept) ?? Unknown("--pick-up", arguments.GetValue(pickUp), kept);
    }

    private static string? Unknown(string option, string? name, KeptDay kept) =>
        name is not null && kept.Work.Job is { Sites.Count: > 0 } job && Site(name, kept) is null
            ? $"{option}: the job has no site '{name}'. Sites: {string.Join(", ", job.Sites.Select(s => s.Name))}." : null;

    // As the job writes it, so that the name is the same everywhere.
    private static string? Site(string? name, KeptDay kept) =>
        kept.Work.Job is { Sites.Count: > 0 } job ? job.Sites.FirstOrDefault(s => string.Equals(s.Name, name, StringComparison.OrdinalIgnoreCase))?.Name : name;

    private KeptLift Asked(ParseResult arguments, KeptDay kept, KeptLift l)
    {
        if (arguments.GetValue(mass) is { } m)
            l = l with { LoadKg = m.Kilograms, LoadMeasured = false };
        if (arguments.GetValue(delivered) is { } time)
            l = l with { DeliveryTimeS = kept.MomentS(time) };
        return l with
        {
            LoadNumber = arguments.GetValue(loadNumber) ?? l.LoadNumber,
            Family = arguments.GetValue(kind) ?? l.Family,
            DeliverySite = Site(arguments.GetValue(site), kept) ?? l.DeliverySite,
            PickUpSite = Site(arguments.GetValue(pickUp), kept) ?? l.PickUpSite,
            LineM = arguments.GetValue(line)?.Meters ?? l.LineM,
            StruckOut = arguments.GetValue(noLift) || (l.StruckOut && !arguments.GetValue(isLift)),
        };
    }

    private int Add(ParseResult arguments, KeptDay kept)
    {
        if (arguments.GetValue(delivered) is null)
            return KeptDay.Refused("a lift that no record shows needs its time: add --delivered 10:05.");
        CorrectedLift added = kept.Store.Lifts.AddByHand(Asked(arguments, kept, new() { Number = 0, Confidence = Debriefing.Confidence.Low }), kept.Key.Day, kept.Key.Aircraft, arguments.GetValue(by)!, TimeProvider.System.GetUtcNow(), arguments.GetValue(why));
        Console.Out.WriteLine($"added by hand: lift of {kept.Clock(added.Lift.DeliveryTimeS!.Value)}{(added.Lift.LoadNumber is { } load ? ", load " + load : "")}, by {arguments.GetValue(by)}.");
        return ExitCode.Done;
    }
}
