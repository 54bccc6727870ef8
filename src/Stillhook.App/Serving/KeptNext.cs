using System.Globalization;
using Stillhook.Adjusting;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Records;
using Stillhook.Following;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>The next approach from all that is kept of a job's day.</summary>
/// <param name="Job">The job.</param>
/// <param name="File">Its latest text, read; not usable where the text can't be.</param>
/// <param name="Saved">The latest revision: who saved it and when.</param>
/// <param name="Day">All that is kept of the day.</param>
/// <param name="Sites">One a delivery site.</param>
public sealed record KeptNext(KeptJob Job, JobFile File, JobRevision Saved, DayWork Day, IReadOnlyList<SiteNext> Sites)
{
    private const double SameMomentS = 30;

    /// <summary>The job meant: the one named, else the one of today, else that of the latest day. Null, with the reason, when it can't be told.</summary>
    /// <param name="jobs">Jobs kept.</param>
    /// <param name="name">Its name or a part of it; null takes it by the day.</param>
    /// <param name="today">Today.</param>
    /// <param name="problem">Why none could be chosen, in one sentence.</param>
    public static KeptJob? Choose(IReadOnlyList<KeptJob> jobs, string? name, DateOnly today, out string problem)
    {
        problem = "";
        KeptJob[] dated = [.. jobs.Where(j => j.Day is not null && (name is null || j.Name.Contains(name, StringComparison.OrdinalIgnoreCase)))];
        KeptJob[] exact = [.. dated.Where(j => string.Equals(j.Name, name, StringComparison.OrdinalIgnoreCase))];
        KeptJob[] meant = exact.Length > 0 ? exact : dated;
        DateOnly? day = meant.Where(j => j.Day <= today).Max(j => j.Day) ?? meant.Min(j => j.Day);
        KeptJob[] ofTheDay = [.. meant.Where(j => j.Day == day)];
        if (ofTheDay.Length == 1)
            return ofTheDay[0];
        problem = (ofTheDay.Length, name) switch
        {
            (0, null) => "no job with a date is kept. Take one in with its records: stillhook import day.gpx --job JOB",
            (0, _) => $"no job '{name}' with a date is kept. Jobs: {string.Join("; ", jobs.Select(j => j.Name))}",
            _ => string.Create(CultureInfo.InvariantCulture, $"more than one job of {day:yyyy-MM-dd} is kept; say which with --job: {string.Join("; ", ofTheDay.Select(j => j.Name))}"),
        };
        return null;
    }

    /// <summary>Works it out. Records with deliveries since a card are read and measured again, against the marks of that card.</summary>
    /// <param name="store">The store.</param>
    /// <param name="job">The job.</param>
    /// <param name="ground">Elevation grid handed in for it, as the Approach page takes it; null without one.</param>
    /// <param name="live">Deliveries of a flight that still goes on, none taken back; null without one.</param>
    /// <param name="mayRead">Whether a flight may be looked at, by its number; null where all may.</param>
    public static KeptNext Of(WorkStore store, KeptJob job, ElevationGrid? ground = null, IReadOnlyList<LiveDelivery>? live = null, Func<long, bool>? mayRead = null)
    {
        DayWork day = Only(store.Days.Read(new(job.Day!.Value, job.Aircraft), job.TimeZone), mayRead);
        IReadOnlyList<JobRevision> revisions = store.Jobs.Revisions(job.Key);
        JobFile latest = JobFile.Read(job.Text);
        LiftRequest? request = latest.IsUsable ? latest.Request : null;
        SiteCard[] cards = [.. Cards(store, store.Jobs.Cards(job.Key), revisions, request, ground)];
        Measured measured = new(store, cards);
        List<(CorrectedLift Lift, string Flight)> lifts = [.. day.Flights.SelectMany(f => store.Lifts.OfFlight(f.Id).Select(l => (l, f.Name)))];
        IEnumerable<KeptDelivery> byHand = day.Lifts.Where(l => l.AddedByHand && l.FlightId == 0).Select(l => new KeptDelivery(l, l, null));
        // Of a flight taken in while it goes on the record stands.
        KeptDelivery[] going = [.. (live ?? []).Where(d => !lifts.Exists(l => Math.Abs(l.Lift.AsKept.DeliveryTimeS - d.Rotation.DeliveryTimeS ?? double.MaxValue) <= SameMomentS))
            .Select(d => new KeptDelivery(d.Lift, d.Lift, d.Rotation with { Number = d.Number }))];
        SiteNext[] sites =
        [
            .. cards.Select(card => Stillhook.Job.Next(card, [.. lifts.Select(l => new KeptDelivery(l.Lift.Lift, l.Lift.AsKept, measured.Again(card, l.Lift, l.Flight))), .. byHand, .. going], request, day.Clock)),
        ];
        return new(job, latest, revisions[^1], day, sites);
    }

