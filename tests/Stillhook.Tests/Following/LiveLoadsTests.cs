using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Following;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Planning.Ordering;
using Stillhook.Reporting;

namespace Stillhook.Tests.Following;

/// <summary>The example job's plan beside deliveries; expected values are closed form: the plan's own order, counted.</summary>
public class LiveLoadsTests
{
    private static readonly LiftPlan Plan = Job.Plan(JobFile.Read(new MemoryStream(File.ReadAllBytes(Repository.File("examples/path-repair.json")))).Request, new());
    private static readonly string[] Order = [.. Plan.Order!.Timeline.Steps.OfType<LiftStep>().Select(s => s.Number)];

    [Fact]
    public void Of_NothingDelivered_TheFirstOfTheOrderIsNext()
    {
        LiveLoads loads = LiveLoads.Of([], Plan, []);
        Assert.Empty(loads.Delivered);
        Assert.Equal(Order[0], loads.NextLoad!.OnHook.Load.Number);
        Assert.Equal(Order.Length, loads.Planned);
        // The plan's refuelling stands before the first delivery too.
        Assert.NotNull(loads.LoadsToRefuel);
    }

    [Fact]
    public void Of_NumbersByTurnAndByHand_EachLoadIsGoneOnce()
    {
        // The second delivery was written down as the plan's first load: the first one by turn is then the plan's second.
        LiveLoads loads = LiveLoads.Of([Delivery(1, 100), Delivery(2, 400)], Plan, [new(2, 400, Order[0], 655, null)]);
        Assert.Equal([Order[1], Order[0]], loads.Delivered.Select(l => l.LoadNumber));
        Assert.Equal([NumberKnownBy.Turn, NumberKnownBy.Hand], loads.Delivered.Select(l => l.By));
        Assert.Equal(655, loads.Delivered[1].LoadKg);
        Assert.Equal(Order[2], loads.NextLoad!.OnHook.Load.Number);
    }

    [Fact]
    public void Of_DeliveryTakenBack_CountsNoMore()
    {
        LiveLoads loads = LiveLoads.Of([Delivery(1, 100), Delivery(2, 400) with { Withdrawn = true }], Plan, []);
        Assert.Equal(Order[0], Assert.Single(loads.Delivered).LoadNumber);
        Assert.Equal(Order[1], loads.NextLoad!.OnHook.Load.Number);
    }

    [Fact]
    public void Of_UpToThePlansRefuelling_CountsTheLoadsLeft()
    {
        IReadOnlyList<OrderStep> steps = Plan.Order!.Timeline.Steps;
        int before = steps.TakeWhile(s => s is not RefuelStep || s == steps[0]).OfType<LiftStep>().Count();
        Assert.InRange(before, 2, Order.Length - 1);
        LiveDelivery[] flown = [.. Enumerable.Range(1, before).Select(n => Delivery(n, 200.0 * n))];
        LiveLoads one = LiveLoads.Of(flown[..(before - 1)], Plan, []), all = LiveLoads.Of(flown, Plan, []);
        Assert.Equal((1, Order[before - 1]), (one.LoadsToRefuel, one.LastBeforeRefuel));
        Assert.Equal((0, null), (all.LoadsToRefuel, all.LastBeforeRefuel));
    }

    [Fact]
    public void Of_WithoutAPlan_GivesNoNumbers()
    {
        LiveLoads loads = LiveLoads.Of([Delivery(1, 100)], null, []);
        Assert.Null(Assert.Single(loads.Delivered).LoadNumber);
        Assert.Null(loads.NextLoad);
        Assert.Equal(0, loads.Planned);
    }

    private static LiveDelivery Delivery(int number, double timeS) => new()
    {
        Number = number, Lift = new() { Number = number, DeliveryTimeS = timeS }, FirstMeasuredS = timeS + 5, MeasuredAtS = timeS + 5, Frame = new LocalFrame(47, 9, 500), Rotation = new() { Number = number, Confidence = Confidence.High, DeliveryTimeS = timeS },
    };
}
