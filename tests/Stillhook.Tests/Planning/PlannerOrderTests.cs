using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Planning.Ordering;
using Stillhook.Planning.Payload;

namespace Stillhook.Tests.Planning;

/// <summary>Orders by the loads' numbers, tried on a plan and set in the job.</summary>
public class PlannerOrderTests
{
    private static LiftRequest Request(params string[] order)
    {
        LiftRequest request = Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(2600)),
            [Jobs.Site("yard", SiteUse.PickUp, 500, 15), Jobs.Site("ridge", SiteUse.Delivery, 900, 12, latitude: 46.91)],
            Jobs.Load("1", 600), Jobs.Load("2", 700), Jobs.Load("3", 500) with { After = ["1"] });
        return request with { Day = request.Day! with { Order = order } };
    }

    [Fact]
    public void Try_ThePlansOwnOrder_IsThePlan()
    {
        LiftPlan plan = Planner.Plan(Request(), new());
        TriedOrder tried = Planner.Try(plan, [.. plan.Order!.Lifts.Select(l => l.Number)]);
        Assert.Same(plan.Order.Timeline, tried.Timeline);
        Assert.True(tried.Holds);
        Assert.Equal(plan.Order.Lifts.Select(l => (l.Number, (LiftStep?)l)), tried.Loads.Select(l => (l.Number, l.Lift)));
    }

    [Fact]
    public void Try_NumbersLeftOut_ComeAfterInThePlansOrder()
    {
        LiftPlan plan = Planner.Plan(Request(), new());
        TriedOrder tried = Planner.Try(plan, ["2", "no such load"]);
        Assert.Equal(["2", .. plan.Order!.Lifts.Select(l => l.Number).Where(n => n != "2")], tried.Loads.Select(l => l.Number));
    }

    [Fact]
    public void Try_SuccessorFirst_BreaksInOneSentence()
    {
        TriedOrder tried = Planner.Try(Planner.Plan(Request(), new()), ["3", "1", "2"]);
        Assert.Equal("Load 3 must come after load 1.", tried.FirstBroken!.Breaks);
    }

    [Fact]
    public void Plan_OrderSetInTheJob_IsFlown()
    {
        foreach (string[] order in new[] { new[] { "2", "1", "3" }, ["1", "3", "2"], ["1", "2", "3"] })
        {
            LiftPlan plan = Planner.Plan(Request(order), new());
            Assert.Equal(order, plan.Order!.Lifts.Select(l => l.Number));
            Assert.Equal(OrderVerdict.Given, plan.Order.Verdict);
            Assert.True(plan.AllLift);
        }
    }

    [Fact]
    public void Plan_OrderThatBreaksSomething_IsNotFlownAndSaysWhy()
    {
        LiftPlan plan = Planner.Plan(Request("3", "1", "2"), new());
        Assert.NotEqual(OrderVerdict.Given, plan.Order!.Verdict);
        Assert.True(plan.AllLift);
        Assert.Contains("load 3 must come after load 1", Assert.Single(plan.Findings, f => f.Code == "day-order-breaks").What, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Plan_UnknownAndDoubledNumbers_AreToldAndPassedOver()
    {
        LiftPlan plan = Planner.Plan(Request("2", "7", "2", "1"), new());
        Assert.Equal(["2", "1", "3"], plan.Order!.Lifts.Select(l => l.Number));
        Assert.Equal(["day.order[1]", "day.order[2]"], plan.Findings.Where(f => f.Code is "day-order-unknown" or "day-order-twice").Select(f => f.Path));
    }

    [Fact]
    public void Limits_OfALoad_LeastIsWhatThePlanAllows()
    {
        LiftPlan plan = Planner.Plan(Request(), new());
        foreach (LoadPlan load in plan.Loads)
        {
            IReadOnlyList<LoadLimit> limits = LoadLimits.Of(plan, load);
            LoadLimit least = Assert.Single(limits, l => l.IsLeast);
            // Rounded down to a kilogram in the plan.
            Assert.Equal(load.Payload!.Governing.AllowedKg, Math.Floor(least.Kg + 1e-9));
            Assert.Equal(load.Payload.Governing.LimitedBy, least.Kind);
            // Closed form: 2 600 kg less 1 420 kg, the fuel and 45 kg of kit.
            Assert.Equal(2600 - 1420 - load.Payload.PickUp.FuelKg - 45, limits.First(l => l.Kind == LoadLimitedBy.HoverMass).Kg, 1e-6);
            (int hour, double allowed) = LoadLimits.ByHour(plan, load)[0];
            Assert.Equal((8, load.Payload.Governing.AllowedKg), (hour, allowed));
        }
    }

    // Closed form: from the hour of the start to the hour of the latest end, to midnight where none is given.
    [Fact]
    public void ByHour_WithAndWithoutALatestEnd_EndsThere()
    {
        LiftRequest open = Request(), closed = open with { Day = open.Day! with { LatestEnd = new TimeOnly(11, 0) } };
        Assert.Equal(Enumerable.Range(8, 16), Hours(open));
        Assert.Equal([8, 9, 10], Hours(closed));
    }

    private static IEnumerable<int> Hours(LiftRequest request)
    {
        LiftPlan plan = Planner.Plan(request, new());
        return LoadLimits.ByHour(plan, plan.Loads[0]).Select(h => h.Hour);
    }
}
