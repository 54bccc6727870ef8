using Stillhook.Debriefing;

namespace Stillhook.Tests.Debriefing;

// Closed form throughout: the thresholds of FaultSettings applied by hand.
public class FaultRulesTests
{
    private static readonly Delivery Clean = new()
    {
        OvershootM = 1, StopShortM = 2, PeakDecelMs2 = 1, EntrySpeedMs = 18, StartHeightM = 110, LineUpErrorM = -1, HoverTimeS = 15, SinkLast15Ms = 0.5,
    };

    private static Delivery Last(Delivery delivery, int cleanBefore = 3, LiftSetup? setup = null, int goArounds = 0)
    {
        List<Rotation> rotations = [.. Enumerable.Range(1, cleanBefore).Select(i => new Rotation { Number = i, Confidence = Confidence.Medium, Delivery = Clean })];
        rotations.Add(new() { Number = cleanBefore + 1, Confidence = Confidence.Medium, Delivery = delivery, GoArounds = goArounds });
        return FaultRules.Name(rotations, setup ?? new(), new())[^1].Delivery!;
    }

    [Fact]
    public void Name_CleanDelivery_NoFault()
    {
        Assert.Empty(Last(Clean).Faults);
        Assert.Equal(Fault.None, Last(Clean).MainFault);
    }

    public static TheoryData<Fault, double> Single => new()
    {
        { Fault.Overshoot, 5 }, { Fault.Undershoot, 11 }, { Fault.AbruptSlowdown, 1.8 }, { Fault.FastEntry, 21 }, { Fault.HighStart, 131 },
        { Fault.LowStart, 94 }, { Fault.LateralOffset, -6 }, { Fault.HoverWait, 31 }, { Fault.LateSink, 1 },
    };

    [Theory]
    [MemberData(nameof(Single))]
    public void Name_OneMeasureOver_OnlyThatFault(Fault fault, double value)
    {
        Delivery d = fault switch
        {
            Fault.Overshoot => Clean with { OvershootM = value },
            Fault.Undershoot => Clean with { StopShortM = value },
            Fault.AbruptSlowdown => Clean with { PeakDecelMs2 = value },
            Fault.FastEntry => Clean with { EntrySpeedMs = value },
            Fault.HighStart or Fault.LowStart => Clean with { StartHeightM = value },
            Fault.LateralOffset => Clean with { LineUpErrorM = value },
            Fault.HoverWait => Clean with { HoverTimeS = value },
            _ => Clean with { SinkLast15Ms = value },
        };
        Assert.Equal([fault], Last(d).Faults);
        Assert.Equal(fault, Last(d).MainFault);
    }

    [Fact]
    public void Name_GoAround_Fires() => Assert.Equal(Fault.GoAround, Last(Clean, goArounds: 1).MainFault);

    [Fact]
    public void Name_TwoFaults_MainIsFurthestInSpreads()
    {
        // Overshoot 1.2 m over is 1 spread; hover 30 s over is 5 spreads.
        Delivery d = Last(Clean with { OvershootM = 5.6, HoverTimeS = 60 });
        Assert.Equal([Fault.HoverWait, Fault.Overshoot], d.Faults);
        Assert.Equal(Fault.HoverWait, d.MainFault);
    }

    [Fact]
    public void Name_FewDeliveries_RelativeRulesAreSilentWithoutAPlan() =>
        Assert.Empty(Last(Clean with { StartHeightM = 200, EntrySpeedMs = 30 }, cleanBefore: 1).Faults);

    [Fact]
    public void Name_FewDeliveries_PlanStandsIn() =>
        Assert.Equal([Fault.HighStart], Last(Clean with { StartHeightM = 200 }, 0, new() { Gates = [new(500, 110, 18, 2)] }).Faults);

    [Fact]
    public void Name_NothingMeasured_NoFault() => Assert.Empty(Last(new Delivery()).Faults);
}
