using Stillhook.Following;

namespace Stillhook.Tests.Following;

public class FlightTimesTests
{
    private const double StepS = 10;

    /// <summary>Closed form: sums of the times fed, each to a step.</summary>
    [Fact]
    public void Take_StandsShorterAndLongerThanABreak_OnlyTheLongerEndsTheCount()
    {
        FlightTimes times = new(breakS: 1800);
        Feed(times, 0, 3600, standing: false);
        Feed(times, 3600, 4200, standing: true);
        Feed(times, 4200, 5000, standing: false);
        Assert.InRange(times.SinceBreakS, 4400 - 2 * StepS, 4400);
        Assert.InRange(Assert.Single(times.Stands).LengthS, 600 - StepS, 600);
        Feed(times, 5000, 6900, standing: true);
        Assert.Equal(0, times.SinceBreakS);
        Feed(times, 6900, 7000, standing: false);
        Assert.InRange(times.SinceBreakS, 100 - StepS, 100);
        Assert.Equal(2, times.Stands.Count);
    }

    private static void Feed(FlightTimes times, double fromS, double toS, bool standing)
    {
        for (double t = fromS; t < toS; t += StepS)
            times.Take(t, standing);
    }
}
