using Stillhook.Reporting;
using static Stillhook.Tests.Reporting.Days;

namespace Stillhook.Tests.Reporting;

public class LiftTotalsTests
{
    private static readonly FlownTime Morning = FlownTime.Of([Flight(From(0, 174))]); // 2.9 h

    // Closed form: 41 lifts / 2.9 h = 14.1379...
    [Fact]
    public void Of_FortyOneLiftsIn2Point9Hours_14Point1AnHour()
    {
        LiftTotals totals = LiftTotals.Of([.. Enumerable.Range(1, 41).Select(i => Lift(i, 4 * i, kg: 700))], Morning);
        Assert.Equal(41, totals.Lifts);
        Assert.Equal(41 / 2.9, totals.PerHour!.Value, 1e-9);
        Assert.Equal(28_700, totals.CarriedKg, 1e-9);
    }

    // Closed form: a lift every 4 min of flight, but 50 min on the ground after the 12th; ten lifts always take 40 min in the air: 15 an hour. The first ten count from take-off.
    [Fact]
    public void Of_PauseOnTheGround_MovingAveragesCountOnlyFlight()
    {
        FlownTime flown = FlownTime.Of([Flight(From(0, 48), From(98, 150))]);
        LiftTotals totals = LiftTotals.Of([.. Enumerable.Range(1, 25).Select(i => Lift(i, i <= 12 ? 4 * i : 50 + 4 * i))], flown);
        Assert.All(totals.Pace.Take(9), p => Assert.Null(p.OfLastLifts));
        Assert.All(totals.Pace.Skip(9), p => Assert.Equal(15, p.OfLastLifts!.Value, 1e-9));
        Assert.All(totals.Pace.Take(14), p => Assert.Null(p.OfLastTime)); // the 14th is at 56 min of flight
        Assert.All(totals.Pace.Skip(14), p => Assert.Equal(15, p.OfLastTime!.Value, 1e-9));
        Assert.Equal(100, totals.FlownS / 60, 1e-9);
    }

    // Closed form: after ten lifts every 4 min, ten every 2 min: the last ten took 20 min, 30 an hour.
    [Fact]
    public void Of_FasterLater_MovesUp()
    {
        LiftTotals totals = LiftTotals.Of([.. Enumerable.Range(1, 20).Select(i => Lift(i, i <= 10 ? 4 * i : 40 + 2 * (i - 10)))], Morning);
        Assert.Equal(30, totals.Pace[^1].OfLastLifts!.Value, 1e-9);
        Assert.Equal(20, totals.Pace[14].OfLastLifts!.Value, 1e-9); // five in 20 min and five in 10
    }

    [Fact]
    public void Of_StruckOutAndUnknown_CountNowhereAndAreSaid()
    {
        LiftTotals totals = LiftTotals.Of([Lift(1, 5, kg: 600) with { LoadMeasured = true }, Lift(2, 10), Lift(3, 15, kg: 500) with { StruckOut = true }, Lift(4, null, kg: 100)], FlownTime.Of([]));
        Assert.Equal((3, 2, 1, 2), (totals.Lifts, totals.LiftsWithMass, totals.LiftsMeasured, totals.Pace.Count));
        Assert.Equal(700, totals.CarriedKg, 1e-9);
        Assert.Null(totals.PerHour);
    }

    [Theory]
    [InlineData(0, 3600)]
    [InlineData(10, 0)]
    [InlineData(10, double.NaN)]
    public void Of_WindowOfNothing_IsRefused(int lifts, double seconds) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => LiftTotals.Of([], Morning, lifts, seconds));

    // Closed form: two records of the same quarter of an hour are flown once.
    [Fact]
    public void FlownTime_OverlappingRecords_CountOnce()
    {
        FlownTime flown = FlownTime.Of([Flight(From(0, 20)), Flight(From(15, 30), From(40, 50))]);
        Assert.Equal([From(0, 30), From(40, 50)], flown.Stretches);
        Assert.Equal(7 * 60, flown.BetweenS(At(28), At(45)), 1e-6);
    }
}
