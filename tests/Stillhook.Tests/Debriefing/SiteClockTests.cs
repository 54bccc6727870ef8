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

    // 2026-11-26: a time that the clocks skip was read as another one, an hour before or after.
    [Fact]
    public void TryRead_TimeThatTheClocksSkip_IsRefused()
    {
        Assert.False(Alps.TryRead("02:30", Midnight, out _));
        Assert.False(Alps.TryRead("02:30", Midnight + 7200, out _));
        Assert.False(Alps.TryRead("02:30", new DateOnly(2026, 5, 29), out _));
        // Closed form: the day after it is there, 1.5 h and one day after midnight UTC less an hour.
        Assert.True(Alps.TryRead("02:30", new DateOnly(2026, 5, 30), out double next));
        Assert.Equal(Midnight + 86400 + 1800, next);
    }

    // Closed form: put back from 03:00 to 02:00 at 01:00 UTC, 02:30 is there at 00:30 and at 01:30 UTC.
    [Fact]
    public void TryRead_TimeThatComesTwice_IsTheOneNearAMomentAndTheFirstOfADay()
    {
        SiteClock back = new("test/back", t => DateTimeOffset.UnixEpoch.AddSeconds(t).ToOffset(TimeSpan.FromHours(t < Midnight + 3600 ? 2 : 1)));
        Assert.True(back.TryRead("02:30", Midnight + 1700, out double before));
        Assert.True(back.TryRead("02:30", Midnight + 5000, out double after));
        Assert.Equal((Midnight + 1800, Midnight + 5400), (before, after));
        Assert.True(back.TryRead("02:30", new DateOnly(2026, 5, 29), out double first));
        Assert.Equal(Midnight + 1800, first);
    }
}
