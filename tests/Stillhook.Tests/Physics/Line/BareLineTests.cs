using Stillhook.Physics.Line;
using Stillhook.Physics.Load;

namespace Stillhook.Tests.Physics.Line;

public class BareLineTests
{
    private const double G = 9.80665, Degree = Math.PI / 180, Knot = 1852.0 / 3600;

    // Closed form: a line that feels no air is a catenary under the hook's drag.
    [Theory]
    [InlineData(10)]
    [InlineData(40)]
    [InlineData(90)]
    public void Shape_NoAirOnTheLine_IsACatenary(double speed)
    {
        BareLineShape shape = new BareLine(30, 0.6, 0, 20, 0.4).Shape(speed);
        double h = 0.5 * 1.225 * speed * speed * 0.4, tip = 20 * G, line = 0.6 * G, top = tip + 30 * line;
        Assert.Equal(h / line * (Math.Asinh(top / h) - Math.Asinh(tip / h)), shape.Tip.AftM, 1e-6);
        Assert.Equal((Math.Sqrt(h * h + top * top) - Math.Sqrt(h * h + tip * tip)) / line, shape.Tip.BelowM, 1e-6);
        Assert.Equal(Math.Atan(h / tip), shape.TipRad, 1e-12);
        Assert.Equal(Math.Atan(h / top), shape.TopRad, 1e-6);
        Assert.Equal(Math.Sqrt(h * h + top * top), shape.TopTensionN, 1e-6);
    }

    // Closed form: a line without a hook lies straight where n·cos²θ = μg·sin θ. With a hook of 20 g the trail comes within 0.1°.
    [Fact]
    public void Shape_AlmostNoHook_IsTheFreeLine()
    {
        double n = 0.5 * 1.225 * 900 * 0.02 * 1.2, w = 0.3 * G;
        double sin = (Math.Sqrt(w * w + 4 * n * n) - w) / (2 * n);
        BareLineShape shape = new BareLine(30, 0.3, 0.02, 0.02, 0).Shape(30);
        Assert.Equal(Math.Asin(sin) / Degree, shape.TrailRad / Degree, 0.1);
        Assert.Equal(Math.Asin(sin) / Degree, shape.TopRad / Degree, 0.1);
    }

    // Closed form: moments about the belly hook of weight and air force over the returned shape, summed here segment by segment, cancel.
    [Theory]
    [InlineData(8, 0.15, 30)]
    [InlineData(18, 0.6, 51)]
    [InlineData(100, 0.3, 40)]
    public void Shape_AnyLine_BalancesMomentsAboutTheBellyHook(double hookKg, double mu, double speed)
    {
        const double diameter = 0.02, area = 0.05;
        BareLineShape shape = new BareLine(33, mu, diameter, hookKg, area).Shape(speed);
        double q = 0.5 * 1.225 * speed * speed;
        double down = hookKg * G * shape.Tip.AftM, up = q * area * shape.Tip.BelowM;
        for (int i = 1; i < shape.Points.Count; i++)
        {
            LinePoint a = shape.Points[i - 1], b = shape.Points[i];
            double dx = b.AftM - a.AftM, dz = b.BelowM - a.BelowM, ds = Math.Sqrt(dx * dx + dz * dz);
            double cos = dz / ds, force = q * diameter * 1.2 * cos * cos * ds;
            double aft = (a.AftM + b.AftM) / 2, below = (a.BelowM + b.BelowM) / 2;
            down += mu * G * ds * aft;
            up += force * (cos * below + dx / ds * aft);
        }
        Assert.Equal(1, up / down, 1e-4);
    }

    // Closed form: the straight-rod trail angle tan θ = (D + D_line/2)/(W + W_line/2), which takes the line's drag square to the flow: it is high,
    // by 1 % at 9°, 2 % at 16° and 3.3 % at 24° (measured); the flexible line must come within that below and never above.
    [Theory]
    [InlineData(500, 2, 40, 0.02)]
    [InlineData(500, 2, 60, 0.015)]
    [InlineData(200, 0.2, 60, 0.012)]
    [InlineData(200, 0.2, 80, 0.022)]
    [InlineData(200, 0.2, 100, 0.035)]
    [InlineData(1000, 0.5, 60, 0.01)]
    public void Shape_HeavyHook_IsTheStraightRod(double hookKg, double area, double kt, double within)
    {
        double rod = LoadDrag.TrailRad(kt * Knot, new SlungLoad(30, hookKg, area, 1.225, 0.3, 0.02 * 1.2));
        double trail = new BareLine(30, 0.3, 0.02, hookKg, area).Shape(kt * Knot).TrailRad;
        Assert.InRange(trail / rod, 1 - within, 1);
    }

