using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Stillhook.Files.Jobs;
using Stillhook.Planning.Rechecking;
using Stillhook.Reporting;
using Stillhook.Store;
using UnitsNet;

namespace Stillhook.App.Commands;

/// <summary><c>stillhook note DATE</c>: what the crew writes of a day, one entry a call; the same kinds as a crew sheet, and duty.</summary>
internal sealed class NoteCommand
{
    private static readonly Dictionary<string, TimeUse> Uses = new(StringComparer.Ordinal)
    {
        ["customer"] = TimeUse.WaitingOnCustomer, ["weather"] = TimeUse.Weather, ["fuel"] = TimeUse.Fuel, ["defect"] = TimeUse.Defect, ["other"] = TimeUse.Other,
    };

    private static readonly Dictionary<string, EventKind> Events = new(StringComparer.Ordinal)
    {
        ["release"] = EventKind.UnplannedRelease, ["jettison"] = EventKind.Jettison, ["snag"] = EventKind.Snag, ["shortfall"] = EventKind.PerformanceShortfall, ["injury"] = EventKind.Injury, ["damage"] = EventKind.Damage, ["mark"] = EventKind.TimeMark,
    };

    private readonly StoreOption store = new();
    private readonly Argument<string> day = KeptDay.CreateArgument();
    private readonly Option<string?> waiting = new("--waiting") { Description = "What the time from --from to --to went on: customer, weather, fuel, defect or other" };
    private readonly Option<bool> rest = new("--break") { Description = "The crew rested from --from to --to: engine off, nobody fuelling" };
    private readonly Option<string?> what = new("--event") { Description = "What happened at --at: release (not meant to), jettison, snag, shortfall (the aircraft did less than expected), injury, damage, or mark (a moment to be named afterwards)" };
    private readonly Option<bool> delivery = new("--delivery") { Description = "A line of the tally: a load delivered, with --at, --load-number and --mass as far as known" };
    private readonly Option<Mass?> gauge = QuantityOption.Create<Mass>("--gauge", "Fuel on board at --at by the gauge, such as 240kg", QuantityText.TryMass);
    private readonly Option<Mass?> uplift = QuantityOption.Create<Mass>("--uplift", "Fuel taken on at --at, such as 100kg", QuantityText.TryMass);
    private readonly Option<string?> duty = new("--duty") { Description = "Who was on duty from --from to --to", HelpName = "NAME" };
    private readonly Option<TimeOnly?> at = QuantityOption.Create<TimeOnly>("--at", "Local time, such as 10:05", QuantityText.TryClock, "CLOCK");
    private readonly Option<TimeOnly?> from = QuantityOption.Create<TimeOnly>("--from", "Local time it began, such as 10:05", QuantityText.TryClock, "CLOCK");
    private readonly Option<TimeOnly?> to = QuantityOption.Create<TimeOnly>("--to", "Local time it ended, such as 10:25", QuantityText.TryClock, "CLOCK");
    private readonly Option<string?> loadNumber = new("--load-number") { Description = "With --delivery: number of the load", HelpName = "NUMBER" };
    private readonly Option<Mass?> mass = QuantityOption.Create<Mass>("--mass", "With --delivery: mass as written, such as 640kg", QuantityText.TryMass);
    private readonly Option<string?> text = new("--text") { Description = "Remark", HelpName = "TEXT" };
    private readonly Option<string?> withdraw = new("--withdraw") { Description = "Withdraws an entry by its number as listed: it counts no more and stays readable", HelpName = "NUMBER" };
    private readonly Option<string?> why = new("--why") { Description = "With --withdraw: reason", HelpName = "TEXT" };
    private readonly Option<string> by = KeptDay.CreateBy();
    private readonly Option<string?> aircraft = KeptDay.CreateAircraft();

    public static Command Create()
    {
        NoteCommand note = new();
        note.waiting.AcceptOnlyFromAmong([.. Uses.Keys]);
        note.what.AcceptOnlyFromAmong([.. Events.Keys]);
        Command command = new("note", """
            Writes one entry of the crew into a day: waiting, a break, an event, a tally line, fuel, duty. With the day alone: lists what is written.
            Example: stillhook note 2025-09-16 --waiting customer --from 10:05 --to 10:25 --by "pilot B"
            Example: stillhook note 2025-09-16 --event snag --at 11:20 --text "choker caught, let go on the ground"
            Example: stillhook note 2025-09-16 --delivery --at 08:36 --load-number 1 --mass 651kg
            Example: stillhook note 2025-09-16 --withdraw 2 --by "pilot B" --why "wrong day"
            Exit code: 0 done, 1 it stands already or nothing is written, 2 it can't be used.
            """) { note.day };
        foreach (Option option in (Option[])[note.waiting, note.rest, note.what, note.delivery, note.gauge, note.uplift, note.duty, note.at, note.from, note.to, note.loadNumber, note.mass, note.text, note.withdraw, note.why, note.by, note.aircraft, note.store.Place])
            command.Options.Add(option);
        command.SetAction(arguments => StoreOption.Guarded(() => note.Run(arguments)));
        return command;
    }

