using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Planning.Ordering;
using Stillhook.Reporting;
using Stillhook.Tests.Planning;

namespace Stillhook.Tests.Reporting;

public class HoverFuelTests
{
    private static readonly LiftRequest Request = Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(3600)), [Jobs.Site("yard", SiteUse.PickUp, 500, 10), Jobs.Site("spot", SiteUse.Delivery, 500, 10)], Jobs.Load("1", 600), Jobs.Load("2", 620));

    private static readonly LiftPlan Plan = Job.Plan(Request, new());

    private static KeptLift Lift(string? load) => new() { Number = 1, LoadNumber = load, PickUpTimeS = 1000, DeliveryTimeS = 1100, LoadKg = 600 };

    private static FlownTime Flown(double fromS, double toS) => FlownTime.Of([new(1, "day", new(fromS, toS), [new(fromS, toS)], [], null, null)]);

    // Closed form: 200 kg read at 0 s, 100 kg at 2 000 s, flown all the time: 150 kg half-way.
    [Fact]
    public void At_GaugeReadings_EvenUseBetweenThem()
    {
        FlownTime flown = Flown(0, 2000);
        HoverFuel fuel = new(Request, Plan, FuelUse.Of([new(0, 200, null), new(2000, 100, null)], [], flown), flown);
        Assert.Equal(new FuelOnBoard(150, FuelFrom.Gauge), fuel.At(Lift("1"), 1000));
        // After the last reading the plan stands in.
        Assert.Equal(FuelFrom.Plan, fuel.At(Lift("1") with { PickUpTimeS = 2990, DeliveryTimeS = 3010 }, 3000)!.Value.From);
    }

    // Closed form: half-way from hook-on to release half of the step's fuel is used.
    [Fact]
    public void At_NoReadings_PlanOfThatLoad()
    {
        LiftStep step = Plan.Order!.Lifts.Single(l => l.Number == "2");
        FuelOnBoard found = new HoverFuel(Request, Plan).At(Lift(" 2 "), 1050)!.Value;
        Assert.Equal(FuelFrom.Plan, found.From);
        Assert.Equal((step.FuelFromKg + step.FuelToKg) / 2, found.Kg, 1e-9);
    }

    // Closed form: without a plan half of the 300 kg tank; without a tank nothing.
    [Fact]
    public void At_NothingKnown_AssumedAndSaidSo()
    {
        Assert.Equal(new FuelOnBoard(150, FuelFrom.Assumed), new HoverFuel(Request, null).At(Lift(null), 1050));
        Assert.Equal(FuelFrom.Assumed, new HoverFuel(Request, Plan).At(Lift(null), 1050)!.Value.From);
        Assert.Null(new HoverFuel(Request with { Aircraft = Request.Aircraft! with { Fuel = null } }, null).At(Lift("1"), 1050));
    }

    // Closed form: 30 kg more fuel are 30 kg more mass; a hover whose fuel was never told stays.
    [Fact]
    public void BringUpToDate_ReadingsCameLater_MassFollows()
    {
        FlownTime flown = Flown(0, 2000);
        HoverFuel fuel = new(Request, Plan, FuelUse.Of([new(0, 200, null), new(2000, 100, null)], [], flown), flown);
        HoverPoint kept = new(1000, "own", null, 1200, 2000, 80, null, 600, 120, FuelFrom.Plan), untold = new(1000, "own", null, 1200, 2000, 80, null);
        IReadOnlyList<HoverPoint> now = fuel.BringUpToDate([kept, untold], [Lift("1")]);
        Assert.Equal(kept with { GrossKg = 2030, FuelKg = 150, FuelFrom = FuelFrom.Gauge }, now[0]);
        Assert.Equal(untold, now[1]);
    }
}
