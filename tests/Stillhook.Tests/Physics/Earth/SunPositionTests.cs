using CsCheck;
using Stillhook.Physics.Earth;

namespace Stillhook.Tests.Physics.Earth;

public class SunPositionTests
{
    // Published: [NREL-SPA] worked example, topocentric zenith 50.11162° at 820 hPa and 11 °C, azimuth 194.34024°. Ours refracts for 1010 hPa and 10 °C, which
    // is 0.004° more here; the formula itself is good to 0.01°.
    [Fact]
    public void At_NrelExample_Matches()
    {
        SunPosition sun = SunPosition.At(new DateTimeOffset(2003, 10, 17, 12, 30, 30, TimeSpan.FromHours(-7)), 39.742476, -105.1786);
        Assert.Equal(90 - 50.11162, sun.ElevationDeg, 0.015);
        Assert.Equal(194.34024, sun.AzimuthDeg, 0.015);
    }

    // From memory: instants of solstices and equinoxes (to the minute), where the declination is ±23.44° or 0° by definition. Closed form: the highest elevation of
    // that day is 90 − |latitude − declination|, plus refraction below 0.02° there; within 12 h of an equinox the declination moves by 0.2°, so noon is taken at its longitude.
    [Theory]
    [InlineData("2024-03-20T03:06Z", 0.0, 46.0)]
    [InlineData("2024-06-20T20:51Z", 23.438, 46.0)]
    [InlineData("2024-09-22T12:44Z", 0.0, 46.0)]
    [InlineData("2024-12-21T09:20Z", -23.438, 46.0)]
    [InlineData("2024-06-20T20:51Z", 23.438, -33.0)]
    [InlineData("2025-12-21T15:03Z", -23.438, 10.0)]
    public void At_SolsticesAndEquinoxes_NoonElevationIsClosedForm(string time, double declination, double latitude)
    {
        DateTimeOffset at = DateTimeOffset.Parse(time, System.Globalization.CultureInfo.InvariantCulture);
        double highest = Enumerable.Range(0, 3600).Max(i => SunPosition.At(at, latitude, i * 0.1 - 180).ElevationDeg);
        double expected = 90 - Math.Abs(latitude - declination);
        Assert.Equal(expected + 1 / Math.Tan(double.DegreesToRadians(expected)) / 60, highest, 0.012);
    }

    // Closed form: on the meridian the azimuth is due south or north, and it mirrors about the noon longitude.
    [Fact]
    public void At_AboutNoon_AzimuthMirrors()
    {
        DateTimeOffset at = new(2024, 6, 20, 20, 51, 0, TimeSpan.Zero);
        double noon = NoonLongitude(at);
        for (int degrees = 1; degrees <= 90; degrees++)
        {
            SunPosition before = SunPosition.At(at, 46, noon - degrees), after = SunPosition.At(at, 46, noon + degrees);
            Assert.Equal(before.ElevationDeg, after.ElevationDeg, 1e-6);
            Assert.Equal(360, before.AzimuthDeg + after.AzimuthDeg, 1e-6);
            Assert.True(before.AzimuthDeg < 180);
        }

        Assert.Equal(180, SunPosition.At(at, 46, noon).AzimuthDeg, 1e-6);
    }

    // Closed form: at the pole the elevation is the declination all day.
    [Fact]
    public void At_Pole_ElevationStaysThroughTheTurn()
    {
        DateTimeOffset at = new(2024, 6, 20, 20, 51, 0, TimeSpan.Zero);
        double[] elevations = [.. Enumerable.Range(0, 36).Select(i => SunPosition.At(at, 90, i * 10).ElevationDeg)];
        Assert.Equal(elevations.Min(), elevations.Max(), 1e-9);
        Assert.Equal(23.438 + 0.0384, elevations[0], 0.012); // refraction at 23.4°: 2.3'
    }

    // From memory: printed sunrise and sunset of London (51.5° N, 0.13° W), the centre geometrically 50' below by convention, where
    // refraction is 37' (Sæmundsson): apparently 13' below. Printed to the minute; the sun climbs 0.10° a minute here.
    [Theory]
    [InlineData("2024-06-21T03:43Z"), InlineData("2024-06-21T20:21Z"), InlineData("2024-12-21T08:04Z"), InlineData("2024-12-21T15:53Z")]
    public void At_PrintedSunriseAndSunset_UpperEdgeOnTheHorizon(string time) =>
        Assert.Equal(-13 / 60.0, SunPosition.At(DateTimeOffset.Parse(time, System.Globalization.CultureInfo.InvariantCulture), 51.5, -0.13).ElevationDeg, 0.1);

