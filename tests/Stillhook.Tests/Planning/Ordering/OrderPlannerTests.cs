using CsCheck;
using Stillhook.Planning.Ordering;

namespace Stillhook.Tests.Planning.Ordering;

public class OrderPlannerTests
{
    // Closed form: (260 - 60)/14 = 14.3, so 14 rotations; the 15th would land with 260 - 15*14 = 50 kg.
    [Fact]
    public void Run_FifteenthLoadInATank_CutsTheReserve()
    {
        OrderProblem problem = OrderCases.OneRoute([.. Enumerable.Repeat(500.0, 15)], 1000);
        OrderTimeline fourteen = OrderSimulator.Run(problem, new(260, [.. Enumerable.Range(0, 14).Select(i => new LiftDecision(i))]));
        Assert.Null(fourteen.Broken);
        Assert.Equal(64, fourteen.FinishFuelKg, 1e-9);
        Assert.Equal(14 * 8 + 480, fourteen.FinishMinute, 1e-9);
        OrderTimeline fifteen = OrderSimulator.Run(problem, new(260, [.. Enumerable.Range(0, 15).Select(i => new LiftDecision(i))]));
        Assert.Equal((OrderRule.Reserve, 15), (fifteen.Broken!.Rule, fifteen.Broken.Position));
        Assert.Contains("50 kg left", fifteen.Broken.Text);
    }

    // Closed form: fuel at hook-on of position k is 260 - 14(k - 1); at most 120 kg from position 11 on. 15 loads: one refuelling of 50 + 60 - 60 -> 10 kg short of 210 needed.
    [Fact]
    public void Plan_TankOf260Burn14_RefuelsOnceAndPutsTheHeavyLoadAfterLoad10()
    {
        double[] needs = [880, .. Enumerable.Repeat(500.0, 13)];
        OrderPlan plan = OrderPlanner.Plan(OrderCases.OneRoute(needs, 1000), cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(OrderVerdict.Proven, plan.Verdict);
        Assert.Equal(0, plan.Timeline.Refuels);
        LiftStep heavy = plan.Lifts.Single(l => l.Load == 0);
        Assert.True(heavy.PositionInTank >= 11, $"position {heavy.PositionInTank}");
        Assert.Contains("120 kg of fuel or less", heavy.Reason);

        OrderPlan longer = OrderPlanner.Plan(OrderCases.OneRoute([.. Enumerable.Repeat(500.0, 30)], 1000), cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(2, longer.Timeline.Refuels);
        Assert.True(longer.Lifts.TakeWhile((l, i) => i == 0 || l.PositionInTank > 1).Count() <= 14);
        // Closed form: 30 rotations of 8 min, two refuellings of 6 min, 30*14 + 60 - 260 = 220 kg at 0.05 min.
        Assert.Equal(480 + 240 + 12 + 11, longer.Timeline.FinishMinute, 1e-9);
        Assert.Equal(OrderVerdict.Proven, longer.Verdict);
    }

    [Fact]
    public void Plan_AnyProblem_KeepsEveryRuleAndEveryLoadOnce() => OrderCases.Problems(1, 12).Sample(problem =>
    {
        OrderPlan plan = OrderPlanner.Plan(problem);
        Independent.Check(problem, plan);
        Assert.True(plan.BoundMinute <= plan.Timeline.FinishMinute + 1e-9);
        Assert.All(plan.Lifts, l => Assert.NotEqual("", l.Reason));
        Assert.All(plan.LeftOut, l => Assert.NotEqual("", l.Why));
    }, iter: 300, threads: 1, seed: "0000000000000");
}
