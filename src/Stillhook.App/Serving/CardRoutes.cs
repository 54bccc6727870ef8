using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Commands;
using Stillhook.App.Pages.Cards;
using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Briefing.Printing;
using Stillhook.Files.Cards;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>The cards of a job as they would be issued now.</summary>
/// <param name="Brief">What they say.</param>
/// <param name="Cards">Laid out.</param>
/// <param name="Earlier">The last brief issued, where something changed since: it is on the first card.</param>
/// <param name="SameSince">When the last ones were issued, where nothing changed since.</param>
internal sealed record DraftCards(Brief Brief, IReadOnlyList<PrintedCard> Cards, EarlierBrief? Earlier, DateTimeOffset? SameSince);

/// <summary>Addresses of the cards.</summary>
internal static class CardRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder read = routes.MapGroup("").RequireAuthorization(Access.Cards);
        RouteGroupBuilder change = routes.MapGroup("").RequireAuthorization(Access.Planning);
        read.MapGet("/cards.css", () => Results.Text(CardHtml.Looks, "text/css; charset=utf-8"));
        read.MapGet("/jobs/{key:guid}/cards", Page);
        read.MapGet("/jobs/{key:guid}/cards/print", Print);
        read.MapGet("/jobs/{key:guid}/cards/{card:guid}", Issued);
        change.MapPost("/jobs/{key:guid}/cards", Issue);
    }

    private static IResult Page(Guid key, HttpContext http, ServingOptions options, JobWork work)
    {
        if (work.Open(key) is not { } job)
            return JobRoutes.NoJob();
        http.RememberJob(key);
        LiftPlan? plan = job.File.IsUsable ? work.Plan(job) : null;
        DraftCards? draft = plan is { IsPlanned: true } ? Draft(job, plan, http, options, work) : null;
        return new RazorComponentResult<CardsPage>(new
        {
            Job = job, Plan = plan, DraftCards = draft, Issued = (IReadOnlyList<IssuedCard>)[.. options.Store.Jobs.Cards(key).Reverse()], Token = http.FormToken(), By = http.TypedBy(),
        });
    }

    /// <summary>The cards on paper: one page each, nothing else.</summary>
    private static IResult Print(Guid key, HttpContext http, ServingOptions options, JobWork work)
    {
        if (work.Open(key) is not { } job)
            return JobRoutes.NoJob();
        if (!job.File.IsUsable || work.Plan(job) is not { IsPlanned: true } plan)
            return Results.Redirect($"{job.Address}/cards");
        ShiftForm read = ShiftForm.Read(http.Request.Query, job.File.Request, http.Units().Mark);
        if (!read.IsRight)
            return Results.Redirect($"{job.Address}/plan{http.Request.QueryString}#recheck");
        return Paper(http, Encoding.UTF8.GetBytes(CardHtml.Page(read.Shift.IsEmpty ? Draft(job, plan, http, options, work).Cards : ForReadings(job, read.Shift, http, options, work))));
    }

    /// <summary>Payload and gates again for what was read: the cards of the loads still to be flown, with what changed since the last ones issued first. They are not issued: nothing is held against them.</summary>
    private static IReadOnlyList<PrintedCard> ForReadings(OpenJob job, Shift shift, HttpContext http, ServingOptions options, JobWork work)
    {
        DisplayUnits units = http.Units().Plain;
        ApproachShift readings = new(
            shift.QnhPa is { } qnh ? UnitsNet.Pressure.FromPascals(qnh) : null, shift.Wind, shift.TemperatureC is { } celsius ? UnitsNet.Temperature.FromDegreesCelsius(celsius) : null);
        return work.Once(job.Kept.Key, job.Kept.Text, string.Create(CultureInfo.InvariantCulture, $"printed {readings} {shift.Minute} {shift.FuelKg} {string.Join(',', shift.Delivered)} {units.Name} {job.Ground?.Stamp} {options.Store.Jobs.Cards(job.Kept.Key).Count}"), () =>
        {
            LiftRequest moved = readings.Applied(Rechecker.Remaining(job.File.Request, shift));
            LiftPlan plan = Stillhook.Job.Recheck(job.File.Request, job.PlanOptions(), shift).After;
            BriefedApproach[] approaches = [.. BriefedApproaches.Of(moved, plan, job.ApproachOptions() with { Shift = readings }, [])];
            DateTimeOffset now = options.Clock.GetUtcNow();
            Brief brief = Stillhook.Job.Brief(moved, plan, approaches, new(JobArgument.Local(job.File, now.AddTicks(-(now.Ticks % TimeSpan.TicksPerSecond))), null, Words(shift)));
            return CardPrints.Of(brief, units, CardFiles.LastKept(options.Store, job.Kept.Key, units.Name));
        });
    }

    private static string Words(Shift shift)
    {
        List<string> read = [];
        void Add(FormattableString text) => read.Add(text.ToString(CultureInfo.InvariantCulture));
        if (shift.QnhPa is { } qnh)
            Add($"QNH {qnh / 100:0.#} hPa");
        if (shift.TemperatureC is { } celsius)
            Add($"{celsius:0.#} °C");
        if (shift.Wind is { } wind)
            Add($"wind {wind.FromDeg:000}/{wind.Speed.Knots:0} kt");
        if (shift.FuelKg is { } fuel)
            Add($"{fuel:0} kg of fuel");
        if (shift.Delivered.Count > 0)
            Add($"{shift.Delivered.Count} loads delivered");
        return $"what was read{(shift.Minute is { } minute ? " at " + ClockText.Of(minute) : "")}: {string.Join(", ", read)}";
    }

    private static IResult Issue(Guid key, HttpContext http, ServingOptions options, JobWork work, [FromForm] string? by)
    {
        if (work.Open(key) is not { } job)
            return JobRoutes.NoJob();
        if (http.Who(by) is { } who)
            http.RememberName(who);
        if (!job.File.IsUsable || work.Plan(job) is not { IsPlanned: true } plan)
            return Results.Redirect($"{job.Address}/cards");
        DraftCards draft = Draft(job, plan, http, options, work, http.Who(by));
        CardFiles.Keep(options.Store, key, CardFiles.Of(draft.Brief, draft.Cards, http.Units().Plain, draft.Earlier), draft.Brief.Issue.At);
        return Results.Redirect($"{job.Address}/cards#issued");
    }

    private static IResult Issued(Guid key, Guid card, HttpContext http, ServingOptions options)
    {
        if (options.Store.Jobs.Cards(key).FirstOrDefault(c => c.Key == card) is not { } kept || options.Store.Jobs.CardContent(card) is not { } content)
            return PageResults.Message("Not here", "There is no such card.", "Go back to the job's cards.", 404);
        return kept.MediaType == "text/html" ? Paper(http, content) : Results.File(content, kept.MediaType, kept.Name);
    }

    /// <summary>A card's own page carries its looks in itself; these and no others are let in.</summary>
    private static IResult Paper(HttpContext http, byte[] html)
    {
        string text = Encoding.UTF8.GetString(html);
        const string Begin = "<style>";
        int from = text.IndexOf(Begin, StringComparison.Ordinal) + Begin.Length, to = text.IndexOf("</style>", StringComparison.Ordinal);
        string looks = to < from ? "'none'" : $"'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(text[from..to])))}'";
        http.Response.Headers.ContentSecurityPolicy = $"default-src 'none'; style-src {looks}; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
        return Results.Bytes(html, "text/html; charset=utf-8");
    }

    private static DraftCards Draft(OpenJob job, LiftPlan plan, HttpContext http, ServingOptions options, JobWork work, string? by = null)
    {
        DateTimeOffset now = options.Clock.GetUtcNow();
        BriefIssue issue = new(JobArgument.Local(job.File, now.AddTicks(-(now.Ticks % TimeSpan.TicksPerSecond))), by ?? (http.TypedBy() is var name && name == PageContext.Nobody ? null : name));
        BriefedApproach[] approaches = work.Once(job.Kept.Key, job.Kept.Text, $"briefed {job.Ground?.Stamp}", () => BriefedApproaches.Of(job.File.Request, plan, job.ApproachOptions(), []).ToArray());
        Brief brief = Stillhook.Job.Brief(job.File.Request, plan, approaches, issue);
        EarlierBrief? earlier = CardFiles.LastKept(options.Store, job.Kept.Key, http.Units().Plain.Name);
        bool changed = earlier is not null && BriefDifference.Between(earlier.Lines, BriefLines.Of(brief, http.Units().Plain)).Count > 0;
        return new(brief, CardPrints.Of(brief, http.Units().Plain, changed ? earlier : null), changed ? earlier : null, !changed ? earlier?.IssuedAt : null);
    }
}
