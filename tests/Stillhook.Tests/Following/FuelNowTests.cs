using Stillhook.Debriefing;
using Stillhook.Following;
using Stillhook.Planning;
using Stillhook.Planning.Payload;
using Stillhook.Reporting;
using UnitsNet;

namespace Stillhook.Tests.Following;

/// <summary>Fuel aboard now and what the loads may weigh with it. Closed form throughout: the plan burns 150 kg/h whatever it does, 2.5 kg a minute.</summary>
public class FuelNowTests
{
    private static readonly LiftPlan Plan = Job.Plan(
        Planning.Jobs.Job(Planning.Jobs.Aircraft(Planning.Jobs.FlatChart(2400)), [Planning.Jobs.Site("road", SiteUse.PickUp, 400, 12), Planning.Jobs.Site("ridge", SiteUse.Delivery, 640, 12, 46.905)],
            Planning.Jobs.Load("1", 700), Planning.Jobs.Load("2", 650)), new());

    // The plan rounds the burn of each short leg up to 0.1 kg: 2 % here.
    private const double GridKg = 0.7;

    private static FlownTime Flown(params Stretch[] air) => FlownTime.Of([new(0, "", new(0, 10_000), air, [], null, null)]);

    private static FuelNow Now(double nowS, FlownTime flown, FuelEntry[] entries, params Stretch[] stops) => FuelNow.Of(Plan, entries, flown, stops, nowS, s => FormattableString.Invariant($"t{s:0}"));

    // Closed form: 200 kg at 100 s, 12 min flown since: 200 - 30.
    [Fact]
    public void Of_GaugeEntered_LessTheBurnOfTheTimeFlownSince()
    {
        FuelNow fuel = Now(1000, Flown(new Stretch(0, 500), new Stretch(600, 920)), [new(100, 200, null)]);
        Assert.Equal(200 - 2.5 * 12, fuel.Kg!.Value, GridKg);
        Assert.StartsWith("200 kg entered at t100, less 12 min flown at the plan's 2.5 kg/min", fuel.Words, StringComparison.Ordinal);
        // Taken on since counts; what is written for later doesn't.
        Assert.Equal(200 - 2.5 * 12 + 60, Now(1000, Flown(new Stretch(0, 500), new Stretch(600, 920)), [new(100, 200, null), new(550, null, 60), new(2000, 90, null)]).Kg!.Value, GridKg);
    }

    // Closed form: the plan's start fuel less 4 min.
    [Fact]
    public void Of_NothingEntered_IsThePlansAndSaysSo()
    {
        FuelNow fuel = Now(240, Flown(new Stretch(0, 240)), []);
        Assert.Equal(Plan.Order!.Timeline.Steps[0].FuelFromKg - 10, fuel.Kg!.Value, GridKg);
        Assert.StartsWith("from the plan", fuel.Words, StringComparison.Ordinal);
        Assert.Contains("nobody entered", fuel.Words, StringComparison.Ordinal);
    }

    // Closed form: after a stand at the fuel site nobody can tell, until somebody writes.
    [Fact]
    public void Of_StoodAtTheFuelSite_NoFigureUntilItIsEntered()
    {
        FlownTime flown = Flown(new Stretch(0, 600), new Stretch(900, 1200));
        Stretch stop = new(600, 900);
        Assert.Null(Now(1200, flown, [new(10, 200, null)], stop).Kg);
        Assert.Contains("stood at the fuel site at t600", Now(1200, flown, [new(10, 200, null)], stop).Words, StringComparison.Ordinal);
        Assert.Equal(240 - 2.5 * 5, Now(1200, flown, [new(10, 200, null), new(880, 240, null)], stop).Kg!.Value, GridKg);
        Assert.Null(FuelNow.Of(null, [new(10, 200, null)], flown, [], 1200, _ => "").Kg);
        // More flown than there was fuel for: no figure below zero.
        Assert.Null(Now(10_000, Flown(new Stretch(0, 9000)), [new(10, 200, null)]).Kg);
    }

    // Closed form: 50 kg more fuel are 50 kg less load; with the plan's own fuel and hour it is the plan's own figure.
    [Fact]
    public void PayloadNow_IsThePlansOwnPayloadWithAnotherFuel()
    {
        LoadPlan first = Plan.Loads[0];
        double planned = first.Payload!.Governing.AllowedKg, fuelKg = first.Payload.Governing.FuelKg;
        PayloadNow At(double kg) => PayloadNow.Of(Plan, new(), new(FuelNow.Key, "fuel", Amount.Kilograms(kg), "", [], ""), first.Lift!.HookOnMinute, ["1", "2"]);
        Assert.Equal(planned, At(fuelKg).Loads[0].Payload.Governing.AllowedKg);
        Assert.Equal(planned - 50, At(fuelKg + 50).Loads[0].Payload.Governing.AllowedKg, 1.0);
        Assert.False(At(fuelKg).Loads[0].IsOver);
        // 2400 kg - 1420 kg operating - 45 kg kit leave 935 kg for load and fuel: 700 kg lift with up to 235 kg of fuel.
        Assert.Equal([false, false], At(235).Loads.Select(l => l.IsOver));
        Assert.Equal([true, false], At(236).Loads.Select(l => l.IsOver));
        Assert.Equal(Mass.FromKilograms(699), At(236).Figures.Find(PayloadCalculator.KeyOf("1"))!.Value.Quantity);
    }

    // Closed form: a minute near the site counts, half a minute or a kilometre off doesn't.
    [Fact]
    public void StopsForFuel_AreStandsAtTheFuelSite()
    {
        Place there = new(46.9, 10.1), off = new(46.91, 10.1);
        Assert.Equal([new Stretch(100, 200)], FuelNow.StopsForFuel(Plan.Request, [new(new(0, 30), there), new(new(100, 200), there), new(new(300, 400), off), new(new(500, 700), null)]));
    }
}
