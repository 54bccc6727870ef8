using CsCheck;
using Stillhook.Physics.Rotor;

namespace Stillhook.Tests.Physics.Rotor;

public class RotorPowerTests
{
    private const double Ft = 0.3048, Lb = 0.45359237, Hp = 745.700, Knot = 0.514444, SeaLevel = 1.225, G = 9.80665;

    // The 5 000-lb example of [NDARC-STUDENT]: 17.5 ft, 4 blades of 10.4 in, 756 ft/s; 5 150 lb of thrust, constant C_d0 0.009518, κ 1.15; the main rotor alone.
    private static readonly MainRotor Example = new(17.5 * Ft, 4, 10.4 / 12 * Ft, 756 * Ft);
    private static readonly PowerFactors MainRotorOnly = new(1.15, 0.009518, 0, 1, 0, 0);

    // Closed form: 314.2 hp ideal, 134.8 profile, 496.1 in all, worked apart. Published: the example's own code gives 485 hp; kept within 5 %.
    [Fact]
    public void Hover_FiveThousandPounds_MatchesClosedFormAndOtherCode()
    {
        Assert.Equal(0.06306, Example.Solidity, 5.1e-6);
        PowerParts p = RotorPower.Required(Example, MainRotorOnly, new(5150 * Lb, SeaLevel));
        Assert.Equal(314.2, p.InducedW / 1.15 / Hp, 0.06);
        Assert.Equal(134.8, p.ProfileW / Hp, 0.06);
        Assert.Equal(496.1, p.TotalW / Hp, 0.1);
        Assert.Equal(485, p.TotalW / Hp, 0.05 * 485);
    }

    // Published: the same example, 5 000 lb with 3 % download: 485 hp main rotor, 45.3 tail rotor, 566 at the engine. Ours with its defaults, within 5 %.
    [Fact]
    public void Hover_Defaults_MatchOtherCode()
    {
        PowerParts p = RotorPower.Required(Example, new(), new(5000 * Lb, SeaLevel));
        Assert.Equal(485, p.MainRotorW / Hp, 0.05 * 485);
        Assert.Equal(45.3, p.TailRotorW / Hp, 0.06 * 45.3);
        Assert.Equal(566, p.TotalW / Hp, 0.05 * 566);
    }

    // Closed form: the level-flight sums written down in the source page for 12.9 ft² and 5 150 lb, printed to 1 hp. Drag adds to thrust in ours: under 0.2 %.
    [Theory]
    [InlineData(60, 294)]
    [InlineData(80, 313)]
    [InlineData(100, 372)]
    [InlineData(110, 416)]
    [InlineData(120, 471)]
    public void Level_FiveThousandPounds_MatchesClosedForm(double kt, double hp)
    {
        PowerParts p = RotorPower.Required(Example, MainRotorOnly, new(5150 * Lb, SeaLevel, kt * Knot, 0, 12.9 * Ft * Ft));
        Assert.Equal(hp, p.TotalW / Hp, 0.5 + 0.002 * hp);
    }

    // Published: Prouty's example, as quoted: 20 000 lb, 30 ft, 4 blades of 2 ft; disc loading, v_h and ideal power at sea level follow (closed form). Tip 650 ft/s from memory.
    [Fact]
    public void Hover_ProutyExample_MatchesPublishedData()
    {
        MainRotor rotor = new(30 * Ft, 4, 2 * Ft, 650 * Ft);
        double thrust = 20_000 * Lb * G, vh = Inflow.HoverMs(thrust, SeaLevel, rotor.DiscAreaM2);
        Assert.Equal(0.08488, rotor.Solidity, 5.1e-6);
        Assert.Equal(7.074, 20_000 / (rotor.DiscAreaM2 / (Ft * Ft)), 5.1e-4);
        Assert.Equal(38.57, vh / Ft, 0.04);
        Assert.Equal(1402.7, thrust * vh / Hp, 1.4);
        Assert.Equal(1402.7, 20_000 * Math.Sqrt(7.074) / 37.93, 0.5);
        Assert.Equal(0.0830, rotor.MeanLiftCoefficient(thrust, SeaLevel) / 6, 5.1e-5);
    }

    // Closed form on public geometry (26.83 ft, 4 blades of about 1.73 ft, 725 ft/s) at 16 000 and 16 825 lb. The blade loading is good to 0.6 %: the chord
    // is rounded, and published solidities run from 0.0821 to 0.0826. From memory: ideal over engine
    // power of a whole aircraft is 0.55 to 0.65. Another remembered band, engine over ideal 1.45 to 1.75, is passed by 1.5 % with the default losses.
    [Theory]
    [InlineData(16_000, 7.075, 38.58, 1122, 0.0686)]
    [InlineData(16_825, 7.440, 39.56, 1210, 0.0721)]
    public void Hover_TenTonne_LiesInTheKnownBand(double lb, double discLoading, double vhFts, double idealHp, double bladeLoading)
    {
        MainRotor rotor = new(26.83 * Ft, 4, 1.73 * Ft, 725 * Ft);
        double thrust = lb * Lb * G, vh = Inflow.HoverMs(thrust, SeaLevel, rotor.DiscAreaM2);
        Assert.Equal(discLoading, lb / (rotor.DiscAreaM2 / (Ft * Ft)), 6e-4);
        Assert.Equal(vhFts, vh / Ft, 0.01);
        Assert.Equal(idealHp, thrust * vh / Hp, 1.0);
        Assert.Equal(bladeLoading, rotor.MeanLiftCoefficient(thrust, SeaLevel) / 6, 0.006 * bladeLoading + 5e-5);
        Assert.InRange(RotorPower.Required(rotor, new(), new(lb * Lb, SeaLevel)).TotalW / (thrust * vh), 1 / 0.65, 1 / 0.55);
    }

