using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Stillhook.Debriefing;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>Flights: each record byte for byte, and what was worked out from it.</summary>
public sealed class FlightStore
{
    private readonly WorkStore store;

    internal FlightStore(WorkStore store) => this.store = store;

    /// <summary>Takes a record in, byte for byte, in one transaction with what was worked out from it. The same bytes are kept once, whatever their name.</summary>
    /// <param name="name">Name for people: the file's name.</param>
    /// <param name="content">The record's bytes, read to the end in pieces; never held in memory as a whole.</param>
    /// <param name="importedAt">Now, as the caller's clock says.</param>
    /// <param name="jobText">Text of the job file that goes with it, if any.</param>
    /// <param name="work">What was worked out from it; null when that comes later. A flight that is there already and has none takes it, one that has some keeps it.</param>
    /// <param name="takenInBy">Key of the account that takes it in for itself; null when it is nobody's own.</param>
    public AddedFlight Add(string name, Stream content, DateTimeOffset importedAt, string? jobText = null, FlightWork? work = null, string? takenInBy = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        ArgumentNullException.ThrowIfNull(content);
        // The digest has to be known before a row is made, so the bytes wait in a file.
        using FileStream waiting = store.Guarded(() => Remnants.Waiting(store.Database.WaitingFolder));
        string digest = Remnants.CopyWithDigest(content, waiting, write => store.Guarded(write));
        FlightRow row = new() { Name = Kept.Text(name), Digest = digest, Bytes = waiting.Length, ImportedAt = importedAt.ToUniversalTime(), JobText = Kept.OptionalText(jobText), TakenInBy = takenInBy };
        return store.Write(context => Add(context, row, waiting, work));
    }

    /// <summary>Keeps what was worked out from a flight anew. Corrections stay with the lifts they were made to: a lift of the same moment (within 30 s) is the same lift.</summary>
    /// <returns>False when there is no such flight.</returns>
    public bool SaveWork(long id, FlightWork work)
    {
        ArgumentNullException.ThrowIfNull(work);
        return store.Write(context =>
        {
            if (context.Flights.FirstOrDefault(f => f.Id == id) is not { } row)
                return false;
            FlightWriter.Replace(context, row, work);
            return true;
        });
    }

    /// <summary>All flights, the newest import first.</summary>
    public IReadOnlyList<Flight> List() => store.Read<IReadOnlyList<Flight>>(context =>
        [.. context.Flights.AsNoTracking().OrderByDescending(f => f.ImportedAt).ThenByDescending(f => f.Id).AsEnumerable().Select(ToFlight)]);

    /// <summary>Name of the job that each flight was flown for, by the flight's number; flights without a job are not in it.</summary>
    public IReadOnlyDictionary<long, string> JobNames() => store.Read<IReadOnlyDictionary<long, string>>(context =>
        (from work in context.FlightWork join job in context.Jobs on work.JobKey equals job.Key select new { work.FlightId, job.Name }).ToDictionary(f => f.FlightId, f => f.Name));

    /// <summary>Whose each flight is, by its number.</summary>
    public IReadOnlyDictionary<long, FlightOwner> Owners() => store.Read<IReadOnlyDictionary<long, FlightOwner>>(context => Owners(context, context.Flights));

    /// <summary>Whose a flight is; null when there is no such flight.</summary>
    public FlightOwner? Owner(long id) => store.Read(context => Owners(context, context.Flights.Where(f => f.Id == id)) is { Count: 1 } one ? one[id] : (FlightOwner?)null);

    private static Dictionary<long, FlightOwner> Owners(StillhookContext context, IQueryable<FlightRow> flights) => flights
        .Select(f => new { f.Id, f.TakenInBy, Pilot = context.FlightWork.Where(w => w.FlightId == f.Id).Select(w => w.Pilot).FirstOrDefault() })
        .ToDictionary(f => f.Id, f => new FlightOwner(f.TakenInBy, f.Pilot));

    /// <summary>One flight, or null.</summary>
    public Flight? Find(long id) => store.Read(context => context.Flights.AsNoTracking().FirstOrDefault(f => f.Id == id) is { } row ? ToFlight(row) : null);

    /// <summary>The flight of a record by the SHA-256 of its bytes, or null.</summary>
    public Flight? FindByDigest(string digest) => store.Read(context => context.Flights.AsNoTracking().FirstOrDefault(f => f.Digest == digest) is { } row ? ToFlight(row) : null);

    /// <summary>Whether anything worked out from the flight is kept.</summary>
    public bool HasWork(long id) => store.Read(context => context.FlightWork.Any(w => w.FlightId == id));

    /// <summary>What is known of how the flight came about: job, pilot, aircraft; all null when nothing is kept.</summary>
    public (Guid? Job, string? Pilot, string? Aircraft) Flown(long id) => store.Read(context =>
        context.FlightWork.AsNoTracking().FirstOrDefault(w => w.FlightId == id) is { } work ? (work.JobKey, work.Pilot, work.Aircraft) : default);

