using Microsoft.EntityFrameworkCore;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>A working day of one aircraft.</summary>
/// <param name="Day">The day, in the sites' time zone.</param>
/// <param name="Aircraft">Aircraft's name; null where it goes without saying.</param>
public readonly record struct WorkDay(DateOnly Day, string? Aircraft = null);

/// <summary>An entry that somebody wrote of a day.</summary>
/// <param name="Key">Its key.</param>
/// <param name="Entry">What was written.</param>
/// <param name="By">Who.</param>
/// <param name="At">When.</param>
/// <param name="WithdrawnBy">Who withdrew it; null while it stands.</param>
/// <param name="WithdrawnAt">When it was withdrawn.</param>
/// <param name="WithdrawnWhy">Reason, when one was given.</param>
public sealed record DayEntry<T>(Guid Key, T Entry, string By, DateTimeOffset At, string? WithdrawnBy, DateTimeOffset? WithdrawnAt, string? WithdrawnWhy);

/// <summary>What people wrote of a day, and the day as a whole. Entries are withdrawn, never written over.</summary>
public sealed class DayStore
{
    private readonly WorkStore store;

    internal DayStore(WorkStore store) => this.store = store;

    /// <summary>Adds a line of the tally.</summary>
    public Guid Add(WorkDay day, TallyEntry entry, string by, DateTimeOffset at) => AddEntry(day, entry, by, at);

    /// <summary>Adds what a stretch was for.</summary>
    public Guid Add(WorkDay day, TimeMark entry, string by, DateTimeOffset at) => AddEntry(day, entry, by, at);

    /// <summary>Adds an event.</summary>
    public Guid Add(WorkDay day, EventMark entry, string by, DateTimeOffset at) => AddEntry(day, entry, by, at);

    /// <summary>Adds a gauge reading or fuel taken on.</summary>
    public Guid Add(WorkDay day, FuelEntry entry, string by, DateTimeOffset at) => AddEntry(day, entry, by, at);

    /// <summary>Adds somebody's duty.</summary>
    public Guid Add(WorkDay day, DutySpell entry, string by, DateTimeOffset at) => AddEntry(day, entry, by, at);

    /// <summary>Adds what was read of the air.</summary>
    public Guid Add(WorkDay day, AirReading entry, string by, DateTimeOffset at) => AddEntry(day, entry, by, at);

    /// <summary>Adds that an offered check was taken or put aside.</summary>
    public Guid Add(WorkDay day, RecheckMark entry, string by, DateTimeOffset at) => AddEntry(day, entry, by, at);

    /// <summary>Withdraws an entry: it counts no more and stays readable. False when there is none that stands.</summary>
    public bool Withdraw(Guid entry, string by, DateTimeOffset at, string? why = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(by);
        return store.Write(context =>
        {
            if (context.DayEntries.FirstOrDefault(e => e.Key == entry && e.WithdrawnBy == null) is not { } row)
                return false;
            (row.WithdrawnBy, row.WithdrawnAt, row.WithdrawnWhy) = (Kept.Text(by), at, Kept.OptionalText(why));
            return true;
        });
    }

    /// <summary>Entries of one kind in the order written, withdrawn ones too.</summary>
    /// <typeparam name="T">A kind that can be added: <see cref="TallyEntry"/>, <see cref="TimeMark"/>, <see cref="EventMark"/>, <see cref="FuelEntry"/>, <see cref="DutySpell"/>, <see cref="AirReading"/> or <see cref="RecheckMark"/>.</typeparam>
    public IReadOnlyList<DayEntry<T>> Entries<T>(WorkDay day) => store.Read<IReadOnlyList<DayEntry<T>>>(context =>
        [.. DayReader.Entries(context, day).Where(e => e.Kind == DayReader.Kind<T>()).Select(e => new DayEntry<T>(e.Key, StoreJson.Read<T>(e.Json), e.By, e.At, e.WithdrawnBy, e.WithdrawnAt, e.WithdrawnWhy))]);

    /// <summary>All that is kept of a day.</summary>
    /// <remarks>
    /// Day and clock follow the time zone given, else that of the day's job, else UTC. A flight belongs to the day it starts in and brings its lifts along, also those after midnight.
    /// With an aircraft named, what was written without one belongs to it too.
    /// </remarks>
    /// <param name="day">Which.</param>
    /// <param name="timeZone">IANA name of the time zone; null takes that of the job.</param>
    public DayWork Read(WorkDay day, string? timeZone = null)
    {
        TimeZoneInfo? given = timeZone is null ? null : TimeZoneInfo.TryFindSystemTimeZoneById(timeZone, out TimeZoneInfo? found) ? found : throw new ArgumentException($"Time zone '{timeZone}' is not known; write its IANA name, such as Europe/Zurich.", nameof(timeZone));
        return store.Read(context => DayReader.Read(context, day, given, store.Options.ReadJob));
    }