    private int Run(ParseResult arguments)
    {
        if (KeptDay.Open(arguments, store, day, aircraft) is not { } kept)
            return ExitCode.BadInput;
        bool fuel = arguments.GetValue(gauge) is not null || arguments.GetValue(uplift) is not null;
        int kinds = new[] { arguments.GetValue(waiting) is not null, arguments.GetValue(rest), arguments.GetValue(what) is not null, arguments.GetValue(delivery), fuel, arguments.GetValue(duty) is not null, arguments.GetValue(withdraw) is not null }.Count(k => k);
        if (kinds > 1)
            return KeptDay.Refused("one entry a call: --waiting, --break, --event, --delivery, --gauge with --uplift, --duty or --withdraw.");
        if (arguments.GetValue(withdraw) is { } number)
            return Withdraw(arguments, kept, number);
        if (kinds == 0)
            return new[] { at, from, to }.Any(o => arguments.GetValue(o) is not null) || arguments.GetValue(text) is not null
                ? KeptDay.Refused("what is to be written? --waiting, --break, --event, --delivery, --gauge, --uplift or --duty.") : List(kept);
        if (fuel)
            return Moment(arguments, kept) is { } read ? Keep(arguments, kept, new FuelEntry(read, arguments.GetValue(gauge)?.Kilograms, arguments.GetValue(uplift)?.Kilograms)) : ExitCode.BadInput;
        if (arguments.GetValue(what) is { } happened)
            return Moment(arguments, kept) is { } when ? Keep(arguments, kept, new EventMark(when, Events[happened], arguments.GetValue(text))) : ExitCode.BadInput;
        if (arguments.GetValue(delivery))
            return Tally(arguments, kept);
        if (Stretch(arguments, kept) is not { } stretch)
            return ExitCode.BadInput;
        if (arguments.GetValue(duty) is { } person)
            return Keep(arguments, kept, new DutySpell(person, stretch, arguments.GetValue(text)));
        return Keep(arguments, kept, new TimeMark(stretch, arguments.GetValue(waiting) is { } use ? Uses[use] : TimeUse.Other, arguments.GetValue(text), arguments.GetValue(rest)));
    }

    private int Tally(ParseResult arguments, KeptDay kept)
    {
        double? when = null;
        if (arguments.GetValue(at) is not null && (when = Moment(arguments, kept)) is null)
            return ExitCode.BadInput;
        if (when is null && arguments.GetValue(loadNumber) is null)
            return KeptDay.Refused("a line of the tally needs its time or the number of its load: add --at 08:36 or --load-number 1.");
        int next = kept.Store.Days.Entries<TallyEntry>(kept.Key).Select(e => e.Entry.Number).DefaultIfEmpty().Max() + 1;
        TallyEntry entry = new(next, when, arguments.GetValue(loadNumber), arguments.GetValue(mass)?.Kilograms, arguments.GetValue(text));
        return kept.Work.Tally.Any(t => t with { Number = next } == entry) ? StandsAlready() : Keep(arguments, kept, entry);
    }

    private int Keep<T>(ParseResult arguments, KeptDay kept, T entry)
    {
        if (kept.Store.Days.Entries<T>(kept.Key).Any(e => e.WithdrawnBy is null && Equals(e.Entry, entry)))
            return StandsAlready();
        (string who, DateTimeOffset now) = (arguments.GetValue(by)!, TimeProvider.System.GetUtcNow());
        _ = entry switch
        {
            TallyEntry e => kept.Store.Days.Add(kept.Key, e, who, now),
            TimeMark e => kept.Store.Days.Add(kept.Key, e, who, now),
            EventMark e => kept.Store.Days.Add(kept.Key, e, who, now),
            FuelEntry e => kept.Store.Days.Add(kept.Key, e, who, now),
            DutySpell e => kept.Store.Days.Add(kept.Key, e, who, now),
            _ => throw new ArgumentException($"{typeof(T).Name} is no entry of a day.", nameof(entry)),
        };
        Console.Out.WriteLine($"kept: {Words(entry!, kept)}, by {who}.{(kept.Work.Job?.TimeZone is null ? " Times are UTC: no job of the day names a time zone." : "")}");
        return ExitCode.Done;
    }

    private static int StandsAlready()
    {
        Console.Out.WriteLine("That stands already; nothing was added.");
        return ExitCode.AnswerIsNo;
    }

    private int Withdraw(ParseResult arguments, KeptDay kept, string which)
    {
        List<DayEntry<object>> entries = Entries(kept);
        if (!int.TryParse(which, NumberStyles.None, CultureInfo.InvariantCulture, out int number) || number < 1 || number > entries.Count)
            return KeptDay.Refused(string.Create(CultureInfo.InvariantCulture, $"there is no entry '{which}' on {kept.Key.Day:yyyy-MM-dd}; {(entries.Count == 0 ? "nothing is written" : $"entries: 1 to {entries.Count}, stillhook note {kept.Key.Day:yyyy-MM-dd} lists them")}."));
        if (!kept.Store.Days.Withdraw(entries[number - 1].Key, arguments.GetValue(by)!, TimeProvider.System.GetUtcNow(), arguments.GetValue(why)))
        {
            Console.Out.WriteLine($"Entry {which} was withdrawn before.");
            return ExitCode.AnswerIsNo;
        }
        Console.Out.WriteLine($"withdrawn: {Words(entries[number - 1].Entry, kept)}, by {arguments.GetValue(by)}.");
        return ExitCode.Done;
    }