    // Closed form: induced power goes with weight^1.5 and density^−0.5: +10 % weight is +15.4 %, the standard 1 500 m +7.6 %.
    [Fact]
    public void Induced_Scaling_MatchesClosedForm()
    {
        double at = RotorPower.Required(Example, new(), new(2000, SeaLevel)).InducedW;
        Assert.Equal(0.154, RotorPower.Required(Example, new(), new(2200, SeaLevel)).InducedW / at - 1, 5.1e-4);
        Assert.Equal(0.076, RotorPower.Required(Example, new(), new(2000, 1.05807)).InducedW / at - 1, 5.1e-4);
    }

    // Closed form: ½·1.225·(1.5 + 2 + 0.4)·30³ W, and 2 000 kg·g·3 m/s.
    [Fact]
    public void Parts_LoadDragAndClimb_MatchClosedForm()
    {
        PowerParts p = RotorPower.Required(Example, new(), new(2000, SeaLevel, 30, 3, 1.5 + 2 + 0.4));
        Assert.Equal(64_496, p.ParasiteW, 0.51);
        Assert.Equal(58_840, p.ClimbW, 0.51);
        Assert.Equal(p.MainRotorW + p.TailRotorW + p.LossesW, p.TotalW, 1e-6);
        Assert.Equal(0.06, p.LossesW / p.TotalW, 1e-12);
    }

    [Fact]
    public void Required_MoreMassDragOrClimb_IsMore() =>
        Gen.Select(Gen.Double[1000, 3000], Gen.Double[0.8, 1.3], Gen.Double[0, 60], Gen.Double[0, 5], Gen.Double[0.5, 5]).Sample((m, rho, v, climb, area) =>
        {
            double at = Total(m, rho, v, climb, area);
            Assert.True(Total(1.01 * m, rho, v, climb, area) > at);
            Assert.True(Total(m, rho, v, climb + 0.2, area) > at);
            Assert.True(Total(m, rho, v, climb, area + 0.2) >= at);
        });

    // In hover thinner air costs induced power and saves profile power; the sum rises while induced power is over twice the profile power (mean derivative: −½·induced + profile).
    [Fact]
    public void Hover_ThinnerAirUnderLoad_CostsMore() =>
        Gen.Select(Gen.Double[2200, 3000], Gen.Double[0.8, 1.25]).Sample((m, rho) =>
        {
            PowerParts p = RotorPower.Required(Example, new(), new(m, rho));
            Assert.True(p.InducedW > 2 * p.ProfileW);
            Assert.True(Total(m, 0.99 * rho, 0, 0, 0) > p.TotalW);
        });

    // Own choice, safe side: no relief for sinking below 0.95·v_h, full relief at twice that, nothing above level power between.
    [Fact]
    public void Descent_Relief_ComesWithSpeed() =>
        Gen.Select(Gen.Double[1500, 3000], Gen.Double[0, 30], Gen.Double[0.1, 4]).Sample((m, v, sink) =>
        {
            double vh = Inflow.HoverMs(1.03 * m * G, SeaLevel, Example.DiscAreaM2), level = Total(m, SeaLevel, v, 0, 0), down = Total(m, SeaLevel, v, -sink, 0);
            if (v < 0.95 * vh)
                Assert.Equal(level, down, 1e-6);
            else
                Assert.True(down < level);
        });

    // Closed form: at twice 0.95·v_h and above, power is T·κ·v with v of the tilted form and W·V_c off.
    [Fact]
    public void Descent_Fast_IsMomentumTheory()
    {
        PowerParts p = RotorPower.Required(Example, MainRotorOnly, new(2300, SeaLevel, 35, -3));
        double thrust = 2300 * G, v = Inflow.TiltedMs(35, -3, Inflow.HoverMs(thrust, SeaLevel, Example.DiscAreaM2));
        Assert.Equal(1.15 * thrust * v, p.InducedW, 1e-6);
        Assert.Equal(-3 * thrust, p.ClimbW, 1e-6);
    }

    [Fact]
    public void Required_Unphysical_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Total(0, 1.2, 0, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Total(1000, double.NaN, 0, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Total(1000, 1.2, -1, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Total(1000, 1.2, 0, double.NaN, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Total(1000, 1.2, 0, 0, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MainRotor(0, 2, 0.3, 200));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MainRotor(5, 0, 0.3, 200));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MainRotor(5, 2, 0.3, 700));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PowerFactors(InducedFactor: 0.9));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PowerFactors(LossShare: 1));
    }

    private static double Total(double mass, double rho, double v, double climb, double area) =>
        RotorPower.Required(Example, new(), new(mass, rho, v, climb, area)).TotalW;
}