    // Property: faster, or a lighter hook, trails higher; the line keeps its length and the tip stays below the belly hook.
    [Fact]
    public void Trail_FasterOrLighter_IsHigher()
    {
        double before = -1;
        for (double v = 0; v <= 80; v += 2)
        {
            BareLineShape light = new BareLine(30, 0.3, 0.02, 8, 0.05).Shape(v), heavy = new BareLine(30, 0.3, 0.02, 40, 0.05).Shape(v);
            Assert.True(light.TrailRad > before);
            Assert.True(v == 0 || light.TrailRad > heavy.TrailRad);
            Assert.True(light.Tip.BelowM > 0);
            Assert.Equal(30, light.Points.Zip(light.Points.Skip(1), (a, b) => Math.Sqrt(Math.Pow(b.AftM - a.AftM, 2) + Math.Pow(b.BelowM - a.BelowM, 2))).Sum(), 1e-3);
            before = light.TrailRad;
        }
    }

    // Closed form: at the largest speed the distance is the margin, just beyond it is less; a bare line of next to nothing under a dragless
    // heavy point never comes near.
    [Fact]
    public void LargestSpeed_ReachesTheMarginAndNoMore()
    {
        BareLine line = new(30, 0.3, 0.02, 20, 0.05);
        double v = line.LargestSpeedMs(6, -1, 3);
        LinePoint tail = new(6, -1);
        Assert.InRange(v, 10, 100);
        Assert.Equal(3, line.Shape(v).DistanceToM(tail), 1e-4);
        Assert.True(line.Shape(v + 0.5).DistanceToM(tail) < 3);
        Assert.True(line.LargestSpeedMs(6, -1, 4) < v);
        Assert.Equal(0, line.LargestSpeedMs(2, 0.5, 2.5));
        Assert.Equal(150, new BareLine(30, 0.3, 0.001, 1e5, 0).LargestSpeedMs(6, -1, 3));

        double below = line.LargestSpeedBelowMs(30 * Degree);
        Assert.Equal(60, line.Shape(below).HighestRad / Degree, 1e-4);
        Assert.True(line.LargestSpeedBelowMs(40 * Degree) < below);
    }

    // Closed form: distance from a point to a straight hanging line.
    [Fact]
    public void Distance_AtRest_IsThePlainDistance()
    {
        BareLineShape shape = new BareLine(30, 0.3, 0.02, 20, 0.05).Shape(0);
        Assert.Equal(6, shape.DistanceToM(new(6, 10)), 1e-9);
        Assert.Equal(Math.Sqrt(37), shape.DistanceToM(new(6, -1)), 1e-9);
        Assert.Equal(5, shape.DistanceToM(new(4, 33)), 1e-9);
    }

    // Real record, sanity only [TSB-A05P0103]: a 33 m synthetic line with an empty bonnet under 10 kg, under 40 kg in all, came over the tail rotor. Speed, line, the
    // bonnet's drag and the tail's place aren't in what was read: assumed 0.15 kg/m, 14 mm, 8 kg with 0.05 m² bare and 1 m² with bonnet, tail 6 m aft and
    // 1 m above the belly hook. Steady flight can't lift a line above the hook; the model must show it flat and near the tail, and a heavy hook not.
    [Fact]
    public void LightLine_OfTheAccident_LiesFlatTowardsTheTail()
    {
        BareLine bare = new(33, 0.15, 0.014, 8, 0.05), bonnet = new(33, 0.15, 0.014, 8, 1), heavy = new(33, 0.15, 0.014, 60, 0.05);
        Assert.True(bare.Shape(100 * Knot).TrailRad > 60 * Degree);
        Assert.True(bonnet.Shape(60 * Knot).TrailRad > 75 * Degree);
        Assert.True(bonnet.Shape(60 * Knot).DistanceToM(new(6, -1)) < 2.6);
        Assert.True(heavy.Shape(60 * Knot).DistanceToM(new(6, -1)) > 5);
        Assert.True(heavy.LargestSpeedMs(6, -1, 3) > 2 * bonnet.LargestSpeedMs(6, -1, 3));
    }

    [Fact]
    public void BareLine_Unphysical_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new BareLine(0, 0.3, 0.02, 8, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BareLine(30, -0.3, 0.02, 8, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BareLine(30, 0.3, 0.02, 0, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BareLine(30, 0.3, 0.02, 8, 0.05).Shape(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BareLine(30, 0.3, 0.02, 8, 0.05).LargestSpeedMs(6, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BareLine(30, 0.3, 0.02, 8, 0.05).LargestSpeedBelowMs(Math.PI / 2));
    }
}
