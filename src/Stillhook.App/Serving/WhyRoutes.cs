using Microsoft.AspNetCore.Http.HttpResults;
using Stillhook.App.Pages.Plans;
using Stillhook.Approaching;
using Stillhook.Files.Jobs;
using Stillhook.Planning;

namespace Stillhook.App.Serving;

/// <summary>Addresses of the working of figures: <c>/jobs/{key}/why/{figure}</c>, of the lift plan or of an approach.</summary>
/// <remarks>
/// With <c>fragment=1</c> only the part that a dialog shows. Which approach is meant stands in the query:
/// <c>site</c>, <c>load</c>, <c>start</c>, <c>glide</c>, <c>qnh</c>, <c>oat</c>, <c>wind</c> and <c>line</c> as they would be typed in the terminal.
/// </remarks>
internal static class WhyRoutes
{
    /// <summary>The query that asks for the working as of now, in a flight that is listened to.</summary>
    public const string NowQuery = "?now=1";

    private const string OfApproach = "approach", OfNow = "now";

    public static void Map(IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder read = routes.MapGroup("").RequireAuthorization(Access.Plans);
        read.MapGet("/jobs/{key:guid}/why", (Guid key, HttpContext http, JobWork jobs) => Listed(key, http, jobs));
        read.MapGet("/jobs/{key:guid}/why/{figure}", (Guid key, string figure, HttpContext http, JobWork jobs) => Shown(key, figure, http, jobs));
    }

    /// <summary>Address of the working of a figure.</summary>
    /// <param name="job">The job.</param>
    /// <param name="figure">Key of the figure.</param>
    /// <param name="query">Which plan is meant, such as <c>?load=4</c>; empty for the lift plan.</param>
    public static string Address(OpenJob job, string figure, string query = "") => $"{job.Address}/why/{Uri.EscapeDataString(figure)}{query}";

    /// <summary>The approach that a query asks for; what can't be read is left out, as the page that links here has told it already.</summary>
    public static ApproachOptions Approach(OpenJob job, IQueryCollection query)
    {
        string? Given(string name) => query[name].ToString() is { Length: > 0 } text ? text : null;
        return job.ApproachOptions() with
        {
            Site = Given("site"),
            Load = Given("load"),
            Start = QuantityText.TryLength(Given("start") ?? "", out UnitsNet.Length start, out _) ? start : null,
            Glide = QuantityText.TryAngle(Given("glide") ?? "", out UnitsNet.Angle glide, out _) ? glide : null,
            Shift = new(
                QuantityText.TryPressure(Given("qnh") ?? "", out UnitsNet.Pressure qnh, out _) ? qnh : null,
                QuantityText.TryWind(Given("wind") ?? "", out Debriefing.Wind wind, out _) ? wind : null,
                QuantityText.TryTemperature(Given("oat") ?? "", out UnitsNet.Temperature oat, out _) ? oat : null,
                QuantityText.TryLength(Given("line") ?? "", out UnitsNet.Length line, out _) ? line : null),
        };
    }

    private static IResult Shown(Guid key, string figure, HttpContext http, JobWork jobs)
    {
        if (jobs.Open(key) is not { } job)
            return PlanRoutes.NoJob();
        bool ofApproach = figure.StartsWith(OfApproach, StringComparison.OrdinalIgnoreCase);
        // An approach's figures lean on the lift plan's, so both are looked in.
        FigureBook? figures = !job.File.IsUsable ? null : http.Request.Query[OfNow].Count > 0 ? Now(job, http) : Figures(job, http, jobs, ofApproach);
        if (figures?.Find(figure) is not { } found)
            return PageResults.Message("No such figure", $"There is no figure '{figure}' in this plan.", "It may have gone with a change of the job. Go back to the lift plan.", 404);
        var shown = new { Figure = found, Figures = figures, Job = job, Units = http.Units(), Query = Kept(http) };
        return http.Request.Query["fragment"] == "1"
            ? new RazorComponentResult<WhyFigure>(shown)
            : new RazorComponentResult<WhyPage>(new { shown.Figure, shown.Figures, shown.Job, shown.Units, shown.Query, Here = ofApproach ? OfApproach : "plan" });
    }

    private static IResult Listed(Guid key, HttpContext http, JobWork jobs)
    {
        if (jobs.Open(key) is not { } job)
            return PlanRoutes.NoJob();
        if (!job.File.IsUsable || !jobs.Plan(job).IsPlanned)
            return new RazorComponentResult<NotPlanned>(new { Job = job, Plan = job.File.IsUsable ? jobs.Plan(job) : null });
        return new RazorComponentResult<WhyList>(new { Figures = Figures(job, http, jobs, ofApproach: false), Job = job, Units = http.Units(), Query = Kept(http) });
    }

    /// <summary>What the loads still to be flown may weigh now; null without such a flight, or where the fuel aboard is not known.</summary>
    private static FigureBook? Now(OpenJob job, HttpContext http) => http.Live(job.Kept.Key) is { } live ? LiveShown.Of(live).Limits?.Figures : null;

    private static FigureBook Figures(OpenJob job, HttpContext http, JobWork jobs, bool ofApproach)
    {
        FigureBook plan = jobs.Plan(job).Figures;
        if (!ofApproach)
            return plan;
        FigureBook both = new();
        foreach (Figure figure in jobs.Approach(job, Approach(job, http.Request.Query)).Figures.All.Concat(plan.All))
            both.Add(figure);
        return both;
    }

    /// <summary>The query without the part that asks for a fragment: links inside the working mean the same plan.</summary>
    private static string Kept(HttpContext http) =>
        QueryString.Create(http.Request.Query.Where(q => q.Key != "fragment")).ToString();
}
