using Stillhook.Files.Pictures;

namespace Stillhook.Tests.Files.Pictures;

public class DisplayUnitsTests
{
    // Closed form: 1 ft = 0.3048 m, 1 kt = 1852/3600 m/s (both exact by definition).
    [Fact]
    public void Feet_RoundsToWhatCanBeRead()
    {
        Assert.Equal("1000 ft", DisplayUnits.Feet.Height(304.8));
        Assert.Equal("60 kt", DisplayUnits.Feet.SpeedText(60 * 1852.0 / 3600));
        Assert.Equal("550 ft/min", DisplayUnits.Feet.Sink(552 * 0.3048 / 60));
    }

    [Fact]
    public void Metres_SpeedInKilometresAnHour() => Assert.Equal("36 km/h", DisplayUnits.Metres.SpeedText(10));

    [Theory]
    [InlineData(-0.04, 1, "0.0")]
    [InlineData(-1.25, 1, "−1.3")]
    [InlineData(12345, 0, "12345")]
    public void Text_NeverMinusZeroNorGrouping(double value, int decimals, string expected) => Assert.Equal(expected, DisplayUnits.Text(value, decimals));
}
