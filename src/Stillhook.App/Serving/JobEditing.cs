using System.Globalization;
using Stillhook.App.Pages;
using Stillhook.App.Pages.Jobs;
using Stillhook.Files.Jobs;
using Stillhook.Files.Jobs.Editing;
using Stillhook.Files.Pictures;
using Stillhook.Planning;
using Stillhook.Planning.Checking;
using Stillhook.Recording;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Something that a plan can't do without, or that is wrong with the job.</summary>
/// <param name="Path">Where.</param>
/// <param name="What">In words, with how to mend it.</param>
/// <param name="StopsPlan">False for what only wants looking at.</param>
public sealed record JobNeed(string Path, string What, bool StopsPlan = true);

/// <summary>A field that two windows changed.</summary>
/// <param name="Path">Which.</param>
/// <param name="Typed">What was typed here.</param>
/// <param name="Now">What stands there now.</param>
public sealed record FieldConflict(string Path, string Typed, string Now);

/// <summary>What became of an edit.</summary>
/// <param name="Job">The job as it is now; null when it is there no more.</param>
/// <param name="Conflicts">Fields that another window changed; they were left as that window wrote them.</param>
/// <param name="ListsMoved">Another window changed the lists, so that nothing of this edit was taken.</param>
public sealed record EditOutcome(KeptJob? Job, IReadOnlyList<FieldConflict> Conflicts, bool ListsMoved = false);

