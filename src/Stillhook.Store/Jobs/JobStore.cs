using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;

namespace Stillhook.Store;

/// <summary>Jobs: every text that was ever saved, and the cards that were issued.</summary>
public sealed class JobStore
{
    private readonly WorkStore store;

    internal JobStore(WorkStore store) => this.store = store;

    /// <summary>Saves a job: a new one without a key, the next revision of a known one with it. The same text again is no new revision.</summary>
    /// <exception cref="ArgumentException">The time zone is not known, or the key is not.</exception>
    public KeptJob Save(JobEntry entry, string by, DateTimeOffset at, Guid? key = null)
    {
        ArgumentNullException.ThrowIfNull(entry);
        ArgumentException.ThrowIfNullOrEmpty(by);
        if (entry.TimeZone is { } zone && !TimeZoneInfo.TryFindSystemTimeZoneById(zone, out _))
            throw new ArgumentException($"Time zone '{zone}' is not known; write its IANA name, such as Europe/Zurich.", nameof(entry));
        return store.Write(context =>
        {
            JobRow row = Row(context, entry, key);
            (row.Name, row.Day, row.TimeZone, row.Aircraft) = (Kept.Text(entry.Name), entry.Day, entry.TimeZone, Kept.OptionalText(entry.Aircraft));
            context.SaveChanges();
            JobRevisionRow? latest = Latest(context, row.Key);
            if (latest?.Text != entry.Text)
                context.JobRevisions.Add(new() { JobKey = row.Key, Number = (latest?.Number ?? 0) + 1, Text = Kept.Text(entry.Text), By = Kept.Text(by), At = at });
            context.JobSites.Where(s => s.JobKey == row.Key).ExecuteDelete();
            context.JobSites.AddRange(entry.Sites.Distinct().Select(s => new JobSiteRow { JobKey = row.Key, SiteKey = s }));
            context.SaveChanges();
            return ToJob(context, row);
        });
    }

    /// <summary>Changes a job's latest text as it is being edited. The revision is written over while nobody used it; once a card was issued from it, the change begins the next one.</summary>
    /// <param name="key">Which job.</param>
    /// <param name="revision">Revision that was read; null takes whichever is the latest.</param>
    /// <param name="change">From the latest text to what is to be kept; null changes nothing.</param>
    /// <param name="by">Who.</param>
    /// <param name="at">When.</param>
    /// <param name="newRevision">Begins a new revision in any case, so that pages which read the one before are told.</param>
    /// <returns>The job as it is now; null when there is no such job or its latest revision is another.</returns>
    public KeptJob? Amend(Guid key, int? revision, Func<string, JobEntry?> change, string by, DateTimeOffset at, bool newRevision = false)
    {
        ArgumentNullException.ThrowIfNull(change);
        ArgumentException.ThrowIfNullOrEmpty(by);
        return store.Write<KeptJob?>(context =>
        {
            if (context.Jobs.FirstOrDefault(j => j.Key == key) is not { } row)
                return null;
            JobRevisionRow latest = context.JobRevisions.Where(r => r.JobKey == key).OrderByDescending(r => r.Number).First();
            if (revision is { } read && latest.Number != read)
                return null;
            if (change(latest.Text) is { } entry && entry.Text != latest.Text)
            {
                (row.Name, row.Day, row.TimeZone, row.Aircraft) = (Kept.Text(entry.Name), entry.Day, entry.TimeZone, Kept.OptionalText(entry.Aircraft));
                if (newRevision || context.Cards.Any(c => c.JobKey == key && c.IssuedAt >= latest.At))
                    context.JobRevisions.Add(new() { JobKey = key, Number = latest.Number + 1, Text = Kept.Text(entry.Text), By = Kept.Text(by), At = at });
                else
                    (latest.Text, latest.By) = (Kept.Text(entry.Text), Kept.Text(by));
                context.SaveChanges();
            }
            return ToJob(context, row);
        });
    }

    /// <summary>One job, or null.</summary>
    public KeptJob? Find(Guid key) => store.Read(context => context.Jobs.AsNoTracking().FirstOrDefault(j => j.Key == key) is { } row ? ToJob(context, row) : null);

