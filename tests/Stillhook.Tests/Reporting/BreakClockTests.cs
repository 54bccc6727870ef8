using CsCheck;
using Stillhook.Planning;
using Stillhook.Reporting;
using UnitsNet;
using static Stillhook.Tests.Reporting.Days;

namespace Stillhook.Tests.Reporting;

public class BreakClockTests
{
    private const double ThreeHours = 3 * 3600, HalfHour = 1800;

    private static TimeMark Break(double from, double to) => new(From(from, to), TimeUse.Other, null, true);

    private static BreakClock Clock(IEnumerable<Stretch> airborne, params TimeMark[] marks) => Assert.Single(BreakClock.Of([Flight([.. airborne])], marks, ThreeHours, HalfHour));

    // Published: break of 30 min after 3 h of flying, hot refuelling does not count [BARS, read in part]. Closed form: 100 min flown, 10 min hot refuel, 80 more: due at 190 min.
    [Fact]
    public void Of_HotRefuelBetween_DueAfterThreeHoursInTheAir()
    {
        BreakClock clock = Clock([From(0, 100), From(110, 210)], new(From(100, 110), TimeUse.Fuel, "hot"), Break(220, 255));
        BreakDue due = Assert.Single(clock.Due);
        Assert.Equal(At(190), due.DueAtS, 1e-6);
        Assert.Equal(At(220), due.TakenAtS!.Value, 1e-6);
        Assert.Equal(30 * 60, due.LateS!.Value, 1e-6);
        Assert.Equal(20 * 60, due.FlownOverS, 1e-6);
        Assert.True(clock.FlownOver);
        Assert.Equal(0, clock.SinceBreakS);
    }

    // Closed form: a real break after 100 min sets the clock back; 120 min later nothing is due.
    [Fact]
    public void Of_BreakInTime_NothingDue()
    {
        BreakClock clock = Clock([From(0, 100), From(130, 250)], Break(100, 130));
        Assert.Empty(clock.Due);
        Assert.Equal((220 * 60.0, 120 * 60.0), (Math.Round(clock.FlownS, 3), Math.Round(clock.LongestS, 3)));
    }

    // Common practice, no source: fuelling, a break cut short by 5 min, or a pause nobody marked is no break.
    [Fact]
    public void Of_WhatIsNoBreak_DoesNotCount()
    {
        Stretch[] air = [From(0, 100), From(140, 240)];
        Assert.True(Clock(air, new TimeMark(From(100, 140), TimeUse.Fuel, null, true)).FlownOver);
        Assert.True(Clock(air, Break(105, 130)).FlownOver);
        Assert.True(Clock(air, Break(100, 140), new TimeMark(From(110, 125), TimeUse.Fuel, null)).FlownOver);
        Assert.True(Clock(air, Break(80, 120)).FlownOver); // 20 of its 40 min were flown
        BreakClock unmarked = Clock(air);
        Assert.True(unmarked.FlownOver);
        Assert.Equal(From(100, 140), Assert.Single(unmarked.Unmarked));
        Assert.False(Clock(air, Break(100, 140)).FlownOver);
    }

    // Closed form: exactly 3 h, then the break: due at the landing, nothing flown past it.
    [Fact]
    public void Of_ExactlyThreeHours_DueAndNotFlownOver()
    {
        BreakClock clock = Clock([From(0, 180), From(215, 240)], Break(182, 212));
        BreakDue due = Assert.Single(clock.Due);
        Assert.Equal((At(180), 0.0, 120.0), (due.DueAtS, due.FlownOverS, Math.Round(due.LateS!.Value, 6)));
        Assert.False(clock.FlownOver);
    }

    [Fact]
    public void Of_TwoPilots_OneClockEach()
    {
        KeptFlight first = Flight(From(0, 120)), second = Flight(From(120, 250)) with { Pilot = "B. Pilot" };
        IReadOnlyList<BreakClock> clocks = BreakClock.Of([second, first], [], ThreeHours, HalfHour);
        Assert.Equal(["A. Pilot", "B. Pilot"], clocks.Select(c => c.Pilot));
        Assert.All(clocks, c => Assert.Empty(c.Due));
    }

    // Another way of counting, minute by minute: rested minutes in a row set the count back once there are thirty; when the count reaches 180 a break is due.
    [Fact]
    public void Of_AnyDay_AsCountedMinuteByMinute() =>
        Gen.Select(Gen.Int[0, 3], Gen.Int[5, 110]).Array[1, 14].Sample(pieces =>
        {
            List<Stretch> air = [];
            List<TimeMark> marks = [];
            List<double> due = [];
            int minute = 0, flown = 0, rested = 0, longest = 0;
            foreach ((int kind, int length) in pieces)
            {
                Stretch piece = From(minute, minute + length);
                if (kind == 0)
                    marks.Add(new(piece, TimeUse.Other, null, true));
                else if (kind == 1)
                    marks.Add(new(piece, TimeUse.Fuel, null, true));
                else
                    air.Add(piece);
                for (int i = 0; i < length; i++, minute++)
                {
                    rested = kind == 0 ? rested + 1 : 0;
                    flown = rested >= 30 ? 0 : kind >= 2 ? flown + 1 : flown;
                    longest = Math.Max(longest, flown);
                    if (kind >= 2 && flown == 180)
                        due.Add(At(minute + 1));
                }
            }
            if (air.Count == 0)
                return;
            BreakClock clock = Clock(air, [.. marks]);
            Assert.Equal(due, clock.Due.Select(d => Math.Round(d.DueAtS, 3)));
            Assert.Equal(longest * 60.0, clock.LongestS, 1e-3);
            Assert.Equal(longest > 180, clock.FlownOver);
        });

    [Theory]
    [InlineData(0, 1800)]
    [InlineData(double.NaN, 1800)]
    [InlineData(3600, -1)]
    public void Of_RuleOfNothing_IsRefused(double after, double length) => Assert.Throws<ArgumentOutOfRangeException>(() => BreakClock.Of([], [], after, length));

    // Published: 8 h of flying and 14 h of duty a day [PNW-2007], taken when the operator enters none; an operator's own rule stands instead.
    [Fact]
    public void DutyCheck_LongDay_FailsOnTheRuleInForce()
    {
        DayWork work = Day() with { Flights = [Flight(From(0, 170))], Duty = [new("A. Pilot", From(-60, 100), null), new("A. Pilot", From(400, 781), null)] };
        LiftRequest own = new() { Policy = new() { FlyingPerDay = Duration.FromHours(2), DutyDay = Duration.FromHours(15) } };
        CheckItem Of(string code, LiftRequest job) => DutyCheck.Of(work, new(job), BreakClock.Of(work.Flights, [], ThreeHours, HalfHour)).Single(i => i.Code == code);
        Assert.Equal(CheckVerdict.Fails, Of("duty-day", new()).Verdict); // 14 h 1 min
        Assert.Equal(CheckVerdict.Passes, Of("flying-per-day", new()).Verdict);
        Assert.Equal(CheckVerdict.Passes, Of("duty-day", own).Verdict);
        Assert.Equal(CheckVerdict.Fails, Of("flying-per-day", own).Verdict);
        Assert.Contains("14 h 01 min of at most 15 h 00 min", Of("duty-day", own).Text, StringComparison.Ordinal);
    }
}
