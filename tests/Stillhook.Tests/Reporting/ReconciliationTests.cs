using System.Globalization;
using CsCheck;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;
using static Stillhook.Tests.Reporting.Days;

namespace Stillhook.Tests.Reporting;

public class ReconciliationTests
{
    private static string Text(int n) => n.ToString(CultureInfo.InvariantCulture);

    private static readonly PlannedLoad[] Forty = [.. Enumerable.Range(1, 40).Select(i => Planned(Text(i)))];

    // Closed form: of loads 1 to 40 the tally lacks 7 and 23 and has one that is not on the list (47); the record has all 41. Three odd ones.
    [Fact]
    public void Of_Plan40Tally39Record41_TheThreeOddOnesWithTimes()
    {
        int[] flown = [.. Enumerable.Range(1, 40), 47];
        Reconciliation r = Reconciliation.Of(Forty, [.. flown.Where(i => i is not (7 or 23)).Select((i, k) => Tally(k + 1, 4 * i + 0.5, Text(i)))], [.. flown.Select((i, k) => Lift(k + 1, 4 * i, Text(i)))]);
        Assert.Equal((40, 39, 41), (r.Planned, r.Tallied, r.Recorded));
        Assert.Equal(["7", "23", "47"], r.Odd.Select(o => o.LoadNumber));
        Assert.Equal([At(28), At(92), At(188)], r.Odd.Select(o => o.AtS!.Value));
        Assert.Equal(["plan and record, not the tally", "plan and record, not the tally", "tally and record, not the plan"], r.Odd.Select(o => o.KnownTo));
    }

    // Closed form: load 12 was not flown, and two lifts the record shows are in nobody's list: 40, 39, 41 as well. The record has no numbers; times tell.
    [Fact]
    public void Of_RecordWithoutNumbers_MatchesByTime()
    {
        KeptLift[] record = [.. Enumerable.Range(1, 40).Where(i => i != 12).Select((i, k) => Lift(k + 1, 4 * i)), Lift(40, 200), Lift(41, 207)];
        Reconciliation r = Reconciliation.Of(Forty, [.. Enumerable.Range(1, 40).Where(i => i != 12).Select((i, k) => Tally(k + 1, 4 * i + 1, Text(i)))], record);
        Assert.Equal((40, 39, 41), (r.Planned, r.Tallied, r.Recorded));
        Assert.Equal(["the record alone", "the record alone", "the plan alone"], r.Odd.Select(o => o.KnownTo));
        Assert.Equal([At(200), At(207), null], r.Odd.Select(o => o.AtS));
        Assert.Equal("12", r.Odd[2].LoadNumber);
    }

