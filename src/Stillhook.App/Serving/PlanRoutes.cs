using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Pages.Plans;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures.Plan;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Addresses of the lift plan: the page, an order tried and kept, pictures as files.</summary>
internal static class PlanRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder read = routes.MapGroup("").RequireAuthorization(Access.Plans);
        RouteGroupBuilder change = routes.MapGroup("").RequireAuthorization(Access.Planning);
        read.MapGet("/jobs/{key:guid}/plan", Page);
        read.MapPost("/jobs/{key:guid}/plan/try", Try);
        change.MapPost("/jobs/{key:guid}/plan/keep", Keep);
        read.MapGet("/jobs/{key:guid}/plan/files/{name}", File);
    }

    /// <summary>There is no job of the key in the address.</summary>
    public static IResult NoJob() => PageResults.Message("Not here", "There is no such job in the store.", "It may have been removed. Go back to the jobs.", 404);

    private static IResult Page(Guid key, HttpContext http, JobWork jobs)
    {
        if (Shown(key, http, jobs, out IResult answer) is not { } shown)
            return answer;
        ShiftForm form = ShiftForm.Read(http.Request.Query, shown.Plan.Request, shown.Units.Mark);
        Recheck? recheck = form is { IsAsked: true, IsRight: true } && !form.Shift.IsEmpty
            ? Stillhook.Job.Recheck(shown.Plan.Request, shown.Job.PlanOptions(), form.Shift) : null;
        return new RazorComponentResult<PlanPage>(new { Shown = shown, Form = form, Recheck = recheck }) { StatusCode = form.IsRight ? 200 : StatusCodes.Status422UnprocessableEntity };
    }

    private static IResult Try(Guid key, HttpContext http, JobWork jobs, [FromForm] IFormCollection form)
    {
        if (Shown(key, http, jobs, out IResult answer) is not { } shown)
            return answer;
        if (shown.Plan.Order is null)
            return Results.Redirect($"{shown.Job.Address}/plan");
        shown = shown with { Tried = Stillhook.Job.Try(shown.Plan, Moved(Numbers(form), form["move"])) };
        return form["fragment"] == "1"
            ? new RazorComponentResult<PlanOrder>(new { Shown = shown })
            : new RazorComponentResult<PlanPage>(new { Shown = shown, Form = ShiftForm.Read(new QueryCollection(), shown.Plan.Request) });
    }

    private static IResult Keep(Guid key, HttpContext http, JobWork jobs, ServingOptions options, [FromForm] IFormCollection form)
    {
        if (jobs.Open(key) is not { } job)
            return NoJob();
        bool kept = false;
        options.Store.Jobs.Amend(key, null, text =>
        {
            if (JobOrderText.With(text, form["forget"] == "1" ? [] : Numbers(form)) is not { } changed || !JobFile.Read(changed).IsUsable)
                return null;
            kept = true;
            return new JobEntry(job.Kept.Name, changed, job.Kept.Day, job.Kept.TimeZone, job.Kept.Aircraft) { Sites = job.Kept.Sites };
        }, http.TypedBy(), options.Clock.GetUtcNow());
        return kept ? Results.Redirect($"{job.Address}/plan#order") : PageResults.Message("Not kept", "The order could not be put into this job.", "Nothing was changed. Write it on the job’s page, under the day.", 422);
    }

    private static IResult File(Guid key, string name, HttpContext http, JobWork jobs)
    {
        if (Shown(key, http, jobs, out IResult answer) is not { } shown)
            return answer;
        if (PlanFiles.Of(shown.Plan, name, shown.Units.Plain) is not { } text)
            return PageResults.Message("Not here", "There is no such picture of this plan.", "Go back to the lift plan.", 404);
        return Results.Bytes(Encoding.UTF8.GetBytes(text), name.EndsWith(".svg", StringComparison.Ordinal) ? "image/svg+xml" : "text/csv; charset=utf-8", name);
    }

    /// <summary>The plan to be shown; null, with the answer, when there is none.</summary>
    private static PlanShown? Shown(Guid key, HttpContext http, JobWork jobs, out IResult answer)
    {
        answer = NoJob();
        if (jobs.Open(key) is not { } job)
            return null;
        http.RememberJob(key);
        LiftPlan? plan = job.File.IsUsable ? jobs.Plan(job) : null;
        if (plan is not { IsPlanned: true })
        {
            answer = new RazorComponentResult<NotPlanned>(new { Job = job, Plan = plan });
            return null;
        }
        return new(job, plan, http.Units(), http.FormToken());
    }

    private static List<string> Numbers(IFormCollection form) => [.. form["order"].Where(n => n is not null).Select(n => n!)];

    /// <summary>The order with one load moved: <c>NUMBER:-1</c> one place earlier, <c>NUMBER:1</c> later.</summary>
    private static List<string> Moved(List<string> order, string? move)
    {
        if (move is null || move.LastIndexOf(':') is not (> 0 and var colon) || !int.TryParse(move.AsSpan(colon + 1), System.Globalization.NumberStyles.AllowLeadingSign, System.Globalization.CultureInfo.InvariantCulture, out int by))
            return order;
        int from = order.IndexOf(move[..colon]), to = Math.Clamp(from + by, 0, order.Count - 1);
        if (from < 0)
            return order;
        string number = order[from];
        order.RemoveAt(from);
        order.Insert(to, number);
        return order;
    }
}
