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

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(11_001)]
    [InlineData(-2001)]
    public void Temperature_OutsideRange_IsRefused(double h) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardAtmosphere.TemperatureK(h));
}
