using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Reporting;

namespace Stillhook.Tests.Planning;

public class MeasuredHoverTests
{
    private static readonly Site Spot = Jobs.Site("spot", SiteUse.Delivery, 500, 10);

    // At sea level in the standard atmosphere the density ratio is 1: torque = 20 + 20 · (t)^1.5.
    private static double Torque(double kg) => 20 + 20 * Math.Pow(kg / 1000, 1.5);

    private static HoverBaseline Learned() => HoverBaseline.Learn("own", [.. Enumerable.Range(0, 10).Select(i => 1700 + 60.0 * i).Select(kg => new HoverPoint(0, "own", null, 0, kg, Torque(kg), null))]).Baseline!;

    private static HoverExpected Place(double kg, double? chart, HoverBaseline baseline, double? model = null) => new(Spot, kg, chart, model, null, true) { DensityAltitudeM = 0, MeasuredTorquePercent = baseline.At(kg, 0) };

    // Closed form: a chart that says 1/1.05 of what is measured.
    [Fact]
    public void Of_ChartFivePercentUnder_SaysFiveAbove()
    {
        HoverBaseline baseline = Learned();
        MeasuredHover measured = MeasuredHover.Of(baseline, [.. new[] { 1800.0, 1900, 2000, 2100, 2900 }.Select(kg => Place(kg, Torque(kg) / 1.05, baseline))])!;
        Assert.Equal(5, measured.Percent, 1e-3);
        Assert.Equal((4, 5, true), (measured.Places, measured.OfPlaces, measured.AgainstChart));
        Assert.StartsWith("Hover torque of own was measured 5.0 % above the chart at the same mass and air", measured.Facts, StringComparison.Ordinal);
        Assert.EndsWith("Limits stay those of the chart.", measured.Facts, StringComparison.Ordinal);
    }

    // Without a torque page the model stands in; fewer than three places say nothing.
    [Fact]
    public void Of_NoPageOrFewPlaces_ModelOrNothing()
    {
        HoverBaseline baseline = Learned();
        MeasuredHover measured = MeasuredHover.Of(baseline, [.. new[] { 1800.0, 1900, 2000 }.Select(kg => Place(kg, null, baseline, Torque(kg) / 0.98))])!;
        Assert.Equal(-2, measured.Percent, 1e-3);
        Assert.Contains("2.0 % below the model", measured.Facts, StringComparison.Ordinal);
        Assert.Null(MeasuredHover.Of(baseline, [Place(1800, 60, baseline), Place(1900, 60, baseline)]));
        Assert.Null(MeasuredHover.Of(null, []));
    }
}
