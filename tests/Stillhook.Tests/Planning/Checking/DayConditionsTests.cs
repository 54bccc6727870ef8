using Stillhook.Debriefing;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.Planning.Checking;

public class DayConditionsTests
{
    private static LiftRequest Job(Func<Site, Site> ridge) => Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(2600)),
        [WithForecast(Jobs.Site("yard", SiteUse.PickUp, 400, 12)), ridge(WithForecast(Jobs.Site("ridge", SiteUse.Delivery, 640, 12, 46.905)))], Jobs.Load("1", 500));

    private static Site WithForecast(Site site) => site with { Forecast = [new() { Hour = new TimeOnly(14, 0), Temperature = Jobs.C(20) }] };

    private static string[] Codes(LiftRequest job) => [.. Planner.Plan(job, new()).Conditions.Select(c => c.Code)];

    [Fact]
    public void Plan_EverythingEntered_HasNothingToConfirm() => Assert.Empty(Codes(Job(s => s)));

    [Fact]
    public void Plan_SiteWithoutForecast_SaysThatHeatIsNotFollowed() => Assert.Equal(["weather-one-reading"], Codes(Job(s => s with { Forecast = [] })));

    [Fact]
    public void Plan_WeatherOfAnotherDay_IsToConfirm() =>
        Assert.Contains("weather-other-day", Codes(Job(s => s with { Weather = s.Weather! with { Time = new DateTimeOffset(2026, 5, 19, 7, 0, 0, TimeSpan.Zero) } })));

    [Fact]
    public void Plan_GuessedElevation_IsToConfirm() => Assert.Equal(["elevation-guess"], Codes(Job(s => s with { ElevationFrom = ElevationFrom.Guess })));

    // Closed form: the way in runs due north; wind from the south is behind it, from 10° it is ahead.
    [Theory]
    [InlineData(180, true)]
    [InlineData(10, false)]
    public void Plan_WindOnTheStraightWayIn_IsToConfirmFromBehind(double fromDeg, bool confirms) =>
        Assert.Equal(confirms, Codes(Job(s => s with { Weather = s.Weather! with { Wind = new() { From = Angle.FromDegrees(fromDeg), Speed = Speed.FromKnots(8) } } })).Contains("way-in-downwind"));

    // An estimate that is said to be exact still gets the margin of an estimate: 10 % of 500 kg.
    [Theory]
    [InlineData(MassKnownBy.Estimated, 0, 550)]
    [InlineData(MassKnownBy.Estimated, 80, 580)]
    [InlineData(MassKnownBy.Weighed, 0, 500)]
    [InlineData(MassKnownBy.Label, 0, 525)]
    public void Plan_MassToPlanFor_IsNeverUnderTheMarginOfHowItIsKnown(MassKnownBy known, double uncertaintyKg, double needKg)
    {
        LiftRequest job = Job(s => s);
        job = job with { Loads = [job.Loads[0] with { HowKnown = known, Uncertainty = Jobs.Kg(uncertaintyKg) }] };
        Assert.Equal(needKg, Planner.Plan(job, new()).Loads[0].OnHook.NeedKg, 1e-9);
    }
}
