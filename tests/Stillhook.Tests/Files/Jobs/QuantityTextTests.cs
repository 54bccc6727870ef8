using System.Globalization;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using UnitsNet;

namespace Stillhook.Tests.Files.Jobs;

public class QuantityTextTests
{
    // Closed form: 1 ft = 0.3048 m, 1 lb = 0.45359237 kg, 1 NM = 1852 m by definition.
    [Theory]
    [InlineData("30m", 30)]
    [InlineData("100 ft", 30.48)]
    [InlineData("0.5NM", 926)]
    [InlineData("1.5m", 1.5)]
    [InlineData("4e1m", 40)]
    public void TryLength_NumberWithUnit_IsRead(string text, double metres)
    {
        Assert.True(QuantityText.TryLength(text, out Length length, out _));
        Assert.Equal(metres, length.Meters, 1e-9);
    }

    [Theory]
    [InlineData("30")]
    [InlineData("78,5m")]
    [InlineData("1,000m")]
    [InlineData("m")]
    [InlineData("")]
    [InlineData("-3m")]
    [InlineData("NaNm")]
    [InlineData("30kg")]
    [InlineData("30mm")]
    public void TryLength_MissingUnitGroupingOrNonsense_IsRefusedWithWhatIsExpected(string text)
    {
        Assert.False(QuantityText.TryLength(text, out _, out string expected));
        Assert.Contains("30m", expected, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("780kg", 780)]
    [InlineData("1720lb", 780.1788764)]
    [InlineData("0.78t", 780)]
    public void TryMass_NumberWithUnit_IsRead(string text, double kilograms)
    {
        Assert.True(QuantityText.TryMass(text, out Mass mass, out _));
        Assert.Equal(kilograms, mass.Kilograms, 1e-6);
    }

    [Theory]
    [InlineData("1.8m2", 1.8)]
    [InlineData("2 m²", 2)]
    [InlineData("22m2", 22)]
    [InlineData("10ft2", 0.9290304)]
    public void TryArea_TheTwoOfTheUnitIsNotPartOfTheNumber(string text, double squareMetres)
    {
        Assert.True(QuantityText.TryArea(text, out Area area, out _));
        Assert.Equal(squareMetres, area.SquareMeters, 1e-9);
    }

    [Fact]
    public void TryWind_DirectionAndSpeed_BlowsTowardsTheOppositeSide()
    {
        Assert.True(QuantityText.TryWind("270/10kt", out Wind wind, out _));
        // Closed form: 10 kt = 5.14444 m/s; from the west is towards the east.
        Assert.Equal(5.14444, wind.VelocityEnu.East, 1e-5);
        Assert.Equal(0, wind.VelocityEnu.North, 1e-9);
        Assert.False(QuantityText.TryWind("400/10kt", out _, out _));
        Assert.False(QuantityText.TryWind("240/12", out _, out _));
    }

    // Closed form: what stands in the text.
    [Fact]
    public void TryMass_UnderACommaDecimalCulture_ReadsTheSame()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.True(QuantityText.TryMass("78.5kg", out Mass mass, out _));
            Assert.Equal(78.5, mass.Kilograms, 1e-9);
            Assert.False(QuantityText.TryMass("78,5kg", out _, out _));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
