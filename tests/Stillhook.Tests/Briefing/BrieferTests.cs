using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Planning;
using Stillhook.Planning.Ordering;
using Stillhook.Tests.Approaching;
using UnitsNet;

namespace Stillhook.Tests.Briefing;

/// <summary>The figures of the sheets are those of the plan; who reads what.</summary>
public class BrieferTests
{
    private static readonly LiftPlan ExamplePlan = Planner.Plan(BriefedJobs.Example, new());

    [Fact]
    public void LoadMaster_Example_RowsAreThoseOfThePlan()
    {
        LoadMasterSheet sheet = Assert.Single(BriefedJobs.ExampleBrief.LoadMasters);
        Assert.Equal(ExamplePlan.Order!.Lifts.Select(l => l.Number), sheet.Loads.Select(l => l.Number));
        foreach (LoadRow row in sheet.Loads)
        {
            LoadPlan load = ExamplePlan.Loads.Single(l => l.OnHook.Load.Number == row.Number);
            Assert.Equal((load.OnHook.Load.Mass.Kilograms, load.OnHook.NeedKg, load.Payload!.Governing.AllowedKg, load.Lift!.ProvingLift), (row.MassKg, row.NeedKg, row.MostKg, row.Proving));
        }
        // The first of each kind is marked, once a kind.
        Assert.Equal(ExamplePlan.Loads.Select(l => l.OnHook.Load.Family).Distinct().Count(), sheet.Loads.Count(l => l.Proving));
        Assert.Equal(ExamplePlan.Order.Timeline.Steps.OfType<RefuelStep>().Count(), sheet.Steps.OfType<StopRow>().Count(s => s.Stop.Refuel));
    }

    [Fact]
    public void LoadMaster_Chain_WeakestPartIsTheCheckersOwn()
    {
        foreach (ChainSketch chain in BriefedJobs.ExampleBrief.LoadMasters[0].Chains)
        {
            LoadPlan load = ExamplePlan.Loads.Single(l => l.OnHook.Load.Number == chain.For);
            Assert.Equal(load.Rigging.Weakest!.Name, Assert.Single(chain.Parts, p => p.Weakest).Name);
            Assert.Equal(load.Rigging.MaxLoadKg, chain.MostLoadKg);
            Assert.Equal(load.Rigging.Parts.Select(p => p.Name), chain.Parts.Select(p => p.Name));
            Assert.True(chain.RingPasses, chain.Ring);
        }
    }

    // An unmarked sling: no figure is made up for it, and it is said.
    [Fact]
    public void LoadMaster_UnmarkedSling_HasNoFigureAndSaysSo()
    {
        ChainPart sling = BriefedJobs.DarkBrief.LoadMasters[0].Chains.Single(c => c.For == "L80").Parts[^1];
        Assert.Null(sling.MayCarryKg);
        Assert.Contains("No rated load", sling.Remark, StringComparison.Ordinal);
        Assert.False(sling.Weakest);
    }

    // Closed form: the receiver of the example stands 17.9 m off on 299 degrees, worked from the two positions on the 111.2 km a degree sphere; tolerance of that.
    [Fact]
    public void Receiver_Example_StandsWhereItWasEntered()
    {
        ReceiverSheet sheet = Assert.Single(BriefedJobs.ExampleBrief.Receivers);
        Site site = BriefedJobs.Example.Sites.Single(s => s.Use == Stillhook.Debriefing.SiteUse.Delivery);
        double north = (46.878215 - 46.878134) * 111_200, east = (10.197584 - 10.197794) * 111_200 * Math.Cos(double.DegreesToRadians(46.878));
        StandingSpot receiver = Assert.Single(sheet.People);
        Assert.Equal(Math.Sqrt(north * north + east * east), receiver.DistanceM, 0.2);
        Assert.Equal((Math.Atan2(east, north) * 180 / Math.PI + 360) % 360, receiver.BearingDeg, 1.0);
        Assert.Equal(site.CrewClearSide!.Value.Degrees, sheet.EscapeSideDeg);
    }

