using Stillhook.Physics.Earth;
using Stillhook.Physics.Line;
using Stillhook.Physics.Load;

namespace Stillhook.Tests.Physics.Load;

public class SlungLoadTests
{
    private const double G = 9.80665, Degree = Math.PI / 180, Step = 0.02;

    private static SlungLoadState LeaningEast(double length, double angle) =>
        new(new(length * Math.Sin(angle), 0, -length * Math.Cos(angle)), default);

    /// <summary>Time of the n-th return to rest on the release side, by the sign of the sideways speed.</summary>
    private static double Period(SlungLoad load, SlungLoadState state, int swings, Func<SlungLoadState, SlungLoadState> step)
    {
        double last = 0;
        for (int i = 1, found = 0; ; i++)
        {
            SlungLoadState next = step(state);
            double v0 = state.LoadFromHookVelocityEnu.East, v1 = next.LoadFromHookVelocityEnu.East;
            if (i > 5 && v0 > 0 && v1 <= 0)
            {
                last = (i - 1 + v0 / (v0 - v1)) * Step;
                if (++found == swings)
                    return last / swings;
            }
            state = next;
        }
    }

    // Closed form: T₀·2K/π with K by quadrature in SwingTests; 11.18087 s on 30 m from 30°.
    [Fact]
    public void Step_ReleasedAtThirtyDegrees_HasTheExactPeriod()
    {
        SlungLoad load = new(30, 500, 0);
        Assert.Equal(11.18087, Period(load, LeaningEast(30, 30 * Degree), 5, s => SlungLoadMotion.Step(load, s, default, Step)), 2e-4);
    }

    // Closed form: energy of a swing without drag does not change.
    [Fact]
    public void Step_NoDrag_KeepsEnergy()
    {
        SlungLoad load = new(30, 500, 0);
        SlungLoadState s = new(new(10, 4, -Math.Sqrt(900 - 116)), new(-2, 5, 0));
        double Energy(SlungLoadState x) => G * x.LoadFromHookEnu.Up + Math.Pow(x.LoadFromHookVelocityEnu.Length, 2) / 2;
        s = SlungLoadMotion.Step(load, s, default, 1e-9); // onto the sphere
        double before = Energy(s);
        for (int i = 0; i < 30_000; i++)
            s = SlungLoadMotion.Step(load, s, default, Step);
        Assert.Equal(before, Energy(s), 1e-5);
    }

    // Closed form: line tension at the bottom of a swing from 30°: 3 − √3 of the weight.
    [Fact]
    public void Tension_ThroughTheBottom_MatchesEnergyBalance()
    {
        SlungLoad load = new(30, 500, 0);
        SlungLoadState s = LeaningEast(30, 30 * Degree);
        double most = 0;
        for (int i = 0; i < 600; i++)
        {
            s = SlungLoadMotion.Step(load, s, default, Step);
            most = Math.Max(most, SlungLoadMotion.TensionN(load, s, default, default) / (500 * G));
        }
        Assert.Equal(3 - Math.Sqrt(3), most, 1e-4);
    }

    // Closed form: a circle at 20°: radius and height stay, one turn in T₀·√cos 20°.
    [Fact]
    public void Step_Conical_StaysOnItsCircle()
    {
        SlungLoad load = new(30, 500, 0);
        double a = 20 * Degree, period = Swing.ConicalPeriodS(30, a);
        SlungLoadState s = new(new(30 * Math.Sin(a), 0, -30 * Math.Cos(a)), new(0, Swing.ConicalSpeedMs(30, a), 0));
        int steps = 500;
        for (int i = 0; i < steps; i++)
            s = SlungLoadMotion.Step(load, s, default, period / steps);
        Assert.Equal(30 * Math.Sin(a), s.LoadFromHookEnu.East, 1e-4);
        Assert.Equal(0, s.LoadFromHookEnu.North, 1e-4);
        Assert.Equal(-30 * Math.Cos(a), s.LoadFromHookEnu.Up, 1e-4);
    }

    // From memory (Airy): 3/8·ω·a·b/L² = 8.19 °/min; the full motion is 0.3 % faster. Turning measured from the axis of the first 20 swings' apexes.
    [Fact]
    public void Step_Ellipse_PrecessesAsAiry()
    {
        SlungLoad load = new(30, 500, 0);
        SlungLoadState s = new(new(5, 0, -Math.Sqrt(900 - 25)), new(0, 2 * Swing.FrequencyRadS(30), 0));
        double lastAngle = 0, lastTime = 0;
        for (int i = 1; i < 11_000; i++)
        {
            double before = s.LoadFromHookEnu.Horizontal;
            SlungLoadState next = SlungLoadMotion.Step(load, s, default, Step), after = SlungLoadMotion.Step(load, next, default, Step);
            double here = next.LoadFromHookEnu.Horizontal, beyond = after.LoadFromHookEnu.Horizontal;
            if (here > before && here >= beyond)
            {
                double off = (before - beyond) / (2 * (before - 2 * here + beyond)); // parabola through three points
                Enu p = next.LoadFromHookEnu + off * Step * next.LoadFromHookVelocityEnu;
                lastAngle = Math.Atan(p.North / p.East);
                lastTime = (i + off) * Step;
            }
            s = next;
        }
        Assert.Equal(Swing.PrecessionRadS(30, 5, 2) * 60 / Degree, lastAngle / lastTime * 60 / Degree, 0.01 * 8.19);
        Assert.Equal(8.19, Swing.PrecessionRadS(30, 5, 2) * 60 / Degree, 0.006);
    }