    /// <summary>Days on which a job was set or something was written or flown, the latest first.</summary>
    /// <param name="timeZone">IANA name of the time zone for flights that no job tells the day of; UTC when null.</param>
    public IReadOnlyList<DateOnly> List(string? timeZone = null)
    {
        TimeZoneInfo zone = timeZone is null ? TimeZoneInfo.Utc : TimeZoneInfo.FindSystemTimeZoneById(timeZone);
        return store.Read<IReadOnlyList<DateOnly>>(context =>
        {
            Dictionary<Guid, string?> zones = context.Jobs.AsNoTracking().ToDictionary(j => j.Key, j => j.TimeZone);
            HashSet<DateOnly> days = [.. context.Jobs.Where(j => j.Day != null).Select(j => j.Day!.Value), .. context.DayEntries.Select(e => e.Day).Distinct(), .. context.Lifts.Where(l => l.Day != null).Select(l => l.Day!.Value).Distinct()];
            foreach (var flight in context.FlightWork.AsNoTracking().Select(w => new { w.FromS, w.JobKey }))
            {
                TimeZoneInfo own = flight.JobKey is { } job && zones[job] is { } name && TimeZoneInfo.TryFindSystemTimeZoneById(name, out TimeZoneInfo? found) ? found : zone;
                days.Add(DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(DateTimeOffset.UnixEpoch.AddSeconds(flight.FromS), own).DateTime));
            }
            return [.. days.OrderDescending()];
        });
    }

    private Guid AddEntry<T>(WorkDay day, T entry, string by, DateTimeOffset at)
    {
        ArgumentNullException.ThrowIfNull(entry);
        ArgumentException.ThrowIfNullOrEmpty(by);
        DayEntryRow row = new() { Key = Guid.CreateVersion7(), Day = day.Day, Aircraft = Kept.OptionalText(day.Aircraft), Kind = DayReader.Kind<T>(), Json = StoreJson.Write(entry), By = Kept.Text(by), At = at };
        store.Write(context => context.DayEntries.Add(row));
        return row.Key;
    }
}

/// <summary>Puts a day together.</summary>
internal static class DayReader
{
    /// <summary>Word that stands in the table for a kind of entry; it outlives the names of the types.</summary>
    public static string Kind<T>() =>
        typeof(T) == typeof(TallyEntry) ? "tally"
        : typeof(T) == typeof(TimeMark) ? "time"
        : typeof(T) == typeof(EventMark) ? "event"
        : typeof(T) == typeof(FuelEntry) ? "fuel"
        : typeof(T) == typeof(DutySpell) ? "duty"
        : typeof(T) == typeof(AirReading) ? "air"
        : typeof(T) == typeof(RecheckMark) ? "recheck"
        : throw new ArgumentException($"{typeof(T).Name} is no kind of entry of a day.");

    /// <summary>Refuses an entry that could not be read again.</summary>
    public static void Check(string kind, string json) => _ = kind switch
    {
        "tally" => StoreJson.Read<TallyEntry>(json),
        "time" => StoreJson.Read<TimeMark>(json),
        "event" => StoreJson.Read<EventMark>(json),
        "fuel" => StoreJson.Read<FuelEntry>(json),
        "duty" => StoreJson.Read<DutySpell>(json),
        "air" => StoreJson.Read<AirReading>(json),
        "recheck" => (object)StoreJson.Read<RecheckMark>(json),
        _ => throw new FormatException($"'{kind}' is no kind of entry of a day."),
    };

    public static IEnumerable<DayEntryRow> Entries(StillhookContext context, WorkDay day) => context.DayEntries.AsNoTracking()
        .Where(e => e.Day == day.Day && (day.Aircraft == null || e.Aircraft == null || e.Aircraft == day.Aircraft)).OrderBy(e => e.Id);

    public static DayWork Read(StillhookContext context, WorkDay day, TimeZoneInfo? given, Func<string, LiftRequest?> readJob)
    {
        JobRow? job = Job(context, day);
        TimeZoneInfo zone = given ?? (job?.TimeZone is { } name ? TimeZoneInfo.FindSystemTimeZoneById(name) : TimeZoneInfo.Utc);
        Stretch when = LocalDay.Of(day.Day, zone);
        List<FlightWorkRow> flights = [.. context.FlightWork.AsNoTracking()
            .Where(w => w.FromS >= when.FromS && w.FromS < when.ToS && (day.Aircraft == null || w.Aircraft == null || w.Aircraft == day.Aircraft)).OrderBy(w => w.FromS)];
        List<DayEntryRow> entries = [.. Entries(context, day).Where(e => e.WithdrawnBy is null)];
        IReadOnlyList<T> Of<T>() => [.. entries.Where(e => e.Kind == DayReader.Kind<T>()).Select(e => StoreJson.Read<T>(e.Json))];
        List<CorrectedLift> lifts = LiftReader.Corrected(context, Lifts(context, day, [.. flights.Select(f => f.FlightId)]));
        LiftRequest? request = job is null ? null : readJob(JobStore.Latest(context, job.Key)!.Text);
        return new()
        {
            Day = day.Day,
            Job = request,
            Clock = timeS => TimeZoneInfo.ConvertTime(DateTimeOffset.UnixEpoch.AddSeconds(timeS), zone),
            Flights = Flights(context, flights),
            Lifts = [.. lifts.Select(l => l.Lift).OrderBy(l => l.DeliveryTimeS ?? l.PickUpTimeS ?? l.ReleaseTimeS ?? double.MaxValue)],
            Corrections = [.. lifts.SelectMany(l => l.Corrections).OrderBy(c => c.At)],
            Tally = Of<TallyEntry>(),
            TimeMarks = Of<TimeMark>(),
            Events = Of<EventMark>(),
            Fuel = Of<FuelEntry>(),
            Duty = Of<DutySpell>(),
            Readings = Of<AirReading>(),
            Rechecks = Of<RecheckMark>(),
            DutyBefore = [.. Entries(context, new(day.Day.AddDays(-1))).Where(e => e.WithdrawnBy is null && e.Kind == Kind<DutySpell>()).Select(e => StoreJson.Read<DutySpell>(e.Json))],
            Parts = Parts(context, when, request, flights),
        };
    }