/// <summary>Edits jobs in the store. Each field is compared with what the page had shown, so that two windows never write over each other unseen.</summary>
internal sealed class JobEditing(ServingOptions options)
{
    /// <summary>A new job.</summary>
    public KeptJob New(string name, string? day, string? timeZone, string by)
    {
        DateTimeOffset now = options.Clock.GetUtcNow();
        JobDocument document = JobDocument.New(name);
        if (!string.IsNullOrEmpty(day))
            document.Set("date", day);
        if (timeZone is { Length: > 0 } && TimeZoneInfo.TryFindSystemTimeZoneById(timeZone, out _))
            document.Set("timeZone", timeZone);
        if (by != PageContext.Nobody)
            document.Set("enteredBy", by);
        document.Set("enteredAt", now.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm':00Z'", CultureInfo.InvariantCulture));
        return options.Store.Jobs.Save(Entry(document.Text), by, now);
    }

    /// <summary>Writes fields.</summary>
    /// <param name="key">The job.</param>
    /// <param name="revision">Revision that the page had read.</param>
    /// <param name="fields">Path, what the page had shown, what was typed.</param>
    /// <param name="by">Who.</param>
    /// <param name="units">Units that the page was shown in.</param>
    public EditOutcome Set(Guid key, int revision, IReadOnlyList<(string Path, string Was, string Typed)> fields, string by, DisplayUnits? units = null)
    {
        List<FieldConflict> conflicts = [];
        KeptJob? job = options.Store.Jobs.Amend(key, revision, text =>
        {
            JobDocument document = Document(text, units);
            conflicts.AddRange(Set(document, fields));
            return Entry(document.Text);
        }, by, options.Clock.GetUtcNow());
        return job is null ? Moved(key) : new(job, conflicts);
    }

    /// <summary>Writes those fields that nobody changed since the page had shown them; the others come back.</summary>
    public static IReadOnlyList<FieldConflict> Set(JobDocument document, IReadOnlyList<(string Path, string Was, string Typed)> fields)
    {
        List<FieldConflict> conflicts = [];
        foreach ((string path, string was, string typed) in fields.Where(f => f.Was != f.Typed.Trim()))
        {
            string now = document.Typed(path);
            if (now == typed.Trim())
                continue;
            if (now == was)
                document.Set(path, typed);
            else
                conflicts.Add(new(path, typed, now));
        }
        return conflicts;
    }

    /// <summary>Changes lists or whole groups; pages that read the revision before are told.</summary>
    public EditOutcome Change(Guid key, int revision, Action<JobDocument> change, string by)
    {
        KeptJob? job = options.Store.Jobs.Amend(key, revision, text =>
        {
            JobDocument document = Document(text);
            change(document);
            return Entry(document.Text);
        }, by, options.Clock.GetUtcNow(), newRevision: true);
        return job is null ? Moved(key) : new(job, []);
    }

    /// <summary>What the store finds a job by, from its text.</summary>
    public static JobEntry Entry(string text)
    {
        JobDocument? document = JobDocument.Read(text);
        string Typed(string path) => document?.Typed(path) ?? "";
        return new(Typed("job") is { Length: > 0 } name ? name : "job without a name", text,
            DateOnly.TryParseExact(Typed("date"), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day : null,
            Typed("timeZone") is { Length: > 0 } zone && TimeZoneInfo.TryFindSystemTimeZoneById(zone, out _) ? zone : null,
            Typed("aircraft.name") is { Length: > 0 } aircraft ? aircraft : null);
    }

    /// <summary>What still keeps the job from being planned, then what can be planned with but wants looking at.</summary>
    public static IReadOnlyList<JobNeed> Needs(JobForm form)
    {
        List<JobNeed> wrong = [.. form.File.FindingsByPath.SelectMany(g => g.Where(f => f.Severity == Severity.Error).Select(f => new JobNeed(g.Key, Field(form, g.Key)))).DistinctBy(n => n.Path)];
        return [.. wrong, .. RequestCheck.ForPlan(form.File.Request).Where(f => f.Severity == Severity.Error && wrong.All(w => w.Path != f.Path)).Select(f => new JobNeed(f.Path, form.Mark.Sentence(PathWords.InText(form.Document, Sentence(f))))), .. ToLookAt(form)];
    }

    private static string Field(JobForm form, string path)
    {
        try
        {
            JobField field = form.Field(path);
            return $"{PathWords.Of(form.Document, path)}: {string.Join(" ", field.Mistakes)}";
        }
        catch (ArgumentException)
        {
            return string.Join(" ", form.File.FindingsByPath[path].Select(form.Say));
        }
    }

    /// <summary>Rigging that a plan fails or that is past its inspection: said before the plan is made.</summary>
    private static IEnumerable<JobNeed> ToLookAt(JobForm form)
    {
        LiftRequest request = form.File.Request;
        IEnumerable<(string Path, RiggingPart? Part)> parts = request.Rigging.Select((p, i) => (FormattableString.Invariant($"rigging[{i}]"), (RiggingPart?)p))
            .Concat(request.Loads.Select((l, i) => (FormattableString.Invariant($"loads[{i}].attachment.sling"), l.Attachment?.Sling)));
        foreach ((string path, RiggingPart? part) in parts)
        {
            if (part is { RatedLoad: null, BreakingStrength: null } && part.Kind != PartKind.CargoHook)
                yield return new(path, $"{PathWords.Of(form.Document, path)}: no rated load is marked. The plan fails a part without a mark.", StopsPlan: false);
            if (part?.InspectionDue is { } due && due < request.Date)
                yield return new(path, $"{PathWords.Of(form.Document, path)}: its inspection was due on {Words.Of(due)}, before the day of the work.", StopsPlan: false);
        }
    }

    private static string Sentence(RequestFinding finding) => finding.Code == "plan-needs" ? $"{finding.What.TrimEnd('.')}{(finding.Mend.IndexOf(": ", StringComparison.Ordinal) is > 0 and int at ? " (" + finding.Mend[(at + 2)..].TrimEnd('.') + ")" : "")}." : $"{finding.What} {finding.Mend}";

    private EditOutcome Moved(Guid key) => new(options.Store.Jobs.Find(key), [], ListsMoved: true);

    private static JobDocument Document(string text, DisplayUnits? units = null) => JobDocument.Read(text, units) ?? throw new ArgumentException("The job's text is no JSON group and can't be edited by fields; take it in again as a file.", nameof(text));
}
