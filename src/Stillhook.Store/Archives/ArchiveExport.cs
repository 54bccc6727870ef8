using Microsoft.EntityFrameworkCore;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>Writes an archive; everything in an order of its own, so that equal stores give equal files.</summary>
internal sealed class ArchiveExport
{
    private readonly Database database;
    private readonly StillhookContext context;
    private readonly ArchiveWriter archive;

    private ArchiveExport(Database database, StillhookContext context, ArchiveWriter archive) => (this.database, this.context, this.archive) = (database, context, archive);

    public static void Write(Database database, StillhookContext context, ArchiveSelection what, Stream to)
    {
        using ArchiveWriter archive = new(to, Archive.Format, Archive.Version);
        ArchiveExport export = new(database, context, archive);
        archive.Document<IReadOnlyList<ArchivedJob>>("jobs.json", [.. what.Jobs.OrderBy(j => j.Key).Select(export.Job)]);
        archive.Document<IReadOnlyList<KeptSite>>("sites.json", [.. what.Sites.OrderBy(s => s.Key).Select(s => new KeptSite(s.Key, s.Name, s.LatitudeDeg, s.LongitudeDeg, s.Text, s.By, s.At))]);
        archive.Document<IReadOnlyList<KeptAircraft>>("aircraft.json", [.. what.Aircraft.OrderBy(a => a.Name, StringComparer.Ordinal).Select(a => new KeptAircraft(a.Name, a.Text, a.By, a.At))]);
        archive.Document<IReadOnlyList<ArchivedPart>>("parts.json", [.. what.Parts.OrderBy(p => p.Name, StringComparer.Ordinal).Select(export.Part)]);
        archive.Document<IReadOnlyList<ArchivedDayEntry>>("days.json", [.. what.DayEntries.OrderBy(e => e.Id).Select(e => new ArchivedDayEntry(e.Key, e.Day, e.Aircraft, e.Kind, e.Json, e.By, e.At, e.WithdrawnBy, e.WithdrawnAt, e.WithdrawnWhy))]);
        archive.Document("lifts-by-hand.json", export.Lifts([.. what.LiftsByHand.OrderBy(l => l.Id)]));
        foreach (JobRow job in what.Jobs.OrderBy(j => j.Key))
            export.Cards(job);
        foreach (FlightRow flight in what.Flights.OrderBy(f => f.Digest, StringComparer.Ordinal))
            export.Flight(flight);
        archive.Finish();
    }

    private ArchivedJob Job(JobRow job) => new(job.Key, job.Name, job.Day, job.TimeZone, job.Aircraft,
        [.. context.JobSites.Where(s => s.JobKey == job.Key).Select(s => s.SiteKey).AsEnumerable().Order()],
        [.. context.JobRevisions.AsNoTracking().Where(r => r.JobKey == job.Key).OrderBy(r => r.Number).Select(r => new JobRevision(r.Number, r.Text, r.By, r.At))],
        [.. CardsOf(job).Select(c => new IssuedCard(c.Key, c.JobKey, c.Name, c.MediaType, c.Digest, c.IssuedAt))]);

    private IEnumerable<CardRow> CardsOf(JobRow job) => context.Cards.AsNoTracking().Where(c => c.JobKey == job.Key).AsEnumerable().OrderBy(c => c.Key);

    private void Cards(JobRow job)
    {
        foreach (CardRow card in CardsOf(job).ToList())
            archive.Bytes($"cards/{card.Key}", context.CardContents.AsNoTracking().First(c => c.CardKey == card.Key).Content);
    }

    private ArchivedPart Part(PartRow part) => new(part.Name, part.Kind,
        [.. context.PartEntries.AsNoTracking().Where(e => e.PartName == part.Name).OrderBy(e => e.Id).AsEnumerable()
            .Select(e => new ArchivedPartEntry(e.Key, new(e.Kind, e.At, e.By, e.Cycles, e.HoursInUse, e.FlightDigest, e.NextDue, e.Note)))]);

    private void Flight(FlightRow flight)
    {
        long id = flight.Id;
        TrackRow? frame = context.Tracks.AsNoTracking().FirstOrDefault(t => t.FlightId == id);
        List<TrackColumnRow> columns = frame is null ? [] : [.. context.TrackColumns.AsNoTracking().Where(c => c.FlightId == id).AsEnumerable().OrderBy(c => c.Name, StringComparer.Ordinal)];
        archive.Document($"flights/{flight.Digest}.json", new ArchivedFlight(flight.Digest, flight.Name, flight.Bytes, flight.ImportedAt, flight.JobText, flight.TypedJson, flight.SummaryJson,
            Work(id, frame, columns),
            Lifts([.. context.Lifts.AsNoTracking().Where(l => l.FlightId == id).AsEnumerable().OrderBy(l => l.AddedByHand).ThenBy(l => l.Number).ThenBy(l => l.Key)])));
        if (frame is not null)
            archive.Bytes($"tracks/{flight.Digest}", [.. columns.SelectMany(c => c.Data)]);
        using Stream record = database.OpenRecord(context, id, owner: null) ?? throw new StoreException(StoreFault.Damaged, $"The record of flight '{flight.Name}' is not in the store. Restore the last backup.");
        archive.Copy($"records/{flight.Digest}", record);
    }

    private ArchivedWork? Work(long id, TrackRow? frame, List<TrackColumnRow> columns) => context.FlightWork.AsNoTracking().FirstOrDefault(w => w.FlightId == id) is not { } work ? null : new(
        work.JobKey, work.Pilot, work.Aircraft, new(work.FromS, work.ToS), StoreJson.Read<IReadOnlyList<Stretch>>(work.AirborneJson),
        [.. context.HoverPoints.AsNoTracking().Where(h => h.FlightId == id).OrderBy(h => h.Id).Select(h => new HoverPoint(h.AtS, h.Aircraft, h.Pilot, h.DensityAltitudeM, h.GrossKg, h.TorquePercent, h.PowerKw, h.LoadKg, h.FuelKg, h.FuelFrom))],
        [.. context.Exceedances.AsNoTracking().Where(e => e.FlightId == id).OrderBy(e => e.Id).Select(e => new Exceedance(e.Kind, e.Limit, e.Peak, e.AtS, e.DurationS))],
        frame is null ? null : new(frame.LatitudeDeg, frame.LongitudeDeg, frame.HeightM, frame.HasHeight, [.. columns.Select(c => new ArchivedColumn(c.Name, c.Data.Length))]));

    private IReadOnlyList<ArchivedLift> Lifts(IReadOnlyList<LiftRow> rows)
    {
        long[] ids = [.. rows.Select(r => r.Id)];
        Dictionary<long, string> measures = context.LiftMeasures.AsNoTracking().Where(m => ids.Contains(m.LiftId)).ToDictionary(m => m.LiftId, m => m.Json);
        ILookup<long, CorrectionRow> corrections = context.Corrections.AsNoTracking().Where(c => ids.Contains(c.LiftId)).OrderBy(c => c.Id).AsEnumerable().ToLookup(c => c.LiftId);
        return [.. rows.Select(r => new ArchivedLift(r.Key, LiftRows.ToLift(r, measures.GetValueOrDefault(r.Id)) with { FlightId = 0 }, r.NotFoundAgain, r.Day, r.Aircraft,
            [.. corrections[r.Id].Select(c => new ArchivedCorrection(c.Key, c.Member, c.Old, c.New, c.NewJson, c.By, c.At, c.Why))]))];
    }
}
