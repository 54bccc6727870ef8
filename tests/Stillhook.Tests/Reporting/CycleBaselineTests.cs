using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Planning.Quoting;
using Stillhook.Reporting;
using Stillhook.Tests.Planning;
using UnitsNet;

namespace Stillhook.Tests.Reporting;

public class CycleBaselineTests
{
    private static KeptLift Lift(double? cycleS, string? family = "stone bag", string to = "spot") =>
        new() { Number = 1, Family = family, PickUpSite = "yard", DeliverySite = to, Measures = new() { CycleTimeS = cycleS } };

    // Closed form: 83, 95, 107, 83, 107 have mean 95 and spread 12; 400 is a stop.
    [Fact]
    public void Of_RotationsAndAStop_MeanAndSpreadWithoutTheStop()
    {
        CycleBaseline kind = CycleBaseline.Of([.. new double?[] { 83, 95, 107, 83, 107, 400, null }.Select(c => Lift(c))]).Single(b => b.Family is not null);
        Assert.Equal((5, 1), (kind.Count, kind.LeftOut));
        Assert.Equal(95, kind.MeanS, 1e-9);
        Assert.Equal(12, kind.SigmaS, 1e-9);
    }

    [Fact]
    public void Of_FewOrStruckOut_None() =>
        Assert.Empty(CycleBaseline.Of([.. Enumerable.Range(0, 9).Select(i => Lift(90) with { StruckOut = i > 3 })]));

    // Closed form: rotations of one afternoon and of the next morning, in a time zone where UTC's midnight falls between two lifts.
    [Fact]
    public void Of_NightBetween_TwoDays()
    {
        double[] times = [86_000, 86_300, 86_600, 86_900, 140_000, 140_300];
        Assert.All(CycleBaseline.Of([.. times.Select(t => Lift(95) with { DeliveryTimeS = t })]), b => Assert.Equal(2, b.Days));
    }

    [Fact]
    public void Of_TwoKinds_EachAndTheLegAsAWhole()
    {
        IReadOnlyList<CycleBaseline> all = CycleBaseline.Of([.. Enumerable.Repeat(Lift(90), 6), .. Enumerable.Repeat(Lift(120, "timber"), 6)]);
        Assert.Equal([null, "stone bag", "timber"], all.Select(b => b.Family).Order(StringComparer.Ordinal));
        Assert.Equal(105, all.Single(b => b.Family is null).MeanS, 1e-9);
    }

