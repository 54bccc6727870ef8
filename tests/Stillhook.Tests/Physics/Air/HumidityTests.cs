using CsCheck;
using Stillhook.Physics.Air;

namespace Stillhook.Tests.Physics.Air;

public class HumidityTests
{
    // Closed form: the formula of [WMO-8] worked apart, hPa to the last printed digit.
    [Theory]
    [InlineData(0, 6.112)]
    [InlineData(10, 12.260)]
    [InlineData(20, 23.326)]
    [InlineData(30, 42.337)]
    [InlineData(40, 73.675)]
    public void SaturationPressure_OfTemperature_MatchesFormula(double celsius, double hPa) =>
        Assert.Equal(hPa, Humidity.SaturationPressurePa(celsius + 273.15) / 100, 5.01e-4);

    // Published: another formula for the same thing, [BUCK], written out here; the two differ by under 0.3 % from 0 to 40 °C.
    [Theory]
    [InlineData(0)]
    [InlineData(10)]
    [InlineData(20)]
    [InlineData(30)]
    [InlineData(40)]
    public void SaturationPressure_OfTemperature_AgreesWithBuck(double t)
    {
        double buck = 611.21 * Math.Exp((18.678 - t / 234.5) * t / (257.14 + t));
        Assert.Equal(1, Humidity.SaturationPressurePa(t + 273.15) / buck, 0.003);
    }

    // Closed form: ideal gases of dry air (28.9644 g/mol) and water vapour (18.0153 g/mol) added up, worked apart from the virtual temperature.
    [Fact]
    public void Density_Saturated_IsDryAirPlusVapour()
    {
        double e = Humidity.SaturationPressurePa(303.15), r = 287.05287, rv = r * 28.9644 / 18.0153;
        double sum = (101_325 - e) / (r * 303.15) + e / (rv * 303.15);
        Assert.Equal(sum, Humidity.DensityByRelativeHumidityKgM3(101_325, 303.15, 1), 2e-5);
    }

    [Fact]
    public void Density_MoreVapour_IsLess() =>
        Gen.Select(Gen.Double[70_000, 103_000], Gen.Double[260, 318], Gen.Double[0, 0.9]).Sample((p, t, u) =>
        {
            double dry = StandardAtmosphere.DensityKgM3(p, t), some = Humidity.DensityByRelativeHumidityKgM3(p, t, u), more = Humidity.DensityByRelativeHumidityKgM3(p, t, u + 0.1);
            Assert.True(some <= dry && more < some && more > 0.9 * dry);
        });

    // Closed form: air is saturated when the dew point is the temperature.
    [Fact]
    public void Density_DewPointAtTemperature_IsSaturated() =>
        Assert.Equal(Humidity.DensityByRelativeHumidityKgM3(90_000, 295, 1), Humidity.DensityByDewPointKgM3(90_000, 295, 295), 1e-12);

    [Fact]
    public void Density_Unphysical_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Humidity.DensityByDewPointKgM3(101_325, 293.15, 293.16));
        Assert.Throws<ArgumentOutOfRangeException>(() => Humidity.DensityByDewPointKgM3(101_325, double.NaN, 290));
        Assert.Throws<ArgumentOutOfRangeException>(() => Humidity.DensityByRelativeHumidityKgM3(101_325, 293.15, 1.01));
        Assert.Throws<ArgumentOutOfRangeException>(() => Humidity.DensityByRelativeHumidityKgM3(-1, 293.15, 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => Humidity.SaturationPressurePa(20));
        Assert.Throws<ArgumentOutOfRangeException>(() => Humidity.VirtualTemperatureK(300, 3000, 2000));
    }
}
