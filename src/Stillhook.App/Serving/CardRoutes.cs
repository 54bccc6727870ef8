namespace Stillhook.App.Serving;

/// <summary>Addresses of the cards.</summary>
internal static class CardRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/jobs/{key:guid}/cards", () => PageResults.Message("Not here yet", "This page is being built.", "Use the command line for it.", 404));
    }
}
