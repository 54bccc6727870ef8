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
        RouteGroupBuilder own = routes.MapGroup("").RequireAuthorization(Access.Flights).OwnFlightsOnly();
        own.MapGet("/flights", (HttpContext http, ServingOptions options) => Page(http, options, [], http.LastJob(), null));
        own.MapPost("/flights", Upload).WithMetadata(BodyLimit.Record);
        own.MapPost("/flights/{id:long}/remove", Remove);
    }

    private static RazorComponentResult<FlightsPage> Page(HttpContext http, ServingOptions options, IReadOnlyList<Upload> uploads, Guid? job, string? mistake) => new(new
    {
        Flights = Readable(http, options.Store),
        FlownFor = options.Store.Flights.JobNames(),
        Jobs = options.Store.Jobs.List(),
        Job = job,
        Token = http.FormToken(),
        options.UploadLimitMb,
        Uploads = uploads,
        Mistake = mistake,
    })
    { StatusCode = mistake is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };

    private static IReadOnlyList<Flight> Readable(HttpContext http, WorkStore store) =>
        http.Readable(store) is { } readable ? [.. store.Flights.List().Where(f => readable(f.Id))] : store.Flights.List();

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
            ? CrewIntake.TakeIn(Pages.Upload.NameOf(file.FileName, "sheet"), content, job?.File, options.Store, http.TypedBy(), options.Clock.GetUtcNow())
            : intake.TakeIn(file.FileName, content, job is null ? null : new(job.Kept.Key, job.Kept.Text, InOrder(job, options)), http.TypedBy(), http.TakesInFor(), http.MayReadFlight);
    }

    /// <summary>The loads in the order they were to be flown, for the first record of a day: a later one goes on somewhere in the list, and nobody can tell where.</summary>
    private static IReadOnlyList<PlannedLoad>? InOrder(OpenJob job, ServingOptions options) =>
        job is { File: { IsUsable: true, Request.Loads.Count: > 0 }, Kept.Day: { } day } && options.Store.Days.Read(new(day, job.Kept.Aircraft), job.Kept.TimeZone).Flights.Count == 0
            ? MeasuredFlight.InOrder(JobMarks.PlanInForce(options.Store, job).Plan) : null;

    private static IResult Remove(long id, HttpContext http, ServingOptions options, [FromForm] string? sure)
    {
        // Who corrected what is not to be got rid of from outside.
        if (http.IsOpened() && options.Store.Lifts.OfFlight(id).Any(l => l.Corrections.Count > 0))
            return PageResults.Message("Kept", "Lifts of this flight were corrected, and who corrected what is kept with it.", "Nothing was removed. On the machine itself, with the pages not opened to a network, it can be.", StatusCodes.Status409Conflict);
        if (sure == "yes")
            options.Store.Flights.Remove(id);
        return Results.Redirect("/flights");
    }
}
