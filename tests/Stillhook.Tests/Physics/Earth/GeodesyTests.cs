using CsCheck;
using Stillhook.Physics.Earth;

namespace Stillhook.Tests.Physics.Earth;

public class GeodesyTests
{
    // 53° 48' 33.820" N, 2° 07' 46.380" E: the worked example's point.
    private const double Lat = 53 + 48 / 60.0 + 33.820 / 3600, Lon = 2 + 7 / 60.0 + 46.380 / 3600, Height = 73;

    // Published: [EPSG-7-2] worked example of geographic/geocentric conversion. Tolerance: the 0.001" of the input is 0.03 m, half of it 0.016 m.
    [Fact]
    public void ToEcef_PublishedPoint_Matches()
    {
        Ecef p = Wgs84.ToEcef(Lat, Lon, Height);
        Assert.Equal(3771793.968, p.X, 0.016);
        Assert.Equal(140253.342, p.Y, 0.016);
        Assert.Equal(5124304.349, p.Z, 0.016);
    }

    // Published: [EPSG-7-2] same example, backwards; the height is printed to 0.1 m.
    [Fact]
    public void FromEcef_PublishedPoint_Matches()
    {
        (double lat, double lon, double h) = Wgs84.FromEcef(new(3771793.968, 140253.342, 5124304.349));
        Assert.Equal(Lat, lat, 0.0005 / 3600);
        Assert.Equal(Lon, lon, 0.0005 / 3600);
        Assert.Equal(Height, h, 0.1);
    }

    // Published: [EPSG-7-2] worked example of geographic/topocentric conversion, origin 55° N 5° E 200 m.
    [Fact]
    public void ToEnu_PublishedPoint_Matches()
    {
        Enu p = new LocalFrame(55, 5, 200).ToEnu(Lat, Lon, Height);
        Assert.Equal(-189013.869, p.East, 0.016);
        Assert.Equal(-128642.040, p.North, 0.016);
        Assert.Equal(-4220.171, p.Up, 0.016);
    }

    // Closed form: there and back is the identity.
    [Fact]
    public void ToGeodetic_AnyPlace_ReturnsStart() =>
        (from lat in Gen.Double[-89.9, 89.9] from lon in Gen.Double[-180, 180] from h in Gen.Double[-400, 9000]
         from e in Gen.Double[-20000, 20000] from n in Gen.Double[-20000, 20000] from u in Gen.Double[-500, 500]
         select (lat, lon, h, e, n, u)).Sample(x =>
        {
            LocalFrame frame = new(x.lat, x.lon, x.h);
            (double lat, double lon, double h) = frame.ToGeodetic(new(x.e, x.n, x.u));
            Enu back = frame.ToEnu(lat, lon, h);
            Assert.Equal(x.e, back.East, 1e-6);
            Assert.Equal(x.n, back.North, 1e-6);
            Assert.Equal(x.u, back.Up, 1e-6);
        });

    // Closed form: on a small circle round the origin, east and north are the radii of curvature times the angles.
    [Theory]
    [InlineData(0.0), InlineData(46.0), InlineData(-67.0)]
    public void ToEnu_ShortDistance_IsRadiusOfCurvatureTimesAngle(double lat)
    {
        double s = Math.Sin(double.DegreesToRadians(lat)), w = 1 - Wgs84.EccentricitySquared * s * s;
        double meridian = Wgs84.SemiMajorAxis * (1 - Wgs84.EccentricitySquared) / Math.Pow(w, 1.5), vertical = Wgs84.SemiMajorAxis / Math.Sqrt(w);
        LocalFrame frame = new(lat, 9, 0);
        double d = double.DegreesToRadians(0.001);
        Assert.Equal(meridian * d, frame.ToEnu(lat + 0.001, 9, 0).North, 0.002);
        Assert.Equal(vertical * Math.Cos(double.DegreesToRadians(lat)) * d, frame.ToEnu(lat, 9.001, 0).East, 1e-6);
    }

    // Closed form: a point on the surface d away lies d²/2R under the tangent plane, yet on the origin's level.
    [Fact]
    public void HeightAbove_TakesCurvatureOff()
    {
        LocalFrame frame = new(46, 9, 500);
        Enu p = frame.ToEnu(46, 9.13, 500);
        Assert.Equal(-p.Horizontal * p.Horizontal / 2 / 6.388e6, p.Up, 0.05);
        Assert.Equal(0, frame.HeightAbove(p), 1e-6);
    }

    // Closed form: the date line is an ordinary meridian.
    [Fact]
    public void ToEnu_AcrossDateLine_IsShort() =>
        Assert.Equal(2 * new LocalFrame(-18, 180, 0).ToEnu(-18, -179.999, 0).East, new LocalFrame(-18, 179.999, 0).ToEnu(-18, -179.999, 0).East, 0.001);

    [Theory]
    [InlineData(90.1, 0, 0), InlineData(double.NaN, 0, 0), InlineData(0, double.PositiveInfinity, 0), InlineData(0, 0, double.NaN)]
    public void LocalFrame_ImpossibleOrigin_IsRefused(double lat, double lon, double h) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new LocalFrame(lat, lon, h));
}