    private static JobRow? Job(StillhookContext context, WorkDay day) => context.Jobs.AsNoTracking()
        .Where(j => j.Day == day.Day && (day.Aircraft == null || j.Aircraft == null || j.Aircraft == day.Aircraft)).AsEnumerable()
        .OrderBy(j => j.Aircraft is null).ThenByDescending(j => j.Key).FirstOrDefault();

    private static List<LiftRow> Lifts(StillhookContext context, WorkDay day, long[] flights)
    {
        List<LiftRow> rows = [.. context.Lifts.AsNoTracking().Where(l => l.FlightId != null && flights.Contains(l.FlightId.Value) && !l.NotFoundAgain)];
        rows.AddRange(context.Lifts.AsNoTracking().Where(l => l.FlightId == null && l.Day == day.Day && (day.Aircraft == null || l.Aircraft == null || l.Aircraft == day.Aircraft)));
        return rows;
    }

    private static IReadOnlyList<KeptFlight> Flights(StillhookContext context, List<FlightWorkRow> flights)
    {
        long[] ids = [.. flights.Select(f => f.FlightId)];
        Dictionary<long, string> names = context.Flights.Where(f => ids.Contains(f.Id)).Select(f => new { f.Id, f.Name }).ToDictionary(f => f.Id, f => f.Name);
        ILookup<long, Exceedance> exceedances = context.Exceedances.AsNoTracking().Where(e => ids.Contains(e.FlightId)).OrderBy(e => e.Id).AsEnumerable()
            .ToLookup(e => e.FlightId, e => new Exceedance(e.Kind, e.Limit, e.Peak, e.AtS, e.DurationS));
        return [.. flights.Select(f => new KeptFlight(f.FlightId, names[f.FlightId], new(f.FromS, f.ToS), StoreJson.Read<IReadOnlyList<Stretch>>(f.AirborneJson), [.. exceedances[f.FlightId]], f.Pilot, f.Aircraft))];
    }

    /// <summary>Where the job names its rigging: those parts, the aircraft and what a rule of the job names, whatever a flight of the day was counted on, and the cargo hook. Else all.</summary>
    private static IReadOnlyList<PartCount> Parts(StillhookContext context, Stretch when, LiftRequest? job, List<FlightWorkRow> flights)
    {
        IReadOnlyList<PartCount> all = PartLog.Counts(context, DateTimeOffset.UnixEpoch.AddSeconds(when.FromS), DateTimeOffset.UnixEpoch.AddSeconds(when.ToS));
        if (job is not { Rigging.Count: > 0 })
            return all;
        HashSet<string> counted = [.. job.Rigging.Select(r => r.Name)], asked = new([.. job.Policy?.PartRules.Select(r => r.Name).OfType<string>() ?? []], StringComparer.OrdinalIgnoreCase);
        if (job.Aircraft?.Name is { } aircraft)
            asked.Add(aircraft);
        HashSet<long> ofDay = [.. flights.Select(f => f.FlightId)];
        ILookup<string, PartUse> uses = PartLog.Uses(context);
        bool namesHook = job.Rigging.Any(r => r.Kind == PartKind.CargoHook);
        return [.. all.Where(p => counted.Contains(p.Name) || asked.Contains(p.Name) || uses[p.Name].Any(u => ofDay.Contains(u.FlightId)) || p.Kind == PartKind.CargoHook && !namesHook && !Elsewhere(uses[p.Name], job.Aircraft?.Name))];
    }

    /// <summary>Counted on another aircraft and never on this one. A hook without a flight to its name is taken for the day's own: a count too many is seen, one too few is not.</summary>
    private static bool Elsewhere(IEnumerable<PartUse> uses, string? aircraft)
    {
        string[] on = [.. uses.Select(u => u.Aircraft).OfType<string>()];
        return aircraft is not null && on.Length > 0 && !on.Contains(aircraft, StringComparer.OrdinalIgnoreCase);
    }
}
