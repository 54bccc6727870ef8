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
    public void Into_MeasuredLeg_QuotesARangeFromIt()
    {
        IReadOnlyList<CycleBaseline> measured = CycleBaseline.Of([.. new double?[] { 83, 95, 107, 83, 107 }.Select(c => Lift(c))]);
        QuoteBasis basis = CycleBaseline.Into(new(), Work(90), measured);
        Assert.Equal((95, 12, 5), (Math.Round(basis.Cycle!.Value.Seconds, 9), Math.Round(basis.CycleSpread!.Value.Seconds, 9), basis.MeasuredOn!.Value));
        Quote quote = Quoter.Quote(basis, new() { Lifts = new(90, InputFrom.JobFile, "loads") });
        double Hours(Figure f) => ((Duration)f.Value.Quantity).Hours;
        Assert.InRange(Hours(quote.FlightTime!.Likely), 2.3, 2.45);
        Assert.True(Hours(quote.FlightTime.Low) < Hours(quote.FlightTime.Likely) && Hours(quote.FlightTime.Likely) < Hours(quote.FlightTime.High));
    }

    // What somebody entered as measured stands; a leg never flown is not guessed.
    [Fact]
    public void Into_EnteredOrUnknown_LeftAlone()
    {
        IReadOnlyList<CycleBaseline> measured = CycleBaseline.Of([.. Enumerable.Repeat(Lift(90), 6)]);
        QuoteBasis entered = new() { Cycle = Duration.FromSeconds(200), MeasuredOn = 40 };
        Assert.Same(entered, CycleBaseline.Into(entered, Work(3), measured));
        QuoteBasis none = new();
        Assert.Same(none, CycleBaseline.Into(none, Work(3), CycleBaseline.Of([.. Enumerable.Repeat(Lift(90, to: "ridge"), 6)])));
    }
}
