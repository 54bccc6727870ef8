using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Tests.Approaching;
using UnitsNet;

namespace Stillhook.Tests.Debriefing;

/// <summary>Whose marks stand: a card's, those entered to be flown, the planned approach's. 2026-11-26: entered gates stood over the planned approach without a word.</summary>
public class MarksInForceTests
{
    private static readonly DateTimeOffset At = new(2026, 6, 1, 8, 12, 0, TimeSpan.FromHours(2));

    private static readonly LiftRequest Entered = ApproachJobs.Job() with
    {
        Gates = [new() { Distance = Length.FromMeters(360), HeightAboveTarget = Length.FromFeet(300), GroundSpeed = Speed.FromKnots(33), Sink = Speed.FromFeetPerMinute(500) }],
    };

    private static readonly Lazy<ApproachPlan> Planned = new(() => ApproachJobs.Plan(ApproachJobs.Job()));

    [Theory]
    [InlineData(null, false, MarksOf.Plan, "planned approach")]
    [InlineData(false, false, MarksOf.Plan, "planned approach")]
    [InlineData(true, false, MarksOf.Entered, "gates entered in the job")]
    [InlineData(null, true, MarksOf.Card, "card of 08:12")]
    [InlineData(true, true, MarksOf.Card, "card of 08:12")]
    public void On_EnteredGates_StandOnlyWhereTheJobSaysToFlyThemAndNoCardIsIssued(bool? fly, bool card, MarksOf of, string words)
    {
        LiftSetup setup = MarksInForce.On(LiftSetup.From(Entered with { FlyEnteredGates = fly }), Planned.Value, card ? At : null);
        Assert.Equal((of, words), (setup.Marks.Of, setup.Marks.Words));
        double startM = of == MarksOf.Entered ? 360 : Planned.Value.Gates[0].DistanceM;
        Assert.Equal(startM, setup.Gates[0].DistanceM);
        Assert.Equal(of == MarksOf.Entered, setup.Approach is null);
    }

    [Theory]
    [InlineData(null, MarksOf.Nobody, 0)]
    [InlineData(true, MarksOf.Entered, 1)]
    public void On_NoPlannedApproach_TakesNoGatesUnasked(bool? fly, MarksOf of, int gates)
    {
        LiftSetup setup = MarksInForce.On(LiftSetup.From(Entered with { FlyEnteredGates = fly }), null, null);
        Assert.Equal((of, gates), (setup.Marks.Of, setup.Gates.Count));
    }

    [Fact]
    public void Plan_EnteredGatesToBeFlown_SaysThatTheMarksAreNotThose()
    {
        Assert.Contains(ApproachJobs.Plan(Entered with { FlyEnteredGates = true }).Checks, c => c is { Code: "entered-gates", Red: true });
        Assert.DoesNotContain(Planned.Value.Checks, c => c.Code == "entered-gates");
    }
}
