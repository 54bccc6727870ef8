using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;
using UnitsNet;

namespace Stillhook.Tests.Planning.Rechecking;

public class RecheckerTests
{
    // The way in runs due north; QNH 1014.
    private static LiftRequest Job()
    {
        Site yard = Jobs.Site("yard", SiteUse.PickUp, 400, 12), ridge = Jobs.Site("ridge", SiteUse.Delivery, 640.08, 12, 46.905);
        Site With(Site s) => s with { Weather = s.Weather! with { Qnh = Pressure.FromHectopascals(1014), Wind = new() { From = Angle.FromDegrees(10), Speed = Speed.FromKnots(12) } } };
        return Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(2600)), [With(yard), With(ridge)], Jobs.Load("1", 700), Jobs.Load("2", 650)) with
        {
            FlyEnteredGates = true,
            Gates = [new() { Distance = Length.FromMeters(300), HeightAboveTarget = Length.FromFeet(300), GroundSpeed = Speed.FromKnots(30), Sink = Speed.FromFeetPerMinute(400) }],
        };
    }

    // Common practice of 27 ft per hPa near sea level makes 81 ft; the standard atmosphere about 83 ft: 'about 80 ft'.
    [Fact]
    public void Compare_QnhFell3HPa_SaysTheAltimeterReadsAbout80FtHigh()
    {
        Recheck recheck = Rechecker.Compare(Job(), new(), new() { QnhPa = 101_100 });

        Change change = Assert.Single(recheck.Changes, c => c.Kind == ChangeKind.Do);
        Assert.Contains("1014 -> 1011 hPa: altimeter now reads about 80 ft high if not reset", change.Text, StringComparison.Ordinal);
        // Closed form: elevation 640.08 m = 2100 ft, 300 ft above it in air of 12 °C where standard is 15 − 6.5·0.64008 = 10.839 °C:
        // 300·(283.989/285.15) = 298.78 ft; 2398.78, rounded up to the 20 ft mark.
        GateReading gate = Assert.Single(recheck.Gates);
        Assert.Equal(2398.78, gate.UnroundedFt, 0.05);
        Assert.Equal(2400, gate.ReadingFt);
        Assert.Equal(1011, recheck.QnhHPa, 1e-9);
    }

    // 2026-11-26: only the first delivery site got its gates. Closed form: a second ridge 100 m higher, its gates 328 ft higher.
    [Fact]
    public void Compare_TwoDeliverySites_GatesOfBoth()
    {
        LiftRequest job = Job();
        Site ridge = job.Sites[1];
        Recheck recheck = Rechecker.Compare(job with { Sites = [.. job.Sites, ridge with { Name = "upper ridge", Elevation = ridge.Elevation + Length.FromMeters(100) }], Loads = [.. job.Loads.Select(l => l with { Delivery = "ridge" })] }, new(), new() { QnhPa = 101_100 });
        Assert.Equal(["ridge", "upper ridge"], recheck.Gates.Select(g => g.Site));
        Assert.Equal(328, recheck.Gates[1].UnroundedFt - recheck.Gates[0].UnroundedFt, 1.0);
    }

    // Closed form: 3 hPa are about 83 ft of pressure altitude.
    [Theory]
    [InlineData(80, true)]
    [InlineData(90, false)]
    public void Compare_PressureAltitudeMovedByTheOperatorsStep_AsksForANewLoadCalculation(double stepFt, bool asks) =>
        Assert.Equal(asks, Rechecker.Compare(Job() with { Policy = new() { ReplanAltitude = Length.FromFeet(stepFt) } }, new(), new() { QnhPa = 101_100 }).Changes.Any(c => c.Kind == ChangeKind.Stop));

    // Closed form: the way in runs due north, 12 kt from 010 are 12·cos 10° = 11.8 kt ahead, 8 kt from 180 all behind.
    [Fact]
    public void Compare_WindSwingsBehindTheApproach_SaysReBrief()
    {
        Recheck recheck = Rechecker.Compare(Job(), new(), new() { Wind = new Wind(180, Speed.FromKnots(8)) });

        Change stop = Assert.Single(recheck.Changes, c => c.Kind == ChangeKind.Stop);
        Assert.Contains("Re-brief", stop.Text, StringComparison.Ordinal);
        Assert.Contains("downwind by 8 kt, before into wind by 12 kt; across it 0 kt", stop.Text, StringComparison.Ordinal);
        Assert.Same(stop, recheck.Changes[0]);
    }

    [Fact]
    public void Compare_WindStaysAhead_SaysNothingOfABriefing() =>
        Assert.DoesNotContain(Rechecker.Compare(Job(), new(), new() { Wind = new Wind(330, Speed.FromKnots(15)) }).Changes, c => c.Kind == ChangeKind.Stop);

    // From memory: 5 °C ask for a new load calculation [NWCG-PMS-510]; 12 °C were planned.
    [Theory]
    [InlineData(16.9, false)]
    [InlineData(17.1, true)]
    public void Compare_TemperatureMovedByFiveDegrees_AsksForANewLoadCalculation(double celsius, bool asks) =>
        Assert.Equal(asks, Rechecker.Compare(Job(), new(), new() { TemperatureC = celsius }).Changes.Any(c => c.Kind == ChangeKind.Stop && c.Text.Contains("new load calculation", StringComparison.Ordinal)));

    // 2026-11-25: a colder or higher reading was carried through the day and made afternoon loads lift.
    [Fact]
    public void Compare_ColderAndHigherQnh_GiveNoLoadMore()
    {
        LiftRequest job = Job() with { Aircraft = Jobs.Aircraft(Jobs.FlatChart(2600)) };
        Recheck recheck = Rechecker.Compare(job, new(), new() { TemperatureC = 5, QnhPa = 103_000, FuelKg = 150 });
        Assert.Equal(recheck.Before.Air.Max(a => a.PressureAltitudeM), recheck.After.Air.Max(a => a.PressureAltitudeM), 1e-6);
        Assert.Equal(12, recheck.After.Air.Min(a => a.TemperatureC), 1e-9);
        Assert.Contains(recheck.Changes, c => c.Text.Contains("not counted", StringComparison.Ordinal));
    }

    [Fact]
    public void Compare_LoadsDeliveredAndFuelRead_PlansTheRest()
    {
        Recheck recheck = Rechecker.Compare(Job(), new(), new() { Delivered = ["1"], FuelKg = 120, Minute = 600 });

        LoadPlan left = Assert.Single(recheck.After.Loads);
        Assert.Equal("2", left.OnHook.Load.Number);
        Assert.Equal(120, recheck.After.Order!.Timeline.Steps[0].FuelFromKg, 1e-9);
        Assert.Equal(600, recheck.After.Order.Timeline.Steps[0].FromMinute, 1e-9);
        Assert.Equal("2", Assert.Single(recheck.Loads).Number);
        Assert.DoesNotContain(recheck.Changes, c => c.Text.Contains("Fuel aboard was not read", StringComparison.Ordinal));
        Assert.Contains(Rechecker.Compare(Job(), new(), new() { Minute = 600 }).Changes, c => c.Text.Contains("Fuel aboard was not read", StringComparison.Ordinal));
    }

    [Fact]
    public void Refuse_UnknownSiteOrLoad_NamesIt()
    {
        Assert.Contains("no site 'hut'", Rechecker.Refuse(Job(), new() { ReadAt = "hut" }), StringComparison.Ordinal);
        Assert.Contains("no load '9'", Rechecker.Refuse(Job(), new() { Delivered = ["9"] }), StringComparison.Ordinal);
        Assert.Null(Rechecker.Refuse(Job(), new() { ReadAt = "YARD", Delivered = ["1"] }));
    }
}
