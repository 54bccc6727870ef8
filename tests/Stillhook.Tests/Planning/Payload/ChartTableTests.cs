using CsCheck;
using Stillhook.Planning.Payload;
using UnitsNet;

namespace Stillhook.Tests.Planning.Payload;

public class ChartTableTests
{
    private static readonly double?[,] Cells = { { 2400, 2300, 2200 }, { 2300, 2180, null } };

    private static ChartTable Table() => new(
        [Length.FromFeet(2000), Length.FromFeet(6000)],
        [Temperature.FromDegreesCelsius(0), Temperature.FromDegreesCelsius(20), Temperature.FromDegreesCelsius(40)],
        (row, column) => Cells[row, column]);

    private static double Metres(double feet) => feet * 0.3048;

    // Closed form: a quarter of the way up, half way across: 0.75·(2400+2300)/2 + 0.25·(2300+2180)/2 = 2322.5.
    [Fact]
    public void At_BetweenFourCorners_IsLinearBothWays() => Assert.Equal(2322.5, Table().At(Metres(3000), 10).Value, 1e-9);

    [Fact]
    public void At_PrintedPoint_IsThePrintedValue()
    {
        ChartReading reading = Table().At(Metres(6000), 20);
        Assert.Equal(2180, reading.Value);
        Assert.Equal(2180, Assert.Single(reading.Corners).Value);
    }

    [Theory]
    [InlineData(1999, 10, "pressure altitude")]
    [InlineData(6001, 10, "pressure altitude")]
    [InlineData(3000, -1, "°C is outside")]
    [InlineData(3000, 41, "°C is outside")]
    [InlineData(double.NaN, 10, "pressure altitude")]
    [InlineData(3000, 30, "no value at 6000 ft and 40 °C")]
    public void At_OutsideOrBesideAHole_IsRefusedAndSaysWhy(double feet, double celsius, string why)
    {
        ChartReading reading = Table().At(Metres(feet), celsius);
        Assert.False(reading.IsGiven);
        Assert.True(double.IsNaN(reading.Value));
        Assert.Contains(why, reading.Refused, StringComparison.Ordinal);
    }

    // On the row that is whole, the hole of the next row has no share.
    [Fact]
    public void At_OnAWholeRow_DoesNotNeedTheHoleBesideIt() => Assert.Equal(2250, Table().At(Metres(2000), 30).Value, 1e-9);

    [Fact]
    public void At_AnywhereInside_LiesBetweenItsCorners() => Gen.Select(Gen.Double[2000, 6000], Gen.Double[0, 20]).Sample((feet, celsius) =>
    {
        ChartReading reading = Table().At(Metres(feet), celsius);
        Assert.InRange(reading.Value, reading.Corners.Min(c => c.Value) - 1e-9, reading.Corners.Max(c => c.Value) + 1e-9);
        Assert.Equal(1, reading.Corners.Sum(c => c.Weight), 1e-12);
    });
}
