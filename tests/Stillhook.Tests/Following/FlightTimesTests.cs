using Stillhook.Following;

namespace Stillhook.Tests.Following;

public class FlightTimesTests
{
    /// <summary>Closed form: sums of the times fed.</summary>
    [Fact]
    public void Take_StandsShorterAndLongerThanABreak_OnlyTheLongerEndsTheCount()
    {
        FlightTimes times = new(breakS: 1800);
        Feed(times, 0, 3600, standing: false);
        Feed(times, 3600, 4200, standing: true);
        Feed(times, 4200, 5000, standing: false);
        Assert.Equal(3600 + 800, times.SinceBreakS, 30);
        Assert.Equal(600, Assert.Single(times.Stands).LengthS, 20);
        Feed(times, 5000, 6900, standing: true);
        Assert.Equal(0, times.SinceBreakS);
        Feed(times, 6900, 7000, standing: false);
        Assert.Equal(100, times.SinceBreakS, 20);
        Assert.Equal(2, times.Stands.Count);
    }

    private static void Feed(FlightTimes times, double fromS, double toS, bool standing)
    {
        for (double t = fromS; t < toS; t += 10)
            times.Take(t, standing);
    }
}
