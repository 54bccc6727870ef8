using System.Globalization;
using Stillhook.Physics.Air;

namespace Stillhook.Tests.Physics.Air;

public class StandardAtmosphereTests
{
    // Published: tests/reference/standard-atmosphere.csv [ISO2533]. Tolerance: half of the last printed digit, plus the 1e-6 the table's own rounding of g/(R·lapse) can make.
    [Fact]
    public void Columns_EveryTableRow_MatchToTheLastPrintedDigit()
    {
        string[] rows = [.. File.ReadLines(Repository.File("tests/reference/standard-atmosphere.csv")).Where(l => !l.StartsWith('#')).Skip(1)];
        Assert.Equal(12, rows.Length);
        foreach (string[] cells in rows.Select(r => r.Split(',')))
        {
            double h = double.Parse(cells[0], CultureInfo.InvariantCulture);
            Close(cells[1], StandardAtmosphere.TemperatureK(h));
            Close(cells[2], StandardAtmosphere.PressurePa(h) / 100);
            Close(cells[3], StandardAtmosphere.DensityKgM3(h));
            Assert.Equal(double.Parse(cells[4], CultureInfo.InvariantCulture), StandardAtmosphere.DensityKgM3(h) / StandardAtmosphere.DensityKgM3(0), h < 0 ? 5.01e-6 : 1e-6);
            Close(cells[5], StandardAtmosphere.SpeedOfSoundMs(StandardAtmosphere.TemperatureK(h)));
        }
    }

    private static void Close(string printed, double value)
    {
        int decimals = printed.Length - printed.IndexOf('.') - 1;
        Assert.Equal(double.Parse(printed, CultureInfo.InvariantCulture), value, 0.501 * Math.Pow(10, -decimals));
    }

    // Published: FAA-H-8083-25, pressure altitude sample: 30.10 inHg is 165 ft under the standard level (printed to 1 ft).
    [Fact]
    public void PressureAltitude_HighSetting_MatchesHandbook() =>
        Assert.Equal(-165, StandardAtmosphere.PressureAltitudeM(30.10 * 3386.389) / 0.3048, 0.6);

    // Published: [ISO2533] table by geometric altitude, as in metanorma/atmospheris tests-geometric.yml: at 6 000 m 249.187 K, 472.176 hPa, 0.660111 kg/m3; at 3 000 m 701.212 hPa.
    // Tolerance: half of the last printed digit, and for the last 1e-6 more as above.
    [Fact]
    public void Geopotential_OfGeometricHeight_MatchesTable()
    {
        double h = StandardAtmosphere.GeopotentialM(6000);
        Assert.Equal(5994, h, 0.5);
        Assert.Equal(249.187, StandardAtmosphere.TemperatureK(h), 5.01e-4);
        Assert.Equal(472.176, StandardAtmosphere.PressurePa(h) / 100, 5.01e-4);
        Assert.Equal(0.660111, StandardAtmosphere.DensityKgM3(h), 5.01e-7);
        Assert.Equal(701.212, StandardAtmosphere.PressurePa(StandardAtmosphere.GeopotentialM(3000)) / 100, 1e-3);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(12_000)]
    public void Geopotential_OutsideRange_IsRefused(double h) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardAtmosphere.GeopotentialM(h));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(0)]
    public void SpeedOfSound_NoTemperature_IsRefused(double k) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardAtmosphere.SpeedOfSoundMs(k));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(11_001)]
    [InlineData(-2001)]
    public void Temperature_OutsideRange_IsRefused(double h) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardAtmosphere.TemperatureK(h));
}
