namespace Stillhook.App.Serving;

/// <summary>Addresses of the lift plan.</summary>
internal static class PlanRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/jobs/{key:guid}/plan", () => PageResults.Message("Not here yet", "This page is being built.", "Use the command line for it.", 404));
    }
}
