using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Tests.Debriefing;

public class TrackBuilderTests
{
    internal const double Noon = 1_750_000_000;

    /// <summary>A record of a motion given as east, north, up of an origin at 46° N 9° E, 1000 m.</summary>
    internal static FlightRecord Flight(int count, double stepS, Func<double, Enu> motion, double noiseM = 0, int seed = 1)
    {
        LocalFrame frame = new(46, 9, 1000);
        Random random = new(seed);
        double[] t = new double[count], lat = new double[count], lon = new double[count], alt = new double[count];
        for (int i = 0; i < count; i++)
        {
            t[i] = Noon + i * stepS;
            Enu p = motion(i * stepS);
            (lat[i], lon[i], _) = frame.ToGeodetic(new(p.East + noiseM * Normal(random), p.North + noiseM * Normal(random), 0));
            alt[i] = 1000 + p.Up + 1.5 * noiseM * Normal(random);
        }
        return new() { Name = "made for this test", Format = "simulated", TimeS = t, LatitudeDeg = lat, LongitudeDeg = lon, AltitudeM = alt, SegmentStarts = [0] };
    }

    internal static double Normal(Random r) => Math.Sqrt(-2 * Math.Log(1 - r.NextDouble())) * Math.Cos(2 * Math.PI * r.NextDouble());

    // Simulated truth: a straight pass at 20 m/s climbing 2 m/s, no noise; antenna 2 m above the hook by default.
    [Fact]
    public void Build_StraightPass_ReturnsHookMotion()
    {
        BuiltTrack built = TrackBuilder.Build(Flight(300, 1, t => new(20 * t, 0, 2 * t)), new LiftSetup());
        Track track = Assert.IsType<Track>(built.Track);
        Assert.Empty(built.Findings);
        Assert.Equal(300, track.Count);
        TrackPoint a = track.At(Noon + 100), b = track.At(Noon + 150.5);
        Assert.Equal(50.5 * 20, b.Position.East - a.Position.East, 0.06); // 0.048 m: the track's frame lies 300 m higher, where a degree is longer.
        Assert.Equal(20, b.Velocity.East, 0.001);
        Assert.Equal(2, b.Velocity.Up, 0.001);
        Assert.Equal(0, b.Acceleration.Horizontal, 0.001);
        Assert.Equal(1000 + 200 - 2, track.Frame.HeightM + a.Position.Up, 0.05);
    }
}
