using Stillhook.Debriefing;

namespace Stillhook.Tests.Debriefing;

/// <summary>The sites' clock: shown, and read as typed.</summary>
public class SiteClockTests
{
    private const double Midnight = 1_780_012_800; // a multiple of 86,400 s

    // Clocks are put forward by an hour at 01:00 UTC of that day.
    private static readonly SiteClock Alps = new("test/forward", t => DateTimeOffset.UnixEpoch.AddSeconds(t).ToOffset(TimeSpan.FromHours(t < Midnight + 3600 ? 1 : 2)));

    // Closed form: two hours ahead of UTC in summer.
    [Fact]
    public void Clock_Summer_IsTwoHoursOn()
    {
        Assert.Equal("08:35:49", Alps.Clock(Midnight + 6 * 3600 + 35 * 60 + 49));
        Assert.Equal("08:35", Alps.Minute(Midnight + 6 * 3600 + 35 * 60 + 49));
        Assert.Equal("00:10:00", SiteClock.Utc.Clock(Midnight + 600));
    }

    // Closed form: 23:58 before 01:00:10 local is 1 h 2 min 10 s earlier, on the day before; a time typed over the change of clocks takes the offset that holds there.
    [Theory]
    [InlineData("23:58:00", 10, -3600 - 120)]
    [InlineData("01:30", 10, 1800)]
    [InlineData("04:00", 1800, 7200)]
    public void TryRead_NearAKnownMoment_IsOnItsSide(string text, double near, double expected)
    {
        Assert.True(Alps.TryRead(text, Midnight + near, out double timeS));
        Assert.Equal(Midnight + expected, timeS);
    }

    [Fact]
    public void TryRead_NoClockTime_IsRefused() => Assert.False(Alps.TryRead("quarter past", Midnight, out _));
}
