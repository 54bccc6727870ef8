using System.Globalization;
using Stillhook.Adjusting;
using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Planning.Rechecking;
using Stillhook.Tests.Approaching;
using Stillhook.Tests.Planning;
using UnitsNet;

namespace Stillhook.Tests.Adjusting;

public class ConditionsNowTests
{
    private static readonly DateTimeOffset Observed = new(2026, 6, 1, 7, 10, 0, TimeSpan.FromHours(2));

    // Two delivery sites on the way due north and due west of the yard, QNH 1014, 8 kt from the north.
    private static LiftRequest TwoSites()
    {
        LiftRequest job = ApproachJobs.Job();
        Site spot = job.Sites.First(s => s.Use == SiteUse.Delivery);
        Spot west = ApproachJobs.Spot(-1500, -1500);
        Site ledge = spot with { Name = "ledge", Latitude = west.Latitude, Longitude = west.Longitude, Elevation = Length.FromMeters(600) };
        Site With(Site s) => s with { Weather = s.Weather! with { Qnh = Pressure.FromHectopascals(1014), Time = Observed } };
        PlannedLoad load = job.Loads[0];
        return job with
        {
            Sites = [.. job.Sites.Append(ledge).Select(With)],
            Loads = [load with { Delivery = "spot" }, load with { Number = "2", Delivery = "ledge" }],
            FlyEnteredGates = true,
            Gates = [new() { Distance = Length.FromMeters(300), HeightAboveTarget = Length.FromFeet(300), GroundSpeed = Speed.FromKnots(30), Sink = Speed.FromFeetPerMinute(400) }],
        };
    }

    private static ConditionsNow Read(Shift shift) => Job.Conditions(TwoSites(), ApproachJobs.Quick, shift);

    // Common practice of 27 ft per hPa near sea level makes 81 ft, the standard atmosphere about 83 ft: 'about 80 ft'.
    // Closed form: the ledge lies 100 m = 328 ft above the spot, and so do its readings, but for the 20 ft marks they are rounded up to.
    [Fact]
    public void Compare_QnhFell3HPa_SaysEightyFeetHighOnceAndGivesTheMarksOfEverySite()
    {
        ConditionsNow now = Read(new() { QnhPa = 101_100 });
        Assert.Contains("1014 -> 1011 hPa: altimeter now reads about 80 ft high if not reset.", Assert.Single(now.Recheck.Changes, c => c.Kind == ChangeKind.Do).Text, StringComparison.Ordinal);
        Assert.DoesNotContain(now.Sites.SelectMany(s => s.Changes), c => c.Contains("altimeter now reads", StringComparison.Ordinal));
        Assert.Equal(["spot", "ledge"], now.Sites.Select(s => s.Site));
        Assert.All(now.Sites, s => Assert.Equal(101_100, s.After.Situation!.QnhPa!.Value, 1e-6));
        double[] spot = [.. now.Sites.Select(s => s.After.Gates[^1].UnroundedFt)];
        Assert.Equal(100 / 0.3048, spot[1] - spot[0], 0.5);
        Assert.Equal(["spot", "ledge"], now.Recheck.Gates.Select(g => g.Site));
        Assert.False(now.Stops);
    }

    // What was not typed is said with its value and its time; what was typed is not.
    [Fact]
    public void Compare_OneReadingTyped_SaysOfTheOthersFromWhenTheyStand()
    {
        string stands = Read(new() { QnhPa = 101_100 }).NotReadAgain[0];
        Assert.Equal("Not read now at spot, taken from before: temperature 12 °C as observed on 2026-06-01 at 07:10; wind 000/8 kt as observed on 2026-06-01 at 07:10.", stands);
        Assert.Contains("QNH 1014 hPa as observed", Read(new() { Wind = new Wind(0, Speed.FromKnots(9)) }).NotReadAgain[1], StringComparison.Ordinal);
        Assert.Empty(Read(new() { QnhPa = 101_100, TemperatureC = 13, Wind = new Wind(0, Speed.FromKnots(9)) }).NotReadAgain);
    }

    // Closed form: the way to the spot is flown within 90 deg of the wind; 10 kt from the south come from behind it.
    [Fact]
    public void Compare_WindSwingsBehindTheApproach_StopsAndSaysReBrief()
    {
        ConditionsNow now = Read(new() { Wind = new Wind(180, Speed.FromKnots(10)) });
        Assert.True(now.Stops);
        SiteMarks spot = now.Sites[0];
        Assert.True(spot.Before.IsOffered, ApproachJobs.Said(spot.Before));
        Assert.StartsWith("STOP: the planned approach, course ", spot.Changes[0], StringComparison.Ordinal);
        Assert.EndsWith("re-brief.", spot.Changes[0], StringComparison.Ordinal);
        ConditionsNow ahead = Read(new() { Wind = new Wind(0, Speed.FromKnots(9)) });
        Assert.False(ahead.Stops, string.Join("; ", [.. ahead.Recheck.Changes.Select(c => c.Text), .. ahead.Sites.SelectMany(s => s.Changes)]));
        Assert.All(ahead.Sites, s => Assert.Equal(s.Before.CourseDeg, s.After.CourseDeg, 1e-9));
    }

    // A job too thin for a lift plan still gets its altimeter line, its wind and its marks.
    [Fact]
    public void Compare_JobWithoutCharts_StillTellsAltimeterAndWind()
    {
        LiftRequest thin = TwoSites() with { Aircraft = null, Crew = [] };
        ConditionsNow now = Job.Conditions(thin, ApproachJobs.Quick, new() { QnhPa = 101_100, Wind = new Wind(180, Speed.FromKnots(10)) });
        Assert.False(now.Recheck.Before.IsPlanned);
        Assert.Contains(now.Recheck.Changes, c => c.Text.Contains("about 80 ft high", StringComparison.Ordinal));
        Assert.Contains(now.Recheck.Changes, c => c.Text.Contains("Re-brief", StringComparison.Ordinal));
        Assert.Equal(2, now.Recheck.Gates.Count);
    }

    [Fact]
    public void Compare_LoadDelivered_ItsSiteIsNoLongerPrinted() => Assert.Equal(["ledge"], Read(new() { QnhPa = 101_100, Delivered = ["1"] }).Sites.Select(s => s.Site));

    // Four readings of each, in one list: the words are the same where the decimal mark is a comma.
    [Fact]
    public void Compare_WindAndQnhList_SameWordsUnderACommaCulture()
    {
        Shift[] list =
        [
            new() { QnhPa = 101_150, Wind = new Wind(355, Speed.FromKnots(7.5)) }, new() { QnhPa = 100_880, Wind = new Wind(180, Speed.FromKnots(12.5)) },
            new() { QnhPa = 102_025, TemperatureC = 17.5 }, new() { TemperatureC = -3.5, Wind = new Wind(90, Speed.FromKnots(4)) },
        ];
        string[] Said() => [.. list.Select(Read).SelectMany(n => (IEnumerable<string>)[.. n.Recheck.Changes.Select(c => c.Text), .. n.NotReadAgain, .. n.Sites.SelectMany(s => s.Changes)])];
        string[] plain = Said(), comma;
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new("de-DE");
            comma = Said();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
        Assert.True(plain.Length > 12);
        Assert.Contains(plain, s => s.Contains("1011.5 hPa", StringComparison.Ordinal));
        Assert.Equal(plain, comma);
    }
}
