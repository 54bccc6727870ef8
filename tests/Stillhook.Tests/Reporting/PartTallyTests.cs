using Stillhook.Planning;
using Stillhook.Reporting;
using static Stillhook.Tests.Reporting.Days;

namespace Stillhook.Tests.Reporting;

public class PartTallyTests
{
    private static readonly PartCount Hook = new("hook 12", PartKind.CargoHook, 4_950, 310.5), Line = new("line 3", PartKind.Line, 1_200, 88);
    private static readonly LiftTotals Totals = LiftTotals.Of([.. Enumerable.Range(1, 41).Select(i => Lift(i, 4 * i))], FlownTime.Of([Flight(From(0, 174))]));

    // Closed form: 4 950 + 41 = 4 991 lifts; 310.5 + 2.9 = 313.4 h.
    [Fact]
    public void Of_Day_BeforeThisDayToDate()
    {
        PartTally hook = PartTally.Of([Hook, Line], Totals, [])[0];
        Assert.Equal((4_991L, 41), (hook.LiftsToDate, hook.LiftsThisDay));
        Assert.Equal(313.4, hook.HoursToDate, 1e-9);
        Assert.Empty(hook.Rules);
    }

    // Closed form against a limit of 5 000 lifts: 4 991 is near, 5 000 is reached, 4 499 is neither.
    [Theory]
    [InlineData(4_950, CheckVerdict.ToConfirm, "4991 of 5000 lifts")]
    [InlineData(4_959, CheckVerdict.Fails, "5000 of 5000 lifts")]
    [InlineData(4_458, CheckVerdict.Passes, "4499 of 5000 lifts")]
    public void Of_LiftRule_NearReachedOrNeither(long before, CheckVerdict expected, string words)
    {
        CheckItem item = Assert.Single(PartTally.Of([Hook with { Cycles = before }], Totals, [new() { Kind = PartKind.CargoHook, Lifts = 5_000, Source = "hook manual 5-10" }])[0].Rules);
        Assert.Equal(expected, item.Verdict);
        Assert.StartsWith(words, item.Text, StringComparison.Ordinal);
        Assert.Equal("hook manual 5-10", item.Source);
    }

    [Fact]
    public void Of_RuleByName_IsThatPartsOnly()
    {
        IReadOnlyList<PartTally> parts = PartTally.Of([Hook, Line], Totals, [new() { Name = "LINE 3", Hours = 90 }]);
        Assert.Empty(parts[0].Rules);
        Assert.Equal(CheckVerdict.Fails, Assert.Single(parts[1].Rules).Verdict); // 88 + 2.9 h
    }

    // Closed form: 14.1 lifts an hour against rules that speak of more than 14 and of more than 15.
    [Fact]
    public void Of_PaceRule_NotedAboveIt()
    {
        CheckVerdict Pace(double most) => Assert.Single(PartTally.Of([Hook], Totals, [new() { Kind = PartKind.CargoHook, LiftsPerHour = most }])[0].Rules).Verdict;
        Assert.Equal(CheckVerdict.ToConfirm, Pace(14));
        Assert.Equal(CheckVerdict.Passes, Pace(15));
    }

    [Fact]
    public void WithoutPart_RuleForAPartNobodyCounts_IsToConfirm() =>
        Assert.Equal("HB-XYZ", Assert.Single(PartTally.WithoutPart([Hook], [new() { Name = "HB-XYZ", Lifts = 20_000 }, new() { Kind = PartKind.CargoHook, Lifts = 5 }])).Subject);
}
