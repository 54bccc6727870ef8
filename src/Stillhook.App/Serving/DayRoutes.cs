namespace Stillhook.App.Serving;

/// <summary>Addresses of the days.</summary>
internal static class DayRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/days", () => PageResults.Message("Not here yet", "This page is being built.", "Use the command line for it.", 404));
    }
}
