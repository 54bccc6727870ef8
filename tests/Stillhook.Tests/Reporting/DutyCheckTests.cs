using Stillhook.Planning;
using Stillhook.Reporting;
using UnitsNet;
using static Stillhook.Tests.Reporting.Days;

namespace Stillhook.Tests.Reporting;

public class DutyCheckTests
{
    private static CheckItem Rest(DayWork work, OperatorPolicy? policy = null) => DutyCheck.Of(work, new(new() { Policy = policy }), []).Single(i => i.Code.StartsWith("rest", StringComparison.Ordinal));

    private static DayWork Work(params DutySpell[] before) => Day() with { Duty = [new("A. Pilot", From(60, 400), null), new("A. Pilot", From(420, 600), null)], DutyBefore = before };

    // Published: 10 h of rest [PNW-2007]. Closed form: off at 20:00 the day before and back at 07:00 are 11 h; off at 21:01, 9 h 59 min.
    [Theory]
    [InlineData(-600, CheckVerdict.Passes, "11 h 00 min")]
    [InlineData(-540, CheckVerdict.Passes, "10 h 00 min")]
    [InlineData(-539, CheckVerdict.Fails, "9 h 59 min")]
    [InlineData(70, CheckVerdict.Fails, "0 min")]
    public void Of_DutyTheDayBefore_RestToTheFirstReporting(double offMinute, CheckVerdict expected, string rest)
    {
        CheckItem item = Rest(Work(new("A. Pilot", From(-1200, -900), null), new("A. Pilot", From(-880, offMinute), null), new("B. Other", From(-600, 30), null)));
        Assert.Equal((expected, "PNW-2007", "A. Pilot"), (item.Verdict, item.Source, item.Subject));
        Assert.StartsWith($"Off duty for {rest} before reporting at 07:00:00; at least 10 h 00 min", item.Text, StringComparison.Ordinal);
    }

    // Closed form: 11 h of rest against the operator's own 12 h, with the source that he entered.
    [Fact]
    public void Of_OperatorsRule_StandsWithItsSource()
    {
        CheckItem item = Rest(Work(new DutySpell("A. Pilot", From(-1200, -600), null)), new() { Rest = Duration.FromHours(12), RestSource = "OM part A 7.2" });
        Assert.Equal((CheckVerdict.Fails, "OM part A 7.2"), (item.Verdict, item.Source));
        Assert.Contains("at least 12 h 00 min", item.Text, StringComparison.Ordinal);
    }

    // Nothing kept of the day before is no rest seen: a person must look, and nobody may read it as passed.
    [Fact]
    public void Of_NothingKeptOfTheDayBefore_IsToConfirm()
    {
        Assert.Equal("rest-not-known", Rest(Work()).Code);
        Assert.Equal(CheckVerdict.ToConfirm, Rest(Work(new DutySpell("B. Other", From(-600, -500), null))).Verdict);
        Assert.DoesNotContain(DutyCheck.Of(Day(), new(new()), []), i => i.Code.StartsWith("rest", StringComparison.Ordinal));
    }
}
