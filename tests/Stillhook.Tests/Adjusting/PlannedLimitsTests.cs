using Stillhook.Adjusting;
using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Tests.Approaching;
using UnitsNet;

namespace Stillhook.Tests.Adjusting;

/// <summary>Advice that would break what the planned approach keeps is dropped, and it is said which limit stopped it.</summary>
public class PlannedLimitsTests
{
    // A tree of 25 m stands under the way in, 250 m before the spot; the course is pinned north.
    private static readonly LiftRequest Job = ApproachJobs.Job().WithApproach(a => a with { Course = Angle.FromDegrees(0) })
        .WithSpot(s => s with { Obstacles = [ApproachJobs.Obstacle(0, -250, 25, "pine")], People = [ApproachJobs.Spot(-20, 15, "receiver")] });

    private static readonly ApproachPlan Plan = ApproachJobs.Plan(Job);
    private static readonly LiftSetup Setup = LiftSetup.From(Job) with { Approach = Plan };

    private static ApproachGate Start => Plan.Gates[0];

    private static AdjustSettings Settings => new()
    {
        Plan = new() { Knobs = new(Start.HookHeightM, Start.DistanceM, Start.GroundMs, 12), PeakDecelMs2 = 0.9, Gates = [new(Start.DistanceM, Start.HookHeightM, Start.GroundMs, Start.SinkMs)] },
    };

    private static Delivery Flown(double highM = 0) => new()
    {
        StartHeightM = Start.HookHeightM + highM,
        StartDistanceM = Start.DistanceM,
        EntrySpeedMs = Start.GroundMs,
        StopShortM = 0,
        OvershootM = 0,
        PeakDecelMs2 = 0.9,
        Gates = [new(Start.DistanceM, 0, Start.HookHeightM + highM, Start.GroundMs, Start.SinkMs)],
    };

    private static NextApproach Next(AdjustLimits limits, Delivery d) => Adjuster.Next([d, d, d], limits, Settings);

    // Closed form: over the tree the load's underside must be 25 + 5 m up; the hook hangs one contact length higher, and the start mark lies higher still.
    [Fact]
    public void From_ObstacleUnderTheWay_LowestStartHeightClearsIt()
    {
        Assert.True(Plan.IsOffered, ApproachJobs.Said(Plan));
        double lowest = AdjustLimits.From(Setup).LowestStartHeightM!.Value;
        Assert.InRange(lowest, 25 + 5 + Plan.Situation!.ContactLengthM, Start.HookHeightM);
    }

    // Closed form: the plan's own limit stops the advice, and without a plan the same deliveries get it.
    [Fact]
    public void Next_LowerThanTheTreePermits_DroppedAndTheObstacleNamed()
    {
        AdjustLimits limits = AdjustLimits.From(Setup);
        // Flown far above a plan that lies under what the tree permits: what is asked back would lead into it.
        AdjustSettings low = Settings with { Plan = Settings.Plan! with { Knobs = Settings.Plan.Knobs with { StartHeightM = limits.LowestStartHeightM!.Value - 15 } } };
        Delivery[] flown = [.. Enumerable.Repeat(Flown(limits.LowestStartHeightM.Value + 5 - Start.HookHeightM), 3)];
        Assert.Contains("lower", Adjuster.Next(flown, new(), low).Line, StringComparison.Ordinal);
        NextApproach held = Adjuster.Next(flown, limits, low);
        Assert.Contains("obstacle height at the start mark", Assert.Single(held.Stopped), StringComparison.Ordinal);
        Assert.DoesNotContain("lower", held.Line, StringComparison.Ordinal);
    }

    // Closed form: the receiver stands left of the way (west of a course north): lining up further left is stopped.
    [Fact]
    public void Next_TowardsThePerson_DroppedAndTheCrewNamed()
    {
        AdjustLimits limits = AdjustLimits.From(Setup);
        Assert.Equal(Side.Left, limits.CrewSide);
        Delivery right = Flown() with { Faults = [Fault.LateralOffset], MainFault = Fault.LateralOffset, LineUpErrorM = 6 };
        Assert.Contains("the crew stands on the left", Assert.Single(Next(limits, right).Stopped), StringComparison.Ordinal);
        Assert.Empty(Next(limits with { CrewSide = Side.None }, right).Stopped);
    }

    // Closed form: hover mass over gross mass to the power 1.5 is the power there is over that of the hover.
    [Fact]
    public void From_HoverOfThePlan_HoldsTheTorque()
    {
        AdjustLimits limits = AdjustLimits.From(Setup);
        Assert.Equal(100, limits.MaxTorquePercent);
        Assert.Equal(100 / Plan.Situation!.Hover!.Value, limits.HoverTorquePercent!.Value, 1e-9);
        Assert.Equal(Plan.Situation.SinkLimit.At(Plan.Way!.Path.Hanging.AirspeedMs(Plan.Way.Path.Shape.EntryMs)) + Start.GroundMs * Plan.Situation.ContactLengthM / Start.DistanceM, limits.SinkGateMs!.Value, 0.05);
    }
}
