using Microsoft.AspNetCore.Mvc;

namespace Stillhook.App.Serving;

/// <summary>Addresses of the jobs.</summary>
internal static class JobRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/", (HttpContext http, ServingOptions options) => Results.Redirect(http.LastJob() is { } key && options.Store.Jobs.Find(key) is not null ? $"/jobs/{key}" : "/jobs"));
        routes.MapGet("/jobs", () => PageResults.Message("Jobs", "This page is being built.", "Use the command line for it.", 404));
        routes.MapPost("/units", (HttpContext http, [FromForm] string? units, [FromForm] string? back) =>
        {
            http.RememberUnits(units);
            return Results.LocalRedirect(PageContext.Own(back, "/jobs"));
        });
    }
}
