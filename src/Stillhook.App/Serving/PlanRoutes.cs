namespace Stillhook.App.Serving;

/// <summary>Addresses of the lift plan.</summary>
internal static class PlanRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/jobs/{key:guid}/plan", () => PageResults.Message("Not here yet", "This page is being built.", "Use the command line for it.", 404));
    }

    /// <summary>There is no job of the key in the address.</summary>
    public static IResult NoJob() => PageResults.Message("Not here", "There is no such job in the store.", "It may have been removed. Go back to the jobs.", 404);
}
