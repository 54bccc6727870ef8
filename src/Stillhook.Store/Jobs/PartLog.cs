using Microsoft.EntityFrameworkCore;
using Stillhook.Planning;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>What an entry in a part's log says.</summary>
public enum PartEntryKind
{
    /// <summary>Taken into use, with the counts it brought along.</summary>
    TakenIntoUse,

    /// <summary>Used: cycles and hours are added.</summary>
    Use,

    /// <summary>Inspected.</summary>
    Inspection,

    /// <summary>Counts put right by a person: cycles and hours are added, or taken off where negative.</summary>
    Adjustment,

    /// <summary>Out of use for good.</summary>
    Retired,
}

/// <summary>One entry in a part's log. Entries are added and never written over; what was wrong is put right by another entry.</summary>
/// <param name="Kind">What it says.</param>
/// <param name="At">When it was done.</param>
/// <param name="By">Who says so.</param>
/// <param name="Cycles">Lifts added.</param>
/// <param name="HoursInUse">Flight time in use added, h.</param>
/// <param name="FlightDigest">Flight that the use was counted in, by its record's digest; null when none.</param>
/// <param name="NextDue">Last day of use before the next inspection, after an inspection.</param>
/// <param name="Note">Remark.</param>
public sealed record PartEntry(PartEntryKind Kind, DateTimeOffset At, string By, long Cycles = 0, double HoursInUse = 0, string? FlightDigest = null, DateOnly? NextDue = null, string? Note = null);

/// <summary>A flight that a part was used in.</summary>
/// <param name="FlightId">The flight.</param>
/// <param name="Aircraft">Its aircraft; null when not told.</param>
internal readonly record struct PartUse(long FlightId, string? Aircraft);

/// <summary>Line and rigging parts with their log.</summary>
public sealed class PartLog
{
    private readonly WorkStore store;

    internal PartLog(WorkStore store) => this.store = store;

    /// <summary>Takes a part into use.</summary>
    /// <param name="name">Name or number on the tag; each once.</param>
    /// <param name="kind">Kind of part.</param>
    /// <param name="by">Who.</param>
    /// <param name="at">When.</param>
    /// <param name="cycles">Lifts it brings along.</param>
    /// <param name="hoursInUse">Hours it brings along, h.</param>
    /// <exception cref="ArgumentException">A part of this name is there.</exception>
    public void TakeIntoUse(string name, PartKind kind, string by, DateTimeOffset at, long cycles = 0, double hoursInUse = 0)
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        store.Write(context =>
        {
            if (context.Parts.Any(p => p.Name == name))
                throw new ArgumentException($"Part '{name}' is there already.", nameof(name));
            context.Parts.Add(new() { Name = Kept.Text(name), Kind = kind });
            context.PartEntries.Add(Row(name, new(PartEntryKind.TakenIntoUse, at, by, cycles, hoursInUse)));
        });
    }

    /// <summary>Adds an entry.</summary>
    /// <exception cref="ArgumentException">There is no such part.</exception>
    public void Add(string name, PartEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        store.Write(context =>
        {
            Check(context, name);
            context.PartEntries.Add(Row(name, entry));
        });
    }

    /// <summary>Counts a flight's use of a part. Counting the same flight again, even after it was removed and taken in anew, adds only the difference, as an entry of its own.</summary>
    /// <exception cref="ArgumentException">There is no such part or flight.</exception>
    public void CountUse(string name, long flightId, long cycles, double hoursInUse, string by, DateTimeOffset at)
    {
        store.Write(context =>
        {
            Check(context, name);
            string digest = context.Flights.Where(f => f.Id == flightId).Select(f => f.Digest).FirstOrDefault() ?? throw new ArgumentException($"There is no flight {flightId}.", nameof(flightId));
            var counted = context.PartEntries.Where(e => e.PartName == name && e.FlightDigest == digest && e.Kind == PartEntryKind.Use).Select(e => new { e.Cycles, e.HoursInUse }).ToList();
            long moreCycles = cycles - counted.Sum(c => c.Cycles);
            double moreHours = hoursInUse - counted.Sum(c => c.HoursInUse);
            if (moreCycles != 0 || Math.Abs(moreHours) > 1e-9)
                context.PartEntries.Add(Row(name, new(PartEntryKind.Use, at, by, moreCycles, moreHours, digest, null, counted.Count > 0 ? "counted anew" : null)));
        });
    }

    /// <summary>A part's log in the order of its times; empty when there is no such part.</summary>
    public IReadOnlyList<PartEntry> Log(string name) => store.Read<IReadOnlyList<PartEntry>>(context =>
        [.. context.PartEntries.AsNoTracking().Where(e => e.PartName == name).OrderBy(e => e.At).ThenBy(e => e.Id).Select(e => new PartEntry(e.Kind, e.At, e.By, e.Cycles, e.HoursInUse, e.FlightDigest, e.NextDue, e.Note))]);

    /// <summary>Every part with its counts before a moment; parts not taken into use by then, or retired, are left out.</summary>
    public IReadOnlyList<PartCount> Counts(DateTimeOffset before) => store.Read(context => Counts(context, before, before));

    /// <summary>Counts before one moment of the parts in use at some time between the two.</summary>
    internal static IReadOnlyList<PartCount> Counts(StillhookContext context, DateTimeOffset before, DateTimeOffset until)
    {
        var entries = context.PartEntries.AsNoTracking().Where(e => e.At < until)
            .GroupBy(e => e.PartName)
            .Select(g => new
            {
                g.Key,
                Cycles = g.Sum(e => e.At < before ? e.Cycles : 0),
                Hours = g.Sum(e => e.At < before ? e.HoursInUse : 0),
                Retired = g.Any(e => e.Kind == PartEntryKind.Retired && e.At < before),
            }).ToDictionary(g => g.Key);
        return [.. context.Parts.AsNoTracking().AsEnumerable().OrderBy(p => p.Name, StringComparer.Ordinal).Where(p => entries.TryGetValue(p.Name, out var e) && !e.Retired)
            .Select(p => new PartCount(p.Name, p.Kind, entries[p.Name].Cycles, entries[p.Name].Hours))];
    }

    /// <summary>Flights that are still kept and that a part's use was counted in, by the part's name.</summary>
    internal static ILookup<string, PartUse> Uses(StillhookContext context) =>
        (from entry in context.PartEntries.AsNoTracking()
         join flight in context.Flights on entry.FlightDigest equals flight.Digest
         join work in context.FlightWork on flight.Id equals work.FlightId
         select new { entry.PartName, work.FlightId, work.Aircraft }).AsEnumerable().ToLookup(u => u.PartName, u => new PartUse(u.FlightId, u.Aircraft));

    private static void Check(StillhookContext context, string name)
    {
        if (!context.Parts.Any(p => p.Name == name))
            throw new ArgumentException($"There is no part '{name}'; take it into use first.", nameof(name));
    }

    internal static PartEntryRow Row(string name, PartEntry entry) => new()
    {
        Key = Guid.CreateVersion7(),
        PartName = name,
        Kind = entry.Kind,
        At = entry.At,
        By = Kept.Text(entry.By),
        Cycles = entry.Cycles,
        HoursInUse = Kept.Number(entry.HoursInUse),
        FlightDigest = Kept.OptionalText(entry.FlightDigest),
        NextDue = entry.NextDue,
        Note = Kept.OptionalText(entry.Note),
    };
}
