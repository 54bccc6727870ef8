using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Pages.Jobs;
using Stillhook.Files.Jobs;
using Stillhook.Files.Jobs.Editing;
using Stillhook.Files.Pictures;
using Stillhook.Physics.Earth;
using Stillhook.Recording;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Addresses of the jobs and of the Job page, on which a job is made by forms alone.</summary>
internal static class JobRoutes
{
    private const int LargestJobBytes = 4_000_000;

    public static void Map(IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder signed = routes.MapGroup("").RequireAuthorization(Access.Signed);
        RouteGroupBuilder list = routes.MapGroup("").RequireAuthorization(Access.Jobs);
        RouteGroupBuilder read = routes.MapGroup("").RequireAuthorization(Access.Plans);
        RouteGroupBuilder change = routes.MapGroup("").RequireAuthorization(Access.Planning);
        signed.MapGet("/", (HttpContext http, ServingOptions options) => Results.Redirect(http.May(Access.Jobs) && http.LastJob() is { } key && options.Store.Jobs.Find(key) is not null ? $"/jobs/{key}" : Access.Start(http)));
        list.MapGet("/jobs", (HttpContext http, ServingOptions options) => Jobs(http, options));
        change.MapPost("/jobs", New);
        change.MapPost("/jobs/file", TakeIn);
        list.MapGet("/jobs/{key:guid}", Page);
        read.MapGet("/jobs/{key:guid}/file", File);
        change.MapPost("/jobs/{key:guid}/fields", Fields);
        change.MapPost("/jobs/{key:guid}/copy", Copy);
        change.MapPost("/jobs/{key:guid}/remove", Remove);
        read.MapGet("/jobs/{key:guid}/place", Place);
        signed.MapPost("/units", Units);
    }

    /// <summary>Says that there is no such job.</summary>
    public static IResult NoJob() => PageResults.Message("Not here", "There is no such job in the store.", "It may have been removed. Go back to the jobs.", 404);

    private static IResult Units(HttpContext http, [FromForm] string? units, [FromForm] string? look, [FromForm] string? mark, [FromForm] string? back)
    {
        if (units is not null)
            http.RememberUnits(units);
        if (mark is not null)
            http.RememberMark(mark);
        if (look is not null)
            http.RememberLook(look);
        return Results.LocalRedirect(PageContext.Own(back, "/jobs"));
    }

    private static RazorComponentResult<JobsPage> Jobs(HttpContext http, ServingOptions options, string? mistake = null, IReadOnlyList<Finding>? findings = null) =>
        new(new { Jobs = options.Store.Jobs.List(), Token = http.FormToken(), By = http.TypedBy(), Mistake = mistake, Findings = findings ?? [] }) { StatusCode = mistake is null ? 200 : 422 };

    private static IResult New(HttpContext http, ServingOptions options, JobEditing editing, [FromForm] string? name, [FromForm] string? day, [FromForm] string? timeZone, [FromForm] string? by)
    {
        if (string.IsNullOrWhiteSpace(name))
            return Jobs(http, options, "A job needs a name: type what the work is called.");
        if (http.Who(by) is { } who)
            http.RememberName(who);
        KeptJob job = editing.New(name.Trim(), day, timeZone, http.Who(by) ?? http.TypedBy());
        return Results.Redirect($"/jobs/{job.Key}");
    }

    private static IResult TakeIn(HttpContext http, ServingOptions options, IFormFile? file)
    {
        if (file is null || file.Length == 0)
            return Jobs(http, options, "Choose a job file first.");
        if (file.Length > LargestJobBytes)
            return Jobs(http, options, $"{file.FileName} has {(file.Length / 1e6).ToString("F0", CultureInfo.InvariantCulture)} MB; a job file is some hundred lines. Check that it is the right file.");
        using StreamReader reader = new(file.OpenReadStream(), Encoding.UTF8);
        string text = reader.ReadToEnd();
        JobFile job = JobFile.Read(text);
        if (JobDocument.Read(text) is null)
            return Jobs(http, options, $"{file.FileName} is no job file and was not taken in.", job.Findings);
        KeptJob kept = options.Store.Jobs.Save(JobEditing.Entry(text), http.TypedBy(), options.Clock.GetUtcNow());
        return Results.Redirect($"/jobs/{kept.Key}");
    }

