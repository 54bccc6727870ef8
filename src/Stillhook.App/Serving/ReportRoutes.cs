namespace Stillhook.App.Serving;

/// <summary>Addresses of the reports.</summary>
internal static class ReportRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/jobs/{key:guid}/report", () => PageResults.Message("Not here yet", "This page is being built.", "Use the command line for it.", 404));
    }
}
