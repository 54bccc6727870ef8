using CsCheck;
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
        OrderCases.Problems(2, 5).Sample(problem =>
        {
            OrderPlan plan = OrderPlanner.Plan(problem, new CpSatOrderSolver(), Small, CancellationToken.None);
            Independent.Check(problem, plan);
            if (plan.Notes.Any(n => n.Contains("mixed")))
                return;
            double best = new BestByTryingAll(problem).Finish();
            if (double.IsPositiveInfinity(best))
            {
                none++;
                Assert.NotEmpty(plan.LeftOut);
                return;
            }
            Assert.Empty(plan.LeftOut);
            Assert.Equal(OrderVerdict.Proven, plan.Verdict);
            Assert.Equal(best, plan.Timeline.FinishMinute, 1e-6);
            Assert.Equal(best, plan.BoundMinute, 1e-6);
            (whole, refuelled) = (whole + 1, refuelled + (plan.Timeline.Refuels > 0 ? 1 : 0));
        }, iter: 120, threads: 1, seed: "0000000000001");
        Assert.True(whole >= 40 && refuelled >= 20 && none >= 5, $"{whole} {refuelled} {none}");
    }
}