    /// <summary>All jobs, the latest day first; those without a day before them.</summary>
    public IReadOnlyList<KeptJob> List() => store.Read<IReadOnlyList<KeptJob>>(context =>
        [.. context.Jobs.AsNoTracking().ToList().OrderByDescending(j => j.Day ?? DateOnly.MaxValue).ThenBy(j => j.Name, StringComparer.Ordinal).Select(j => ToJob(context, j))]);

    /// <summary>Every text that was saved, the first one first.</summary>
    public IReadOnlyList<JobRevision> Revisions(Guid key) => store.Read<IReadOnlyList<JobRevision>>(context =>
        [.. context.JobRevisions.AsNoTracking().Where(r => r.JobKey == key).OrderBy(r => r.Number).Select(r => new JobRevision(r.Number, r.Text, r.By, r.At))]);

    /// <summary>Removes a job with its revisions and cards; its flights stay. False when there was none.</summary>
    public bool Remove(Guid key) => store.Write(context => context.Jobs.Where(j => j.Key == key).ExecuteDelete() > 0);

    /// <summary>Keeps a card as it was issued.</summary>
    /// <exception cref="ArgumentException">There is no such job.</exception>
    public IssuedCard IssueCard(Guid job, string name, string mediaType, byte[] content, DateTimeOffset at)
    {
        ArgumentNullException.ThrowIfNull(content);
        return store.Write(context =>
        {
            if (!context.Jobs.Any(j => j.Key == job))
                throw NoJob(job, nameof(job));
            CardRow row = new() { Key = Guid.CreateVersion7(), JobKey = job, Name = Kept.Text(name), MediaType = Kept.Text(mediaType), Digest = Convert.ToHexStringLower(SHA256.HashData(content)), IssuedAt = at.ToUniversalTime() };
            context.Cards.Add(row);
            context.CardContents.Add(new() { CardKey = row.Key, Content = content });
            context.SaveChanges();
            return ToCard(row);
        });
    }

    /// <summary>Cards issued for a job, the first one first.</summary>
    public IReadOnlyList<IssuedCard> Cards(Guid job) => store.Read<IReadOnlyList<IssuedCard>>(context =>
        [.. context.Cards.AsNoTracking().Where(c => c.JobKey == job).OrderBy(c => c.IssuedAt).AsEnumerable().Select(ToCard)]);

    /// <summary>A card's bytes as issued; null when there is none.</summary>
    public byte[]? CardContent(Guid card) => store.Read(context => context.CardContents.AsNoTracking().FirstOrDefault(c => c.CardKey == card)?.Content);

    internal static JobRevisionRow? Latest(StillhookContext context, Guid key) =>
        context.JobRevisions.AsNoTracking().Where(r => r.JobKey == key).OrderByDescending(r => r.Number).FirstOrDefault();

    private static JobRow Row(StillhookContext context, JobEntry entry, Guid? key)
    {
        if (key is { } known)
            return context.Jobs.FirstOrDefault(j => j.Key == known) ?? throw NoJob(known, nameof(key));
        JobRow fresh = new() { Key = Guid.CreateVersion7(), Name = entry.Name };
        context.Jobs.Add(fresh);
        return fresh;
    }

    private static ArgumentException NoJob(Guid key, string name) => new($"There is no job {key} in the store.", name);

    private static KeptJob ToJob(StillhookContext context, JobRow row)
    {
        JobRevisionRow latest = Latest(context, row.Key)!;
        return new()
        {
            Key = row.Key,
            Name = row.Name,
            Day = row.Day,
            TimeZone = row.TimeZone,
            Aircraft = row.Aircraft,
            Text = latest.Text,
            Revision = latest.Number,
            Sites = [.. context.JobSites.AsNoTracking().Where(s => s.JobKey == row.Key).Select(s => s.SiteKey).AsEnumerable().Order()],
        };
    }

    private static IssuedCard ToCard(CardRow row) => new(row.Key, row.JobKey, row.Name, row.MediaType, row.Digest, row.IssuedAt);
}