    /// <summary>Times in the air of a flight; empty when nothing is kept.</summary>
    public IReadOnlyList<Stretch> Airborne(long id) => store.Read<IReadOnlyList<Stretch>>(context =>
        context.FlightWork.AsNoTracking().Where(w => w.FlightId == id).Select(w => w.AirborneJson).FirstOrDefault() is { } json ? StoreJson.Read<IReadOnlyList<Stretch>>(json) : []);

    /// <summary>The record's bytes as they came, to be read once and disposed; null when there is no such flight.</summary>
    public Stream? OpenRecord(long id) => store.Guarded(() =>
    {
        StillhookContext context = store.Database.Context();
        Stream? record = null;
        try
        {
            return record = store.Database.OpenRecord(context, id, owner: context);
        }
        finally
        {
            if (record is null)
                context.Dispose();
        }
    });

    /// <summary>The smoothed track as kept, to 32 bits; null when none is.</summary>
    public Track? Track(long id) => store.Read(context => context.Tracks.AsNoTracking().FirstOrDefault(t => t.FlightId == id) is { } frame
        ? TrackColumns.Read(frame, context.TrackColumns.AsNoTracking().Where(c => c.FlightId == id).ToDictionary(c => c.Name, c => c.Data))
        : null);

    /// <summary>Hover points of one aircraft over all its flights in order of time, for its power baseline. A load that somebody corrected is in the mass; hovers of lifts that were struck out are left out.</summary>
    /// <remarks>Load and fuel are in the mass and not told apart: <see cref="HoversOf"/> does.</remarks>
    public IReadOnlyList<HoverPoint> Hovers(string aircraft) => store.Read(context => BaselineReader.Hovers(context, aircraft));

    /// <summary>Hover points of one flight as kept, in order of time.</summary>
    public IReadOnlyList<HoverPoint> HoversOf(long id) => store.Read<IReadOnlyList<HoverPoint>>(context => [.. context.HoverPoints.AsNoTracking().Where(h => h.FlightId == id).OrderBy(h => h.AtS)
        .Select(h => new HoverPoint(h.AtS, h.Aircraft, h.Pilot, h.DensityAltitudeM, h.GrossKg, h.TorquePercent, h.PowerKw, h.LoadKg, h.FuelKg, h.FuelFrom))]);

    /// <summary>Keeps the hover points of a flight anew, as when its fuel becomes known. False when there is no such flight.</summary>
    public bool SaveHovers(long id, IReadOnlyList<HoverPoint> hovers)
    {
        ArgumentNullException.ThrowIfNull(hovers);
        return store.Write(context =>
        {
            if (!context.Flights.Any(f => f.Id == id))
                return false;
            FlightWriter.Hovers(context, id, hovers);
            return true;
        });
    }

    /// <summary>Keeps the crew's figures as typed.</summary>
    public void SaveTyped(long id, IReadOnlyDictionary<string, string> typed)
    {
        string json = JsonSerializer.Serialize(typed);
        store.Write(context => context.Flights.Where(f => f.Id == id).ExecuteUpdate(set => set.SetProperty(f => f.TypedJson, json)));
    }

    /// <summary>Keeps a debrief in short.</summary>
    public void SaveSummary(long id, FlightSummary summary)
    {
        string json = JsonSerializer.Serialize(summary);
        store.Write(context => context.Flights.Where(f => f.Id == id).ExecuteUpdate(set => set.SetProperty(f => f.SummaryJson, json)));
    }

    /// <summary>Removes a flight and its record for good, with its lifts and their corrections; cycles counted on parts stay. False when there was none.</summary>
    public bool Remove(long id) => store.Write(context => context.Flights.Where(f => f.Id == id).ExecuteDelete() > 0);

    private AddedFlight Add(StillhookContext context, FlightRow row, Stream content, FlightWork? work)
    {
        if (context.Flights.FirstOrDefault(f => f.Digest == row.Digest) is { } there)
        {
            if (work is not null && !context.FlightWork.Any(w => w.FlightId == there.Id))
                FlightWriter.Replace(context, there, work);
            return new(ToFlight(there), AlreadyThere: true);
        }
        context.Flights.Add(row);
        context.SaveChanges();
        content.Position = 0;
        store.Database.WriteRecord(context, row.Id, content, row.Bytes);
        if (work is not null)
            FlightWriter.Replace(context, row, work);
        return new(ToFlight(row), AlreadyThere: false);
    }

    private static Flight ToFlight(FlightRow row) => new()
    {
        Id = row.Id,
        Name = row.Name,
        Digest = row.Digest,
        Bytes = row.Bytes,
        ImportedAt = row.ImportedAt,
        JobText = row.JobText,
        TakenInBy = row.TakenInBy,
        Typed = row.TypedJson is null ? new Dictionary<string, string>() : JsonSerializer.Deserialize<Dictionary<string, string>>(row.TypedJson)!,
        Summary = row.SummaryJson is null ? null : JsonSerializer.Deserialize<FlightSummary>(row.SummaryJson),
    };
}