    private static IResult Page(Guid key, HttpContext http, ServingOptions options, JobWork work, string? part, string? open, double? range) =>
        // Who reads cards alone is led to them.
        http.May(Access.Plans) ? Show(key, http, options, work, new() { Part = part, Open = open, RangeM = range ?? 300 }) : Results.Redirect($"/jobs/{key}/cards");

    /// <summary>What the page shows besides the job.</summary>
    private sealed record Shown
    {
        public string? Part { get; init; }
        public string? Open { get; init; }
        public double RangeM { get; init; } = 300;
        public string? Notice { get; init; }
        public IReadOnlyList<FieldConflict> Conflicts { get; init; } = [];
        public Dictionary<string, string> Pasted { get; init; } = [];
        public Dictionary<string, IReadOnlyList<string>> PasteMistakes { get; init; } = [];
    }

    private static IResult Show(Guid key, HttpContext http, ServingOptions options, JobWork work, Shown shown)
    {
        if (work.Open(key) is not { } job)
            return NoJob();
        if (JobDocument.Read(job.Kept.Text, http.Units()) is not { } document)
            return PageResults.Message("Not to be edited here", "This job's text can't be read.", $"Take the file in again. {string.Join(" ", job.File.Findings.Select(f => f.What))}", 422);
        http.RememberJob(key);
        JobForm form = new(document, job.File);
        bool refused = shown.Notice is not null || shown.Conflicts.Count > 0 || shown.PasteMistakes.Count > 0;
        return new RazorComponentResult<JobPage>(new
        {
            Job = job, Form = form, PartName = JobParts.Named(shown.Part).Name, Token = http.FormToken(), Open = shown.Open ?? "", RangeM = Math.Clamp(shown.RangeM, 20, 20_000), shown.Notice,
            Conflicts = (IReadOnlyList<(string, string, string)>)[.. shown.Conflicts.Select(c => (c.Path, c.Typed, c.Now))],
            Pasted = (IReadOnlyDictionary<string, string>)shown.Pasted, PasteMistakes = (IReadOnlyDictionary<string, IReadOnlyList<string>>)shown.PasteMistakes,
            Sites = options.Store.Sites.List(), Aircraft = options.Store.Aircraft.List(), Revisions = options.Store.Jobs.Revisions(key), Needs = JobEditing.Needs(form),
        })
        { StatusCode = refused ? StatusCodes.Status409Conflict : StatusCodes.Status200OK };
    }

