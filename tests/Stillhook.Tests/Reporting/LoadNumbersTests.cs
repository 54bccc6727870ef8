using System.Globalization;
using Stillhook.Planning;
using Stillhook.Reporting;
using static Stillhook.Tests.Reporting.Days;

namespace Stillhook.Tests.Reporting;

public class LoadNumbersTests
{
    private static readonly double[] Listed = [720, 735, 465, 742, 480, 738];
    private static readonly PlannedLoad[] List = [.. Listed.Select((kg, i) => Planned((i + 1).ToString(CultureInfo.InvariantCulture), kg) with { Family = kg < 600 ? "timber" : "stone" })];

    private static KeptLift Weighed(int number, double kg) => Lift(number, 4 * number, kg: kg) with { LoadMeasured = true };

    private static string?[] Numbers(params KeptLift[] lifts) => [.. LoadNumbers.Assign(lifts, List).Select(l => l.LoadNumber)];

    // Closed form: as many lifts as loads and nothing weighed: by order, with kind and listed mass.
    [Fact]
    public void Assign_AsManyAsListed_ByOrder()
    {
        IReadOnlyList<KeptLift> lifts = LoadNumbers.Assign([.. Listed.Select((_, i) => Lift(i + 1, 4 * i))], List);
        Assert.Equal(["1", "2", "3", "4", "5", "6"], lifts.Select(l => l.LoadNumber));
        Assert.Equal(Listed, lifts.Select(l => l.LoadKg!.Value));
        Assert.Equal("timber", lifts[2].Family);
        Assert.All(lifts, l => Assert.False(l.LoadMeasured));
    }

    // Closed form: one fewer and nothing weighed: any of them may be the one left out, so none is given.
    [Fact]
    public void Assign_OneFewerUnweighed_NoneGiven() => Assert.All(Numbers([.. Enumerable.Range(1, 5).Select(i => Lift(i, 4 * i))]), Assert.Null);

    // Closed form: load 3 (465 kg) was left out; of what was weighed the first two are the first two, the light one is 5.
    [Fact]
    public void Assign_OneLeftOut_MassesTell() => Assert.Equal(["1", "2", "4", "5", "6"], Numbers(Weighed(1, 722), Weighed(2, 730), Weighed(3, 745), Weighed(4, 476), Weighed(5, 741)));

    // Closed form: 2 and 3 were flown the other way round.
    [Fact]
    public void Assign_Swapped_MassesTell() => Assert.Equal(["1", "3", "2", "4", "5", "6"], Numbers(Weighed(1, 719), Weighed(2, 466), Weighed(3, 733), Weighed(4, 742), Weighed(5, 481), Weighed(6, 737)));

    // A lift of 300 kg is none of them.
    [Fact]
    public void Assign_WeighsNothingListed_StaysWithout() => Assert.Equal(["1", "2", null, "3", "4", "5", "6"], Numbers(Weighed(1, 720), Weighed(2, 735), Weighed(3, 300), Weighed(4, 465), Weighed(5, 742), Weighed(6, 480), Weighed(7, 738)));

    [Fact]
    public void Assign_NumberOrStruckOut_Stands()
    {
        IReadOnlyList<KeptLift> lifts = LoadNumbers.Assign([Weighed(1, 720) with { LoadNumber = "6" }, Weighed(2, 466), Weighed(3, 479) with { StruckOut = true }], List);
        Assert.Equal("6", lifts[0].LoadNumber);
        Assert.Equal("stone", lifts[0].Family);
        Assert.Equal(720, lifts[0].LoadKg); // weighed mass stands
        Assert.Null(lifts[2].LoadNumber);
    }
}
