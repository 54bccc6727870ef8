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

    // Closed form: the flying goes on, so three lifts are the first three of the list; one of a mass that no load has gets none, and the next ones keep their turn.
    [Fact]
    public void Assign_GoesOn_EachGetsItsTurnUnlessItsMassSpeaksAgainstIt()
    {
        Assert.Equal(["1", "2", "3"], LoadNumbers.Assign([.. Enumerable.Range(1, 3).Select(i => Lift(i, 4 * i))], List, goesOn: true).Select(l => l.LoadNumber));
        Assert.Equal(["1", null, "3", "4"], LoadNumbers.Assign([Weighed(1, 722), Weighed(2, 300), Weighed(3, 470), Weighed(4, 738)], List, goesOn: true).Select(l => l.LoadNumber));
        // With all of them flown it is the rule of a whole day.
        KeptLift[] all = [Weighed(1, 719), Weighed(2, 300), Weighed(3, 466), Weighed(4, 742), Weighed(5, 481), Weighed(6, 737)];
        Assert.Equal(Numbers(all), LoadNumbers.Assign(all, List, goesOn: true).Select(l => l.LoadNumber));
    }

    // Closed form: load 3 (465 kg) was left out; of what was weighed the first two are the first two, the light one is 5.
    [Fact]
    public void Assign_OneLeftOut_MassesTell() => Assert.Equal(["1", "2", "4", "5", "6"], Numbers(Weighed(1, 722), Weighed(2, 730), Weighed(3, 745), Weighed(4, 476), Weighed(5, 741)));

    // Closed form: 2 and 3 were flown the other way round.
    [Fact]
    public void Assign_Swapped_MassesTell() => Assert.Equal(["1", "3", "2", "4", "5", "6"], Numbers(Weighed(1, 719), Weighed(2, 466), Weighed(3, 733), Weighed(4, 742), Weighed(5, 481), Weighed(6, 737)));

    // A lift of 300 kg is none of them.
    [Fact]
    public void Assign_WeighsNothingListed_StaysWithout() => Assert.Equal(["1", "2", null, "3", "4", "5", "6"], Numbers(Weighed(1, 720), Weighed(2, 735), Weighed(3, 300), Weighed(4, 465), Weighed(5, 742), Weighed(6, 480), Weighed(7, 738)));

    // Simulated truth: 60 days of 15 to 40 loads of two kinds, one or two left out, a load cell good to 8 kg: a number that is given is the right one; most are given.
    [Fact]
    public void Assign_LoadsLeftOut_NeverTheWrongNumber()
    {
        Random random = new(3);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        int given = 0, all = 0, wrong = 0;
        for (int day = 0; day < 60; day++)
        {
            PlannedLoad[] list = [.. Enumerable.Range(1, random.Next(15, 41)).Select(i => Planned(i.ToString(CultureInfo.InvariantCulture), (random.NextDouble() < 0.35 ? 475 : 730) + 10 * Normal()))];
            List<PlannedLoad> flown = [.. list];
            for (int k = random.Next(1, 3); k > 0; k--)
                flown.RemoveAt(random.Next(flown.Count));
            IReadOnlyList<KeptLift> found = LoadNumbers.Assign([.. flown.Select((l, i) => Weighed(i + 1, l.Mass.Kilograms + 8 * Normal()))], list);
            all += found.Count;
            given += found.Count(l => l.LoadNumber is not null);
            wrong += found.Zip(flown).Count(p => p.First.LoadNumber is { } n && n != p.Second.Number);
        }
        Assert.True(wrong <= 0.002 * all, FormattableString.Invariant($"{wrong} wrong of {all}"));
        Assert.InRange(given, 0.75 * all, 0.98 * all);
    }

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
