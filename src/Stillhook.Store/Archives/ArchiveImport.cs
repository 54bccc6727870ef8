using Microsoft.EntityFrameworkCore;

namespace Stillhook.Store;

/// <summary>Adds what an archive holds and the store does not, inside one writing transaction. Every entry's digest is right by now.</summary>
internal sealed class ArchiveImport(Database database, StillhookContext context, ArchiveReader archive)
{
    private int jobs, revisions, sites, aircraft, parts, partEntries, flights, lifts, corrections, cards, dayEntries;

    public ImportResult Run()
    {
        From<IReadOnlyList<KeptSite>>("sites.json", all => Each(all, Site));
        From<IReadOnlyList<KeptAircraft>>("aircraft.json", all => Each(all, Aircraft));
        From<IReadOnlyList<ArchivedJob>>("jobs.json", all => Each(all, Job));
        foreach (string name in archive.Names.Where(n => n.StartsWith("flights/", StringComparison.Ordinal)))
            From<ArchivedFlight>(name, flight => Flight(name, flight));
        From<IReadOnlyList<ArchivedPart>>("parts.json", all => Each(all, Part));
        From<IReadOnlyList<ArchivedDayEntry>>("days.json", all => Each(all, DayEntry));
        From<IReadOnlyList<ArchivedLift>>("lifts-by-hand.json", all => Each(all, lift => Lift(lift, flightId: null)));
        return new(jobs, revisions, sites, aircraft, parts, partEntries, flights, lifts, corrections, cards, dayEntries);
    }

    private static void Each<T>(IReadOnlyList<T> all, Action<T> one)
    {
        foreach (T item in all)
            one(item);
    }

    /// <summary>Reads a document and takes it in; what can't be kept is said by the name of its entry.</summary>
    private void From<T>(string name, Action<T> takeIn)
    {
        T document = archive.Document<T>(name);
        try
        {
            takeIn(document);
            context.SaveChanges();
            context.ChangeTracker.Clear();
        }
        catch (Exception e) when (e is ArgumentException or FormatException or System.Text.Json.JsonException or NotSupportedException)
        {
            throw ArchiveReader.Bad($"{name}: {e.Message}", e);
        }
    }

    private void Site(KeptSite site)
    {
        SiteRow? row = context.Sites.Find(site.Key);
        if (row is not null && row.At >= site.At)
            return;
        if (row is null)
            context.Sites.Add(row = new() { Key = site.Key, Name = site.Name, Text = site.Text, By = site.By });
        (row.Name, row.LatitudeDeg, row.LongitudeDeg, row.Text, row.By, row.At) = (Kept.Text(site.Name), Kept.Number(site.LatitudeDeg), Kept.Number(site.LongitudeDeg), Kept.Text(site.Text), Kept.Text(site.By), site.At);
        sites++;
    }

    private void Aircraft(KeptAircraft one)
    {
        AircraftRow? row = context.Aircraft.Find(one.Name);
        if (row is not null && row.At >= one.At)
            return;
        if (row is null)
            context.Aircraft.Add(row = new() { Name = Kept.Text(one.Name), Text = one.Text, By = one.By });
        (row.Text, row.By, row.At) = (Kept.Text(one.Text), Kept.Text(one.By), one.At);
        aircraft++;
    }