    // Closed form: atan(q·S_D/mg), 60 kt; with line (20 mm, Cd 1.2, 0.3 kg/m) atan((D + D_l/2)/(W + W_l/2)); the motion settles there.
    [Fact]
    public void Trail_SixtyKnots_MatchesForceBalanceAndTheMotion()
    {
        double v = 60 * 0.514444;
        SlungLoad load = new(30, 500, 2), heavy = new(30, 500, 2, 1.225, 0.3, 0.02 * 1.2);
        Assert.Equal(13.3887, LoadDrag.TrailRad(v, 500, 2) / Degree, 1e-4);
        Assert.Equal(15.5554, LoadDrag.TrailRad(v, heavy) / Degree, 1e-4);
        foreach (SlungLoad l in new[] { load, heavy })
        {
            SlungLoadState s = SlungLoadState.Plumb(30);
            for (int i = 0; i < 20_000; i++)
                s = SlungLoadMotion.Step(l, s, new(new(v, 0, 0), default, default, default), Step);
            Assert.Equal(-30 * Math.Sin(LoadDrag.TrailRad(v, l)), s.LoadFromHookEnu.East, 1e-3);
            Assert.Equal(SlungLoadMotion.Steady(l, default, new(v, 0, 0)).LoadFromHookEnu.East, s.LoadFromHookEnu.East, 1e-3);
        }
    }

    // Closed form: 0.10 g put on at once swings between plumb and 2·atan 0.1, never beyond.
    [Fact]
    public void Step_SuddenAcceleration_SwingsToTwiceTheLean()
    {
        SlungLoad load = new(30, 500, 0);
        SlungLoadState s = SlungLoadState.Plumb(30);
        Enu a = new(0.1 * G, 0, 0);
        double most = 0, t = 0;
        for (int i = 0; i < 1100; i++, t += Step)
        {
            s = SlungLoadMotion.Step(load, s, new(t * a, a, a, default), Step);
            most = Math.Max(most, Math.Atan2(-s.LoadFromHookEnu.East, -s.LoadFromHookEnu.Up));
        }
        Assert.Equal(2 * Swing.LeanRad(0.1 * G), most, 1e-4);
    }

    // Closed form: 1/A = 1/5 + 10·(4/3)·1.225·2/500, that is 3.7688 m.
    [Fact]
    public void Step_CalmHover_DecaysAsTheEnergyBalance()
    {
        SlungLoad load = new(30, 500, 2);
        SlungLoadState s = LeaningEast(30, Math.Asin(5.0 / 30));
        double previous = 0, apex = 0;
        for (int swings = 0; swings < 10;)
        {
            SlungLoadState next = SlungLoadMotion.Step(load, s, default, Step);
            if (previous > 0 && next.LoadFromHookVelocityEnu.East <= 0)
                (swings, apex) = (swings + 1, s.LoadFromHookEnu.East);
            previous = next.LoadFromHookVelocityEnu.East;
            s = next;
        }
        Assert.Equal(3.7688, LoadDrag.AmplitudeAfterM(5, 10, 500, 2), 5e-5);
        Assert.Equal(3.7688, apex, 0.004);
    }

    // Closed form: ρVS_D/(2mω) worked apart; the motion across the track loses e^(−2πζ/√(1−ζ²)) a swing at the trailed length's frequency.
    [Fact]
    public void DampingRatio_SixtyKnots_MatchesFormulaAndTheMotion()
    {
        double v = 60 * 0.514444, zeta = LoadDrag.DampingRatioAlong(v, 500, 2, 30);
        Assert.Equal(0.13227, zeta, 1e-5);
        SlungLoad load = new(30, 500, 2);
        SlungLoadState s = SlungLoadMotion.Steady(load, default, new(v, 0, 0));
        s = s with { LoadFromHookVelocityEnu = new(0, 0.3, 0) };
        List<double> apexes = [];
        double last = 0.3;
        for (int i = 0; apexes.Count < 3; i++)
        {
            s = SlungLoadMotion.Step(load, s, new(new(v, 0, 0), default, default, default), Step);
            if (last > 0 && s.LoadFromHookVelocityEnu.North <= 0)
                apexes.Add(s.LoadFromHookEnu.North);
            last = s.LoadFromHookVelocityEnu.North;
        }
        double decrement = Math.Log(apexes[0] / apexes[2]) / 2, across = decrement / Math.Sqrt(4 * Math.PI * Math.PI + decrement * decrement);
        Assert.Equal(zeta / 2, across, 0.02 * zeta / 2); // tension over weight 1/cos 13° stiffens the swing by 1.4 %
    }

