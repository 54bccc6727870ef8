using Stillhook.Reporting;
using static Stillhook.Tests.Reporting.Days;

namespace Stillhook.Tests.Reporting;

public class FuelUseTests
{
    private static readonly FlownTime Flown = FlownTime.Of([Flight(From(0, 60), From(80, 140))]);
    private static readonly KeptLift[] Lifts = [.. Enumerable.Range(1, 12).Select(i => Lift(i, 5 * i)), .. Enumerable.Range(13, 12).Select(i => Lift(i, 20 + 5 * i))];

    // Closed form: 240 - 90 + (90 + 160 taken on, read as 250) - 90 = 150 + 160 = 310 kg in 2 h and 24 lifts.
    [Fact]
    public void Of_ReadingsAndAnUplift_UsedPerLiftAndHour()
    {
        FuelUse fuel = FuelUse.Of([new(At(150), 90, null), new(At(-5), 240, null), new(At(62), 90, null), new(At(70), 250, 160)], Lifts, Flown);
        Assert.Equal(310, fuel.UsedKg!.Value, 1e-9);
        Assert.Equal(155, fuel.PerHourKg!.Value, 1e-9);
        Assert.Equal(310.0 / 24, fuel.PerLiftKg!.Value, 1e-9);
        Assert.Equal(160, fuel.TakenOnKg, 1e-9);
        Assert.Empty(fuel.Findings);
        Assert.Equal(165, fuel.OnBoardKg(At(30), Flown)!.Value, 1e-6); // half of the first hour
    }

    // Closed form: 200 + 150 - 50 = 300 kg; half way in the air 125 kg are left of the first fill, with the uplift 200 at 110 min (90 min flown of 120: 200 + 150 - 225).
    [Fact]
    public void Of_UpliftWithoutAReading_CountsFromItsTimeOn()
    {
        FuelUse fuel = FuelUse.Of([new(At(0), 200, null), new(At(70), null, 150), new(At(140), 50, null)], Lifts, Flown);
        Assert.Equal(300, fuel.UsedKg!.Value, 1e-9);
        Assert.Equal(125, fuel.OnBoardKg(At(30), Flown)!.Value, 1e-6);
        Assert.Equal(125, fuel.OnBoardKg(At(110), Flown)!.Value, 1e-6);
    }

    [Fact]
    public void Of_NothingRead_UnknownAndSaid()
    {
        FuelUse fuel = FuelUse.Of([new(At(70), null, 160)], Lifts, Flown);
        Assert.Null(fuel.UsedKg);
        Assert.Null(fuel.PerHourKg);
        Assert.Equal("fuel-unknown", Assert.Single(fuel.Findings).Code);
        Assert.Null(fuel.OnBoardKg(At(30), Flown));
    }

    // Closed form: readings cover the first hour only; the second is 60 min unknown.
    [Fact]
    public void Of_ReadingsOfTheMorningOnly_TheRestIsSaidToBeUnknown()
    {
        FuelUse fuel = FuelUse.Of([new(At(0), 240, null), new(At(60), 90, null)], Lifts, Flown);
        Assert.Equal(150, fuel.PerHourKg!.Value, 1e-9);
        Assert.Equal(12.5, fuel.PerLiftKg!.Value, 1e-9);
        Assert.Contains("60 min", Assert.Single(fuel.Findings).What, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_MoreThanThereCanBe_LeftOutAndSaid()
    {
        FuelUse fuel = FuelUse.Of([new(At(0), 100, null), new(At(70), 250, 100), new(At(140), 100, null)], Lifts, Flown);
        Assert.Equal(150, fuel.UsedKg!.Value, 1e-9);
        Assert.Contains(fuel.Findings, f => f.Code == "fuel-contradiction");
    }
}
