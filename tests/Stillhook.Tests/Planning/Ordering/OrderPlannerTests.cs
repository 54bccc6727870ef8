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

    // Closed form: fuel at hook-on of position k is 260 - 14(k - 1); at most 120 kg from position 11 on.
    [Fact]
    public void Plan_TankOf260Burn14_RefuelsOnceAndPutsTheHeavyLoadAfterLoad10()
    {
        double[] needs = [880, .. Enumerable.Repeat(500.0, 13)];
        OrderPlan plan = OrderPlanner.Plan(OrderCases.OneRoute(needs, 1000), cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(OrderVerdict.Proven, plan.Verdict);
        Assert.Equal(0, plan.Timeline.Refuels);
        LiftStep heavy = plan.Lifts.Single(l => l.Load == 0);
        Assert.True(heavy.PositionInTank >= 11, $"position {heavy.PositionInTank}");
        Assert.Contains("fits with up to 120 kg of fuel", heavy.Reason);

        OrderPlan longer = OrderPlanner.Plan(OrderCases.OneRoute([.. Enumerable.Repeat(500.0, 30)], 1000), cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(2, longer.Timeline.Refuels);
        Assert.True(longer.Lifts.TakeWhile((l, i) => i == 0 || l.PositionInTank > 1).Count() <= 14);
        // Closed form: 30 rotations of 8 min, two refuellings of 6 min, 30*14 + 60 - 260 = 220 kg at 0.05 min.
        Assert.Equal(480 + 240 + 12 + 11, longer.Timeline.FinishMinute, 1e-9);
        Assert.Equal(OrderVerdict.Proven, longer.Verdict);
    }

    // Closed form: the rules added up apart from the planner.
    [Fact]
    public void Plan_AnyProblem_KeepsEveryRuleAndEveryLoadOnce()
    {
        int lifts = 0, refuels = 0, left = 0;
        foreach (OrderProblem problem in OrderCases.Fixed(400, 1, 12, 1))
        {
            OrderPlan plan = Plan(problem);
            Independent.Check(problem, plan);
            Assert.True(plan.BoundMinute <= plan.Timeline.FinishMinute + 1e-9);
            Assert.All(plan.Lifts, l => Assert.NotEqual("", l.Reason));
            Assert.All(plan.LeftOut, l => Assert.NotEqual("", l.Why));
            (lifts, refuels, left) = (lifts + plan.Lifts.Count(), refuels + plan.Timeline.Refuels, left + plan.LeftOut.Count);
        }
        Assert.True(lifts > 1000 && refuels > 200 && left > 50, $"{lifts} {refuels} {left}");
    }

    // A solver that claims what an order already flown disproves is not believed.
    [Theory]
    [InlineData(OrderOutcome.Infeasible, 0)]
    [InlineData(OrderOutcome.Feasible, 100_000)]
    public void Plan_SolverThatContradictsAFlownOrder_IsNotBelieved(OrderOutcome outcome, double bound)
    {
        OrderPlan plan = OrderPlanner.Plan(OrderCases.Alternating(6), new Claims(new(outcome, null, bound)), cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(OrderVerdict.SearchOnly, plan.Verdict);
        Assert.Contains("contradicts", Assert.Single(plan.Notes));
        Assert.True(plan.BoundMinute < plan.Timeline.FinishMinute);
    }

    private sealed class Claims(OrderAnswer answer) : IOrderSolver
    {
        public OrderAnswer Solve(OrderProblem problem, OrderSequence? hint, OrderLimits limits, CancellationToken cancellation) => answer;
    }

    // Closed form: least fuel at hook-on is 60 + 8 + 6 = 74 kg, so 926 kg can be carried of 1,000; 1,500 kg are 574 over and go in two parts.
    [Fact]
    public void Plan_LoadTooHeavy_IsLeftOutWithItsReasonAndWhatWaitsForItToo()
    {
        OrderProblem problem = OrderCases.OneRoute([500, 1500, 500, 500], 1000);
        problem = problem with { Loads = [.. problem.Loads.Select(l => l.Number == "4" ? l with { After = ["2"] } : l)] };
        OrderPlan plan = Plan(problem);
        Assert.Equal([0, 2], plan.Lifts.Select(l => l.Load));
        Assert.Equal(["2", "4"], plan.LeftOut.Select(l => l.Number));
        Assert.Contains("574 kg over at its best hour", plan.LeftOut[0].Why);
        Assert.Contains("74 kg of fuel", plan.LeftOut[0].Why);
        OrderRemedy split = Assert.Single(plan.LeftOut[0].Remedies);
        Assert.Equal((RemedyKind.Split, "in 2 parts of at most 926 kg each, attachments and margins of each part included"), (split.Kind, split.Text));
        Assert.Contains("after load 2", plan.LeftOut[1].Why);
    }

    // Closed form: 950 kg need 50 kg of fuel or less by day, under the reserve; at night 1,100 - 950 = 150 kg will do, first at 00 h.
    [Fact]
    public void Plan_LoadForACoolerHour_SaysWhichHour()
    {
        OrderProblem problem = OrderCases.OneRoute([950], 1000);
        double[] hours = [.. Enumerable.Range(0, 24).Select(h => h is < 4 ? 1100.0 : 1000.0)];
        problem = problem with { Routes = [problem.Routes[0] with { CapacityKg = hours }] };
        LeftOutLoad left = Assert.Single(Plan(problem).LeftOut);
        Assert.Contains("fits at 00:00 with 74 kg", left.Remedies.Single(r => r.Kind == RemedyKind.CoolerHour).Text);
    }

    [Fact]
    public void Plan_LoadsThatWaitForEachOther_AreLeftOutAndTheRestIsPlanned()
    {
        OrderProblem problem = OrderCases.OneRoute([500, 500, 500], 1000);
        problem = problem with { Loads = [problem.Loads[0] with { After = ["2"] }, problem.Loads[1] with { After = ["1"] }, problem.Loads[2]] };
        OrderPlan plan = Plan(problem);
        Assert.Equal([2], plan.Lifts.Select(l => l.Load));
        Assert.All(plan.LeftOut, l => Assert.Contains("waits for it in turn", l.Why));
    }

    // Closed form: 8 min a rotation from 480; by 500 two are back.
    [Fact]
    public void Plan_DayTooShort_FliesWhatFitsAndSaysSo()
    {
        OrderProblem problem = OrderCases.OneRoute([500, 500, 500], 1000);
        OrderPlan plan = Plan(problem with { Policy = problem.Policy with { LatestEndMinute = 500 } });
        Assert.Equal(2, plan.Lifts.Count());
        Assert.Contains("before 08:20", Assert.Single(plan.LeftOut).Why);
    }

    [Fact]
    public void Plan_Families_LightestComesFirstAndIsTheProvingLift()
    {
        OrderProblem problem = OrderCases.OneRoute([600, 700, 500, 650], 1000);
        problem = problem with { Loads = [.. problem.Loads.Select(l => l with { Family = "container" })] };
        LiftStep[] lifts = [.. Plan(problem).Lifts];
        Assert.Equal("first container: proving lift, the lightest of them", lifts[0].Reason);
        Assert.Equal((2, true), (lifts[0].Load, lifts[0].ProvingLift));
        Assert.All(lifts.Skip(1), l => Assert.False(l.ProvingLift));
    }

    // Precedence from site to site and back: the groups can't stay together.
    [Fact]
    public void Plan_GroupsThatContradictPrecedence_AreMixedAndSaidToBe()
    {
        OrderProblem problem = OrderCases.Alternating(4);
        OrderPlan plan = Plan(problem with { Policy = problem.Policy with { GroupByDeliverySite = true } });
        Assert.Contains("groups mixed", Assert.Single(plan.Notes));
        Assert.Equal([0, 1, 2, 3], plan.Lifts.Select(l => l.Load));
    }

    [Fact]
    public void Plan_MistakesOfTheCaller_AreRefused()
    {
        OrderProblem problem = OrderCases.OneRoute([500], 1000);
        Assert.Throws<ArgumentOutOfRangeException>(() => Plan(problem with { Policy = problem.Policy with { ReserveKg = double.NaN } }));
        Assert.Throws<ArgumentOutOfRangeException>(() => Plan(problem with { Policy = problem.Policy with { UpliftStepKg = 0 } }));
        Assert.Throws<ArgumentOutOfRangeException>(() => Plan(problem with { BaseSite = 2 }));
        Assert.Throws<ArgumentException>(() => Plan(problem with { Loads = [problem.Loads[0] with { After = ["9"] }] }));
        Assert.Throws<ArgumentException>(() => Plan(problem with { Loads = [problem.Loads[0], problem.Loads[0]] }));
    }

    // Common practice, no source: 40 loads in the time of a blink; here only that the work is bounded and the same twice.
    [Fact]
    public void Find_FortyLoads_GivesTheSameOrderTwice()
    {
        OrderProblem problem = OrderCases.OneRoute([.. Enumerable.Range(0, 40).Select(i => 450.0 + 397 * i % 410)], 1000);
        OrderSequence one = OrderSearch.Find(problem), two = OrderSearch.Find(problem);
        Assert.Equal(40, one.Lifts.Count);
        Assert.Equal(one.Lifts, two.Lifts);
        Assert.Null(OrderSimulator.Run(problem, one).Broken);
    }

    private static OrderPlan Plan(OrderProblem problem) => OrderPlanner.Plan(problem, cancellation: TestContext.Current.CancellationToken);
}