    private static IResult File(Guid key, ServingOptions options, int? version)
    {
        if (options.Store.Jobs.Find(key) is not { } job)
            return NoJob();
        string? text = version is { } number ? options.Store.Jobs.Revisions(key).FirstOrDefault(r => r.Number == number)?.Text : job.Text;
        string name = string.Concat(job.Name.Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-')).Trim('-');
        return text is null ? NoJob() : Results.File(Encoding.UTF8.GetBytes(text), "application/json", (name.Length > 0 ? name : "job") + ".json");
    }

    private static IResult Copy(Guid key, HttpContext http, ServingOptions options)
    {
        if (options.Store.Jobs.Find(key) is not { } job || JobDocument.Read(job.Text) is not { } document)
            return NoJob();
        document.Set("job", document.Typed("job") + " (copy)");
        document.Set("date", "");
        KeptJob copy = options.Store.Jobs.Save(JobEditing.Entry(document.Text), http.TypedBy(), options.Clock.GetUtcNow());
        return Results.Redirect($"/jobs/{copy.Key}");
    }

    private static IResult Remove(Guid key, ServingOptions options, [FromForm] string? sure)
    {
        if (sure == "yes")
            options.Store.Jobs.Remove(key);
        return Results.Redirect("/jobs");
    }

    /// <summary>Position of a point of a site's map, in metres east and north of it.</summary>
    private static IResult Place(Guid key, HttpContext http, JobWork work, int site, double east, double north)
    {
        if (work.Open(key)?.File.Request.Sites.ElementAtOrDefault(site) is not { } at || !double.IsFinite(east) || !double.IsFinite(north))
            return Results.NotFound();
        (double latitude, double longitude, _) = new LocalFrame(at.Latitude.Degrees, at.Longitude.Degrees, 0).ToGeodetic(new Enu(Math.Clamp(east, -5e4, 5e4), Math.Clamp(north, -5e4, 5e4), 0));
        return Results.Json(new { latitude = http.Units().Number(latitude, 6).Replace('−', '-'), longitude = http.Units().Number(longitude, 6).Replace('−', '-') });
    }

    private static async Task<IResult> Fields(Guid key, HttpContext http, ServingOptions options, JobWork work, JobEditing editing, [FromForm] IFormCollection form)
    {
        if (!int.TryParse(form["revision"], NumberStyles.None, CultureInfo.InvariantCulture, out int revision))
            return PageResults.Message("Not taken", "The form was not complete, and nothing was changed.", "Go back, reload the page and send it again.", 400);
        List<(string, string, string)> fields = [.. form.Keys.Where(k => k.StartsWith("f:", StringComparison.Ordinal)).Select(k => (k[2..], form["w:" + k[2..]].ToString(), form[k].ToString()))];
        string by = http.TypedBy();
        EditOutcome outcome;
        try
        {
            outcome = editing.Set(key, revision, fields, by, http.Units());
        }
        catch (ArgumentException)
        {
            outcome = new(options.Store.Jobs.Find(key), [], ListsMoved: true);
        }
        if (outcome.Job is null)
            return NoJob();
        if (form["fragment"] == "1")
            return await FieldAnswers.Of(outcome, fields.Select(f => f.Item1), work, http);
        Shown shown = new() { Part = form["part"], Open = form["open"], Conflicts = outcome.Conflicts, Notice = outcome.ListsMoved ? Moved : null };
        if (shown.Notice is not null || shown.Conflicts.Count > 0)
            return Show(key, http, options, work, shown);
        string[] op = form["op"].ToString().Split(' ', 2);
        return op is [var what, var path] && what != "save" ? Operate(key, http, options, work, editing, outcome.Job.Revision, what, path, form, shown) : Back(key, shown, "");
    }

    /// <summary>Said when a list was changed elsewhere, so that rows may stand for other things now.</summary>
    public const string Moved = "Another window added, moved or took out rows meanwhile, so that this change could not be placed. This is how it stands now; type it again.";

    private static IResult Operate(Guid key, HttpContext http, ServingOptions options, JobWork work, JobEditing editing, int revision, string what, string path, IFormCollection form, Shown shown)
    {
        Dictionary<string, IReadOnlyList<string>> mistakes = [];
        string? notice = null;
        DecimalMark mark = http.Units().Mark;
        string open = what == "remove" ? "" : shown.Open ?? "";
        string anchor = "i-" + path.Split('[')[0].Replace('.', '-');
        try
        {
            EditOutcome outcome = editing.Change(key, revision, document =>
            {
                switch (what)
                {
                    case "add":
                        string added = document.Add(path);
                        if (path is "loads" or "rigging")
                            open = added;
                        break;
                    case "copy":
                        document.Add(path, copyLast: true);
                        break;
                    case "remove":
                        document.Remove(path);
                        break;
                    case "up":
                        document.Move(path, -1);
                        break;
                    case "down":
                        document.Move(path, 1);
                        break;
                    case "clear":
                        document.Put(path, null);
                        break;
                    case "paste":
                        Keep(mistakes, path, PastedTable.AddLoads(document, form["paste:" + path].ToString(), mark));
                        break;
                    case "chart":
                        string text = form["paste:" + path].ToString();
                        bool feet = form["feet:" + path] != "m", pounds = form["pounds:" + path] == "lb";
                        Keep(mistakes, path, path == "aircraft.hoverTorque" ? PastedTable.SetTorque(document, text, feet, pounds, mark) : PastedTable.SetChart(document, path, text, feet, pounds, mark));
                        anchor = path.Replace('.', '-');
                        break;
                    case "same-sling":
                        SameSling(document);
                        break;
                    case "library-site" when Guid.TryParse(form["librarySite"], out Guid site) && options.Store.Sites.Find(site) is { } kept:
                        document.Put(document.Add("sites"), kept.Text);
                        break;
                    case "library-aircraft" when options.Store.Aircraft.Find(form["libraryAircraft"].ToString()) is { } kept:
                        document.Put("aircraft", kept.Text);
                        break;
                    case "keep-site":
                        notice = KeepSite(document, path, options, http);
                        break;
                    case "keep-aircraft":
                        notice = KeepAircraft(document, options, http);
                        break;
                    default:
                        throw new ArgumentException($"'{what}' is not known here.", nameof(what));
                }
            }, http.TypedBy());
            if (outcome.ListsMoved)
                notice = Moved;
        }
        catch (ArgumentException)
        {
            notice = Moved;
        }
        shown = shown with { Open = open, Notice = notice, PasteMistakes = mistakes, Pasted = mistakes.Keys.ToDictionary(k => k, k => form["paste:" + k].ToString()) };
        return notice is not null || mistakes.Count > 0 ? Show(key, http, options, work, shown) : Back(key, shown, anchor);
    }

    private static void Keep(Dictionary<string, IReadOnlyList<string>> mistakes, string path, IReadOnlyList<string> wrong)
    {
        if (wrong.Count > 0)
            mistakes[path] = wrong;
    }

    private static IResult Back(Guid key, Shown shown, string anchor) =>
        Results.LocalRedirect($"/jobs/{key}?part={JobParts.Named(shown.Part).Name}{(string.IsNullOrEmpty(shown.Open) ? "" : "&open=" + Uri.EscapeDataString(shown.Open))}{(anchor.Length > 0 ? "#" + anchor : "")}");

    private static void SameSling(JobDocument document)
    {
        if (document.Count("loads") == 0 || document.Part("loads[0].attachment") is not { } first)
            return;
        for (int i = 1; i < document.Count("loads"); i++)
        {
            string path = FormattableString.Invariant($"loads[{i}].attachment");
            if (document.Part(path) is null)
                document.Put(path, first);
        }
    }

    private static string? KeepSite(JobDocument document, string path, ServingOptions options, HttpContext http)
    {
        string name = document.Typed(path + ".name");
        if (name.Length == 0 || !double.TryParse(document.Typed(path + ".latitude"), NumberStyles.Float, CultureInfo.InvariantCulture, out double latitude)
            || !double.TryParse(document.Typed(path + ".longitude"), NumberStyles.Float, CultureInfo.InvariantCulture, out double longitude))
            return "A site needs its name and position before it is kept in the library.";
        Guid? known = options.Store.Sites.List().FirstOrDefault(s => s.Name == name)?.Key;
        options.Store.Sites.Save(name, latitude, longitude, document.Part(path)!, http.TypedBy(), options.Clock.GetUtcNow(), known);
        return null;
    }

    private static string? KeepAircraft(JobDocument document, ServingOptions options, HttpContext http)
    {
        string name = document.Typed("aircraft.name");
        if (name.Length == 0)
            return "The aircraft needs a name before it is kept in the library.";
        options.Store.Aircraft.Save(name, document.Part("aircraft")!, http.TypedBy(), options.Clock.GetUtcNow());
        return null;
    }
}
