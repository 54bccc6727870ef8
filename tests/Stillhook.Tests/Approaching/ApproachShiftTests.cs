using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Tests.Planning;
using UnitsNet;

namespace Stillhook.Tests.Approaching;

public class ApproachShiftTests
{
    private static readonly LiftRequest Job = ApproachJobs.Job().WithSpot(s => s with { Weather = s.Weather! with { Qnh = Pressure.FromHectopascals(1014) } });

    private static ApproachPlan Shifted(LiftRequest job, ApproachShift shift) => ApproachJobs.Plan(shift.Applied(job), ApproachJobs.Quick with { Shift = shift });

    private static (ApproachPlan Before, ApproachPlan After, IReadOnlyList<string> Said) Moved(LiftRequest job, ApproachShift shift)
    {
        ApproachPlan before = ApproachJobs.Plan(job), after = Shifted(job, shift);
        return (before, after, ApproachChanges.Between(before, after, shift));
    }

    // Published: 3 hPa are about 80 ft near sea level (27 ft each).
    [Fact]
    public void Between_QnhFallen3_SaysTheAltimeterReads80FeetHigh()
    {
        IReadOnlyList<string> said = Moved(Job, new(Qnh: Pressure.FromHectopascals(1011))).Said;
        Assert.StartsWith("1014 -> 1011 hPa: the altimeter now reads about 80 ft high if not reset.", Assert.Single(said, x => x.Contains("hPa", StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    [Fact]
    public void Between_QnhRisen3_SaysLow() =>
        Assert.Contains(Moved(Job, new(Qnh: Pressure.FromHectopascals(1017))).Said, x => x.Contains("80 ft low", StringComparison.Ordinal));

    [Fact]
    public void Between_NothingMoved_SaysNothing()
    {
        ApproachShift none = new();
        Assert.True(none.IsEmpty);
        Assert.Empty(Moved(Job, none).Said);
    }

    [Fact]
    public void Between_WindSwungRound_StopsAndReBriefs()
    {
        (ApproachPlan before, ApproachPlan after, IReadOnlyList<string> said) = Moved(Job, new(Wind: new Wind(180, Speed.FromKnots(10))));
        Assert.True(after.IsOffered, ApproachJobs.Said(after));
        Assert.True(WaySearch.Apart(before.CourseDeg, after.CourseDeg) > 45, $"{before.CourseDeg:0} -> {after.CourseDeg:0}");
        Assert.True(WaySearch.Apart(after.CourseDeg, 180) <= 95);
        Assert.Contains(said, x => x.StartsWith("STOP: course", StringComparison.Ordinal) && x.Contains("re-brief", StringComparison.Ordinal));
    }

    [Fact]
    public void Between_WindSwungOnAPinnedCourse_Stops()
    {
        (_, ApproachPlan after, IReadOnlyList<string> said) = Moved(Job.WithApproach(a => a with { Course = Angle.FromDegrees(0) }), new(Wind: new Wind(180, Speed.FromKnots(10))));
        Assert.False(after.IsOffered);
        Assert.StartsWith("STOP:", said[0], StringComparison.Ordinal);
        Assert.Contains("downwind", said[0]);
    }

    // Closed form: line and half of the load's height, 45 m + 0.5 m.
    [Fact]
    public void Between_LongerLine_SaysSwingAndMarks()
    {
        (_, ApproachPlan after, IReadOnlyList<string> said) = Moved(Job, new(Line: Length.FromMeters(45)));
        Assert.Equal(45.5, after.Situation!.Load.LengthM, 1e-9);
        Assert.Contains(said, x => x.StartsWith("One swing", StringComparison.Ordinal));
    }

    // Closed form: what was typed is what the plan is made from, at the hour of the load, forecast or not.
    [Fact]
    public void Applied_ForecastForTheHour_GivesWayToTheReading()
    {
        LiftRequest job = Job.WithSpot(s => s with { Forecast = [new() { Hour = new TimeOnly(8, 0), Temperature = Jobs.C(20), Qnh = Pressure.FromHectopascals(1020), Wind = ApproachJobs.Wind(180, 12) }, new() { Hour = new TimeOnly(9, 0), Temperature = Jobs.C(22), Qnh = Pressure.FromHectopascals(1021) }] });
        ApproachSituation s = ApproachJobs.Plan(new ApproachShift(Pressure.FromHectopascals(1011), new Wind(90, Speed.FromKnots(6)), Temperature.FromDegreesCelsius(3)).Applied(job)).Situation!;
        Assert.Equal(101_100, s.QnhPa!.Value, 0.5);
        Assert.Equal(3, s.TemperatureC, 1e-6);
        Assert.Equal(90, s.Wind!.Value.FromDeg, 1e-9);
    }

    // Only the wind is typed for a site without weather: setting and temperature stay unknown, they are not made up.
    [Fact]
    public void Applied_WindAloneAtASiteWithoutWeather_InventsNoSettingAndNoTemperature()
    {
        LiftRequest job = ApproachJobs.Job(ApproachJobs.Delivery(2500)).WithSpot(s => s with { Weather = null });
        ApproachPlan before = ApproachJobs.Plan(job), after = ApproachJobs.Plan(new ApproachShift(Wind: new Wind(0, Speed.FromKnots(8))).Applied(job));
        Assert.Equal(0, after.Situation!.Wind!.Value.FromDeg, 1e-9);
        Assert.Equal(before.Situation!.TemperatureC, after.Situation.TemperatureC, 1e-6);
        Assert.Contains(after.Checks, c => c.Code == "no-qnh");
    }

    // Closed form: a mark's height over the reference times standard over real temperature; made-up warmth must not lower a mark.
    [Fact]
    public void Applied_WindAloneAtAHighSiteWithoutWeather_LowersNoMark()
    {
        LiftRequest job = ApproachJobs.Job(ApproachJobs.Delivery(2500)).WithSpot(s => s with { Weather = null });
        ApproachPlan after = ApproachJobs.Plan(new ApproachShift(Wind: new Wind(0, Speed.FromKnots(8))).Applied(job));
        Assert.True(after.IsOffered, ApproachJobs.Said(after));
        Assert.All(after.Gates, g => Assert.Equal(0, g.TemperatureFt, 0.1));
    }

    // The setting alone, too, is not thrown away.
    [Fact]
    public void Applied_QnhAloneAtASiteWithoutWeather_IsKept()
    {
        LiftRequest job = ApproachJobs.Job(ApproachJobs.Delivery(500)).WithSpot(s => s with { Weather = null });
        ApproachPlan after = Shifted(job, new(Qnh: Pressure.FromHectopascals(1003)));
        Assert.Equal(100_300, after.Situation!.QnhPa ?? 0, 0.5);
    }

    // A new mean wind without a gust does not take the gusts away that were observed.
    [Fact]
    public void Applied_WindWithoutGust_KeepsAtLeastTheStatedSpread()
    {
        LiftRequest job = ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(0, 10, 25)));
        ApproachPlan after = ApproachJobs.Plan(new ApproachShift(Wind: new Wind(10, Speed.FromKnots(11))).Applied(job));
        Assert.True(after.Situation!.GustMs >= 5 * ApproachJobs.Knot - 1e-9);
    }

    [Fact]
    public void Between_RefusedBefore_DoesNotThrow()
    {
        LiftRequest job = Job.WithApproach(a => a with { Course = Angle.FromDegrees(180) });
        Assert.NotNull(Moved(job, new(Wind: new Wind(180, Speed.FromKnots(10)))).Said);
        Assert.NotNull(ApproachChanges.Between(ApproachJobs.Plan(job with { Line = null }), ApproachJobs.Plan(Job), new(Qnh: Pressure.FromHectopascals(1003))));
    }
}
