using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Stillhook.App.Pages.Reports;
using Stillhook.Files.Jobs;
using Stillhook.Files.Reports;
using Stillhook.Pdf;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;
using Stillhook.Store;

namespace Stillhook.App.Serving;

/// <summary>Addresses of the reports: the customer's report and what is made from it.</summary>
internal static class ReportRoutes
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder read = routes.MapGroup("").RequireAuthorization(Access.Reports);
        RouteGroupBuilder change = routes.MapGroup("").RequireAuthorization(Access.Planning);
        read.MapGet("/jobs/{key:guid}/report", (Guid key, HttpContext http, ServingOptions options) => Page(key, http, options, null));
        read.MapGet("/jobs/{key:guid}/report/{file}", File);
        change.MapPost("/jobs/{key:guid}/report/next-job", NextJob);
    }

    private static IResult Page(Guid key, HttpContext http, ServingOptions options, (string Name, string Mistake)? refused)
    {
        if (options.Store.Jobs.Find(key) is not { } job)
            return NoJob();
        http.RememberJob(key);
        JobReport? report = JobReport.Of(options.Store, job);
        return new RazorComponentResult<ReportPage>(new
        {
            Job = job,
            Report = report?.Report,
            Html = report is null ? "" : PrintedHtml.Inner(CustomerPrint.Of(report.Report, withInvoice: false), 3),
            CanStartNext = report?.Last is not null,
            Rotation = report is null ? null : CycleBaseline.Of(report.Lifts).FirstOrDefault(b => b.Family is null),
            Token = http.FormToken(),
            By = http.NameTyped(),
            Typed = refused?.Name,
            Mistake = refused?.Mistake,
        })
        { StatusCode = refused is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity };
    }

    private static IResult File(Guid key, string file, ServingOptions options)
    {
        if (options.Store.Jobs.Find(key) is not { } job)
            return NoJob();
        if (JobReport.Of(options.Store, job) is not { } report)
            return PageResults.Message("Nothing to report yet", $"No lift of '{job.Name}' is kept.", "Take its record in on the flights page.", 404);
        MemoryStream bytes = new();
        switch (file)
        {
            case "report.pdf" or "report-with-invoice.pdf":
                bytes.Write(new PdfMaker().Make(CustomerPrint.Of(report.Report, withInvoice: file != "report.pdf")));
                return Sent(bytes, "application/pdf", file, open: true);
            case "report.html":
                CustomerReportHtml.Write(bytes, report.Report, withInvoice: false);
                return Sent(bytes, "text/html; charset=utf-8", file);
            case "placed.csv":
                PlacedCsv.Write(bytes, report.Report);
                return Sent(bytes, "text/csv; charset=utf-8", file);
            case "placed.geojson":
                PlacedGeoJson.Write(bytes, report.Report);
                return Sent(bytes, "application/geo+json", file);
            case "placed.gpx":
                PlacedGpx.Write(bytes, report.Report);
                return Sent(bytes, "application/gpx+xml", file);
            case "invoice.csv":
                InvoiceCsv.Write(bytes, report.Report);
                return Sent(bytes, "text/csv; charset=utf-8", file);
            case "next-job.json" when report.Last is { } last:
                SiteFile.Write(bytes, last, report.Lifts);
                return Sent(bytes, "application/json", file);
            default:
                return PageResults.Message("Not here", $"A report has no '{file}'.", "Go back to the report.", 404);
        }
    }

    /// <summary>A file; one that browsers show is opened, the others are kept where the browser keeps what it loads.</summary>
    private static IResult Sent(MemoryStream bytes, string type, string name, bool open = false) =>
        open ? Results.Bytes(bytes.ToArray(), type) : Results.Bytes(bytes.ToArray(), type, name);

    private static IResult NextJob(Guid key, HttpContext http, ServingOptions options, [FromForm] string? name, [FromForm] string? by)
    {
        if (options.Store.Jobs.Find(key) is not { } job)
            return NoJob();
        if (JobReport.Of(options.Store, job) is not { Last: { } last } report)
            return PageResults.Message("Not made", "The next job starts from the measured day of this one, and nothing of it is kept yet.", "Take its record in on the flights page.", 409);
        string wanted = name?.Trim() ?? "";
        if (wanted.Length is 0 or > 200)
            return Page(key, http, options, (wanted, wanted.Length == 0 ? "Write a name for the next job." : "Write a shorter name, at most 200 characters."));
        if (options.Store.Jobs.List().Any(j => string.Equals(j.Name, wanted, StringComparison.OrdinalIgnoreCase)))
            return Page(key, http, options, (wanted, $"There is a job '{wanted}' already; write another name, such as '{wanted} 2'."));
        if (http.Who(by) is { } who)
            http.RememberName(who);
        LiftRequest request = SiteFile.Request(last, report.Lifts) with { Job = wanted };
        string text = $"// Sites and rotation time from {job.Name.ReplaceLineEndings(" ")}. Weather, people, altimeter readings and dead wires belong to their day and are left out: enter them anew.\n" + JobWriter.Text(request);
        KeptJob next = options.Store.Jobs.Save(new(wanted, text, null, request.TimeZone), http.Who(by) ?? http.TypedBy(), options.Clock.GetUtcNow());
        http.RememberJob(next.Key);
        return Results.Redirect($"/jobs/{next.Key}");
    }

    private static IResult NoJob() => PageResults.Message("Not here", "There is no such job in the store.", "It may have been removed. Go back to the jobs.", 404);
}
