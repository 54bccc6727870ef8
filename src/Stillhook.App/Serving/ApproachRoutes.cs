using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Commands;
using Stillhook.App.Pages.Approach;
using Stillhook.Approaching;
using Stillhook.Files.Pictures;
using Stillhook.Files.Pictures.Approach;
using Stillhook.Planning;

namespace Stillhook.App.Serving;

/// <summary>Addresses of the approach.</summary>
/// <remarks>
/// <c>load</c> and <c>site</c> choose it; <c>wind-from</c>, <c>wind-speed</c>, <c>line</c>, <c>load-mass</c> and <c>temperature</c> are tried against the plan, typed in the units named by <c>in</c>;
/// <c>sliding=1</c> asks for the fast answer.
/// </remarks>
internal static class ApproachRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder read = routes.MapGroup("").RequireAuthorization(Access.Plans);
        RouteGroupBuilder change = routes.MapGroup("").RequireAuthorization(Access.Planning).WithMetadata(BodyLimit.Record);
        read.MapGet("/jobs/{key:guid}/approach", (Guid key, HttpContext http, JobWork jobs, ApproachWork work) => Answered(key, http, jobs, work, Page));
        read.MapGet("/jobs/{key:guid}/approach/try", (Guid key, HttpContext http, JobWork jobs, ApproachWork work) => Answered(key, http, jobs, work, Fragment));
        read.MapGet("/jobs/{key:guid}/approach/winds", (Guid key, HttpContext http, JobWork jobs, ApproachWork work) => Answered(key, http, jobs, work, Winds));
        read.MapGet("/jobs/{key:guid}/approach/path.json", (Guid key, HttpContext http, JobWork jobs, ApproachWork work) => Answered(key, http, jobs, work, PathJson));
        change.MapPost("/jobs/{key:guid}/approach/ground", TakeGround);
        // Reloading a page that refused a grid opens the approach anew.
        read.MapGet("/jobs/{key:guid}/approach/ground", (Guid key, HttpContext http) => Results.Redirect($"/jobs/{key}/approach{http.Request.QueryString}"));
        change.MapPost("/jobs/{key:guid}/approach/ground/remove", RemoveGround);
        read.MapGet("/jobs/{key:guid}/approach/{file}", (Guid key, string file, HttpContext http, JobWork jobs, ApproachWork work) => Answered(key, http, jobs, work, (_, shown) => File(file, shown)));
    }

    private static IResult Answered(Guid key, HttpContext http, JobWork jobs, ApproachWork work, Func<HttpContext, ShownApproach, IResult> answer)
    {
        if (jobs.Open(key) is not { } job)
            return PlanRoutes.NoJob();
        http.RememberJob(key);
        if (!job.File.IsUsable)
            return new RazorComponentResult<UnusableJob>(new { Job = job }) { StatusCode = StatusCodes.Status422UnprocessableEntity };
        return answer(http, Shown(http, job, work));
    }

    private static ShownApproach Shown(HttpContext http, OpenJob job, ApproachWork work)
    {
        string? Given(string name) => http.Request.Query[name].ToString() is { Length: > 0 } text ? text : null;
        DisplayUnits units = http.Units();
        ApproachPlan planned = work.Planned(job, Given("load"), Given("site"));
        ApproachTry tried = ApproachTry.Read(planned, units, Given("in") is { } typedIn ? DisplayUnits.Named(typedIn) : units, name => http.Request.Query.ContainsKey(name) ? http.Request.Query[name].ToString() : null);
        bool sliding = Given("sliding") == "1";
        ApproachPlan plan = tried.Mistakes.Count > 0 ? planned : work.Tried(job, planned, tried.Shift, sliding);
        return new(job, planned, plan, tried, units, Given("load"), Given("site"), sliding);
    }

    private static RazorComponentResult<ApproachPage> Page(HttpContext http, ShownApproach shown) =>
        new(new { Shown = shown, Token = http.FormToken() }) { StatusCode = shown.Try.Mistakes.Count > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK };

    /// <summary>What changes when something else is tried; the mistakes, as text a line each, when it can't be.</summary>
    private static IResult Fragment(HttpContext http, ShownApproach shown) => shown.Try.Mistakes.Count > 0
        ? Results.Json(shown.Try.Mistakes, statusCode: StatusCodes.Status422UnprocessableEntity)
        : new RazorComponentResult<ApproachResult>(new { Shown = shown });

    private static IResult Winds(HttpContext http, ShownApproach shown)
    {
        string text = http.Request.Query["speed"].ToString();
        TryField speed = shown.WindsField;
        if (shown.Planned.Situation is null)
            return PageResults.Message("No alternatives", "No approach can be planned from this job.", "The approach page says what is missing.", 422);
        IReadOnlyList<ApproachInWind>? winds = speed.Read(text) is { } typed && typed > 0
            ? http.RequestServices.GetRequiredService<ApproachWork>().InWinds(shown.Job, shown.Planned, UnitsNet.Speed.FromMetersPerSecond(typed / DisplayUnits.Named(http.Request.Query["in"].ToString() is { Length: > 0 } typedIn ? typedIn : shown.Units.Name).SpeedPerMetreSecond))
            : null;
        string? mistake = winds is null ? speed.Mend : null;
        return http.Request.Query["fragment"] == "1"
            ? new RazorComponentResult<WindsTable>(new { Shown = shown, Winds = winds, Mistake = mistake })
            : new RazorComponentResult<WindsPage>(new { Shown = shown, Winds = winds, Typed = text, Mistake = mistake });
    }

    private static IResult TakeGround(Guid key, HttpContext http, JobWork jobs, ApproachWork work, GroundStore grounds, [FromForm] IFormFileCollection grid)
    {
        if (jobs.Open(key) is not { } job)
            return PlanRoutes.NoJob();
        string? why = grid.Count == 0 ? "No file was chosen. Choose one and press the button again." : Taken(key, grid[0], grounds);
        return why is null
            ? Results.Redirect($"{job.Address}/approach{http.Request.QueryString}#ground")
            : Answered(key, http, jobs, work, (_, shown) => new RazorComponentResult<ApproachPage>(new { Shown = shown, Token = http.FormToken(), GroundMistake = why }) { StatusCode = StatusCodes.Status422UnprocessableEntity });
    }

    private static string? Taken(Guid key, IFormFile grid, GroundStore grounds)
    {
        using Stream content = grid.OpenReadStream();
        return grounds.Take(key, content, grid.FileName) is { } why ? $"{grid.FileName} was not taken: {why}" : null;
    }

    private static IResult RemoveGround(Guid key, HttpContext http, JobWork jobs, GroundStore grounds, [FromForm] IFormCollection form)
    {
        if (jobs.Open(key) is not { } job)
            return PlanRoutes.NoJob();
        grounds.Remove(key);
        return Results.Redirect($"{job.Address}/approach{http.Request.QueryString}#ground");
    }

    private static IResult PathJson(HttpContext http, ShownApproach shown) =>
        ApproachPathJson.Of(shown.Plan, shown.Surroundings!, shown.Units) is { } json ? Results.Text(json, "application/json", Encoding.UTF8) : Results.NotFound();

    /// <summary>A picture or the numbers as a file to keep.</summary>
    private static IResult File(string name, ShownApproach shown)
    {
        if (shown.Plan.Situation is null || ApproachFiles.Of(shown.Plan, shown.Surroundings, shown.Units.Plain).FirstOrDefault(f => f.Name == name) is not { Text: { } text })
            return PageResults.Message("Not here", $"There is no file {name} of this approach.", "Files: side.svg, plan.svg, profile.svg, scatter.svg, approach.csv.", 404);
        string type = name.EndsWith(".svg", StringComparison.Ordinal) ? "image/svg+xml" : "text/csv";
        return Results.File(Encoding.UTF8.GetBytes(text), type + "; charset=utf-8", name);
    }
}
