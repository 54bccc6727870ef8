using System.Globalization;
using CsCheck;
using Stillhook.Reporting;
using static Stillhook.Tests.Reporting.Days;

namespace Stillhook.Tests.Reporting;

public class TimeSplitTests
{
    // Closed form: on duty 0 to 480 min; flown 120; customer 45; weather 60 of which 10 in the air; break 30; the rest nobody marked.
    [Fact]
    public void Of_MarkedDay_AddsUpByHand()
    {
        TimeSplit split = TimeSplit.Of(Day() with
        {
            Duty = [new("A. Pilot", From(0, 480), null)],
            Flights = [Flight(From(60, 120), From(200, 260))],
            TimeMarks = [new(From(0, 45), TimeUse.WaitingOnCustomer, "crane late"), new(From(110, 170), TimeUse.Weather, null), new(From(170, 200), TimeUse.Other, "lunch", true)],
        })!;
        Assert.Equal(480, split.TotalMinutes);
        Assert.Equal((120, 45, 50, 265), (split.Minutes[TimeUse.Flown], split.Minutes[TimeUse.WaitingOnCustomer], split.Minutes[TimeUse.Weather], split.Minutes[TimeUse.Other]));
        Assert.Equal(235 * 60, split.UnmarkedS, 1e-6);
        Assert.Equal("mark-while-flown", Assert.Single(split.Findings).Code);
        Assert.Equal("crane late", split.Stretches[0].Note);
    }

    // Closed form: 10 min in common go to the weather, not to the customer.
    [Fact]
    public void Of_OverlappingMarks_InDoubtNotTheCustomersAndSaid()
    {
        TimeSplit split = TimeSplit.Of(Day() with { TimeMarks = [new(From(0, 30), TimeUse.WaitingOnCustomer, null), new(From(20, 50), TimeUse.Weather, null)] })!;
        Assert.Equal((20, 30), (split.Minutes[TimeUse.WaitingOnCustomer], split.Minutes[TimeUse.Weather]));
        Assert.Contains("overlap", Assert.Single(split.Findings).What, StringComparison.Ordinal);
    }

    // Closed form: three parts of 20 min 20 s are 61 min; one of them is rounded up.
    [Fact]
    public void Of_ThirdsOfMinutes_RoundedMinutesAddUp()
    {
        TimeSplit split = TimeSplit.Of(Day() with
        {
            TimeMarks = [new(new(At(0), At(0) + 1220), TimeUse.Weather, null), new(new(At(0) + 1220, At(0) + 2440), TimeUse.Fuel, null), new(new(At(0) + 2440, At(0) + 3660), TimeUse.Defect, null)],
        })!;
        Assert.Equal(61, split.TotalMinutes);
        Assert.Equal(61, split.Minutes.Values.Sum());
        Assert.Equal([20, 20, 21], new[] { split.Minutes[TimeUse.Weather], split.Minutes[TimeUse.Fuel], split.Minutes[TimeUse.Defect] }.Order());
    }

    [Fact]
    public void Of_NothingKnown_Null() => Assert.Null(TimeSplit.Of(Day()));

    [Fact]
    public void Of_MarkThatEndsBeforeItStarts_LeftOutAndSaid()
    {
        TimeSplit split = TimeSplit.Of(Day() with { TimeMarks = [new(From(30, 10), TimeUse.Weather, null), new(From(0, 60), TimeUse.Fuel, null)] })!;
        Assert.Equal((60, 0), (split.Minutes[TimeUse.Fuel], split.Minutes[TimeUse.Weather]));
        Assert.Equal("mark-without-length", Assert.Single(split.Findings).Code);
    }

    [Fact]
    public void Of_CommaDecimals_FindingsReadTheSame()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            DayWork work = Day() with { Flights = [Flight(From(0, 10.5))], TimeMarks = [new(From(0, 20), TimeUse.Weather, null)] };
            CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
            string plain = Assert.Single(TimeSplit.Of(work)!.Findings).What;
            CultureInfo.CurrentCulture = new CultureInfo("de-DE");
            Assert.Equal(plain, Assert.Single(TimeSplit.Of(work)!.Findings).What);
            Assert.Contains("10.5 min", plain, StringComparison.Ordinal);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static readonly Gen<Stretch> AnyStretch = Gen.Select(Gen.Double[0, 600], Gen.Double[0.01, 200], (from, length) => From(from, from + length));

    // Whatever is flown and marked: every second counts once, and the whole minutes add up to the day.
    [Fact]
    public void Of_AnyDay_AddsUpToTheSecondAndToTheMinute() =>
        Gen.Select(AnyStretch.Array[0, 6], Gen.Select(AnyStretch, Gen.Enum<TimeUse>(), (s, u) => new TimeMark(s, u, null)).Array[0, 12], AnyStretch).Sample((airborne, marks, duty) =>
        {
            DayWork work = Day() with { Duty = [new("A", duty, null)], Flights = airborne.Length == 0 ? [] : [Flight(airborne)], TimeMarks = marks };
            TimeSplit split = TimeSplit.Of(work)!;
            Assert.Equal(split.Day.LengthS, split.Seconds.Values.Sum(), 1e-3);
            Assert.Equal(split.TotalMinutes, split.Minutes.Values.Sum());
            Assert.Equal(split.Day.LengthS / 60, split.TotalMinutes, 0.5001);
            Assert.All(split.Minutes, m => Assert.True(Math.Abs(m.Value - split.Seconds[m.Key] / 60) < 1 + 1e-9));
            Assert.Equal(split.Day.FromS, split.Stretches[0].When.FromS);
            Assert.Equal(split.Day.ToS, split.Stretches[^1].When.ToS);
            Assert.All(split.Stretches.Zip(split.Stretches.Skip(1)), s => Assert.Equal(s.First.When.ToS, s.Second.When.FromS));
            double airS = FlownTime.Of(work.Flights).TotalS;
            Assert.True(split.Seconds[TimeUse.Flown] >= airS - 1e-3);
            TimeSplit turned = TimeSplit.Of(work with { TimeMarks = [.. marks.Reverse()] })!;
            Assert.Equal(split.Minutes, turned.Minutes);
        });
}
