using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Pages;

namespace Stillhook.App.Serving;

/// <summary>Addresses of the flights.</summary>
internal static class FlightRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/flights", Flights);
        routes.MapPost("/flights", Upload);
        routes.MapPost("/flights/{id:long}/remove", Remove);
    }

    private static RazorComponentResult Flights(HttpContext http, ServingOptions options) => FlightsPage(http, options, []);

    private static RazorComponentResult<FlightsPage> FlightsPage(HttpContext http, ServingOptions options, IReadOnlyList<Upload> uploads) =>
        new(new { Flights = options.Store.Flights.List(), Token = http.FormToken(), options.UploadLimitMb, Uploads = uploads, Units = http.Units() });

    private static IResult Upload(HttpContext http, ServingOptions options, FlightIntake intake, [FromForm] IFormFileCollection records, [FromForm] string? fragment)
    {
        List<Upload> uploads = [.. records.Select(file =>
        {
            using Stream content = file.OpenReadStream();
            return intake.TakeIn(file.FileName, content);
        })];
        return fragment == "1"
            ? new RazorComponentResult<UploadResults>(new { Uploads = (IReadOnlyList<Upload>)uploads })
            : FlightsPage(http, options, uploads);
    }

    private static IResult Remove(long id, ServingOptions options, [FromForm] string? sure)
    {
        if (sure == "yes")
            options.Store.Flights.Remove(id);
        return Results.Redirect("/flights");
    }
}
