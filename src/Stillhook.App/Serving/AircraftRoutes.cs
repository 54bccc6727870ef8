namespace Stillhook.App.Serving;

/// <summary>Addresses of aircraft and rigging.</summary>
internal static class AircraftRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/aircraft", () => PageResults.Message("Not here yet", "This page is being built.", "Use the command line for it.", 404));
    }
}
