using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Planning.Payload;
using UnitsNet;

namespace Stillhook.Tests.Planning;

/// <summary>The worked examples that a lift plan is held to.</summary>
public class PlannerTests
{
    private static LiftRequest OneHoverMass(double loadKg, bool construction) => Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(2600)),
        [Jobs.Site("yard", SiteUse.PickUp, 400, 12), Jobs.Site("roof", SiteUse.Delivery, 500, 12, 46.905)],
        Jobs.Load("1", loadKg) with { Construction = construction }) with
    { Day = new() { Start = new TimeOnly(8, 0), StartFuel = Jobs.Kg(300) } };

    // Closed form: hover 2600, empty and crew 1420, fuel 300, kit 45: 835 kg; construction 10 % less, 751.5, rounded down.
    [Theory]
    [InlineData(false, 835)]
    [InlineData(true, 751)]
    public void Plan_HoverMass2600_AllowsWhatIsLeft(bool construction, double allowed)
    {
        LiftPlan plan = Planner.Plan(OneHoverMass(700, construction), new());

        LoadPlan load = Assert.Single(plan.Loads);
        Assert.Equal(LoadVerdict.Lifts, load.Verdict);
        Assert.Equal(allowed, load.Payload!.Governing.AllowedKg);
        Assert.Equal(LoadLimitedBy.HoverMass, load.Payload.Governing.LimitedBy);
        Assert.Equal(1420, ((Mass)plan.Figures.Find("operating")!.Value.Quantity).Kilograms, 1e-9);
    }

    [Theory]
    [InlineData(751, true)]
    [InlineData(760, false)]
    public void Plan_ConstructionLoadAroundTheLimit_IsTakenOrRefused(double kg, bool lifts)
    {
        LiftPlan plan = Planner.Plan(OneHoverMass(kg, construction: true), new());
        Assert.Equal(lifts, plan.AllLift);
        Assert.Equal(lifts ? LoadVerdict.Lifts : LoadVerdict.DoesNotLift, plan.Loads[0].Verdict);
    }

    // A page with 0.1 kg less for each metre and 10 kg less for each °C.
    private static HoverChart LinearChart() => new()
    {
        Source = "invented page",
        PressureAltitude = [Length.FromMeters(0), Length.FromMeters(2000)],
        Temperature = [Jobs.C(0), Jobs.C(40)],
        Mass = [[Jobs.Kg(2800), Jobs.Kg(2400)], [Jobs.Kg(2600), Jobs.Kg(2200)]],
    };

    [Fact]
    public void Plan_PickUpAt400MDropAt1650M_UsesTheDropShowsBothAndTheHourTheHeaviestStopsFitting()
    {
        Site yard = Jobs.Site("yard", SiteUse.PickUp, 400, 12), ridge = Jobs.Site("ridge", SiteUse.Delivery, 1650, 12, 46.905) with
        {
            Forecast = [new() { Hour = new TimeOnly(14, 0), Temperature = Jobs.C(24) }],
        };
        LiftRequest job = Jobs.Job(Jobs.Aircraft(LinearChart()), [yard, ridge], Jobs.Load("1", 500), Jobs.Load("2", 770)) with
        {
            Day = new() { Start = new TimeOnly(8, 0), StartFuel = Jobs.Kg(200) },
        };
        LiftPlan plan = Planner.Plan(job, new());

        LoadPlan heaviest = plan.Loads[1];
        Assert.Equal(LoadVerdict.Lifts, heaviest.Verdict);
        LoadPayload payload = heaviest.Payload!;
        double fuel = heaviest.Lift!.FuelFromKg;
        // Closed form: hover mass = 2800 − 0.1·altitude − 10·temperature, the aircraft 30 m of line above the site; hottest in the hour and ten minutes from 08:00, at 12 °C and 24 °C at 14:00,
        // is 12 + 2·70/60 = 14.3333 °C at the ridge; 12 °C all day in the yard. Less 1420, fuel and 45.
        Assert.Equal(Math.Floor(2800 - 43 - 120 - 1420 - 45 - fuel), payload.PickUp.AllowedKg);
        Assert.Equal(Math.Floor(2800 - 168 - 143.3333 - 1420 - 45 - fuel), payload.Delivery.AllowedKg);
        Assert.Equal("ridge", payload.Governing.At.Site.Name);
        // Stops fitting where 2800 − 168 − 10·T − 1465 − fuel = 770, and the forecast rises 2 °C an hour from 08:00.
        double stopsC = (2800 - 168 - 1465 - fuel - 770) / 10;
        Assert.Equal(stopsC, heaviest.Hot!.TemperatureC, 0.06);
        Assert.Equal(480 + (stopsC - 12) / 2 * 60, heaviest.Hot.Minute!.Value, 3.0);
    }

    private static TorqueChart Torque(double at2000Kg) => new()
    {
        Source = "invented page",
        PressureAltitude = [Length.FromFeet(-1000), Length.FromFeet(10_000)],
        Temperature = [Jobs.C(-20), Jobs.C(45)],
        Mass = [Jobs.Kg(1000), Jobs.Kg(2000), Jobs.Kg(3000)],
        Torque = [.. Enumerable.Repeat<IReadOnlyList<IReadOnlyList<Ratio?>>>([.. Enumerable.Repeat<IReadOnlyList<Ratio?>>(
            [Ratio.FromPercent(at2000Kg / 2), Ratio.FromPercent(at2000Kg), Ratio.FromPercent(at2000Kg * 1.5)], 2)], 2)],
    };

    // 2026-11-25: without a power margin the torque page was not read at all. Closed form: 80 % at 2000 kg and 120 % at 3000 kg reach a limit of 90 % at 2250 kg;
    // less 1420, 300 of fuel and 45 of kit that is 485 kg.
    [Fact]
    public void Plan_TorqueLimitBelowTheHoverCeiling_Limits()
    {
        LiftRequest job = OneHoverMass(400, construction: false);
        job = job with { Aircraft = job.Aircraft! with { HoverTorque = Torque(80), TorqueLimit = Ratio.FromPercent(90) } };
        LoadPayload payload = Planner.Plan(job, new()).Loads[0].Payload!;
        Assert.Equal((485, LoadLimitedBy.PowerMargin), (payload.Governing.AllowedKg, payload.Governing.LimitedBy));
    }

    // Closed form: without a torque limit 100 % stands, reached at 2000 kg; less 1420, 300 of fuel and 45 of kit that is 235 kg.
    [Fact]
    public void Plan_NoTorqueLimit_OneHundredPercentLimits()
    {
        LiftRequest job = OneHoverMass(200, construction: false);
        job = job with { Aircraft = job.Aircraft! with { HoverTorque = Torque(100) } };
        LoadPayload payload = Planner.Plan(job, new()).Loads[0].Payload!;
        Assert.Equal((235, LoadLimitedBy.PowerMargin), (payload.Governing.AllowedKg, payload.Governing.LimitedBy));
    }

    // Closed form: a hook for 600 kg carries 555 kg below 45 kg of kit, whatever the air allows.
    [Theory]
    [InlineData(555, true)]
    [InlineData(556, false)]
    public void Plan_WeakHook_TakesWhatIsLeftBelowTheKit(double kg, bool lifts)
    {
        LiftRequest job = OneHoverMass(kg, construction: false);
        LiftPlan plan = Planner.Plan(job with { Aircraft = job.Aircraft! with { HookLimit = Jobs.Kg(600) } }, new());
        Assert.Equal(lifts, plan.AllLift);
        if (!lifts)
            Assert.Contains("the cargo hook carries 555 kg of load; 556 kg must be planned for", plan.Loads[0].Why, StringComparison.Ordinal);
    }

    // From memory: the form's columns. Closed form: 2600 less 100 against a limit of 2400 internal, and 2600 against 2800 outside, reduced only where it is agreed.
    [Fact]
    public void Form_OfASite_HasAColumnForEveryLimit()
    {
        LiftRequest job = OneHoverMass(400, construction: false);
        Aircraft aircraft = job.Aircraft! with { GrossLimit = Jobs.Kg(2400), ExternalGrossLimit = Jobs.Kg(2800), WeightReduction = Jobs.Kg(100), HoverInGroundEffect = Jobs.FlatChart(2900) };
        SiteHour ridge = Planner.Plan(job, new()).Loads[0].Payload!.Governing.At;
        IReadOnlyList<InteragencyColumn> Columns(Aircraft a, bool reduced) => InteragencyForm.At(a, ridge, 1720, reduced).Columns;
        Assert.Equal([("HIGE", 680.0), ("HOGE", 680), ("HOGE-J", 880)], Columns(aircraft, false).Select(c => (c.Name, c.AllowableKg)));
        Assert.Equal([("HIGE", 680.0), ("HOGE", 680), ("HOGE-J", 780)], Columns(aircraft, true).Select(c => (c.Name, c.AllowableKg)));
        Assert.Equal(["HOGE", "HOGE-J"], Columns(aircraft with { HoverInGroundEffect = null }, false).Select(c => c.Name));
        Assert.Equal(["HOGE-J"], Columns(aircraft with { GrossLimit = null }, false).Select(c => c.Name));
    }

    // 2026-11-25: a load that must come after one that fails was flown without it; letter case in 'after' hid the tie.
    [Fact]
    public void Plan_LoadBehindOneThatFails_IsNotFlown()
    {
        LiftRequest job = OneHoverMass(700, construction: false);
        PlannedLoad first = job.Loads[0] with { Number = "A", Attachment = new() { Legs = 1, LegAngle = Angle.FromDegrees(90), Sling = new() { Name = "sling", Kind = PartKind.TextileSling, Mass = Jobs.Kg(3) } } };
        PlannedLoad second = Jobs.Load("B", 300) with { After = ["a"] };
        LiftPlan plan = Planner.Plan(job with { Loads = [first, second] }, new());
        Assert.All(plan.Loads, l => Assert.Equal(LoadVerdict.DoesNotLift, l.Verdict));
        Assert.Contains("must come after load a", plan.Loads[1].Why, StringComparison.Ordinal);
        LiftPlan inOrder = Planner.Plan(job with { Loads = [second, first with { Attachment = null }] }, new());
        Assert.Equal(["A", "B"], inOrder.Order!.Lifts.Select(l => l.Number));
    }

    // 2026-11-25: a pilot said not to be aboard, or parts without mass, made a heavier load lift.
    [Fact]
    public void Plan_NobodyAboardOrUnknownKit_IsNotPlanned()
    {
        LiftRequest job = OneHoverMass(700, construction: false);
        Assert.False(Planner.Plan(job with { Crew = [job.Crew[0] with { Aboard = false, Mass = null }] }, new()).IsPlanned);
        Assert.False(Planner.Plan(job with { Rigging = [] }, new()).IsPlanned);
        Assert.False(Planner.Plan(job with { Rigging = [job.Rigging[0] with { Mass = null }] }, new()).IsPlanned);
    }

    // 2026-11-25: yesterday's cold reading took the place of today's forecast; a forecast hour without QNH jumped back to the morning's.
    [Fact]
    public void WeatherOf_OtherDaysReadingAndGapsInQnh_TakeTheForecast()
    {
        Site site = Jobs.Site("ridge", SiteUse.Delivery, 640, 12) with
        {
            Weather = new() { Time = new DateTimeOffset(2026, 5, 31, 14, 0, 0, TimeSpan.Zero), Qnh = Pressure.FromHectopascals(1030), Temperature = Jobs.C(-5) },
            Forecast =
            [
                new() { Hour = new TimeOnly(11, 0), Temperature = Jobs.C(15), Qnh = Pressure.FromHectopascals(985) },
                new() { Hour = new TimeOnly(14, 0), Temperature = Jobs.C(18) },
            ],
        };
        LiftRequest job = Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(2600)), [site]);
        DayWeather day = new PlanOptions().WeatherOf(job, site);
        Assert.Equal((18, 98_500), (Math.Round(day.At(840).TemperatureC, 6), Math.Round(day.At(840).QnhPa)));
        DayWeather same = new PlanOptions().WeatherOf(job with { Date = new DateOnly(2026, 5, 31) }, site);
        Assert.Equal(-5, same.At(840).TemperatureC, 1e-9);
    }

    // 2026-11-25: past midnight the morning's air of the same day was taken, and loads lifted in it.
    [Fact]
    public void Plan_StartJustBeforeMidnight_EndsWithTheDay()
    {
        LiftRequest job = OneHoverMass(700, construction: false) with { Day = new() { Start = new TimeOnly(23, 58) } };
        LiftPlan plan = Planner.Plan(job, new());
        Assert.False(plan.AllLift);
        Assert.Contains("00:00", plan.Loads[0].Why, StringComparison.Ordinal);
    }

    // From memory: the form's lines; invented figures worked by hand: 5000 − 3260, 4700 − 180 − 3260, min(5150 − 180, 4850) − 3260, in lb.
    [Theory]
    [InlineData("HOGE-J", 5000, 0, 5500, 1740)]
    [InlineData("HOGE", 4700, 180, 4850, 1260)]
    [InlineData("HIGE", 5150, 180, 4850, 1590)]
    public void Column_WorkedExample_AllowsTheDifference(string name, double chart, double reduction, double limit, double allowable) =>
        Assert.Equal(allowable, InteragencyForm.Column(name, chart, reduction, limit, 2650 + 190 + 60 * 7.0).AllowableKg, 1e-9);
}
