using CsCheck;
using Stillhook.Physics.Rotor;

namespace Stillhook.Tests.Physics.Rotor;

public class InflowTests
{
    private static readonly Gen<double> HoverSpeed = Gen.Double[3, 20];

    // Closed form: √(20 000/(2·1.225·π·5.5²)) = 9.2682 m/s and T·v = 185.364 kW, worked apart.
    [Fact]
    public void Hover_TwentyKilonewtons_MatchesClosedForm()
    {
        double v = Inflow.HoverMs(20_000, 1.225, Math.PI * 5.5 * 5.5);
        Assert.Equal(9.2682, v, 5e-5);
        Assert.Equal(185.364, 20 * v, 5e-3);
    }

    // Closed form: Glauert's level disc, worked apart to the printed digits.
    [Theory]
    [InlineData(0, 1)]
    [InlineData(0.5, 0.93956)]
    [InlineData(1, 0.78615)]
    [InlineData(1.5, 0.61660)]
    [InlineData(2, 0.48587)]
    [InlineData(3, 0.33132)]
    [InlineData(4, 0.24952)]
    [InlineData(5, 0.19984)]
    public void Level_OfSpeed_MatchesGlauert(double speed, double expected) => Assert.Equal(expected, Inflow.LevelMs(10 * speed, 10) / 10, 5.1e-6);

    // Closed form: momentum theory in climb, worked apart; power ratio V + v.
    [Theory]
    [InlineData(0.5, 0.78078)]
    [InlineData(1, 0.61803)]
    [InlineData(2, 0.41421)]
    public void HoverBranch_Climb_MatchesClosedForm(double climb, double expected)
    {
        Assert.Equal(expected, Inflow.HoverBranchMs(climb * 9, 9) / 9, 5.1e-6);
        Assert.Equal(expected, Inflow.AxialMs(climb, 1), 5.1e-6);
    }

    // Closed form: windmill branch −2, −2.5, −3. Published: the hover branch at −1.5 gives 2 (unit test of [LADAC]).
    [Fact]
    public void Descent_Branches_MatchClosedForm()
    {
        Assert.Equal(1, Inflow.AxialMs(-2, 1), 1e-12);
        Assert.Equal(0.5, Inflow.AxialMs(-2.5 * 8, 8) / 8, 1e-12);
        Assert.Equal(0.38197, Inflow.WindmillBranchMs(-3, 1), 5.1e-6);
        Assert.Equal(2, Inflow.HoverBranchMs(-1.5, 1), 1e-12);
    }

    // Published: climb problem of [HOUGHTON-CARPENTER] kind: 600 kW, 16 m, 170 N/m², 53 % useful. Printed answer 110 m/min (from memory); closed form 1.845 m/s.
    [Fact]
    public void HoverBranch_TextbookClimb_TakesTheUsefulPower()
    {
        double area = Math.PI * 64, thrust = 170 * area, vh = Inflow.HoverMs(thrust, 1.225, area), climb = 1.845;
        Assert.Equal(0.53 * 600e3, thrust * (climb + Inflow.HoverBranchMs(climb, vh)), 0.53 * 600e3 * 5e-4);
        Assert.Equal(110, 60 * climb, 1.0);
    }

    // Closed form: the quartic v⁴ + 2·V·sin α·v³ + V²·v² − 1 = 0 of a tilted disc [NAPLES-7], put back.
    [Fact]
    public void Tilted_AnyDisc_SolvesTheQuartic() =>
        Gen.Select(Gen.Double[0.01, 12], Gen.Double[-1.2, 1.55], HoverSpeed).Sample((speed, tilt, vh) =>
        {
            double v = Inflow.TiltedMs(speed * vh * Math.Cos(tilt), speed * vh * Math.Sin(tilt), vh) / vh;
            double slope = 4 * v * v * v + 6 * speed * Math.Sin(tilt) * v * v + 2 * speed * speed * v;
            double quartic = Math.Pow(v, 4) + 2 * speed * Math.Sin(tilt) * v * v * v + speed * speed * v * v - 1;
            Assert.True(v > 0 && Math.Abs(quartic) <= 1e-11 * Math.Max(1, Math.Abs(slope) * v), FormattableString.Invariant($"v {v}, rest {quartic}"));
        });

    // Closed form: without flow through the disc the tilted form is the level one, without flow across it the climb.
    [Fact]
    public void Tilted_Edges_AreLevelAndClimb() =>
        Gen.Select(Gen.Double[0, 60], HoverSpeed).Sample((speed, vh) =>
        {
            Assert.Equal(Inflow.LevelMs(speed, vh), Inflow.TiltedMs(speed, 0, vh), 1e-10);
            Assert.Equal(Inflow.HoverBranchMs(speed, vh), Inflow.TiltedMs(0, speed, vh), 1e-10);
        });

    // Closed form: far above v_h the level inflow tends to v_h²/V; a form that subtracts would lose all digits there.
    [Fact]
    public void Level_VeryFast_KeepsItsDigits() => Assert.Equal(1, Inflow.LevelMs(1e6, 10) / (100 / 1e6), 1e-9);

    [Fact]
    public void Level_Faster_IsLess() =>
        Gen.Select(Gen.Double[0, 80], HoverSpeed).Sample((speed, vh) => Assert.True(Inflow.LevelMs(speed + 0.5, vh) < Inflow.LevelMs(speed, vh)));

    [Fact]
    public void Inflow_Unphysical_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Inflow.HoverMs(0, 1.2, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => Inflow.HoverMs(1000, double.NaN, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => Inflow.LevelMs(-1, 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => Inflow.AxialMs(-10, 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => Inflow.AxialMs(double.NaN, 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => Inflow.WindmillBranchMs(-1.99, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Inflow.TiltedMs(2, -6, 10));
    }
}
