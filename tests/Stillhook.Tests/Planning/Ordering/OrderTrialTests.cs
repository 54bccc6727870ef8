using Stillhook.Planning.Ordering;

namespace Stillhook.Tests.Planning.Ordering;

/// <summary>Orders of a person's own. Closed form: figures of <see cref="OrderCases.OneRoute"/> added by hand.</summary>
public class OrderTrialTests
{
    // 14 kg a rotation, 8 min; 260 kg at the start; capacity 1 000 kg: load 4 of 900 kg fits with 100 kg of fuel or less.
    private static readonly OrderProblem Four = OrderCases.OneRoute([500, 500, 500, 900], 1000);

    [Fact]
    public void Try_EveryProblem_FliesWhatTheExactCheckPasses()
    {
        foreach (OrderProblem problem in OrderCases.Fixed(60, 2, 6, stream: 7))
        {
            int[] order = [.. Enumerable.Range(0, problem.Loads.Count).Reverse()];
            TriedOrder tried = OrderTrial.Try(problem, order);
            Assert.Equal(order.Select(l => problem.Loads[l].Number), tried.Loads.Select(l => l.Number));
            Assert.All(tried.Loads, l => Assert.True(l.Lift is not null || l.Breaks.Length > 0));
            if (tried.Holds)
                Assert.Null(OrderSimulator.Run(problem, tried.Sequence).Broken);
        }
    }

    [Fact]
    public void Try_HeavyLoadFirstWithAFullTank_SaysByHowMuchItIsOverAndFliesTheRest()
    {
        TriedOrder tried = OrderTrial.Try(Four, [3, 0, 1, 2]);
        Assert.False(tried.Holds);
        Assert.Equal("4", tried.FirstBroken!.Number);
        Assert.Contains("160 kg over with 260 kg of fuel", tried.FirstBroken.Breaks);
        Assert.Equal(["1", "2", "3"], tried.Timeline.Steps.OfType<LiftStep>().Select(l => l.Number));
    }

    [Fact]
    public void Try_SuccessorFirst_NamesTheLoadThatMustComeBefore()
    {
        OrderProblem tied = Four with { Loads = [Four.Loads[0], Four.Loads[1] with { After = ["1"] }, Four.Loads[2]] };
        TriedOrder tried = OrderTrial.Try(tied, [1, 0, 2]);
        Assert.Equal(["Load 2 must come after load 1."], tried.Loads.Where(l => !l.Holds).Select(l => l.Breaks));
        Assert.Equal(3, tried.Timeline.Steps.OfType<LiftStep>().Count());
    }

    [Fact]
    public void Try_MoreThanATankHolds_RefuelsWithTheReserveKept()
    {
        // 20 rotations burn 280 kg; 200 kg above the reserve are aboard: one stop.
        OrderProblem many = OrderCases.OneRoute([.. Enumerable.Repeat(400.0, 20)], 1000);
        TriedOrder tried = OrderTrial.Try(many, [.. Enumerable.Range(0, 20).Reverse()]);
        Assert.True(tried.Holds);
        Assert.Equal(1, tried.Timeline.Refuels);
        Assert.All(tried.Timeline.Steps, s => Assert.True(s.FuelToKg >= 60));
    }

    [Fact]
    public void Try_DayTooShort_LeavesOutTheLoadsPastItsEnd()
    {
        // 8 min a rotation from 08:00: two are back at 08:16, the third at 08:24.
        TriedOrder tried = OrderTrial.Try(Four with { Policy = Four.Policy with { LatestEndMinute = 500 } }, [2, 1, 0]);
        Assert.Equal(["1"], tried.Loads.Where(l => !l.Holds).Select(l => l.Number));
        Assert.Contains("4 min after the latest end", tried.FirstBroken!.Breaks);
    }

    [Fact]
    public void Try_FixedFuelTooMuchForALaterPlace_FitsOnceItIsBurnt()
    {
        // 260 kg less 12 rotations of 14 kg are 92 kg: the 900 kg load fits in place 13, not in place 12 with 106 kg.
        OrderProblem many = OrderCases.OneRoute([.. Enumerable.Repeat(400.0, 12), 900], 1000);
        Assert.True(OrderTrial.Try(many, [.. Enumerable.Range(0, 13)]).Holds);
        TriedOrder early = OrderTrial.Try(many, [.. Enumerable.Range(0, 11), 12, 11]);
        Assert.Contains("6 kg over with 106 kg of fuel", early.FirstBroken!.Breaks);
    }

    [Fact]
    public void Try_UnknownOrDoubledPlace_IsTheCallersMistake()
    {
        Assert.Throws<ArgumentException>(() => OrderTrial.Try(Four, [4]));
        Assert.Throws<ArgumentException>(() => OrderTrial.Try(Four, [1, 1]));
    }

    [Fact]
    public void AsGiven_HoldingAndBreakingOrder_IsFlownOrNot()
    {
        OrderPlan? given = OrderPlanner.AsGiven(OrderCases.OneRoute([400, 500], 1000), [1, 0], out string nothing);
        Assert.Equal(["2", "1"], given!.Lifts.Select(l => l.Number));
        Assert.Equal((OrderVerdict.Given, ""), (given.Verdict, nothing));
        Assert.True(given.BoundMinute <= given.Timeline.FinishMinute);
        Assert.Null(OrderPlanner.AsGiven(OrderCases.OneRoute([400, 700], 900), [1, 0], out string breaks));
        Assert.Contains("60 kg over", breaks);
    }
}
