namespace Stillhook.App.Serving;

/// <summary>Addresses of the approach.</summary>
internal static class ApproachRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/jobs/{key:guid}/approach", () => PageResults.Message("Not here yet", "This page is being built.", "Use the command line for it.", 404));
    }
}