    /// <summary>The day as far as its flights may be looked at; what the crew wrote of it stays.</summary>
    private static DayWork Only(DayWork day, Func<long, bool>? mayRead) => mayRead is null || day.Flights.All(f => mayRead(f.Id)) ? day : day with
    {
        Flights = [.. day.Flights.Where(f => mayRead(f.Id))],
        Lifts = [.. day.Lifts.Where(l => l.FlightId == 0 || mayRead(l.FlightId))],
        Corrections = [],
    };

    /// <summary>What deliveries of a job are held against, one a delivery site.</summary>
    public static IReadOnlyList<SiteCard> CardsOf(WorkStore store, KeptJob job)
    {
        JobFile latest = JobFile.Read(job.Text);
        return [.. Cards(store, store.Jobs.Cards(job.Key), store.Jobs.Revisions(job.Key), latest.IsUsable ? latest.Request : null, null)];
    }

    /// <summary>Each delivery site with the last card that names it, or that names none, and the approach as the job of that time plans it.</summary>
    private static IEnumerable<SiteCard> Cards(WorkStore store, IReadOnlyList<IssuedCard> issued, IReadOnlyList<JobRevision> revisions, LiftRequest? latest, ElevationGrid? ground)
    {
        string[] sites = [.. latest?.Sites.Where(s => s.Use == SiteUse.Delivery).Select(s => s.Name) ?? []];
        if (sites.Length == 0)
            yield return new(null, issued.Count > 0 ? Seconds(issued[^1].IssuedAt) : null, latest is null ? new() : LiftSetup.From(latest));
        foreach (string site in sites)
        {
            IssuedCard? card = issued.LastOrDefault(c => JobMarks.IsOf(c, site, sites));
            string text = card is null ? revisions[^1].Text : JobMarks.TextAt(revisions, card.IssuedAt);
            JobFile then = JobFile.Read(text);
            LiftSetup setup = then.IsUsable ? JobMarks.Setup(then, site, JobMarks.Local(card?.IssuedAt, then), ground, JobMarks.BriefOf(store, card)) : LiftSetup.From(latest!);
            yield return new(site, card is null ? null : Seconds(card.IssuedAt), setup);
        }
    }

    private static double Seconds(DateTimeOffset at) => at.ToUnixTimeMilliseconds() / 1000.0;

    /// <summary>Rotations measured again, each record read once and each card's marks tried once.</summary>
    private sealed class Measured(WorkStore store, IReadOnlyList<SiteCard> cards)
    {
        private readonly Dictionary<(long Flight, SiteCard Card), IReadOnlyList<Rotation>> known = [];

        /// <summary>The rotation of a lift, against a card; null when it lies before the card, belongs elsewhere or is not found again.</summary>
        public Rotation? Again(SiteCard card, CorrectedLift lift, string flight)
        {
            KeptLift kept = lift.AsKept;
            if (kept.AddedByHand || kept.DeliveryTimeS is not { } at || at < card.CardAtS || (card.Site is { } site && !string.Equals(lift.Lift.DeliverySite, site, StringComparison.OrdinalIgnoreCase)))
                return null;
            if (!known.ContainsKey((kept.FlightId, card)))
                Measure(kept.FlightId, flight);
            return known[(kept.FlightId, card)].Where(r => Math.Abs(r.DeliveryTimeS - at ?? double.MaxValue) <= SameMomentS).MinBy(r => Math.Abs(r.DeliveryTimeS!.Value - at));
        }

        private void Measure(long flight, string name)
        {
            using Stream? stream = store.Flights.OpenRecord(flight);
            Recording.FlightRecord? record = stream is null ? null : RecordReader.Read(stream, name);
            Debrief? first = null;
            foreach (SiteCard card in cards)
            {
                Debrief? debrief = record is null ? null : first?.Track is { } track ? Debriefer.FromTrack(record, track, first.Quality, card.Setup) : Stillhook.Job.Debrief(record, card.Setup);
                first ??= debrief;
                known[(flight, card)] = debrief?.Rotations ?? [];
            }
        }
    }
}
