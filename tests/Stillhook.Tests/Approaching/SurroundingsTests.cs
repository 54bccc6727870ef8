using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.Approaching;

public class SurroundingsTests
{
    private static readonly LoadPath Path = LoadPath.Of(new(20, 400, 60, 12, 8, HeightLaw.Glide, 1, 2, 0.4), new(new(30.5, 600, 1), 1, 0, 0), new(1.5, 5, null), 0.05);

    private static Surroundings At(Func<Site, Site> change, Func<double, double, double?>? ground = null, double rotorM = 5)
    {
        LiftRequest job = ApproachJobs.Job().WithSpot(change);
        job = job with { Aircraft = job.Aircraft! with { Rotor = new() { Radius = Length.FromMeters(rotorM), Blades = 3, Chord = Length.FromMeters(0.3), TipSpeed = Speed.FromMetersPerSecond(210) } } };
        return new(job, job.Sites.First(s => s.Use == SiteUse.Delivery), new(job), ground);
    }

    private static double LoadHeightAt(double distanceM) => Path.LoadHeightM[Array.FindIndex(Path.DistanceM, d => d <= distanceM)];

    // Closed form: under the load 5 m are kept.
    [Theory]
    [InlineData(-5.5, false)]
    [InlineData(-4.5, true)]
    public void Blocks_MastUnderTheWay_ByItsHeight(double overLoad, bool blocked)
    {
        // The load is lowest over the mast where it leaves its 10 m circle: 190 m before the spot.
        double height = LoadHeightAt(190) + overLoad;
        Assert.Equal(blocked, At(s => s with { Obstacles = [ApproachJobs.Obstacle(0, -200, height)] }).Blocks(Path, 0) is { Code: "obstacle" });
    }

    // Closed form: 10 m to the side of the load; rotor radius 5 + 5 m of the hook.
    [Theory]
    [InlineData(9.5, 25, true)]
    [InlineData(10.5, 25, false)]
    [InlineData(10.5, 300, false)]
    [InlineData(9.5, 300, true)]
    public void Blocks_MastBesideTheWay_ByItsDistance(double aside, double height, bool blocked) =>
        Assert.Equal(blocked, At(s => s with { Obstacles = [ApproachJobs.Obstacle(aside, -150, height)] }).Blocks(Path, 0) is not null);

    [Theory]
    [InlineData(12.5, 300, true)]
    [InlineData(12.5, 45, false)]
    [InlineData(13.5, 300, false)]
    public void Blocks_MastBesideTheWayOfALargeRotor_ByItsHeightAgainstTheHook(double aside, double height, bool blocked) =>
        Assert.Equal(blocked, At(s => s with { Obstacles = [ApproachJobs.Obstacle(aside, -150, height)] }, rotorM: 8).Blocks(Path, 0) is not null);

    // Course and map turn alike.
    [Theory]
    [InlineData(90)]
    [InlineData(215)]
    public void Blocks_MastAhead_TurnsWithTheCourse(double course)
    {
        (double e, double n) = ApproachJobs.OnMap(new(-150, 3, 0), course);
        Surroundings around = At(s => s with { Obstacles = [ApproachJobs.Obstacle(e, n, 40)] });
        Assert.NotNull(around.Blocks(Path, course));
        Assert.Null(around.Blocks(Path, course + 90));
    }

    // The whole span counts, not its ends.
    [Theory]
    [InlineData(20, true)]
    [InlineData(8, false)]
    public void Blocks_WireAcrossTheWay_ByItsHeight(double height, bool blocked) =>
        Assert.Equal(blocked, At(s => s with { Wires = [ApproachJobs.Wire(-300, -180, 300, -180, height)] }).Blocks(Path, 0) is { Code: "obstacle" });

    [Fact]
    public void Blocks_WireOfUnknownHeightAcrossTheWay_IsNamedAsSuch() =>
        Assert.Equal("wire-height", At(s => s with { Wires = [ApproachJobs.Wire(-300, -180, 300, -180, null)] }).Blocks(Path, 0)!.Code);

    // Over the spot the hook comes down by the let-down height while the load is lowered: a wire that the rotor clears at the stop and not at contact must block.
    // Closed form: hook 31 m up at contact, 33 m and a little at the stop; rotor 8 + 10 m kept: a wire 17 m off counts, 22.5 m high needs 32.5 m.
    [Fact]
    public void Blocks_WireThatTheHookClearsOnlyBeforeTheLetDown_Blocks()
    {
        Surroundings around = At(s => s with { Wires = [ApproachJobs.Wire(-300, 17, 300, 17, 22.5)] }, rotorM: 8);
        Assert.True(Path.Hook[^1].Up < 32.4);
        Assert.NotNull(around.Blocks(Path, 0));
    }

    [Theory]
    [InlineData(-30, 9, true)]
    [InlineData(-30, 11, false)]
    [InlineData(-4, 2, true)]
    [InlineData(4, 2, false)]
    public void Blocks_PersonByTheWay_ByTheirDistance(double north, double east, bool blocked) =>
        Assert.Equal(blocked, At(s => s with { People = [ApproachJobs.Spot(east, north, "receiver")] }).Blocks(Path, 0) is { Code: "people" });

    // Closed form: a load let go 30 m up comes down after 2.47 s, 49 m ahead at 20 m/s in still air; with 8 m/s from ahead and all of it as drift 30 m. Both ends and what lies between count.
    [Theory]
    [InlineData(0, 49, 0, 0)]
    [InlineData(0, 30, 0, 0)]
    [InlineData(12, 45, 0, 12)]
    [InlineData(0, -6, 0, 6)]
    public void DistanceM_OfAFallZone_HoldsThrowAndDrift(double east, double north, double windRightMs, double distance)
    {
        FallZone zone = FallZone.Of(default, new(0, 20, 0), new(windRightMs, -8, 0), 30);
        Assert.Equal(49.5, zone.ReachM, 0.1);
        Assert.Equal(distance, zone.DistanceM(new(east, north, 0)), 0.1);
    }

