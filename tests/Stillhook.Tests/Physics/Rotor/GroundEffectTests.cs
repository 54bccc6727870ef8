using Stillhook.Physics.Rotor;

namespace Stillhook.Tests.Physics.Rotor;

public class GroundEffectTests
{
    // Closed form: 1/(1 − (R/4z)²) of [RM-3021] worked apart. Published: R 10 m, z 4 m gives 1.6410 (unit test of a code citing it).
    [Theory]
    [InlineData(0.4, 1.6410)]
    [InlineData(0.5, 1.3333)]
    [InlineData(0.6, 1.2101)]
    [InlineData(0.8, 1.1082)]
    [InlineData(1, 1.0667)]
    [InlineData(1.5, 1.0286)]
    [InlineData(2, 1.0159)]
    [InlineData(3, 1.0070)]
    public void CheesemanBennett_OfHeight_MatchesFormula(double ratio, double expected)
    {
        Assert.Equal(expected, GroundEffect.CheesemanBennettThrustRatio(ratio), 5.1e-5);
        Assert.Equal(ratio < 0.5 ? 1.3333 : expected, GroundEffect.ThrustRatio(ratio), 5.1e-5);
    }

    // From memory: the constants of [HAYDEN]; values worked apart with them.
    [Theory]
    [InlineData(0.3, 0.7074)]
    [InlineData(0.4, 0.8134)]
    [InlineData(0.5, 0.8740)]
    [InlineData(0.75, 0.9434)]
    [InlineData(1, 0.9704)]
    [InlineData(1.5, 0.9906)]
    [InlineData(20, 1)]
    public void Hayden_OfHeight_MatchesFormula(double ratio, double expected) => Assert.Equal(expected, GroundEffect.HaydenInducedPowerRatio(ratio), 5.1e-5);

    // Closed form: a rotor of 5.5 m on a 30 m line has 0.21 % of thrust left from the ground, which no plan counts.
    [Fact]
    public void ThrustRatio_LineLengthUp_IsNegligible() => Assert.Equal(0.0021, GroundEffect.ThrustRatio(30 / 5.5) - 1, 5e-5);

    [Fact]
    public void GroundEffect_Unphysical_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => GroundEffect.CheesemanBennettThrustRatio(0.25));
        Assert.Throws<ArgumentOutOfRangeException>(() => GroundEffect.ThrustRatio(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => GroundEffect.HaydenInducedPowerRatio(double.NaN));
    }
}
