using Stillhook.Planning.Ordering;

namespace Stillhook.Tests.Planning.Ordering;

/// <summary>Each rule broken once. Closed form: figures of <see cref="OrderCases.OneRoute"/> added by hand.</summary>
public class OrderSimulatorTests
{
    private static readonly OrderProblem Four = OrderCases.OneRoute([500, 500, 500, 900], 1000);

    [Fact] public void Run_HeavyLoadFirst_IsOverTheCapacity() => Breaks(OrderRule.Capacity, 1, "160 kg over with 260 kg of fuel", Four, new LiftDecision(3));

    [Fact] public void Run_LoadFlownTwice_IsRefused() => Breaks(OrderRule.LoadTwice, 2, "twice", Four, new LiftDecision(0), new LiftDecision(0));

    [Fact] public void Run_TankOverfilled_IsRefused() => Breaks(OrderRule.Tank, 2, "266 kg", Four, new LiftDecision(0), new LiftDecision(1, 20));

    [Fact]
    public void Run_PartOfAStep_IsRefused() =>
        Breaks(OrderRule.UpliftStep, 2, "7.5 kg", Four with { Policy = Four.Policy with { UpliftStepKg = 5 } }, new LiftDecision(0), new LiftDecision(1, 7.5));

    [Fact]
    public void Run_SuccessorFirst_BreaksPrecedence() =>
        Breaks(OrderRule.Precedence, 1, "load 2 must come after load 1", Four with { Loads = [Four.Loads[0], Four.Loads[1] with { After = ["1"] }] }, new LiftDecision(1));

    [Fact]
    public void Run_HookTooWeak_IsRefused() =>
        Breaks(OrderRule.FixedMax, 1, "take 450 kg", Four with { Routes = [Four.Routes[0] with { FixedMaxKg = 450 }] }, new LiftDecision(0));

    [Fact]
    public void Run_PastTheLatestEnd_IsRefused() =>
        Breaks(OrderRule.LatestEnd, 2, "1 min after", Four with { Policy = Four.Policy with { LatestEndMinute = 495 } }, new LiftDecision(0), new LiftDecision(1));

    [Fact]
    public void Run_BreakOverdue_IsRefusedAndABreakMendsIt()
    {
        OrderProblem problem = Four with { Policy = Four.Policy with { BreakDueMinutes = 20, BreakMinutes = 30 } };
        Breaks(OrderRule.BreakDue, 3, "24 min", problem, new LiftDecision(0), new LiftDecision(1), new LiftDecision(2));
        // Hot refuelling is no break and counts: 8 min flown, 6.4 min at the pump, 8 min flown.
        Breaks(OrderRule.BreakDue, 2, "22.4 min", problem, new LiftDecision(0), new LiftDecision(1, 8));
        OrderTimeline rested = OrderSimulator.Run(problem, new(260, [new(0), new LiftDecision(1), new(2, 14, true)]));
        Assert.Null(rested.Broken);
        Assert.Equal(480 + 24 + 30, rested.FinishMinute, 1e-9);
        Assert.Equal((24, 42, 232), (rested.FlyingMinutes, rested.BurntKg, rested.FinishFuelKg));
        OrderTimeline dry = OrderSimulator.Run(problem, new(260, [new(0), new LiftDecision(1), new(2, 0, true)]));
        Assert.Null(dry.Broken);
        Assert.Equal(480 + 24 + 30, dry.FinishMinute, 1e-9);
        Assert.Equal((1, 0), (dry.Steps.OfType<BreakStep>().Count(), dry.Steps.OfType<RefuelStep>().Count()));
    }

    [Fact]
    public void Run_GroupLeftAndEnteredAgain_IsRefused()
    {
        OrderProblem problem = OrderCases.Alternating(3);
        problem = problem with { Policy = problem.Policy with { GroupByDeliverySite = true }, Loads = [.. problem.Loads.Select(l => l with { After = [] })] };
        OrderTimeline timeline = OrderSimulator.Run(problem, new(260, [new(0), new LiftDecision(1), new(2)]));
        Assert.Equal((OrderRule.Grouping, 3), (timeline.Broken!.Rule, timeline.Broken.Position));
    }

    private static void Breaks(OrderRule rule, int position, string said, OrderProblem problem, params LiftDecision[] lifts)
    {
        OrderTimeline timeline = OrderSimulator.Run(problem, new(260, lifts));
        Assert.Equal((rule, position), (timeline.Broken?.Rule, timeline.Broken?.Position));
        Assert.Contains(said, timeline.Broken!.Text);
    }
}
