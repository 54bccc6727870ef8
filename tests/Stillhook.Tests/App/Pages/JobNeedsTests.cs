using Stillhook.App.Pages.Jobs;
using Stillhook.App.Serving;
using Stillhook.Files.Jobs;
using Stillhook.Files.Jobs.Editing;
using Stillhook.Planning;

namespace Stillhook.Tests.App.Pages;

/// <summary>What the Job page lists as still to do and to look at. Expected values are common practice, no source.</summary>
public class JobNeedsTests
{
    [Fact]
    public void Needs_PartWithoutAMarkAndInspectionPast_WarnWithoutStopping()
    {
        JobDocument job = JobDocument.New("x");
        job.Set("date", "2026-11-26");
        string good = job.Add("rigging"), bare = job.Add("rigging");
        foreach ((string path, string typed) in new[] { (good + ".name", "line 30-2"), (good + ".kind", "line"), (good + ".ratedLoad", "1500"), (good + ".inspectionDue", "2026-11-25"), (bare + ".name", "ring"), (bare + ".kind", "ring"), (bare + ".inspectionDue", "2026-11-26") })
            job.Set(path, typed);

        JobNeed[] looks = [.. JobEditing.Needs(JobForm.Of(job)).Where(n => !n.StopsPlan)];

        Assert.Equal(["Rigging part 1 (line 30-2): its inspection was due on Wed 25 November 2026, before the day of the work.", "Rigging part 2 (ring): no rated load is marked. The plan fails a part without a mark."], looks.Select(n => n.What));
    }

    // 2026-11-26: whether entered gates are to be flown could be said in the file and not on the page.
    [Fact]
    public void JobParts_All_HoldEveryFieldOfTheFile() => Assert.Equal(GroupShape.Of(typeof(LiftRequest)).Members.Select(m => m.Name).Order(), JobParts.All.SelectMany(p => p.Paths).Order());

    [Fact]
    public void Needs_Missing_IsSaidInTheFormsLabels()
    {
        JobDocument job = JobDocument.New("x");
        job.Set(job.Add("sites") + ".name", "Quarry");
        IEnumerable<string> needs = JobEditing.Needs(JobForm.Of(job)).Select(n => n.What);
        Assert.Contains(needs, n => n.StartsWith("Site 1 (Quarry), latitude: Needed", StringComparison.Ordinal));
        Assert.DoesNotContain(needs, n => n.Contains("[0]", StringComparison.Ordinal) || n.Contains("massKg", StringComparison.Ordinal));
    }
}
