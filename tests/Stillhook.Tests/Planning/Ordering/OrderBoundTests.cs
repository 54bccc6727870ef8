using Stillhook.Planning.Ordering;

namespace Stillhook.Tests.Planning.Ordering;

/// <summary>The bound by counting, where it can be reached: no order is better, and one is as good.</summary>
public class OrderBoundTests
{
    // Closed form: 30 rotations of 8 min and 14 kg take 420 kg with 60 left of 260, so 220 taken on in two stops of 6 min and 0.05 min a kg: 480 + 240 + 23.
    [Fact]
    public void Plan_BaseBesideThePickUp_BoundIsReached()
    {
        OrderPlan plan = OrderPlanner.Plan(OrderCases.OneRoute([.. Enumerable.Repeat(500.0, 30)], 1000), cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(743, plan.BoundMinute, 1e-9);
        Assert.Equal(743, plan.Timeline.FinishMinute, 1e-9);
    }

    // Closed form, 20 loads from a base 2 min (4 kg) off the yard and 4 min (8 kg) off the ridge: 100 min loaded, 2 out, 57 back, 4 home are 163 min, and 160 + 4 + 114 + 8 = 286 kg. A tank holds 13 loads, so one
    // detour by base, 3 min and 6 kg: 286 + 6 + 60 - 260 = 92 kg taken on, 6 + 4.6 min. Where the day's first fuel is given, counting can't tell that its refuelling is no use before the first load: no detour, 86 kg.
    [Theory]
    [InlineData(false, 656.6)]
    [InlineData(true, 653.3)]
    public void Plan_BaseAside_BoundCountsTheDetour(bool fuelGiven, double bound)
    {
        OrderProblem problem = OrderCases.OneRoute([.. Enumerable.Repeat(500.0, 20)], 1000);
        problem = problem with
        {
            Sites = ["yard", "ridge", "base"],
            BaseSite = 2,
            EmptyLegs = [[new(0, 0), new(3, 6), new(2, 4)], [new(3, 6), new(0, 0), new(4, 8)], [new(2, 4), new(4, 8), new(0, 0)]],
            Policy = problem.Policy with { StartFuelKg = fuelGiven ? 260 : null },
        };
        OrderPlan plan = OrderPlanner.Plan(problem, cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(bound, plan.BoundMinute, 1e-9);
        Assert.Equal(656.6, plan.Timeline.FinishMinute, 1e-9);
    }
}
