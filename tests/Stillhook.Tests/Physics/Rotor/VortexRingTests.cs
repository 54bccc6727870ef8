using CsCheck;
using Stillhook.Physics.Rotor;

namespace Stillhook.Tests.Physics.Rotor;

public class VortexRingTests
{
    private const double FeetPerMinute = 0.3048 / 60, Knot = 0.514444;

    // Closed form: boundary of [JOHNSON-VRS] with its constants −0.45, −1.50, 0.95, worked apart to three digits.
    [Theory]
    [InlineData(0, 0.450, 1.500)]
    [InlineData(0.25, 0.457, 1.446)]
    [InlineData(0.5, 0.483, 1.298)]
    [InlineData(0.75, 0.543, 1.096)]
    [InlineData(0.9, 0.642, 0.992)]
    public void Boundary_OfSpeed_MatchesJohnson(double speed, double onset, double exit)
    {
        Assert.Equal(onset, VortexRing.OnsetSinkMs(11 * speed, 11)!.Value / 11, 5.1e-4);
        Assert.Equal(exit, VortexRing.ExitSinkMs(11 * speed, 11)!.Value / 11, 5.1e-4);
    }

    // Closed form: the same in a pilot's units, printed to 1 ft/min and 0.1 kt.
    [Theory]
    [InlineData(8, 709, 14.8)]
    [InlineData(10, 886, 18.5)]
    [InlineData(12, 1063, 22.2)]
    public void Boundary_InPilotUnits_MatchesClosedForm(double vh, double onsetFpm, double limitKt)
    {
        Assert.Equal(onsetFpm, VortexRing.OnsetSinkMs(0, vh)!.Value / FeetPerMinute, 0.51);
        Assert.Equal(limitKt, VortexRing.SpeedLimitMs(vh) / Knot, 0.051);
    }

    [Fact]
    public void Boundary_FromTheSpeedLimit_IsNone()
    {
        Assert.Null(VortexRing.OnsetSinkMs(9.5, 10));
        Assert.Null(VortexRing.ExitSinkMs(12, 10));
    }

    // Published: 300 ft/min below translational lift [FAA-H-8083-21] chapter 11 (amber); 30 kt and 0.30·v_h are own choices.
    [Theory]
    [InlineData(290, 0, 10, VortexRingRisk.Clear)]
    [InlineData(310, 0, 10, VortexRingRisk.Amber)]
    [InlineData(310, 29, 10, VortexRingRisk.Amber)]
    [InlineData(310, 31, 10, VortexRingRisk.Clear)]
    [InlineData(600, 0, 10, VortexRingRisk.Red)]
    [InlineData(600, 20, 10, VortexRingRisk.Amber)]
    [InlineData(-500, 0, 10, VortexRingRisk.Clear)]
    public void Risk_OfSinkAndSpeed_MatchesTheRules(double fpm, double kt, double vh, VortexRingRisk expected) =>
        Assert.Equal(expected, VortexRing.Risk(fpm * FeetPerMinute, kt * Knot, vh));

    // Closed form: 0.30·v_h lies below the onset at every speed, so whoever is inside the boundary is in the red.
    [Fact]
    public void Risk_InsideTheBoundary_IsRed() =>
        Gen.Select(Gen.Double[0, 0.949], Gen.Double[0, 1], Gen.Double[6, 16]).Sample((speed, part, vh) =>
        {
            double onset = VortexRing.OnsetSinkMs(speed * vh, vh)!.Value, exit = VortexRing.ExitSinkMs(speed * vh, vh)!.Value;
            Assert.True(onset < exit);
            Assert.Equal(VortexRingRisk.Red, VortexRing.Risk(onset + part * (exit - onset), speed * vh, vh));
        });

    [Fact]
    public void Risk_Unphysical_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => VortexRing.Risk(double.NaN, 0, 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => VortexRing.Risk(1, -1, 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => VortexRing.OnsetSinkMs(0, 0));
    }
}