    private static LiftRequest Work(int loads) => Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(3600)), [Jobs.Site("yard", SiteUse.PickUp, 500, 10), Jobs.Site("spot", SiteUse.Delivery, 500, 10)],
        [.. Enumerable.Range(1, loads).Select(i => Jobs.Load(i.ToString(System.Globalization.CultureInfo.InvariantCulture), 600) with { Name = "stone bag" })]);

    // Closed form: 90 lifts of 95 s are 2.375 h; the range is of the mean time of a rotation, so it is far narrower than 90 times 12 s.
    [Fact]
    public void Fit_MeasuredLeg_QuotesARangeFromIt()
    {
        MeasuredRotation fit = CycleBaseline.Fit(Work(90), CycleBaseline.Of([.. new double?[] { 83, 95, 107, 83, 107 }.Select(c => Lift(c))]))!;
        Assert.Equal((95, 12, 5), (Math.Round(fit.Mean.Seconds, 9), Math.Round(fit.Spread.Seconds, 9), fit.Rotations));
        Quote quote = Quoter.Quote(new(), new() { Lifts = new(90, InputFrom.JobFile, "loads"), Measured = fit });
        double Hours(Figure f) => ((Duration)f.Value.Quantity).Hours;
        Assert.InRange(Hours(quote.FlightTime!.Likely), 2.3, 2.45);
        Assert.True(Hours(quote.FlightTime.Low) < Hours(quote.FlightTime.Likely) && Hours(quote.FlightTime.Likely) < Hours(quote.FlightTime.High));
    }

    // A leg never flown is not guessed.
    [Fact]
    public void Fit_LegNeverFlown_None() => Assert.Null(CycleBaseline.Fit(Work(3), CycleBaseline.Of([.. Enumerable.Repeat(Lift(90, to: "ridge"), 6)])));

    // A kind that was not flown takes the leg over all kinds; the rotations of a kind are not counted twice.
    [Fact]
    public void Fit_KindAndLegTogether_EachRotationOnce()
    {
        IReadOnlyList<CycleBaseline> measured = CycleBaseline.Of([.. Enumerable.Repeat(Lift(90), 6), .. Enumerable.Repeat(Lift(120, "timber"), 6)]);
        LiftRequest work = Work(2);
        MeasuredRotation fit = CycleBaseline.Fit(work with { Loads = [work.Loads[0], work.Loads[1] with { Name = "pump" }] }, measured)!;
        Assert.Equal((12, (90 + 105) / 2.0), (fit.Rotations, fit.Mean.Seconds), (a, b) => a.Item1 == b.Item1 && Math.Abs(a.Item2 - b.Item2) < 1e-9);
        Assert.Equal(["yard to spot, stone bag", "yard to spot, all kinds"], fit.Legs);
    }

    // As flown stands before an estimate and before the plan; what somebody entered as measured stands before it, and the other is told.
    [Fact]
    public void Quote_MeasuredEstimatedEntered_InThatOrder()
    {
        MeasuredRotation kept = CycleBaseline.Fit(Work(3), CycleBaseline.Of([.. new double?[] { 83, 95, 107, 83, 107 }.Select(c => Lift(c))]))!;
        FigureInput Mean(QuoteBasis basis) => Quoter.Quote(basis, new() { Lifts = new(90, InputFrom.JobFile, "loads"), Measured = kept, PlannedCycle = new(Duration.FromSeconds(300), InputFrom.Figure, "order.flying") }).FlightTime!.Likely.Inputs[1];
        Assert.Equal((InputFrom.Kept, "kept flights: yard to spot, stone bag"), (Mean(new() { Cycle = Duration.FromSeconds(200) }).From, Mean(new()).Where));
        Quote entered = Quoter.Quote(new() { Cycle = Duration.FromSeconds(200), CycleSpread = Duration.FromSeconds(20), MeasuredOn = 40 }, new() { Lifts = new(90, InputFrom.JobFile, "loads"), Measured = kept });
        Assert.Equal("quote.cycle", entered.FlightTime!.Likely.Inputs[1].Where);
        Assert.Contains(entered.Items, i => i.Code == "quote-kept" && i.Verdict == CheckVerdict.ToConfirm && i.Text.Contains("as flown it is 95 s, spread 12 s, 5 rotations on 1 day (yard to spot, stone bag)", StringComparison.Ordinal));
    }

    // A plan of a job that has no quote of its own quotes what was flown; limits, order and payload are untouched.
    [Fact]
    public void Plan_MeasuredLeg_QuotedAndNothingElseChanged()
    {
        LiftRequest work = Work(3);
        LiftPlan without = Job.Plan(work, new()), with = Job.Plan(work, new() { Measured = new() { Cycles = CycleBaseline.Of([.. new double?[] { 83, 95, 107, 83, 107 }.Select(c => Lift(c))]) } });
        Assert.Null(without.Quote);
        Assert.Equal(3 * 95.0, ((Duration)with.Figures.Find("quote.flight.likely")!.Value.Quantity).Seconds, 1e-6);
        Assert.Contains(with.Figures.Find("quote.flight.likely")!.Inputs, i => i is { Name: "days they were flown on", From: InputFrom.Kept });
        Assert.Equal(without.Loads.Select(l => (l.Verdict, l.Payload!.Governing.AllowedKg)), with.Loads.Select(l => (l.Verdict, l.Payload!.Governing.AllowedKg)));
    }
}
