using CsCheck;
using Stillhook.Physics.Air;

namespace Stillhook.Tests.Physics.Air;

public class AltimeterTests
{
    private const double Ft = 0.3048, InHg = 3386.389;

    // Published: [FAA-H-8083-25] chapter 11: Sample Problem 1 (5 883 ft, 30.10 inHg: 5 718 ft) and field elevation 0, 29.70 inHg: 205 ft; printed to 1 ft, and inHg to 0.01.
    [Theory]
    [InlineData(5883, 30.10, 5718)]
    [InlineData(0, 29.70, 205)]
    public void PressureAltitude_OfSetting_MatchesHandbook(double elevationFt, double inHg, double printedFt) =>
        Assert.Equal(printedFt, Altimeter.PressureAltitudeM(elevationFt * Ft, inHg * InHg) / Ft, 0.6);

    // Closed form: the standard atmosphere's own equations, worked apart from the code to 1 ft and 0.01 hPa.
    [Theory]
    [InlineData(3000, 1003, 3281, 898.74)]
    [InlineData(2000, 1020, 1816, 948.49)]
    [InlineData(5883, 1019.303, 5718, 820.66)]
    [InlineData(0, 1005.757, 205, 1005.757)]
    public void StationPressure_OfSetting_MatchesClosedForm(double elevationFt, double qnhHPa, double altitudeFt, double stationHPa)
    {
        Assert.Equal(altitudeFt, Altimeter.PressureAltitudeM(elevationFt * Ft, qnhHPa * 100) / Ft, 0.51);
        Assert.Equal(stationHPa, Altimeter.StationPressurePa(elevationFt * Ft, qnhHPa * 100) / 100, 0.02);
    }

    // Closed form: 288.15/0.0065·((1013.25/1013.25)^0.190263 − (1003.25/1013.25)^0.190263) = 83.56 m, worked apart. Pressure fell, so it reads high.
    [Fact]
    public void ReadsHigh_PressureFellTenHectopascals_MatchesClosedForm()
    {
        double expected = 288.15 / 0.0065 * (1 - Math.Pow(1003.25 / 1013.25, 0.190263));
        Assert.Equal(83.6, expected, 0.05);
        Assert.Equal(expected, Altimeter.ReadsHighM(101_325, 100_325), 1e-3);
    }

    // Closed form: reading = pressure altitude − H(setting); its error against the true elevation is the same at any height.
    [Fact]
    public void ReadsHigh_AnyPlace_IsReadingLessElevation() =>
        Gen.Select(Gen.Double[-100, 4000], Gen.Double[95_000, 105_000], Gen.Double[95_000, 105_000]).Sample((elevation, set, now) =>
        {
            double reading = StandardAtmosphere.PressureAltitudeM(Altimeter.StationPressurePa(elevation, now)) - StandardAtmosphere.PressureAltitudeM(set);
            Assert.Equal(reading - elevation, Altimeter.ReadsHighM(set, now), 1e-6);
        });

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(1013.25)]
    [InlineData(120_000)]
    public void PressureAltitude_QnhOutOfRange_IsRefused(double qnhPa)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Altimeter.PressureAltitudeM(0, qnhPa));
        Assert.Throws<ArgumentOutOfRangeException>(() => Altimeter.ReadsHighM(101_325, qnhPa));
        Assert.Throws<ArgumentOutOfRangeException>(() => Altimeter.PressureAltitudeM(double.NaN, 101_325));
    }
}