    // Closed form: three loads, a tally of bare strokes, two lifts found: the third load is odd, and which of them it was is not known.
    [Fact]
    public void Of_NobodyWroteNumbers_ByOrderAndSaid()
    {
        Reconciliation r = Reconciliation.Of([Planned("1"), Planned("2"), Planned("3")], [Tally(1, 5), Tally(2, 10)], [Lift(1, 5), Lift(2, 10)]);
        Assert.Equal([MatchedBy.Order, MatchedBy.Order, MatchedBy.Nothing], r.Rows.Select(x => x.By));
        Assert.Equal("the plan alone", Assert.Single(r.Odd).KnownTo);
        // 2026-11-26: the day sheet wrote the list's numbers beside such lifts, the customer's report none.
        Assert.Equal([null, null, "3"], r.Rows.Select(x => x.LoadNumber));
        Assert.Equal(2, r.ByTurn);
        Assert.Contains("2 lifts are counted against the list by turn", DayWords.ByTurn(r), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_SameTimeAnotherNumber_OneLiftThatDiffers()
    {
        ReconciledLift row = Assert.Single(Reconciliation.Of([], [Tally(1, 10, "4")], [Lift(1, 10.5, "5")]).Rows);
        Assert.True(row.NumbersDiffer);
        Assert.Equal(MatchedBy.Time, row.By);
    }

    // Closed form: tolerance 3 min; 2 min 59 s is one lift, 3 min 1 s are two.
    [Theory]
    [InlineData(179, 1)]
    [InlineData(181, 2)]
    public void Of_TimesApart_ToleranceParts(double apartS, int rows) =>
        Assert.Equal(rows, Reconciliation.Of([], [new(1, At(0), null, null, null)], [Lift(1, apartS / 60)]).Rows.Count);

    // Closed form: entries at 0 and 2 min, lifts at 2 and 4 min: nearest first would pair 2 with 2 and leave two odd; in pairs all four match.
    [Fact]
    public void Of_ShiftedTally_AsManyPairsAsThereAre() =>
        Assert.Equal(2, Reconciliation.Of([], [Tally(1, 0), Tally(2, 2)], [Lift(1, 2), Lift(2, 4)]).Rows.Count);

    // Closed form: the record's numbers were given by order and are all one too high from the second on (load 2 was left out, 6 was another's); the crew wrote what they hooked on. Times say which lift is which.
    [Fact]
    public void Of_RecordNumberedOneOff_TimesAndTheTallyHold()
    {
        string[] hooked = ["1", "3", "4", "5", "6"];
        Reconciliation r = Reconciliation.Of([.. Enumerable.Range(1, 5).Select(i => Planned(Text(i)))], [.. hooked.Select((n, i) => Tally(i + 1, 4 * i + 0.5, n))], [.. hooked.Select((_, i) => Lift(i + 1, 4 * i, Text(i + 1)))]);
        Assert.All(r.Rows.Where(x => x.Tally is not null), x => Assert.Equal(x.Tally!.Number, x.Record!.Number));
        Assert.Equal(["6", "2"], r.Odd.Select(o => o.LoadNumber));
        Assert.Equal(4, r.Rows.Count(x => x.NumbersDiffer));
    }

    // A tally written 8 min late, and one without a time: the number tells.
    [Fact]
    public void Of_LateOrTimelessTally_TheNumberTells()
    {
        Reconciliation r = Reconciliation.Of([], [Tally(1, 13, "4"), Tally(2, null, "5")], [Lift(1, 5, "4"), Lift(2, 9, "5")]);
        Assert.Equal([(1, 1), (2, 2)], r.Rows.Select(x => (x.Tally!.Number, x.Record!.Number)));
    }

    // Best of all pairings by trying them all, on up to five against five without numbers: as many pairs, and no larger sum of differences.
    [Fact]
    public void Of_AnyTimes_AsGoodAsTheBestOfAllPairings() =>
        Gen.Select(Gen.Int[0, 24].Array[0, 5], Gen.Int[0, 24].Array[0, 5]).Sample((entries, lifts) =>
        {
            Reconciliation r = Reconciliation.Of([], [.. entries.Select((m, i) => Tally(i + 1, m * 0.5))], [.. lifts.Select((m, i) => Lift(i + 1, m * 0.5))]);
            ReconciledLift[] pairs = [.. r.Rows.Where(x => x.Tally is not null && x.Record is not null)];
            (int pairs, double sum) best = Best([.. entries.Select(m => m * 30.0)], [.. lifts.Select(m => m * 30.0)]);
            Assert.Equal(best.pairs, pairs.Length);
            Assert.Equal(best.sum, pairs.Sum(x => Math.Abs(x.Tally!.AtS!.Value - x.Record!.DeliveryTimeS!.Value)), 1e-3);
        });

    private static (int Pairs, double Sum) Best(double[] entries, double[] lifts)
    {
        if (entries.Length == 0)
            return (0, 0);
        (int Pairs, double Sum) best = Best(entries[1..], lifts);
        for (int j = 0; j < lifts.Length; j++)
            if (Math.Abs(entries[0] - lifts[j]) is <= 180 and double apart)
            {
                (int pairs, double sum) = Best(entries[1..], [.. lifts[..j], .. lifts[(j + 1)..]]);
                if (pairs + 1 > best.Pairs || pairs + 1 == best.Pairs && sum + apart < best.Sum)
                    best = (pairs + 1, sum + apart);
            }
        return best;
    }

    [Fact]
    public void Of_StruckOutOrAddedByHand_AreNotTheRecords()
    {
        Reconciliation r = Reconciliation.Of([Planned("1")], [Tally(1, 5, "1")], [Lift(1, 5, "1") with { AddedByHand = true }, Lift(2, 9) with { StruckOut = true }]);
        Assert.Equal(0, r.Recorded);
        Assert.Equal("plan and tally, not the record", Assert.Single(r.Rows).KnownTo);
    }

    private static readonly Gen<string?> AnyNumber = Gen.Int[0, 12].Select(n => n == 0 ? null : Text(n));
    private static readonly Gen<double?> AnyMinute = Gen.Int[0, 40].Select(m => m == 0 ? (double?)null : m * 1.5);

    private static readonly Gen<TallyEntry[]> AnyTally = Gen.Select(AnyMinute, AnyNumber, (m, n) => (m, n)).Array[0, 15].Select(a => a.Select((x, i) => Tally(i + 1, x.m, x.n)).ToArray());
    private static readonly Gen<KeptLift[]> AnyRecord = Gen.Select(AnyMinute, AnyNumber, (m, n) => (m, n)).Array[0, 15].Select(a => a.Select((x, i) => Lift(i + 1, x.m, x.n)).ToArray());

    // Every entry stands in exactly one row, and who came first in the input does not matter.
    [Fact]
    public void Of_AnyDay_EveryEntryOnceInAnyOrder() =>
        Gen.Select(Gen.Int[0, 12], AnyTally, AnyRecord, Gen.Int).Sample((loads, tally, record, seed) =>
        {
            PlannedLoad[] plan = [.. Enumerable.Range(1, loads).Select(i => Planned(Text(i)))];
            Reconciliation r = Reconciliation.Of(plan, tally, record);
            Assert.Equal(plan.Select(p => p.Number).Order(StringComparer.Ordinal), r.Rows.Select(x => x.Plan?.Number).OfType<string>().Order(StringComparer.Ordinal));
            Assert.Equal(tally.Select(t => t.Number), r.Rows.Select(x => x.Tally).OfType<TallyEntry>().Select(t => t.Number).Order());
            Assert.Equal(record.Select(l => l.Number), r.Rows.Select(x => x.Record).OfType<KeptLift>().Select(l => l.Number).Order());
            Assert.All(r.Rows, x => Assert.True(x.Plan is not null || x.Tally is not null || x.Record is not null));
            Assert.All(r.Rows.Where(x => x.Tally is not null && x.Record is not null && x.By == MatchedBy.Time), x => Assert.True(Math.Abs(x.Tally!.AtS!.Value - x.Record!.DeliveryTimeS!.Value) <= 180));

            Random random = new(seed);
            random.Shuffle(tally);
            random.Shuffle(record);
            Assert.Equal(r.Rows, Reconciliation.Of(plan, tally, record).Rows);
        });

    // A day in which each lift is known to a drawn set of the three, all numbered and minutes apart: the odd ones are exactly those not known to all.
    [Fact]
    public void Of_DrawnOmissions_OddAreExactlyThose() =>
        Gen.Int[1, 7].Array[1, 45].Sample(known =>
        {
            int[] number = [.. Enumerable.Range(1, known.Length)];
            Reconciliation r = Reconciliation.Of(
                [.. number.Where(i => (known[i - 1] & 1) != 0).Select(i => Planned(Text(i)))],
                [.. number.Where(i => (known[i - 1] & 2) != 0).Select(i => Tally(i, 10 * i + 1, Text(i)))],
                [.. number.Where(i => (known[i - 1] & 4) != 0).Select(i => Lift(i, 10 * i, Text(i)))]);
            Assert.Equal(number.Where(i => known[i - 1] != 7).Select(Text).Order(StringComparer.Ordinal), r.Odd.Select(o => o.LoadNumber!).Order(StringComparer.Ordinal));
        });
}
