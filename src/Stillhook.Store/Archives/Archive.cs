using Microsoft.EntityFrameworkCore;

namespace Stillhook.Store;

/// <summary>What an import added; all zero where everything was there already.</summary>
/// <param name="Jobs">Jobs.</param>
/// <param name="Revisions">Texts of jobs.</param>
/// <param name="Sites">Sites of the library, new or newer than those there.</param>
/// <param name="Aircraft">Aircraft, new or newer than those there.</param>
/// <param name="Parts">Parts.</param>
/// <param name="PartEntries">Entries in parts' logs.</param>
/// <param name="Flights">Flights.</param>
/// <param name="Lifts">Lifts.</param>
/// <param name="Corrections">Corrections.</param>
/// <param name="Cards">Cards.</param>
/// <param name="DayEntries">Entries of days, new or withdrawn since.</param>
public sealed record ImportResult(int Jobs, int Revisions, int Sites, int Aircraft, int Parts, int PartEntries, int Flights, int Lifts, int Corrections, int Cards, int DayEntries)
{
    /// <summary>Whether anything was added at all.</summary>
    public bool AddedAnything => this != new ImportResult(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0);
}

/// <summary>Jobs as one open file: a zip with JSON documents, the records byte for byte, and a manifest with a digest of each. docs/decisions/0004-store.md says what is in it.</summary>
public static class Archive
{
    internal const string Format = "stillhook-archive";
    internal const int Version = 1;

    /// <summary>Writes one job with all that belongs to it: texts, sites, aircraft, cards, flights with their records, lifts and corrections, the log of the parts used, and what was written of its day.</summary>
    /// <exception cref="ArgumentException">There is no such job.</exception>
    public static void Export(WorkStore store, Guid job, Stream to)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(to);
        store.Read(context =>
        {
            if (!context.Jobs.Any(j => j.Key == job))
                throw new ArgumentException($"There is no job {job} in the store.", nameof(job));
            ArchiveExport.Write(store.Database, context, ArchiveSelection.OfJob(context, job), new OutsideStream(to));
            return 0;
        });
    }

    /// <summary>Writes everything that is kept.</summary>
    public static void ExportAll(WorkStore store, Stream to)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(to);
        store.Read(context =>
        {
            ArchiveExport.Write(store.Database, context, ArchiveSelection.All(context), new OutsideStream(to));
            return 0;
        });
    }

    /// <summary>Takes in what an archive holds and the store does not: all of it or nothing. What is there stays; of sites and aircraft the one saved last stands.</summary>
    /// <param name="store">Where to.</param>
    /// <param name="from">The archive, seekable.</param>
    /// <param name="limits">Bounds on what it may unpack to.</param>
    /// <exception cref="StoreException">The archive is damaged, too large, or from a newer program; the message names the entry.</exception>
    public static ImportResult Import(WorkStore store, Stream from, ArchiveLimits? limits = null)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(from);
        using ArchiveReader reader = new(new OutsideStream(from), limits ?? new());
        reader.Want(Format, Version);
        reader.CheckAll();
        return store.Write(context => new ArchiveImport(store.Database, context, reader).Run());
    }
}

/// <summary>Which rows go into an archive.</summary>
internal sealed record ArchiveSelection(IReadOnlyList<JobRow> Jobs, IReadOnlyList<SiteRow> Sites, IReadOnlyList<AircraftRow> Aircraft, IReadOnlyList<PartRow> Parts, IReadOnlyList<FlightRow> Flights, IReadOnlyList<DayEntryRow> DayEntries, IReadOnlyList<LiftRow> LiftsByHand)
{
    public static ArchiveSelection All(StillhookContext context) => new(
        [.. context.Jobs.AsNoTracking()], [.. context.Sites.AsNoTracking()], [.. context.Aircraft.AsNoTracking()], [.. context.Parts.AsNoTracking()],
        [.. context.Flights.AsNoTracking()], [.. context.DayEntries.AsNoTracking()], [.. context.Lifts.AsNoTracking().Where(l => l.FlightId == null)]);

    public static ArchiveSelection OfJob(StillhookContext context, Guid key)
    {
        JobRow job = context.Jobs.AsNoTracking().First(j => j.Key == key);
        List<long> flights = [.. context.FlightWork.Where(w => w.JobKey == key).Select(w => w.FlightId)];
        HashSet<string> aircraft = [.. context.FlightWork.Where(w => w.JobKey == key && w.Aircraft != null).Select(w => w.Aircraft!)];
        if (job.Aircraft is { } own)
            aircraft.Add(own);
        List<string> parts = [.. context.PartEntries.Where(e => context.Flights.Any(f => flights.Contains(f.Id) && f.Digest == e.FlightDigest)).Select(e => e.PartName).Distinct()];
        return new(
            [job],
            [.. context.Sites.AsNoTracking().Where(s => context.JobSites.Any(l => l.JobKey == key && l.SiteKey == s.Key))],
            [.. context.Aircraft.AsNoTracking().Where(a => aircraft.Contains(a.Name))],
            [.. context.Parts.AsNoTracking().Where(p => parts.Contains(p.Name))],
            [.. context.Flights.AsNoTracking().Where(f => flights.Contains(f.Id))],
            job.Day is { } day ? [.. DayReader.Entries(context, new(day, job.Aircraft))] : [],
            job.Day is { } of ? [.. context.Lifts.AsNoTracking().Where(l => l.FlightId == null && l.Day == of && (job.Aircraft == null || l.Aircraft == null || l.Aircraft == job.Aircraft))] : []);
    }
}
