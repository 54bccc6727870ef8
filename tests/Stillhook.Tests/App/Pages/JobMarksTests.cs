using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Debriefing;
using Stillhook.Files.Cards;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Planning;
using Stillhook.Planning.Ordering;
using Stillhook.Store;

namespace Stillhook.Tests.App.Pages;

/// <summary>The marks of an issued card are those that were printed, in the order of its brief. 2026-11-26: a card in the solver's order was held against marks of the quick search's.</summary>
public sealed class JobMarksTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("stillhook-marks").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void Setup_OfAnIssuedCard_HasTheMarksThatItShows()
    {
        string text = File.ReadAllText(Repository.File("examples/path-repair.json"));
        JobFile job = JobFile.Read(text);
        DateTimeOffset saved = new(2025, 9, 16, 5, 0, 0, TimeSpan.Zero), issued = saved.AddMinutes(72);
        WorkStore store = WorkStore.Open(Path.Combine(folder, "s.db"));
        KeptJob kept = store.Jobs.Save(JobEditing.Entry(text), "planner A", saved);

        // Another order than the quick search's: load 9 comes first of the stone bags that may, with more fuel aboard and less power left.
        LiftRequest other = job.Request with { Day = job.Request.Day! with { Order = ["1", "3", "2", "4", "5", "6", "8", "7", "10", "11", "12", "13", "14", "15", "16", "17", "9"] } };
        ApproachOptions options = ApproachCommand.Options(job, null) with { Flights = 60 };
        LiftPlan lift = Job.Plan(other, options.Plan);
        Assert.DoesNotContain(lift.Findings, f => f.Code == "day-order-breaks");
        BriefedApproach[] approaches = [.. BriefedApproaches.Of(other, lift, options, [])];
        Brief brief = Job.Brief(other, lift, approaches, new(issued, "planner A"));
        CardFiles.Keep(store, kept.Key, CardFiles.Of(brief, CardPrints.Of(brief, DisplayUnits.Feet), DisplayUnits.Feet, null), issued);

        LiftSetup setup = JobMarks.Setup(store, job, store.Jobs.Cards(kept.Key)[0]);
        // Closed form: issued at 06:12 UTC, two hours earlier than the sites' summer time; the marks are those that went into the printed card.
        Assert.Equal("card of 08:12", setup.Marks.Words);
        Assert.Equal(approaches[0].Plan.Situation!.Minute!.Value, setup.Approach!.Situation!.Minute!.Value, 1e-9);
        Assert.Equal(approaches[0].Plan.Gates.Select(g => (g.Name, g.DistanceM, g.AltimeterFt)), setup.Approach.Gates.Select(g => (g.Name, g.DistanceM, g.AltimeterFt)));
        LiftSetup planned = JobMarks.Setup(job);
        Assert.Equal("planned approach", planned.Marks.Words);
        Assert.NotEqual(planned.Approach!.Situation!.Minute!.Value, setup.Approach.Situation.Minute!.Value);
        Assert.Equal("Europe/Vienna", setup.Clock.Zone);

        // Closed form: what is listened to goes by the order that was printed.
        (LiftPlan inForce, string words) = JobMarks.PlanInForce(store, new(kept, job));
        Assert.Equal("as on the card of 08:12", words);
        string[] printed = [.. lift.Order!.Timeline.Steps.OfType<LiftStep>().Select(s => s.Number)];
        Assert.Equal(printed, inForce.Order!.Timeline.Steps.OfType<LiftStep>().Select(s => s.Number));
        Assert.NotEqual(printed, Job.Plan(job.Request, options.Plan).Order!.Timeline.Steps.OfType<LiftStep>().Select(s => s.Number));
    }
}
