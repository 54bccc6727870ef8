using Stillhook.Debriefing;
using Stillhook.Reporting;

namespace Stillhook.Tests.Reporting;

public class DeliveryBaselineTests
{
    private static KeptLift Lift(double hoverS, double? line = 30, string family = "stone bag") =>
        new() { Number = 1, LineM = line, Family = family, Measures = new() { HoverTimeS = hoverS, SwingContactM = new(0.5, 0.3, 0.8) } };

    // Closed form: quarters of 10, 12, 14, 16, 18 are 12, 14, 16.
    [Fact]
    public void Of_FiveDeliveries_Quarters()
    {
        DeliveryBaseline own = Assert.Single(DeliveryBaseline.Of("B", [.. new double[] { 18, 10, 14, 12, 16 }.Select(h => Lift(h))]));
        Assert.Equal(new UsualMeasure(DeliveryMeasure.HoverTimeS, 12, 14, 16, 5), own.Measures.Single(m => m.Measure == DeliveryMeasure.HoverTimeS));
        Assert.Equal(("B", 30.0, "stone bag"), (own.Pilot, own.LineM!.Value, own.Family));
    }

    [Fact]
    public void Of_OtherLineOrKind_ApartAndFoundAgain()
    {
        IReadOnlyList<DeliveryBaseline> own = DeliveryBaseline.Of("B", [.. Enumerable.Repeat(Lift(10), 6), .. Enumerable.Repeat(Lift(20, 46), 6), .. Enumerable.Repeat(Lift(30, 31, "timber"), 6)]);
        Assert.Equal(3, own.Count);
        Assert.Equal(20, DeliveryBaseline.For(own, Lift(0, 44))!.Measures.Single(m => m.Measure == DeliveryMeasure.HoverTimeS).Middle);
        Assert.Null(DeliveryBaseline.For(own, Lift(0, 60)));
    }

    // Closed form: usual 12 to 16, so over 18 and under 10 are unusual.
    [Theory]
    [InlineData(18, 0)]
    [InlineData(18.1, 1)]
    [InlineData(9.9, 1)]
    public void Unusual_OutsideByHalfTheWidth_IsNamed(double hoverS, int count)
    {
        DeliveryBaseline own = Assert.Single(DeliveryBaseline.Of("B", [.. new double[] { 18, 10, 14, 12, 16 }.Select(h => Lift(h))]));
        Assert.Equal(count, own.Unusual(new() { HoverTimeS = hoverS, SwingContactM = new(0.5, 0.3, 0.8) }).Count);
    }

    [Fact]
    public void Of_FourDeliveries_None() => Assert.Empty(DeliveryBaseline.Of("B", [.. Enumerable.Repeat(Lift(10), 4)]));
}
