using System.Globalization;
using Stillhook.Reporting;
using static Stillhook.Tests.Reporting.Days;

namespace Stillhook.Tests.Reporting;

public class OccurrencePromptTests
{
    private static readonly KeptLift Stone = Lift(7, 30, "7", 735) with
    {
        LoadMeasured = true, LineM = 30, PickUpTimeS = At(28), ClearTimeS = At(30.5), PickUp = new(46.9, 10.1), Delivery = new(46.91234, 10.12345), DeliverySite = "path bend",
    };

    private static DayWork Work(params EventMark[] events) => Day() with { Lifts = [Stone], Events = events, Clock = t => DateTimeOffset.UnixEpoch.AddSeconds(t).ToOffset(TimeSpan.FromHours(2)) };

    // Published: 72 hours from becoming aware [EU-376/2014]. Closed form: 2026-06-01 08:30 +02:00 and 72 h is 2026-06-04 08:30 +02:00.
    [Fact]
    public void Of_UnplannedRelease_LikelyReportableWithClockAndFacts()
    {
        OccurrencePrompt prompt = Assert.Single(OccurrencePrompt.Of(Work(new EventMark(At(30), EventKind.UnplannedRelease, "bag fell from 2 m"))));
        Assert.Equal(PromptKind.LikelyReportable, prompt.Kind);
        Assert.Equal(At(30) + 259_200, prompt.ReportByS);
        Assert.Equal("Likely reportable; EU 376/2014: report within 72 hours of becoming aware. The clock ends at 2026-06-04 08:30 +02:00 if somebody knew of it when it was marked. The local authority decides.", prompt.Words);
        Assert.Equal(
            ["Time 2026-06-01 08:30 +02:00 (08:30:00).", "Lift 7, load 7, 735 kg by load cell, line 30 m.", "Place 46.91234, 10.12345 (path bend), where the load was set down.", "Noted: bag fell from 2 m"],
            prompt.Facts);
        Assert.Equal(Stone.Delivery, prompt.Where);
    }

    [Theory]
    [InlineData(EventKind.UnplannedRelease)]
    [InlineData(EventKind.Jettison)]
    [InlineData(EventKind.Snag)]
    [InlineData(EventKind.PerformanceShortfall)]
    [InlineData(EventKind.Injury)]
    [InlineData(EventKind.Damage)]
    public void Of_EveryKindOfMark_IsPrompted(EventKind kind) => Assert.Equal(PromptKind.LikelyReportable, Assert.Single(OccurrencePrompt.Of(Work(new EventMark(At(400), kind, null)))).Kind);

    // Another authority's time: 24 h.
    [Fact]
    public void Of_OtherRule_ItsTimeStands()
    {
        OccurrencePrompt prompt = OccurrencePrompt.Of(Work(new EventMark(At(30), EventKind.Snag, null)), 86_400)[0];
        Assert.Equal(At(30) + 86_400, prompt.ReportByS);
        Assert.DoesNotContain("376", prompt.Words, StringComparison.Ordinal);
    }

    // Closed form: opened 6 s before contact. A mark of the same release stands instead of it.
    [Fact]
    public void Of_HookOpenedBeforeContact_PromptedOnce()
    {
        KeptLift early = Stone with { ReleaseTimeS = At(30) - 6 };
        OccurrencePrompt prompt = Assert.Single(OccurrencePrompt.Of(Work() with { Lifts = [early] }));
        Assert.Null(prompt.ReportByS);
        Assert.Contains(prompt.Facts, f => f.Contains("6.0 s before", StringComparison.Ordinal));
        Assert.Equal("Load released or lost without being meant to", Assert.Single(OccurrencePrompt.Of(Work(new EventMark(At(31), EventKind.UnplannedRelease, null)) with { Lifts = [early] })).What);
        Assert.Empty(OccurrencePrompt.Of(Work() with { Lifts = [Stone with { ReleaseTimeS = At(30) + 3 }] }));
    }

    [Fact]
    public void Of_GoAroundAndExceedance_AskTheCrew()
    {
        KeptFlight flight = Flight(From(0, 60)) with { Exceedances = [new(LimitKind.Torque, 100, 103, At(29), 2)] };
        IReadOnlyList<OccurrencePrompt> prompts = OccurrencePrompt.Of(Work() with { Lifts = [Stone with { GoArounds = 1 }], Flights = [flight] });
        Assert.All(prompts, p => Assert.Equal(PromptKind.AskTheCrew, p.Kind));
        Assert.All(prompts, p => Assert.Null(p.ReportByS));
        Assert.Contains(prompts, p => p.Facts.Contains("Torque 103 % at 08:29:00, limit entered 100 %, beyond it for 2.0 s."));
    }

    // No cause, nobody to blame, no opinion on the aircraft: words that would be one never stand on the sheet.
    [Fact]
    public void Of_Everything_NoCauseNoBlame()
    {
        KeptFlight flight = Flight(From(0, 60)) with { Exceedances = [new(LimitKind.HookLoad, 1000, 1105, At(29), 2)] };
        DayWork work = Work([.. Enum.GetValues<EventKind>().Select(k => new EventMark(At(30), k, null))]) with { Lifts = [Stone with { GoArounds = 2, ReleaseTimeS = At(29.5) }], Flights = [flight] };
        string all = string.Join(' ', OccurrencePrompt.Of(work).SelectMany(p => p.Facts.Append(p.Words).Append(p.What)).Concat(WriteUp.Of(work).Select(w => w.Facts)).Append(WriteUp.Words));
        Assert.All(new[] { "because", "cause", "due to", "fault", "error", "mistake", "airworthy", "serviceable", "safe to", "failed to", "should have" }, w => Assert.DoesNotContain(w, all, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void Of_CommaDecimals_ReadsTheSame()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            DayWork work = Work(new EventMark(At(30), EventKind.Snag, null)) with { Flights = [Flight(From(0, 60)) with { Exceedances = [new(LimitKind.Torque, 100, 103.4, At(29.9), 2.3)] }] };
            CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
            string[] plain = [.. OccurrencePrompt.Of(work).SelectMany(p => p.Facts.Append(p.Words))];
            CultureInfo.CurrentCulture = new CultureInfo("fr-FR");
            Assert.Equal(plain, OccurrencePrompt.Of(work).SelectMany(p => p.Facts.Append(p.Words)));
            Assert.Contains(plain, f => f.Contains("103.4 %", StringComparison.Ordinal) && f.Contains("2.3 s", StringComparison.Ordinal));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void WriteUp_DuringALift_NamesIt()
    {
        DayWork work = Work() with { Flights = [Flight(From(0, 60)) with { Exceedances = [new(LimitKind.Torque, 100, 103, At(29), 2), new(LimitKind.Torque, 100, 101, At(50), 1)] }] };
        Assert.Equal([7, null], WriteUp.Of(work).Select(w => w.Lift?.Number));
        Assert.Equal("Write up; maintenance decides.", WriteUp.Words);
    }
}
