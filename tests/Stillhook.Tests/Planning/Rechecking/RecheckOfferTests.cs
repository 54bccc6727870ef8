using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;
using UnitsNet;

namespace Stillhook.Tests.Planning.Rechecking;

/// <summary>When a check of the plan is offered. Closed form throughout: planned 1014 hPa, 12 °C, wind 010/12 kt; limits 3 hPa, 5 °C, 5 kt unless entered.</summary>
public class RecheckOfferTests
{
    private static LiftRequest Job(OperatorPolicy? policy = null)
    {
        Site With(Site s) => s with { Weather = s.Weather! with { Qnh = Pressure.FromHectopascals(1014), Wind = new() { From = Angle.FromDegrees(10), Speed = Speed.FromKnots(12) } } };
        return Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(2600)), [With(Jobs.Site("yard", SiteUse.PickUp, 400, 12)), With(Jobs.Site("ridge", SiteUse.Delivery, 640, 12, 46.905))], Jobs.Load("1", 700)) with { Policy = policy };
    }

    private static AirReading Read(double atS, double? hPa = null, double? celsius = null, double? fromDeg = null, double? kt = null) =>
        new(atS, hPa * 100, celsius, fromDeg, kt is { } knots ? Speed.FromKnots(knots).MetersPerSecond : null);

    private static RecheckOffer? Offer(LiftRequest job, AirReading[] readings, RecheckMark[]? marks = null, RefuelNoticed[]? refuels = null) =>
        RecheckOffer.Of(job, new(), readings, marks ?? [], refuels ?? [], s => DateTimeOffset.UnixEpoch.AddHours(8).AddSeconds(s));

    // Closed form: reached counts, under it doesn't; each by itself.
    [Theory]
    [InlineData(1012.0, null, null, null, null)]
    [InlineData(1011.0, null, null, null, "QNH 1011 hPa is 3 hPa under the planned 1014 hPa")]
    [InlineData(1017.0, null, null, null, "QNH 1017 hPa is 3 hPa over the planned 1014 hPa")]
    [InlineData(null, 16.5, null, null, null)]
    [InlineData(null, 18.0, null, null, "temperature 18 °C is 6 °C over the planned 12 °C")]
    [InlineData(null, 7.0, null, null, "temperature 7 °C is 5 °C under the planned 12 °C")]
    [InlineData(null, null, 20.0, 14.0, null)]
    [InlineData(null, null, 190.0, 12.0, "wind 190/12 kt is 24 kt off the planned 010/12 kt")]
    [InlineData(null, null, 100.0, 5.0, "wind 100/5 kt is 13 kt off the planned 010/12 kt")]
    public void Of_Read_OfferedFromTheLimitOn(double? hPa, double? celsius, double? fromDeg, double? kt, string? reason)
    {
        RecheckOffer? offer = Offer(Job(), [Read(0, hPa, celsius, fromDeg, kt)]);
        Assert.Equal(reason is null ? [] : [reason], offer?.Reasons ?? []);
    }

    // Closed form: the operator's own limits.
    [Fact]
    public void Of_OperatorsLimits_Count()
    {
        AirReading[] read = [Read(0, 1012.5, 14, 10, 15)];
        Assert.Null(Offer(Job(), read));
        Assert.Equal(3, Offer(Job(new() { ReplanQnh = Pressure.FromHectopascals(1.5), ReplanTemperature = TemperatureDelta.FromDegreesCelsius(2), ReplanWind = Speed.FromKnots(3) }), read)!.Reasons.Count);
    }

    // Closed form: it stands until taken or put aside, whatever else is read; then only what moved since counts, against what was read then.
    [Fact]
    public void Of_TakenOrPutAside_OfferedAgainOnlyWhenItMovesAgain()
    {
        AirReading[] read = [Read(0, celsius: 18), Read(600, 1013.5)];
        Assert.Equal(["temperature 18 °C is 6 °C over the planned 12 °C"], Offer(Job(), read)!.Reasons);
        RecheckMark[] aside = [new(700, PutAside: true)];
        Assert.Null(Offer(Job(), read, aside));
        Assert.Null(Offer(Job(), [.. read, Read(800, celsius: 20)], aside));
        RecheckOffer again = Offer(Job(), [.. read, Read(800, celsius: 23)], aside)!;
        Assert.Equal(["temperature 23 °C is 5 °C over the last checked 18 °C"], again.Reasons);
        // All that was read is filled in, the latest of each.
        Assert.Equal((101_350, 23, 493), (again.Shift.QnhPa, again.Shift.TemperatureC, again.Shift.Minute));
    }

    // Closed form: each refuelling once.
    [Fact]
    public void Of_Refuelled_OfferedUntilTaken()
    {
        RefuelNoticed[] fuel = [new(100, "60 kg of fuel taken on at 08:01")];
        Assert.Equal(["60 kg of fuel taken on at 08:01"], Offer(Job(), [], [new(50, false)], fuel)!.Reasons);
        Assert.Null(Offer(Job(), [], [new(150, false)], fuel));
    }
}
