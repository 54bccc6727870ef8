using Stillhook.Files.Pictures;

namespace Stillhook.Tests.Files.Pictures;

/// <summary>Expected values are common practice, no source: a comma before the decimals and nothing between the thousands.</summary>
public class DecimalMarkTests
{
    private static readonly DisplayUnits Metres = DisplayUnits.Metres.With(DecimalMark.Comma), Pounds = DisplayUnits.Pounds.With(DecimalMark.Comma);

    [Fact]
    public void Units_UnderTheComma_HaveItInEveryNumber()
    {
        Assert.Equal("12,3 m", Metres.Along(12.34));
        Assert.Equal("0,5 m/s", Metres.Sink(0.52));
        Assert.Equal("−3,0", Metres.Number(-3, 1));
        // Closed form: 1013.25 hPa are 29.92 inHg.
        Assert.Equal("29,92 inHg", Pounds.Pressure(101325));
        Assert.Equal("12340 m", Metres.Height(12340));
        Assert.Equal("Load 3.1 hangs on 12,5 m; 5,2 to 6,6 m on 2026.11", Metres.Sentence("Load 3.1 hangs on 12.5 m; 5.2 to 6.6 m on 2026.11"));
        Assert.Equal(("12.3 m", "m"), (Metres.Plain.Along(12.34), Metres.Plain.Name));
    }

    [Fact]
    public void Units_ByDefault_HaveThePoint()
    {
        Assert.Equal("12.3 m", DisplayUnits.Metres.Along(12.34));
        Assert.Equal("12.5 m", DisplayUnits.Metres.Sentence("12.5 m"));
    }

    [Theory]
    [InlineData("30,5", "30.5")]
    [InlineData("1.260", "1,260")]
    [InlineData("30.5", "30,5")]
    [InlineData("240/12,5kt", "240/12.5kt")]
    public void Read_UnderTheComma_IsTheOtherWayRoundAndBack(string typed, string read)
    {
        Assert.Equal(read, DecimalMark.Comma.Read(typed));
        Assert.Equal(typed, DecimalMark.Comma.Shown(read));
        Assert.Equal(typed, DecimalMark.Point.Read(typed));
    }
}
