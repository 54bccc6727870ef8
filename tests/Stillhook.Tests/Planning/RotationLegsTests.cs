using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Tests.Briefing;
using UnitsNet;

namespace Stillhook.Tests.Planning;

/// <summary>Time of a leg, and the working of the day's flying time.</summary>
public class RotationLegsTests
{
    // Closed form: 1 000 m at 20 m/s is 50 s and 20 s of slow ends at 1 m/s²; 100 m don't reach 20 m/s, 2·√100 s; 300 m of climb at 3 m/s take 100 s.
    [Theory]
    [InlineData(1000, 0, 70)]
    [InlineData(100, 0, 20)]
    [InlineData(1000, 300, 100)]
    [InlineData(0, 0, 0)]
    public void LegSeconds_FromStandingToStanding_MatchesClosedForm(double distanceM, double climbM, double seconds) =>
        Assert.Equal(seconds, RotationLegs.LegSeconds(distanceM, 20, 1, climbM, 3), 1e-9);

    // Closed form: the way over each speed, and each minute's burn by what is done in it; 40 s of hovering at both ends. Burns differ, so that none can stand for another.
    [Fact]
    public void Leg_AtMeanSpeeds_TakesItsMinutesAndItsOwnBurn()
    {
        Site yard = Jobs.Site("yard", SiteUse.PickUp, 500, 15), ridge = Jobs.Site("ridge", SiteUse.Delivery, 900, 12, latitude: 46.91);
        Aircraft aircraft = Jobs.Aircraft(Jobs.FlatChart(2600));
        aircraft = aircraft with { Fuel = aircraft.Fuel! with { BurnEmpty = MassFlow.FromKilogramsPerHour(120), BurnLoaded = MassFlow.FromKilogramsPerHour(180), BurnHover = MassFlow.FromKilogramsPerHour(210) } };
        double way = RotationLegs.DistanceM(yard, ridge), back = way / (60 * 1852 / 3600.0) / 60, there = way / (40 * 1852 / 3600.0) / 60;
        Assert.InRange(way, 1170, 1190); // 0.01° of latitude, 1,112 m, and 400 m up
        RotationLegs legs = new(aircraft);
        (double minutes, double fuelKg) = legs.Empty(ridge, yard);
        Assert.Equal(back, minutes, 1e-9);
        Assert.Equal(back * 2, fuelKg, 1e-9);
        (minutes, fuelKg) = legs.Loaded(yard, ridge);
        Assert.Equal(there + 80 / 60.0, minutes, 1e-9);
        Assert.Equal(there * 3 + 80 / 60.0 * 3.5, fuelKg, 1e-9);
    }

    // 2026-11-26: flying time named no leg. Closed form: the three parts of its working add up to it, and each rotation's working to the rotation.
    [Fact]
    public void FlyingTime_OfTheExample_IsTheSumOfItsWorking()
    {
        LiftPlan plan = Job.Plan(BriefedJobs.Example, new());
        Figure flying = plan.Figures.Find("order.flying")!;
        double Minutes(FigureInput i) => ((Duration)i.Value.Quantity).Minutes;
        Assert.Equal(((Duration)flying.Value.Quantity).Minutes, flying.Inputs.Where(i => i.From != InputFrom.Figure).Sum(Minutes), 1e-6);
        Assert.Equal(plan.Order!.Timeline.FlyingMinutes, flying.Inputs.Where(i => i.From != InputFrom.Figure).Sum(Minutes), 1e-6);
        SpeedsGiven speeds = BriefedJobs.Example.Aircraft!.Speeds!;
        Assert.Equal(24 * (speeds.HoverAtPickUp + speeds.HoverAtDelivery).Minutes, Minutes(flying.Inputs.Single(i => i.Name == "48 hovers")), 1e-9);
        Assert.Contains("aircraft.speeds.cruise", flying.Note, StringComparison.Ordinal);
        Assert.Contains(plan.Order.Notes, n => n == flying.Note);
    }

    // Closed form: 24 rotations longer by 2·V/a in all, V 25 and 45 kt, a 0.08 g; the example's climb of 185 m in 1 011 m takes less than that. Rounded up on the order's grid of 0.01 min.
    [Fact]
    public void Cruise_Said_AddsTheSlowEndsToEveryRotation()
    {
        LiftRequest mean = BriefedJobs.Example, cruise = mean with { Aircraft = mean.Aircraft! with { Speeds = mean.Aircraft.Speeds! with { Cruise = true } } };
        LiftPlan a = Job.Plan(mean, new()), b = Job.Plan(cruise, new());
        double endsMin = (25 + 45) * 1852 / 3600.0 / (0.08 * 9.80665) / 60;
        Assert.Equal(endsMin, Rotation(b) - Rotation(a), 1e-6);
        Assert.InRange(b.Order!.Timeline.FlyingMinutes - a.Order!.Timeline.FlyingMinutes - 24 * endsMin, -0.5, 0.5);
        Assert.Equal(24 * endsMin, a.Order.SlowEnds!.Value.Minutes, 1e-6);
        Assert.Null(b.Order.SlowEnds);
        Assert.Contains(b.Defaults, d => d.Where == "aircraft.speeds.acceleration");
        Assert.DoesNotContain(b.Order.Notes, n => n.Contains("aircraft.speeds.cruise", StringComparison.Ordinal));
    }

    private static double Rotation(LiftPlan plan) => ((Duration)plan.Figures.All.Single(f => f.Key.StartsWith("rotation.", StringComparison.Ordinal)).Value.Quantity).Minutes;
}