    private void Job(ArchivedJob job)
    {
        if (job.Revisions.Count == 0)
            throw new FormatException($"job '{job.Name}' has no text.");
        if (job.TimeZone is { } zone && !TimeZoneInfo.TryFindSystemTimeZoneById(zone, out _))
            throw new FormatException($"job '{job.Name}' is in time zone '{zone}', which is not known here.");
        JobRow? row = context.Jobs.Find(job.Key);
        List<JobRevisionRow> there = [.. context.JobRevisions.AsNoTracking().Where(r => r.JobKey == job.Key)];
        if (row is null)
        {
            context.Jobs.Add(row = new() { Key = job.Key, Name = Kept.Text(job.Name) });
            jobs++;
        }
        if (there.Count == 0 || job.Revisions.Max(r => r.At) > there.Max(r => r.At))
            (row.Name, row.Day, row.TimeZone, row.Aircraft) = (Kept.Text(job.Name), job.Day, job.TimeZone, Kept.OptionalText(job.Aircraft));
        int last = there.Count == 0 ? 0 : there.Max(r => r.Number);
        foreach (JobRevision revision in job.Revisions.Where(r => !there.Exists(t => t.At == r.At && t.Text == r.Text)))
        {
            context.JobRevisions.Add(new() { JobKey = job.Key, Number = ++last, Text = Kept.Text(revision.Text), By = Kept.Text(revision.By), At = revision.At });
            revisions++;
        }
        context.SaveChanges();
        HashSet<Guid> linked = [.. context.JobSites.Where(s => s.JobKey == job.Key).Select(s => s.SiteKey)];
        context.JobSites.AddRange(job.Sites.Distinct().Where(s => !linked.Contains(s) && context.Sites.Any(k => k.Key == s)).Select(s => new JobSiteRow { JobKey = job.Key, SiteKey = s }));
        foreach (IssuedCard card in job.Cards.Where(c => !context.Cards.Any(k => k.Key == c.Key)))
            Card(job.Key, card);
    }

    private void Card(Guid job, IssuedCard card)
    {
        string name = $"cards/{card.Key}";
        if (archive.Entry(name).Sha256 != card.Digest)
            throw new FormatException($"card '{card.Name}' has another digest than {name}.");
        context.Cards.Add(new() { Key = card.Key, JobKey = job, Name = Kept.Text(card.Name), MediaType = Kept.Text(card.MediaType), Digest = card.Digest, IssuedAt = card.IssuedAt });
        context.CardContents.Add(new() { CardKey = card.Key, Content = archive.Bytes(name) });
        cards++;
    }

    private void Flight(string name, ArchivedFlight flight)
    {
        ArchiveEntry record = archive.Entry($"records/{flight.Digest}");
        if (name != $"flights/{flight.Digest}.json" || record.Sha256 != flight.Digest || record.Bytes != flight.Bytes)
            throw new FormatException("the record has another digest or size.");
        FlightRow? row = context.Flights.FirstOrDefault(f => f.Digest == flight.Digest);
        // Where the flight was worked out here too, its own lifts stand, and corrections made elsewhere join those of the same lift.
        bool own = row is not null && context.FlightWork.Any(w => w.FlightId == row.Id);
        row ??= Record(flight);
        if (flight.Work is { } work && !own)
            Work(row, flight.Digest, work);
        foreach (ArchivedLift lift in flight.Lifts.Where(l => !own || l.Lift.AddedByHand || context.Lifts.Any(k => k.Key == l.Key)))
            Lift(lift, row.Id);
    }

    private FlightRow Record(ArchivedFlight flight)
    {
        FlightRow row = new() { Name = Kept.Text(flight.Name), Digest = flight.Digest, Bytes = flight.Bytes, ImportedAt = flight.ImportedAt, JobText = Kept.OptionalText(flight.JobText), TypedJson = Kept.OptionalText(flight.TypedJson), SummaryJson = Kept.OptionalText(flight.SummaryJson) };
        context.Flights.Add(row);
        context.SaveChanges();
        using FileStream waiting = Remnants.Waiting(database.WaitingFolder);
        archive.CopyTo($"records/{flight.Digest}", waiting);
        waiting.Position = 0;
        database.WriteRecord(context, row.Id, waiting, flight.Bytes);
        flights++;
        return row;
    }