    // The distance to keep is never less than what is kept from people, and covers 95 of 100 simulated flights; whoever stands nearer is told.
    [Fact]
    public void Receiver_StandOff_CoversTheFlightsAndThePeoplesDistance()
    {
        LiftRequest job = BriefedJobs.MarkCard.WithSpot(s => s with { People = [ApproachJobs.Spot(4, 0, "near"), ApproachJobs.Spot(0, 58, "far")] });
        LiftPlan plan = Planner.Plan(job, new());
        BriefedApproach[] approaches = [.. BriefedApproaches.Of(job, plan, ApproachJobs.Quick, [])];
        ReceiverSheet sheet = Job.Brief(job, plan, approaches, BriefedJobs.Issue).Receivers[0];
        ApproachPlan flown = approaches[0].Plan;
        Assert.True(flown.IsOffered, ApproachJobs.Said(flown));
        Assert.True(sheet.StandOffM >= flown.Situation!.Rules.PeopleClearanceM.Value && sheet.StandOffM >= flown.Robustness!.MissM.NinetyFive + flown.Robustness.SwingM.NinetyFive);
        Assert.Equal([true, false], sheet.People.Select(p => p.TooNear));
    }

    // Closed form: a receiver 30 m straight on from the spot on the course flown lies under it, one 30 m off to the side at 80 degrees from it and from the way out does not; so does the escape side.
    [Fact]
    public void Receiver_StraightOnFromTheApproach_IsToldSo()
    {
        LiftRequest job = BriefedJobs.MarkCard;
        LiftPlan plan = Planner.Plan(job, new());
        ApproachPlan flown = BriefedApproaches.Of(job, plan, ApproachJobs.Quick, []).First().Plan;
        Assert.True(flown.IsOffered, ApproachJobs.Said(flown));
        double course = flown.CourseDeg, away = flown.Reject is { } reject ? course - 80 * Math.Sign(reject.TurnDeg == 0 ? 1 : reject.TurnDeg) : course + 80;
        (double s, double c) = Math.SinCos(double.DegreesToRadians(course));
        (double sa, double ca) = Math.SinCos(double.DegreesToRadians(away));
        Spot[] people = [ApproachJobs.Spot(30 * s, 30 * c, "ahead"), ApproachJobs.Spot(30 * sa, 30 * ca, "aside")];
        LiftRequest stood = job.WithSpot(x => x with { People = people, CrewClearSide = Angle.FromDegrees(course) });
        ReceiverSheet sheet = Job.Brief(stood, Planner.Plan(stood, new()), [new(job.Sites.Single(x => x.Use == Stillhook.Debriefing.SiteUse.Delivery).Name, flown)], BriefedJobs.Issue).Receivers[0];
        UnderAWay[] straightOn = [.. sheet.UnderAWay.Where(u => !u.WhenItRejects)];
        Assert.Equal([null, "ahead"], straightOn.Select(u => u.Person?.Name));
        Assert.DoesNotContain(sheet.UnderAWay, u => u.Person?.Name == "aside");
    }

    // Both wind alternatives are briefed: the wind of the job, and the same from the other side.
    [Fact]
    public void Crew_Example_HasTheWayForTheOtherSideOfTheWind()
    {
        WayBrief[] ways = [.. BriefedJobs.ExampleBrief.Crew.Ways];
        Assert.Equal([ApproachReason.Planned, ApproachReason.OtherSide], ways.Select(w => w.Reason));
        Assert.Equal([250, 70], ways.Select(w => Math.Round(w.Wind!.Value.FromDeg)));
        Assert.All(ways, w => Assert.True(w.Blocked is not null || double.IsFinite(w.CourseDeg)));
        Assert.Single(BriefedJobs.ExampleBrief.Cockpit);
    }

    [Fact]
    public void Brief_WindAskedFor_HasACockpitCardOfItsOwn()
    {
        Brief brief = BriefedJobs.Of(BriefedJobs.MarkCard, null, new Stillhook.Debriefing.Wind(90, Speed.FromKnots(8)));
        Assert.Equal([ApproachReason.Planned, ApproachReason.AskedFor], brief.Cockpit.Select(c => c.Reason));
        Assert.Equal(90, brief.Cockpit[1].Wind!.Value.FromDeg);
    }

    // Every stop of the order stands once, after the load it follows.
    [Fact]
    public void TankRun_Example_KeepsEveryLiftAndStopInOrder()
    {
        IReadOnlyList<TankRun> runs = TankRun.Of(ExamplePlan.Order);
        Assert.Equal(ExamplePlan.Order!.Lifts.Select(l => l.Number), runs.SelectMany(r => r.Lifts).Select(l => l.Number));
        Assert.Equal(ExamplePlan.Order.Timeline.Refuels, runs.Count(r => r.Stop is { Refuel: true }));
        Assert.Null(runs[^1].Stop);
        Assert.Empty(TankRun.Of(null));
    }
}
