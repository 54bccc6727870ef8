using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Pages;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Addresses of the flights.</summary>
internal static class FlightRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/flights", (HttpContext http, ServingOptions options) => Page(http, options, [], http.LastJob(), null));
        routes.MapPost("/flights", Upload);
        routes.MapPost("/flights/{id:long}/remove", Remove);
    }

    private static RazorComponentResult<FlightsPage> Page(HttpContext http, ServingOptions options, IReadOnlyList<Upload> uploads, Guid? job, string? mistake) => new(new
    {
        Flights = options.Store.Flights.List(),
        FlownFor = options.Store.Flights.JobNames(),
        Jobs = options.Store.Jobs.List(),
        Job = job,
        Token = http.FormToken(),
        options.UploadLimitMb,
        Uploads = uploads,
        Mistake = mistake,
    })
    { StatusCode = mistake is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };

    private static IResult Upload(HttpContext http, ServingOptions options, FlightIntake intake, JobWork jobs, [FromForm] IFormFileCollection records, [FromForm] string? job, [FromForm] string? fragment)
    {
        OpenJob? flownFor = Guid.TryParse(job, out Guid key) ? jobs.Open(key) : null;
        List<Upload> uploads = [.. records.Select(file => TakeIn(file, flownFor, http, options, intake))];
        if (fragment == "1")
            return new RazorComponentResult<UploadResults>(new { Uploads = (IReadOnlyList<Upload>)uploads });
        return Page(http, options, uploads, flownFor?.Kept.Key, uploads.Count == 0 ? "Choose a file first." : null);
    }

    private static Upload TakeIn(IFormFile file, OpenJob? job, HttpContext http, ServingOptions options, FlightIntake intake)
    {
        using Stream content = file.OpenReadStream();
        return CrewIntake.IsSheet(content)
            ? CrewIntake.TakeIn(Path.GetFileName(file.FileName.Replace('\\', '/')), content, job?.File, options.Store, http.TypedBy(), options.Clock.GetUtcNow())
            : intake.TakeIn(file.FileName, content, job is null ? null : new(job.Kept.Key, job.Kept.Text, InOrder(job, options)), http.TypedBy());
    }

    /// <summary>The loads in the order they were to be flown, for the first record of a day: a later one goes on somewhere in the list, and nobody can tell where.</summary>
    private static IReadOnlyList<PlannedLoad>? InOrder(OpenJob job, ServingOptions options) =>
        job is { File: { IsUsable: true, Request.Loads.Count: > 0 }, Kept.Day: { } day } && options.Store.Days.Read(new(day, job.Kept.Aircraft), job.Kept.TimeZone).Flights.Count == 0
            ? MeasuredFlight.InOrder(JobMarks.PlanInForce(options.Store, job).Plan) : null;

    private static IResult Remove(long id, ServingOptions options, [FromForm] string? sure)
    {
        if (sure == "yes")
            options.Store.Flights.Remove(id);
        return Results.Redirect("/flights");
    }
}