    // Closed form: 6 m/s across drift 14.8 m; a place inside the triangle is in the zone.
    [Fact]
    public void DistanceM_InsideTheTriangle_IsZero() => Assert.Equal(0, FallZone.Of(default, new(0, 20, 0), new(6, 0, 0), 30).DistanceM(new(5, 40, 0)));

    // A walker 25 m beside the way under whom the wind would carry the load: minded with the wind across, not without.
    [Theory]
    [InlineData(0, false)]
    [InlineData(9, true)]
    public void Blocks_PersonWhereTheWindWouldCarryTheLoad_IsMinded(double windRightMs, bool blocked)
    {
        LoadPath path = LoadPath.Of(Path.Shape, Path.Hanging with { WindRightMs = windRightMs }, new(1.5, 5, null), 0.05);
        Assert.Equal(blocked, At(s => s with { People = [ApproachJobs.Spot(25, -250, "walker")] }).Blocks(path, 0) is { Code: "people" });
    }

    // A valley 200 m deeper beside the way: a load let go falls longer and reaches farther.
    [Fact]
    public void Falls_OverLowerGround_ReachesFarther()
    {
        Surroundings level = At(s => s, (_, _) => 500), shelf = At(s => s, (latitude, _) => latitude < 46.9 - 100 / 111_200.0 ? 300 : 500);
        Assert.Equal(FallZone.Of(new(0, -300, 0), new(0, 20, 0), default, 250).ReachM, shelf.Falls(new(0, -300, 0), new(0, 20, 0), default, 50).ReachM, 0.01);
        Assert.True(shelf.Falls(new(0, -300, 0), new(0, 20, 0), default, 50).ReachM > 2 * level.Falls(new(0, -300, 0), new(0, 20, 0), default, 50).ReachM);
    }

    // Walls 120 m high, 6 m to either side of the way: the rotor does not pass between them.
    [Fact]
    public void Blocks_WallsBesideTheWay_Block() =>
        Assert.Equal("terrain", At(s => s, (latitude, longitude) => latitude < 46.9 - 40 / 111_200.0 && Math.Abs(longitude - 10.1) > 6 / 76_000.0 ? 620 : 500).Blocks(Path, 0)!.Code);

    // The level leg to the start mark counts: a wire of 70 m 550 m before the spot, 150 m before the start mark.
    [Fact]
    public void Blocks_WireBeforeTheStartMark_Blocks() =>
        Assert.Equal("obstacle", At(s => s with { Wires = [ApproachJobs.Wire(-300, -550, 300, -550, 70)] }).Blocks(Path, 0)!.Code);

    // Entered at the pick-up, standing on the way in.
    [Fact]
    public void Blocks_MastOfAnotherSite_Blocks()
    {
        LiftRequest job = ApproachJobs.Job();
        job = job with { Sites = [.. job.Sites.Select(s => s.Use == SiteUse.PickUp ? s with { Obstacles = [ApproachJobs.Obstacle(0, -200, 60)] } : s)] };
        Assert.Equal("obstacle", new Surroundings(job, job.Sites.First(s => s.Use == SiteUse.Delivery), new(job), null).Blocks(Path, 0)!.Code);
    }

    // Closed form: ground 3 m under the load where 5 m are kept.
    [Theory]
    [InlineData(3, true)]
    [InlineData(6, false)]
    public void Blocks_GroundUnderTheWay_ByItsHeight(double under, bool blocked)
    {
        double top = LoadHeightAt(200) - under;
        Surroundings around = At(s => s, (latitude, _) => (latitude - 46.9) * 111_200 is > -260 and < -200 ? 1000 + top : 1000);
        Assert.Equal(blocked, around.Blocks(Path, 0) is { Code: "terrain" });
    }

    // A narrow ridge between two of the 10 m steps still stands there: 4 m wide is a rock, 12 m must be seen.
    [Fact]
    public void Blocks_RidgeOfTwelveMetres_IsSeen()
    {
        for (double at = 150; at < 162; at += 2)
            Assert.NotNull(At(s => s, (latitude, _) => Math.Abs((latitude - 46.9) * 111_190 + at) < 6 ? 1100 : 1000).Blocks(Path, 0));
    }

    [Fact]
    public void Blocks_UnknownGround_Blocks() =>
        Assert.Equal("ground-unknown", At(s => s, (latitude, _) => latitude < 46.899 ? null : 1000).Blocks(Path, 0)!.Code);

    // A grid that does not know the spot itself is no grid: that must be told from one that knows flat ground.
    [Fact]
    public void HasGround_GridWithoutTheSpot_IsFalse() => Assert.False(At(s => s, (_, _) => null).HasGround);

    [Theory]
    [InlineData(0, 0, 1)]
    [InlineData(90, 1, 0)]
    [InlineData(180, 0, -1)]
    [InlineData(270, -1, 0)]
    public void CourseFrame_AlongTheCourse_PointsThatWay(double course, double east, double north)
    {
        Enu e = new CourseFrame(course).ToEnu(new(1, 0, 0));
        Assert.Equal(east, e.East, 1e-12);
        Assert.Equal(north, e.North, 1e-12);
        Enu back = new CourseFrame(course).FromEnu(new CourseFrame(course).ToEnu(new(3, -4, 5)));
        Assert.Equal(0, (back - new Enu(3, -4, 5)).Length, 1e-12);
    }
}
