using Stillhook.Planning.Ordering;
using Stillhook.Solving;
using Stillhook.Tests.Planning.Ordering;

namespace Stillhook.Tests.Solving;

public class CpSatOrderSolverTests
{
    private static readonly OrderLimits Small = new(2, 20);

    // Closed form: every order, stop, uplift and break of up to 5 loads tried, in the test.
    [Fact]
    public void Plan_SmallProblems_AgreeWithTryingAll()
    {
        int whole = 0, refuelled = 0, none = 0;
        foreach (OrderProblem problem in OrderCases.Fixed(200, 2, 5, 2))
        {
            OrderPlan plan = OrderPlanner.Plan(problem, new CpSatOrderSolver(), Small, CancellationToken.None);
            Independent.Check(problem, plan);
            if (plan.Notes.Any(n => n.Contains("mixed")))
                continue;
            double best = new BestByTryingAll(problem).Finish();
            if (double.IsPositiveInfinity(best))
            {
                none++;
                Assert.NotEmpty(plan.LeftOut);
                continue;
            }
            Assert.Empty(plan.LeftOut);
            Assert.Equal(OrderVerdict.Proven, plan.Verdict);
            Assert.Equal(best, plan.Timeline.FinishMinute, 1e-6);
            Assert.Equal(best, plan.BoundMinute, 1e-6);
            (whole, refuelled) = (whole + 1, refuelled + (plan.Timeline.Refuels > 0 ? 1 : 0));
        }
        Assert.True(whole >= 40 && refuelled >= 20 && none >= 5, $"{whole} {refuelled} {none}");
    }

    // Closed form: whatever could be flown before can be flown with more capacity.
    [Fact]
    public void Plan_MorePayload_NeverMakesTheDayLonger()
    {
        int compared = 0;
        foreach (OrderProblem problem in OrderCases.Fixed(60, 5, 9, 3))
        {
            OrderProblem stronger = problem with { Routes = [.. problem.Routes.Select(r => r with { CapacityKg = [.. r.CapacityKg.Select(c => c + 40)] })] };
            OrderPlan plan = OrderPlanner.Plan(problem, new CpSatOrderSolver(), Small, CancellationToken.None);
            OrderPlan better = OrderPlanner.Plan(stronger, new CpSatOrderSolver(), Small, CancellationToken.None);
            Independent.Check(problem, plan);
            if (plan.LeftOut.Count > 0 || better.Verdict != OrderVerdict.Proven)
                continue;
            Assert.Empty(better.LeftOut);
            Assert.True(better.Timeline.FinishMinute <= plan.Timeline.FinishMinute + 1e-9);
            compared++;
        }
        Assert.True(compared >= 10, $"{compared}");
    }

    [Fact]
    public void Plan_SameProblemTwice_IsTheSamePlan()
    {
        OrderProblem problem = OrderCases.Alternating(9);
        OrderPlan one = OrderPlanner.Plan(problem, new CpSatOrderSolver(), Small, TestContext.Current.CancellationToken);
        OrderPlan two = OrderPlanner.Plan(problem, new CpSatOrderSolver(), Small, TestContext.Current.CancellationToken);
        Assert.Equal(one.Sequence.Lifts, two.Sequence.Lifts);
        Assert.Equal((one.Verdict, one.BoundMinute), (two.Verdict, two.BoundMinute));
    }

    // Never feasible for optimal: without time to work it only knows the hint or nothing.
    [Fact]
    public void Solve_NoTime_ClaimsNoProof()
    {
        OrderAnswer answer = new CpSatOrderSolver().Solve(OrderCases.Alternating(14), null, new(1e-6, 20), TestContext.Current.CancellationToken);
        Assert.Contains(answer.Outcome, new[] { OrderOutcome.Feasible, OrderOutcome.Unknown });
    }
}
