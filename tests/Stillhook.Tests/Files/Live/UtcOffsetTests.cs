using Stillhook.Files.Live;

namespace Stillhook.Tests.Files.Live;

/// <remarks>Expected values are simulated truth: the delays and the clock's error the arrivals were made with. The 2 s are common practice, no source.</remarks>
public class UtcOffsetTests
{
    private const double Told = 1_780_304_400;

    private readonly UtcOffset _offset = new();

    // Delays of 0.1 to 0.9 s on a clock that is 40 s ahead; the smallest delay is what remains.
    [Fact]
    public void Take_ScatteredDelays_SmallestCounts()
    {
        var random = new Random(1);
        for (int i = 0; i < 620; i++) _offset.Take("gps", Told + i, Told + i + 40 + (i == 590 ? 0.1 : 0.1 + 0.8 * random.NextDouble()));
        Assert.Equal(-40.1, _offset.OffsetS, 0.02);
        Assert.Equal(Told + 60 - 0.1, _offset.Stamp(Told + 100), 0.02);
    }

    [Fact]
    public void Stamp_BeforeTwoSeconds_IsThisMachinesClock()
    {
        for (int i = 0; i < 19; i++) _offset.Take("gps", Told + i * 0.1, Told + i * 0.1 + 40);
        Assert.True(double.IsNaN(_offset.OffsetS));
        Assert.Equal(1e9, _offset.Stamp(1e9));
    }

    // A file read from its start hands over 20 minutes at once; only then do its positions come as they are made.
    [Fact]
    public void Take_BacklogFirst_IsNotBelieved()
    {
        for (int i = 0; i < 1200; i++)
        {
            _offset.Take("gps", Told + i, Told + 1200 + i * 0.001);
            Assert.True(double.IsNaN(_offset.OffsetS) || Math.Abs(_offset.OffsetS) < 2);
        }

        for (int i = 0; i < 10; i++) _offset.Take("gps", Told + 1201 + i, Told + 1201.5 + i);
        Assert.Equal(-0.2, _offset.OffsetS, 0.31); // between the delays of the end of the backlog (0.2 s) and of now (0.5 s)
    }

    [Theory]
    [InlineData(-90)]
    [InlineData(90)]
    public void Take_ClockIsSet_NewOffsetWithinTenSeconds(double step)
    {
        for (int i = 0; i < 100; i++) _offset.Take("gps", Told + i, Told + i + 0.2);
        for (int i = 100; i < 110; i++) _offset.Take("gps", Told + i, Told + i + 0.2 + step);
        Assert.Equal(-0.2 - step, _offset.OffsetS, 1e-5);
    }

    // A link that stalls for 4 s and then catches up changes nothing.
    [Fact]
    public void Take_StalledLink_KeepsTheOffset()
    {
        for (int i = 0; i < 100; i++) _offset.Take("gps", Told + i, Told + i + 0.2);
        for (int i = 100; i < 105; i++) _offset.Take("gps", Told + i, Told + 104.3);
        for (int i = 105; i < 120; i++)
        {
            _offset.Take("gps", Told + i, Told + i + 0.2);
            Assert.Equal(-0.2, _offset.OffsetS, 0.11);
        }
    }

    [Fact]
    public void Take_SecondSource_DoesNotMoveIt()
    {
        for (int i = 0; i < 100; i++)
        {
            _offset.Take("gps", Told + i, Told + i + 0.2);
            _offset.Take("tracker", Told + i, Told + i + 8);
        }

        Assert.Equal(-0.2, _offset.OffsetS, 1e-5);
    }
}