    // Closed form: with thrust equal to the whole weight the pair is a pendulum in gravity g(1 + m/M): 2π√(L/(g·1.5))·2K/π.
    [Theory]
    [InlineData(2, 8.97362)]
    [InlineData(45, 9.33161)]
    public void FreeHelicopter_ConstantThrust_HasTheTwoBodyPeriod(double deg, double expected)
    {
        SlungLoad load = new(30, 500, 0);
        FreeHelicopterState pair = new(default, LeaningEast(30, deg * Degree).LoadFromHookEnu, default);
        double period = Period(load, new(pair.LoadFromHookEnu, default), 3, _ =>
        {
            pair = FreeHelicopter.Step(load, 1000, pair, new(0, 0, 1500 * G), default, Step);
            return new(pair.LoadFromHookEnu, pair.LoadFromHookVelocityEnu);
        });
        Assert.Equal(expected, period, 2e-4);
        Assert.Equal(2 * Math.PI / Swing.FreeFrequencyRadS(30, 500, 1000) * Swing.PeriodRatio(deg * Degree), period, 2e-4);
    }

    // Closed form: a hook dropped at 2 g lets the line go slack and the load fall 1 g: after 1 s it is 4.9 m over where the line would hold it; caught, it hangs at L again.
    [Fact]
    public void Step_HookDrops_LineGoesSlackAndCatches()
    {
        SlungLoad load = new(30, 500, 0);
        SlungLoadState s = SlungLoadState.Plumb(30);
        Enu drop = new(0, 0, -2 * G);
        double t = 0;
        for (int i = 0; i < 50; i++, t += Step)
            s = SlungLoadMotion.Step(load, s, new(t * drop, drop, drop, default), Step);
        Assert.False(s.Taut);
        Assert.Equal(-30 + G / 2, s.LoadFromHookEnu.Up, 0.25); // let go one step late
        Enu v = t * drop;
        for (int i = 0; i < 200 && !s.Taut; i++)
        {
            Enu up = new(0, 0, 3 * G);
            s = SlungLoadMotion.Step(load, s, new(v, up, up, default), Step);
            v += Step * up;
        }
        Assert.True(s.Taut);
        Assert.Equal(30, s.LoadFromHookEnu.Length, 1e-9);
        Assert.Equal(0, s.LoadFromHookVelocityEnu.Up, 1e-9);
    }

    // Closed form: the rod's frequency; small swing with 0.6 kg/m on 100 kg.
    [Fact]
    public void Step_LineMass_SwingsAsTheRod()
    {
        SlungLoad load = new(30, 100, 0, 1.225, 0.6);
        double period = Period(load, LeaningEast(30, 0.5 * Degree), 5, s => SlungLoadMotion.Step(load, s, default, Step));
        Assert.Equal(2 * Math.PI / LineMass.RodFrequencyRadS(30, 0.6, 100), period, 1e-3);
    }

    // Closed form: hook = r + L·n/|n|, n = r'' + g·z + k|r' − w|(r' − w), for a 7th-order move of 50 m in 20 s: replayed, no swing is left.
    [Fact]
    public void Step_FlatMapReplayed_LeavesNoSwing()
    {
        const double distance = 50, time = 20, length = 30, h = 1e-3;
        SlungLoad load = new(length, 500, 2);
        Enu wind = new(-3, 2, 0);
        double k = 1.225 * 2 / (2 * 500);
        double Place(double t)
        {
            double x = Math.Clamp(t / time, 0, 1);
            return distance * x * x * x * x * (35 + x * (-84 + x * (70 - 20 * x)));
        }
        Enu FromLoad(double t)
        {
            double v = (Place(t + h) - Place(t - h)) / (2 * h), a = (Place(t + h) - 2 * Place(t) + Place(t - h)) / (h * h);
            Enu through = new Enu(v, 0, 0) - wind, n = new Enu(a, 0, G) + k * through.Length * through;
            return (length / n.Length) * n;
        }
        Enu Hook(double t) => new Enu(Place(t), 0, 0) + FromLoad(t);
        Enu Velocity(double t) => (1 / (2 * Step)) * (Hook(t + Step) - Hook(t - Step));
        Enu Acceleration(double t) => (1 / (Step * Step)) * (Hook(t + Step) - 2 * Hook(t) + Hook(t - Step));
        SlungLoadState s = new(-1 * FromLoad(-1), default);
        Enu rest = s.LoadFromHookEnu;
        for (int i = -50; i < 1100; i++)
            s = SlungLoadMotion.Step(load, s, new(Velocity(i * Step), Acceleration(i * Step), Acceleration((i + 1) * Step), wind), Step);
        Enu off = s.LoadFromHookEnu - rest;
        double left = Math.Sqrt(Math.Pow(off.Horizontal, 2) + Math.Pow(s.LoadFromHookVelocityEnu.Horizontal / Swing.FrequencyRadS(length), 2));
        Assert.True(left < 0.02, $"{left} m of swing left");
    }
}
