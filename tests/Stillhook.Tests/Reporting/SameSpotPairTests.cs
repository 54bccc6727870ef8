using Stillhook.Debriefing;
using Stillhook.Reporting;
using static Stillhook.Tests.Reporting.Days;

namespace Stillhook.Tests.Reporting;

public class SameSpotPairTests
{
    private static KeptLift Delivered(int number, double atS, double hoverS, double approachS, Delivery measures, double latitude = 46.9) => new()
    {
        Number = number, FlightId = 1, Family = "stone", LineM = 30, Delivery = new(latitude, 10.1), Measures = measures,
        ApproachStartTimeS = atS - hoverS - approachS, StopTimeS = atS - hoverS, DeliveryTimeS = atS, ClearTimeS = atS + 5,
    };

    private static readonly KeptLift High = Delivered(1, At(10), 38, 34, new() { StartHeightM = 95, EntrySpeedMs = 17, OvershootM = 6.2, Smoothness = -2.1, SwingAfterStopM = new(2.4, 2, 3), Corrections = 6 });
    private static readonly KeptLift Steady = Delivered(2, At(30), 12, 33, new() { StartHeightM = 68, EntrySpeedMs = 16.5, OvershootM = 0.8, Smoothness = -1.6, SwingAfterStopM = new(0.9, 0.7, 1.2), Corrections = 2 });

    // Closed form: hover 26 s shorter, approach 1 s shorter, clearing the same: 27 s. Start height changed by 27 / 5 = 5.4 spreads, overshoot by 5.4 / 1.2 = 4.5, entry speed by 0.5.
    [Fact]
    public void Compare_HighThenSteady_WhatDifferedAndWhatItSaved()
    {
        SameSpotPair pair = SameSpotPair.Compare(High, Steady);
        Assert.Equal(-27, pair.TimeChangeS!.Value, 1e-6);
        Assert.Equal([-1.0, -26.0, 0.0], pair.Parts.Select(p => Math.Round(p.ChangeS, 6)));
        Assert.Equal(["start height, m", "past the spot, m", "swing after the stop, m"], pair.Differences.Take(3).Select(d => d.Name));
        Assert.Equal(5.4, pair.Differences[0].InSpreads, 1e-9);
        Assert.Equal(0.5, pair.Smoothness!.Change, 1e-9);
        Assert.DoesNotContain(pair.Differences, d => d.Name.StartsWith("peak", StringComparison.Ordinal)); // not measured
    }

    // First and last of one pilot, spot and kind; another spot, another pilot or another kind is another pair.
    [Fact]
    public void Of_Day_OnePairAPilotSpotAndKind()
    {
        KeptLift between = Delivered(3, At(20), 20, 30, new()), elsewhere = Delivered(4, At(40), 20, 30, new(), 46.91);
        KeptLift others = Delivered(1, At(50), 20, 30, new()) with { FlightId = 2 };
        DayWork work = Day() with { Flights = [Flight(From(0, 45)), Flight(From(45, 60)) with { Id = 2, Pilot = "B. Pilot" }], Lifts = [Steady, High, between, elsewhere, others, High with { Number = 9, DeliveryTimeS = At(44), StruckOut = true }] };
        SameSpotPair pair = Assert.Single(SameSpotPair.Of(work));
        Assert.Equal((1, 2), (pair.Earlier.Number, pair.Later.Number));
    }

    [Fact]
    public void Compare_MissingTimes_NoTimeIsTold() => Assert.Null(SameSpotPair.Compare(High with { StopTimeS = null }, Steady).TimeChangeS);

    [Fact]
    public void Compare_NotMeasured_IsRefused() => Assert.Throws<ArgumentException>(() => SameSpotPair.Compare(High, Steady with { Measures = null }));

    // Closed form: 0 + 2.5 + 4 s over people; one lift unknown, one struck out.
    [Fact]
    public void CrewExposure_Of_SumAndTheLongestFirst()
    {
        KeptLift Over(int n, double? s) => Lift(n, n) with { Measures = new() { SecondsOverPeople = s } };
        CrewExposure exposure = CrewExposure.Of([Over(1, 0), Over(2, 2.5), Over(3, 4), Over(4, null), Over(5, 60) with { StruckOut = true }]);
        Assert.Equal(6.5, exposure.Seconds!.Value, 1e-9);
        Assert.Equal([3, 2], exposure.Over.Select(l => l.Number));
        Assert.Equal((3, 1), (exposure.LiftsKnown, exposure.LiftsUnknown));
        Assert.Null(CrewExposure.Of([Over(4, null)]).Seconds);
    }
}