    private void Work(FlightRow row, string digest, ArchivedWork work)
    {
        bool jobIsThere = work.Job is { } job && context.Jobs.Any(j => j.Key == job);
        FlightWriter.Replace(context, row, new() { Recorded = work.Recorded, Airborne = work.Airborne, Pilot = work.Pilot, Aircraft = work.Aircraft, Job = jobIsThere ? work.Job : null, Hovers = work.Hovers, Exceedances = work.Exceedances });
        if (work.Track is not { } track)
            return;
        byte[] numbers = archive.Bytes($"tracks/{digest}");
        if (track.Columns.Any(c => c.Bytes < 0) || track.Columns.Sum(c => (long)c.Bytes) != numbers.Length)
            throw new FormatException($"tracks/{digest} has another size than its columns.");
        context.Tracks.Add(new() { FlightId = row.Id, LatitudeDeg = Kept.Number(track.LatitudeDeg), LongitudeDeg = Kept.Number(track.LongitudeDeg), HeightM = Kept.Number(track.HeightM), HasHeight = track.HasHeight });
        int at = 0;
        foreach (ArchivedColumn column in track.Columns)
        {
            context.TrackColumns.Add(new() { FlightId = row.Id, Name = Kept.Text(column.Name), Data = numbers[at..(at + column.Bytes)] });
            at += column.Bytes;
        }
    }

    private void Lift(ArchivedLift lift, long? flightId)
    {
        LiftRow? row = context.Lifts.FirstOrDefault(l => l.Key == lift.Key);
        if (row is null)
        {
            row = LiftRows.From(lift.Lift);
            (row.Key, row.FlightId, row.NotFoundAgain, row.Day, row.Aircraft) = (lift.Key, flightId, lift.NotFoundAgain, lift.Day, Kept.OptionalText(lift.Aircraft));
            if (row.AddedByHand && context.Lifts.Any(l => l.FlightId == flightId && l.AddedByHand && l.Number == row.Number))
                row.Number = context.Lifts.Where(l => l.FlightId == flightId && l.AddedByHand).Max(l => l.Number) + 1;
            context.Lifts.Add(row);
            context.SaveChanges();
            if (lift.Lift.Measures is { } measures)
                context.LiftMeasures.Add(new() { LiftId = row.Id, Json = StoreJson.Write(measures) });
            lifts++;
        }
        HashSet<Guid> there = [.. context.Corrections.Where(c => c.LiftId == row.Id).Select(c => c.Key)];
        foreach (ArchivedCorrection c in lift.Corrections.Where(c => !there.Contains(c.Key)))
        {
            _ = LiftMember.Named(c.Member)?.Set(lift.Lift, c.NewJson); // refuses a value that could not be read again
            context.Corrections.Add(new() { Key = c.Key, LiftId = row.Id, Member = Kept.Text(c.Member), Old = Kept.Text(c.Old), New = Kept.Text(c.New), NewJson = Kept.Text(c.NewJson), By = Kept.Text(c.By), At = c.At, Why = Kept.OptionalText(c.Why) });
            corrections++;
        }
    }

    private void Part(ArchivedPart part)
    {
        if (context.Parts.Find(part.Name) is null)
        {
            context.Parts.Add(new() { Name = Kept.Text(part.Name), Kind = part.Kind });
            parts++;
        }
        HashSet<Guid> there = [.. context.PartEntries.Where(e => e.PartName == part.Name).Select(e => e.Key)];
        foreach ((Guid key, PartEntry entry) in part.Entries.Where(e => !there.Contains(e.Key)))
        {
            PartEntryRow row = PartLog.Row(part.Name, entry);
            row.Key = key;
            context.PartEntries.Add(row);
            partEntries++;
        }
    }

    private void DayEntry(ArchivedDayEntry entry)
    {
        DayEntryRow? row = context.DayEntries.FirstOrDefault(e => e.Key == entry.Key);
        if (row is not null && (row.WithdrawnBy is not null || entry.WithdrawnBy is null))
            return;
        if (row is null)
        {
            DayReader.Check(entry.Kind, entry.Json);
            context.DayEntries.Add(row = new() { Key = entry.Key, Day = entry.Day, Aircraft = Kept.OptionalText(entry.Aircraft), Kind = entry.Kind, Json = Kept.Text(entry.Json), By = Kept.Text(entry.By), At = entry.At });
        }
        (row.WithdrawnBy, row.WithdrawnAt, row.WithdrawnWhy) = (Kept.OptionalText(entry.WithdrawnBy), entry.WithdrawnAt, Kept.OptionalText(entry.WithdrawnWhy));
        dayEntries++;
    }
}
