using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Stillhook.App.Pages.Jobs;
using Stillhook.Files.Jobs.Editing;
using Stillhook.Recording;

namespace Stillhook.App.Serving;

/// <summary>Answers the script of a form: what stands in the fields now, what is wrong with them, what is still to do.</summary>
internal static class FieldAnswers
{
    public static async Task<IResult> Of(EditOutcome outcome, IEnumerable<string> paths, JobWork work, HttpContext http)
    {
        OpenJob job = work.Open(outcome.Job!.Key)!;
        JobForm form = new(JobDocument.Read(job.Kept.Text, http.Units())!, job.File);
        IReadOnlyList<JobNeed> needs = JobEditing.Needs(form);
        return Results.Json(new
        {
            revision = outcome.Job.Revision,
            listsMoved = outcome.ListsMoved ? JobRoutes.Moved : null,
            fields = outcome.ListsMoved ? [] : Fields(form, paths),
            conflicts = outcome.Conflicts.Select(c => new { path = c.Path, now = c.Now }),
            parts = JobParts.All.Select(p => new { name = p.Name, wrong = form.File.FindingsByPath.Where(f => f.Key.Length > 0 && JobParts.Of(f.Key) == p).Sum(f => f.Count(x => x.Severity == Severity.Error)) }),
            needs = await Fragment(http, job, form, needs),
        });
    }

    /// <summary>The same for an aircraft of the library.</summary>
    public static IResult Of(JobForm form, IEnumerable<string> paths, IReadOnlyList<FieldConflict> conflicts) => Results.Json(new
    {
        revision = 0,
        listsMoved = (string?)null,
        fields = Fields(form, paths),
        conflicts = conflicts.Select(c => new { path = c.Path, now = c.Now }),
        parts = Array.Empty<object>(),
        needs = "",
    });

    private static IEnumerable<object> Fields(JobForm form, IEnumerable<string> paths) =>
        [.. paths.Select(form.Field).Select(f => new { path = f.Path, typed = f.Typed, unit = f.Unit, mistake = string.Join(" ", f.Mistakes) })];

    private static async Task<string> Fragment(HttpContext http, OpenJob job, JobForm form, IReadOnlyList<JobNeed> needs)
    {
        await using HtmlRenderer renderer = new(http.RequestServices, http.RequestServices.GetRequiredService<ILoggerFactory>());
        return await renderer.Dispatcher.InvokeAsync(async () => (await renderer.RenderComponentAsync<NeedsView>(ParameterView.FromDictionary(new Dictionary<string, object?> { ["Job"] = job, ["Form"] = form, ["Needs"] = needs }))).ToHtmlString());
    }
}
