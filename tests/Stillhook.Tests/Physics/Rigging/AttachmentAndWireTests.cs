using Stillhook.Physics.Rigging;

namespace Stillhook.Tests.Physics.Rigging;

public class AttachmentAndWireTests
{
    // Published: [14CFR-27.865](a) factor 2.5; 1000 kg gives 24.52 kN, vertical and at 30°.
    [Fact]
    public void LimitLoad_OneTonne_MatchesTheRule()
    {
        Assert.Equal(24_520, AttachmentLimitLoad.LimitN(1000), 10.0);
        (double down, double side) = AttachmentLimitLoad.PartsN(1000, AttachmentLimitLoad.ServiceAngleRad);
        Assert.Equal(24_520, Math.Sqrt(down * down + side * side), 10.0);
        // Closed form: half of 24 516.6 N to the side, √3/2 of it down.
        Assert.Equal(12_258.3, side, 0.1);
        Assert.Equal(21_232.0, down, 0.1);
        Assert.Equal(3.75, AttachmentLimitLoad.BreakingFactor);
    }

    // Published: [ASME-B30.12] 15 ft to 50 kV. Closed form above it: 132 kV 15 + 82·0.5/12 = 18.417 ft, 315 kV 15 + 265·0.5/12 = 26.042 ft.
    [Theory]
    [InlineData(0, 15)]
    [InlineData(400, 15)]
    [InlineData(50_000, 15)]
    [InlineData(132_000, 18.417)]
    [InlineData(315_000, 26.042)]
    public void WireClearance_ByVoltage_MatchesTheRule(double volts, double ft) => Assert.Equal(ft, WireClearance.SmallestM(volts) / 0.3048, 0.0005);

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Unphysical_IsRefused(double value)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => AttachmentLimitLoad.LimitN(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => AttachmentLimitLoad.PartsN(1000, value));
        Assert.Throws<ArgumentOutOfRangeException>(() => WireClearance.SmallestM(value));
    }
}
