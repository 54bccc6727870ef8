namespace Stillhook.App.Serving;

/// <summary>Addresses of the next approach.</summary>
internal static class NextRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/jobs/{key:guid}/next", () => PageResults.Message("Not here yet", "This page is being built.", "Use the command line for it.", 404));
    }
}