    private static int List(KeptDay kept)
    {
        List<DayEntry<object>> entries = Entries(kept);
        if (entries.Count == 0)
        {
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Nothing is written of {kept.Key.Day:yyyy-MM-dd}."));
            return ExitCode.AnswerIsNo;
        }
        foreach ((DayEntry<object> e, int i) in entries.Select((e, i) => (e, i + 1)))
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{i,3}  {Words(e.Entry, kept)}, by {e.By}{(e.WithdrawnBy is { } gone ? $"; WITHDRAWN by {gone}{(e.WithdrawnWhy is { Length: > 0 } reason ? ": " + reason : "")}" : "")}"));
        return ExitCode.Done;
    }

    // Their keys rise with the time they were written.
    private static List<DayEntry<object>> Entries(KeptDay kept)
    {
        IEnumerable<DayEntry<object>> Of<T>() => kept.Store.Days.Entries<T>(kept.Key).Select(e => new DayEntry<object>(e.Key, e.Entry!, e.By, e.At, e.WithdrawnBy, e.WithdrawnAt, e.WithdrawnWhy));
        return [.. Of<TallyEntry>().Concat(Of<TimeMark>()).Concat(Of<EventMark>()).Concat(Of<FuelEntry>()).Concat(Of<DutySpell>()).Concat(Of<AirReading>()).Concat(Of<RecheckMark>()).OrderBy(e => e.At).ThenBy(e => e.Key.ToString("N"), StringComparer.Ordinal)];
    }

    private static string Words(object entry, KeptDay kept) => entry switch
    {
        TallyEntry t => string.Create(CultureInfo.InvariantCulture, $"delivery{(t.AtS is { } s ? " at " + kept.Clock(s) : "")}{(t.LoadNumber is { } load ? ", load " + load : "")}{(t.LoadKg is { } kg ? $", {kg:0} kg" : "")}{Remark(t.Note)}"),
        TimeMark m => $"{(m.IsBreak ? "break" : Uses.First(u => u.Value == m.Use || m.Use == TimeUse.Flown).Key)} {kept.Clock(m.When.FromS)} to {kept.Clock(m.When.ToS)}{Remark(m.Note)}",
        EventMark e => $"{Events.First(k => k.Value == e.Kind).Key} at {kept.Clock(e.AtS)}{Remark(e.Note)}",
        FuelEntry f => string.Create(CultureInfo.InvariantCulture, $"fuel at {kept.Clock(f.AtS)}{(f.TakenOnKg is { } on ? $", {on:0} kg taken on" : "")}{(f.OnBoardKg is { } board ? $", gauge {board:0} kg" : "")}"),
        DutySpell d => $"duty of {d.Person} {kept.Clock(d.When.FromS)} to {kept.Clock(d.When.ToS)}{Remark(d.Note)}",
        AirReading r => string.Create(CultureInfo.InvariantCulture, $"read at {kept.Clock(r.AtS)}{(r.QnhPa is { } qnh ? $", QNH {qnh / 100:0.#} hPa" : "")}{(r.TemperatureC is { } celsius ? $", {celsius:0.#} °C" : "")}{(r.ReadWind() is { } wind ? $", wind {wind.FromDeg:000}/{wind.Speed.Knots:0} kt" : "")}"),
        RecheckMark m => $"offered check {(m.PutAside ? "put aside" : "taken")} at {kept.Clock(m.AtS)}",
        _ => "",
    };

    private static string Remark(string? note) => note is { Length: > 0 } ? $" ({note})" : "";

    private double? Moment(ParseResult arguments, KeptDay kept)
    {
        if (arguments.GetValue(at) is not { } time)
        {
            KeptDay.Refused("that needs its time: add --at 10:05.");
            return null;
        }
        return Skipped(kept.MomentS(time), time, kept);
    }

    private Stretch? Stretch(ParseResult arguments, KeptDay kept)
    {
        if (arguments.GetValue(from) is not { } begun || arguments.GetValue(to) is not { } ended || ended <= begun)
        {
            KeptDay.Refused("that needs when it began and, later, when it ended: add --from 10:05 --to 10:25.");
            return null;
        }
        return Skipped(kept.MomentS(begun), begun, kept) is { } a && Skipped(kept.MomentS(ended), ended, kept) is { } b ? new(a, b) : null;
    }

    private static double? Skipped(double? moment, TimeOnly time, KeptDay kept)
    {
        if (moment is null)
            KeptDay.Refused(string.Create(CultureInfo.InvariantCulture, $"the clocks skip {time:HH:mm} on {kept.Key.Day:yyyy-MM-dd}."));
        return moment;
    }
}