    // From memory: the shorter formula of the Astronomical Almanac, 0.01° of longitude from 1950 to 2050 and 0.1 min of the equation of time, worked apart.
    [Fact]
    public void At_AnyTimeAndPlace_AgreesWithTheShorterFormula() =>
        (from days in Gen.Double[-18262, 18262] from lat in Gen.Double[-89, 89] from lon in Gen.Double[-180, 180] select (days, lat, lon)).Sample(p =>
        {
            SunPosition sun = SunPosition.At(new DateTimeOffset(2000, 1, 1, 12, 0, 0, TimeSpan.Zero).AddDays(p.days), p.lat, p.lon);
            (double elevation, double azimuth) = Shorter(p.days, p.lat, p.lon);
            if (elevation < 10) return;
            double refraction = 1 / Math.Tan(double.DegreesToRadians(elevation)) / 60;
            Assert.Equal(elevation + refraction, sun.ElevationDeg, 0.03);
            Assert.Equal(0, Math.IEEERemainder(azimuth - sun.AzimuthDeg, 360) * Math.Cos(double.DegreesToRadians(elevation)), 0.03);
        }, iter: 3000);

    // Closed form: the offset names the same instant.
    [Fact]
    public void At_OtherOffset_SameInstantSameSun() =>
        Assert.Equal(SunPosition.At(new DateTimeOffset(2024, 5, 1, 10, 0, 0, TimeSpan.Zero), 46, 7), SunPosition.At(new DateTimeOffset(2024, 5, 1, 12, 0, 0, TimeSpan.FromHours(2)), 46, 7));

    // Closed form: refraction joins without a step at 1° below the horizon, so elevation moves evenly from night to day.
    [Fact]
    public void At_ThroughADay_NoJump()
    {
        DateTimeOffset start = new(2024, 4, 10, 0, 0, 0, TimeSpan.Zero);
        double last = SunPosition.At(start, 46, 7).ElevationDeg;
        for (int second = 2; second < 86400; second += 2)
        {
            double next = SunPosition.At(start.AddSeconds(second), 46, 7).ElevationDeg;
            Assert.InRange(Math.Abs(next - last), 0, 0.011);
            last = next;
        }
    }

    [Fact]
    public void At_Impossible_IsRefused()
    {
        DateTimeOffset at = new(2024, 4, 10, 0, 0, 0, TimeSpan.Zero);
        Assert.Throws<ArgumentOutOfRangeException>(() => SunPosition.At(at, 90.1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => SunPosition.At(at, double.NaN, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => SunPosition.At(at, 0, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => SunPosition.At(default, 0, 0));
    }

    // Longitude of the highest sun, by halving the difference of elevations to both sides.
    private static double NoonLongitude(DateTimeOffset at)
    {
        double low = -180, high = 180;
        double start = Enumerable.Range(0, 360).MaxBy(i => SunPosition.At(at, 46, i - 180).ElevationDeg) - 180;
        (low, high) = (start - 2, start + 2);
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (SunPosition.At(at, 46, middle).AzimuthDeg < 180) low = middle;
            else high = middle;
        }

        return (low + high) / 2;
    }

    private static (double Elevation, double Azimuth) Shorter(double days, double latitude, double longitude)
    {
        double g = Rad(357.528 + 0.9856003 * days), l = Rad(280.460 + 0.9856474 * days + 1.915 * Math.Sin(g) + 0.020 * Math.Sin(2 * g)), e = Rad(23.439 - 0.0000004 * days);
        double[] sun = [Math.Cos(l), Math.Cos(e) * Math.Sin(l), Math.Sin(e) * Math.Sin(l)];
        double turn = Rad(15 * (18.697374558 + 24.06570982441908 * days) + longitude), f = Rad(latitude);
        double outward = Math.Cos(turn) * sun[0] + Math.Sin(turn) * sun[1], east = Math.Cos(turn) * sun[1] - Math.Sin(turn) * sun[0];
        double up = Math.Cos(f) * outward + Math.Sin(f) * sun[2], north = Math.Cos(f) * sun[2] - Math.Sin(f) * outward;
        return (double.RadiansToDegrees(Math.Asin(up)), double.RadiansToDegrees(Math.Atan2(east, north)));
    }

    private static double Rad(double degrees) => double.DegreesToRadians(degrees);
}
