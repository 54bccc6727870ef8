using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.Approaching;

public class WaySearchTests
{
    private const double Knot = ApproachJobs.Knot;

    private static WaySearch Search(LiftRequest job, double? startM = null, double? glideDeg = null, double? courseDeg = null)
    {
        Site spot = job.Sites.First(s => s.Use == SiteUse.Delivery);
        ApproachSituation s = ApproachSituation.Of(job, spot, job.Loads[0], null, ApproachJobs.Quick);
        return new(s, new(job, spot, s.Rules, null), startM, glideDeg, courseDeg);
    }

    // Closed form: wind from 000 at 8 kt: headwind 8·cos(course), from the left on course 090.
    [Theory]
    [InlineData(0, 8, 0)]
    [InlineData(90, 0, 8)]
    [InlineData(60, 4, 6.928)]
    [InlineData(300, 4, -6.928)]
    public void Sector_Wind_IsTakenApart(double course, double head, double cross)
    {
        SectorCheck sector = Search(ApproachJobs.Job()).Sector(course);
        Assert.Equal(head * Knot, sector.HeadwindMs, 1e-3);
        Assert.Equal(cross * Knot, sector.CrosswindMs, 1e-3);
    }

    [Theory]
    [InlineData(0, null)]
    [InlineData(180, "downwind")]
    [InlineData(95, "downwind")]
    [InlineData(85, null)]
    public void Sector_EightKnots_NeverDownwind(double course, string? code) => Assert.Equal(code, Search(ApproachJobs.Job()).Sector(course).Block?.Code);

    // Up to 3 kt no direction is ruled out.
    [Fact]
    public void Sector_ThreeKnots_DownwindIsLeftToTheRanking() =>
        Assert.NotEqual("downwind", Search(ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(0, 2.9)))).Sector(180).Block?.Code);

    [Fact]
    public void Sector_CrewClearSide_IsNotFlownIn()
    {
        WaySearch search = Search(ApproachJobs.Job().WithSpot(s => s with { CrewClearSide = Angle.FromDegrees(200) }));
        Assert.Equal("crew-side", search.Sector(0).Block!.Code);
        Assert.True(search.Sector(60).Allowed);
    }

    [Fact]
    public void AllRound_Courses_EveryTenAndTheWindsEye()
    {
        IReadOnlyList<SectorCheck> all = Search(ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(123, 10)))).AllRound();
        Assert.Equal(all.Count, all.Select(x => x.CourseDeg).Distinct().Count());
        Assert.Contains(all, x => x.CourseDeg == 123);
        Assert.Equal(36, all.Count(x => x.CourseDeg % 10 == 0));
        Assert.Equal(all.OrderBy(x => x.CourseDeg), all);
    }

    [Fact]
    public void AllRound_PinnedCourse_IsTheOnlyOne() => Assert.Equal([77.0], Search(ApproachJobs.Job(), courseDeg: 77).AllRound().Select(x => x.CourseDeg));

    // Closed form: pinned is pinned.
    [Fact]
    public void Sector_PinnedStartAndGlide_AreKept()
    {
        WayIn way = Search(ApproachJobs.Job(), 600, 7).Sector(0).Way!;
        Assert.Equal(600, way.Path.Shape.StartM, 1e-9);
        Assert.Equal(7, way.Path.Shape.GlideDeg, 1e-9);
    }

    // Closed form: the air speed brought in is the wind triangle's.
    [Theory]
    [InlineData(0)]
    [InlineData(40)]
    [InlineData(70)]
    public void Sector_EntrySpeed_IsTheAirSpeedAsked(double course)
    {
        WayIn way = Search(ApproachJobs.Job()).Sector(course).Way!;
        Assert.Equal(40 * Knot, way.Path.Hanging.AirspeedMs(way.Path.Shape.EntryMs), 1e-6);
    }

    // When it says that the slow-down is too long, its own numbers bear it out.
    [Theory]
    [InlineData(200)]
    [InlineData(300)]
    [InlineData(340)]
    [InlineData(350)]
    [InlineData(360)]
    [InlineData(370)]
    [InlineData(380)]
    [InlineData(390)]
    public void Sector_TooShort_NumbersBearItOut(double startM)
    {
        PathBlock? block = Search(ApproachJobs.Job(ApproachJobs.Delivery(wind: ApproachJobs.Wind(0, 0))), startM).Sector(0).Block;
        if (block is not { Code: "too-short" })
            return;
        System.Text.RegularExpressions.Match said = System.Text.RegularExpressions.Regex.Match(block.Text, @"takes (\d+) m, there are (\d+) m");
        Assert.True(int.Parse(said.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture) > int.Parse(said.Groups[2].Value, System.Globalization.CultureInfo.InvariantCulture), block.Text);
    }

    // A mast in the way of a flat path makes it steeper, not impossible: 5° is 26 m over a 20 m mast at 300 m.
    [Fact]
    public void Sector_MastOnTheWay_IsFlownOver()
    {
        WayIn free = Search(ApproachJobs.Job()).Sector(0).Way!;
        WayIn over = Search(ApproachJobs.Job().WithSpot(s => s with { Obstacles = [ApproachJobs.Obstacle(0, -200, 24)] })).Sector(0).Way!;
        Assert.NotNull(over);
        Assert.True(over.CostS >= free.CostS);
    }

    // Kinks of the height law reach the hook by way of the trail: its path has no steps, on the grid of the search and on the fine one.
    [Theory]
    [InlineData(HeightLaw.Glide, 1.0)]
    [InlineData(HeightLaw.Glide, 1.2)]
    [InlineData(HeightLaw.Glide, 1.4)]
    [InlineData(HeightLaw.AllowedSink, 1.0)]
    public void LoadPath_EveryLaw_HasNoStepInTheHook(HeightLaw law, double bend)
    {
        HangingLoad hanging = new(new(50, 300, 3, 1.1), 1, 0, 0);
        LoadPath path = LoadPath.Of(new(20.6, 500, 500 * Math.Tan(8 * Math.PI / 180), 22, 8, law, bend, 2, 0.4), hanging, new(1.5, 5, 10), 0.05);
        double worst = 0, at = 0;
        for (int i = 3; i < path.StopIndex; i++)
        {
            double third = path.Hook[i].East - 3 * path.Hook[i - 1].East + 3 * path.Hook[i - 2].East - path.Hook[i - 3].East;
            if (Math.Abs(third) > worst)
                (worst, at) = (Math.Abs(third), path.TimeS(i));
        }
        Assert.True(worst < 2e-3, $"a step of {1000 * worst:0.0} mm in {path.StepS} s at {at:0.00} s: {worst / (path.StepS * path.StepS):0.00} m/s2");
    }

    // Light and large loads trail most: the hook's own slow-down is held to the limit all the same.
    [Theory]
    [InlineData(100, 3, 45)]
    [InlineData(200, 3, 43)]
    [InlineData(300, 4, 60)]
    [InlineData(1200, 1, 30)]
    public void Sector_AnyLoad_SlowsDownWithinTheLimit(double kg, double dragM2, double lineM)
    {
        LiftRequest job = ApproachJobs.Job(loadKg: kg, lineM: lineM);
        job = job with { Loads = [job.Loads[0] with { DragArea = Area.FromSquareMeters(dragM2) }] };
        foreach (double course in new double[] { 0, 40, 330 })
            if (Search(job).Sector(course).Way is { } way)
                Assert.InRange(way.Path.PeakHookSlowDownMs2(), 0, 0.08 * 9.80665 * 1.01);
    }
}
