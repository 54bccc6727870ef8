using CsCheck;
using Stillhook.Physics.Air;

namespace Stillhook.Tests.Physics.Air;

public class DensityAltitudeTests
{
    private const double Ft = 0.3048;

    private static double Fahrenheit(double f) => (f - 32) / 1.8 + 273.15;

    // Published: [FAA-H-8083-25] chapter 11, read off a chart to 100 ft (7 700); [FAA-H-8083-28] 8.4.1.5, rounded to 100 ft (12 700).
    // Closed form: 7 709, 12 785 and 7 122 ft (4 000 ft, 95 °F), the atmosphere's equations worked apart.
    [Theory]
    [InlineData(5718, 70, 7709, 7700, 50)]
    [InlineData(10_000, 68, 12_785, 12_700, 100)]
    [InlineData(4000, 95, 7122, 7122, 0.51)]
    public void OfDryAir_WarmDay_MatchesHandbookAndClosedForm(double pressureFt, double f, double exactFt, double printedFt, double printedDigit)
    {
        double feet = DensityAltitude.OfDryAirM(pressureFt * Ft, Fahrenheit(f)) / Ft;
        Assert.Equal(exactFt, feet, 0.51);
        Assert.Equal(printedFt, feet, printedDigit);
    }

    // Published: [FAA-H-8083-25] chapter 4: 22.22 inHg, 80 °F, dew point 75 °F: 11 564 ft; 'almost 500 ft' less when dry. The handbook's formula is [NWS-DA], written out here,
    // which takes another vapour pressure; with ours the closed form is 11 553 ft.
    [Fact]
    public void OfMoistAir_HandbookExample_MatchesWithinTheFormulas()
    {
        double t = Fahrenheit(80), dew = Fahrenheit(75), height = StandardAtmosphere.PressureAltitudeM(22.22 * 3386.389);
        double e = 6.11 * Math.Pow(10, 7.5 * (dew - 273.15) / (237.7 + dew - 273.15)), hPa = 22.22 * 33.8639;
        double weatherService = 145_366 * (1 - Math.Pow(17.326 * 22.22 / (1.8 * t / (1 - 0.378 * e / hPa)), 0.235));
        Assert.Equal(11_564, weatherService, 1.0);
        double moist = DensityAltitude.OfMoistAirM(height, t, dew) / Ft, dry = DensityAltitude.OfDryAirM(height, t) / Ft;
        Assert.Equal(weatherService, moist, 15.0);
        Assert.Equal(11_553, moist, 0.51);
        Assert.Equal(471, moist - dry, 15.0);
    }

    // Closed form: worked apart with the vapour pressure of [WMO-8].
    [Theory]
    [InlineData(0, 30, 30, 2261, 1724)]
    [InlineData(3000, 30, 22, 5739, 5376)]
    public void OfMoistAir_HumidDay_MatchesClosedForm(double pressureFt, double celsius, double dewCelsius, double moistFt, double dryFt)
    {
        Assert.Equal(moistFt, DensityAltitude.OfMoistAirM(pressureFt * Ft, celsius + 273.15, dewCelsius + 273.15) / Ft, 0.51);
        Assert.Equal(dryFt, DensityAltitude.OfDryAirM(pressureFt * Ft, celsius + 273.15) / Ft, 0.51);
    }

    // Closed form: on a standard day density altitude is the altitude.
    [Fact]
    public void OfDryAir_StandardDay_IsTheAltitude() =>
        Gen.Double[-500, 6000].Sample(h => Assert.Equal(h, DensityAltitude.OfDryAirM(h, StandardAtmosphere.TemperatureK(h)), 1e-6));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(0)]
    [InlineData(3)]
    public void OfDensity_OutOfRange_IsRefused(double density) => Assert.Throws<ArgumentOutOfRangeException>(() => DensityAltitude.OfDensityM(density));
}
