using Stillhook.Physics.Earth;
using Stillhook.Physics.Load;

namespace Stillhook.Tests.Physics.Load;

public class ApproachBatchTests
{
    private const double G = 9.80665;

    /// <summary>A plan out of accelerations: speed and place follow with the acceleration linear between the steps.</summary>
    private static BatchApproach Plan(double step, int points, Func<double, double> along, Func<double, double> up, double entryMs = 0)
    {
        (double[] x, double[] v, double[] a) = Axis(step, points, along, entryMs);
        (double[] z, double[] w, double[] b) = Axis(step, points, up, 0);
        return new(step, x, z, v, w, a, b);
    }

    private static (double[] X, double[] V, double[] A) Axis(double step, int points, Func<double, double> acceleration, double entryMs)
    {
        double[] x = new double[points], v = new double[points], a = new double[points];
        v[0] = entryMs;
        for (int i = 0; i < points; i++)
            a[i] = acceleration(i * step);
        for (int i = 1; i < points; i++)
        {
            v[i] = v[i - 1] + step / 2 * (a[i - 1] + a[i]);
            x[i] = x[i - 1] + step * v[i - 1] + step * step / 6 * (2 * a[i - 1] + a[i]);
        }
        return (x, v, a);
    }

    private static BatchApproach Standing(double step, int points) => Plan(step, points, _ => 0, _ => 0);

    /// <summary>A slow-down from 25 m/s with a descent, smooth.</summary>
    private static BatchApproach SlowDown(double step, double seconds = 45) =>
        Plan(step, (int)Math.Round(seconds / step) + 1, t => -1.1 * Math.Pow(Math.Sin(Math.PI * t / 45), 2), t => 0.3 * Math.Sin(2 * Math.PI * t / 45), 25);

    private static double[] All(int flights, double value) => [.. Enumerable.Repeat(value, flights)];

    private static BatchDraws Draws(int flights, double length = 30, double drag = 0, double windAlong = 0, double windAcross = 0, double gust = 0,
        double slow = 0, double fast = 0, double[][]? modes = null, double verticalShare = 0.35) => new()
        {
            VerticalShare = verticalShare,
            Flights = flights,
            LengthM = All(flights, length),
            DragPerMassPerM = All(flights, drag),
            WindAlongMs = All(flights, windAlong),
            WindAcrossMs = All(flights, windAcross),
            GustMs = All(flights, gust),
            HandSlowM = All(flights, slow),
            HandFastM = All(flights, fast),
            Modes = modes ?? [],
            Seed = 2026,
        };

    /// <summary>Everything different in each flight, three modes.</summary>
    private static (BatchApproach Plan, BatchMode[] Modes, BatchDraws Draws) Mixed(int flights)
    {
        BatchApproach plan = SlowDown(0.1);
        BatchMode[] modes = [.. new[] { 20.0, 30, 45 }.Select(s => ModeOf(plan, s))];
        double[] Column(double from, double step) => [.. Enumerable.Range(0, flights).Select(i => from + step * i)];
        return (plan, modes, new()
        {
            Flights = flights,
            LengthM = Column(25, 0.7),
            DragPerMassPerM = Column(0.0005, 0.0001),
            WindAlongMs = Column(-6, 0.3),
            WindAcrossMs = Column(2, -0.2),
            GustMs = Column(0, 0.1),
            HandSlowM = Column(0.3, 0.05),
            HandFastM = Column(0.1, 0.01),
            Modes = [Column(-1, 0.2), Column(0.5, -0.1), Column(0, 0.3)],
            Seed = 5,
        });
    }

    private static BatchMode ModeOf(BatchApproach plan, double seconds)
    {
        BatchApproach m = Plan(plan.StepS, plan.AlongM.Length, t => 0.05 * Math.Sin(2 * Math.PI * t / seconds), t => 0.02 * Math.Cos(2 * Math.PI * t / seconds), 0.3);
        return new(m.AlongM, m.UpM, m.AlongMs, m.UpMs, m.AlongMs2, m.UpMs2);
    }

    private static IEnumerable<double[]> Columns(BatchOutcome o) =>
        [o.LoadAlongM, o.LoadAcrossM, o.LoadUpM, o.SwingM, o.LargestSwingM, o.LeastTensionRatio,
            .. o.GateAlongErrorM, .. o.GateUpErrorM, .. o.GateAlongSpeedErrorMs, .. o.GateUpSpeedErrorMs];

    private static long[] Bits(BatchOutcome o) => [.. Columns(o).SelectMany(c => c).Select(BitConverter.DoubleToInt64Bits)];

    private static double Deviation(double[] column) => Math.Sqrt(column.Average(x => x * x));

    // Closed form: two writings of one arithmetic give the same bits.
    [Theory]
    [InlineData(1)]
    [InlineData(8)]
    [InlineData(21)]
    public void FlyEights_AnyNumberOfFlights_SameBitsAsOneByOne(int flights)
    {
        (BatchApproach plan, BatchMode[] modes, BatchDraws draws) = Mixed(flights);
        Assert.Equal(Bits(ApproachBatches.FlyScalar(plan, modes, draws, [400, 0, 200, 450])), Bits(ApproachBatches.FlyEights(plan, modes, draws, [400, 0, 200, 450])));
    }

    [Fact]
    public void Fly_Twice_SameBits()
    {
        (BatchApproach plan, BatchMode[] modes, BatchDraws draws) = Mixed(40);
        Assert.Equal(Bits(ApproachBatches.Fly(plan, modes, draws, [100])), Bits(ApproachBatches.Fly(plan, modes, draws, [100])));
    }

    // Pinned: all bits of one batch, the same on every machine (inputs made with + − · / only); proves nothing about the physics.
    [Fact]
    public void Fly_AnyMachine_PinnedBits()
    {
        BatchApproach plan = Plan(0.1, 451, t => -t * (45 - t) / 600, t => (t - 22.5) / 100, 25);
        BatchMode mode = new(plan.AlongM, plan.UpM, plan.AlongMs, plan.UpMs, plan.AlongMs2, plan.UpMs2);
        double[] share = [.. Enumerable.Range(-8, 16).Select(i => i / 256.0)];
        BatchOutcome o = ApproachBatches.Fly(plan, [mode], Draws(16, 30, 0.001, -4, 3, 1.5, 0.8, 0.2, [share]), [200]);
        Assert.Equal(8603722460093623507L, Bits(o).Aggregate(0L, (sum, b) => unchecked(sum * 31 + b)));
    }

    // Closed form: a flight's random numbers depend on the seed and its number only.
    [Fact]
    public void Fly_FewerFlights_TheFirstOnesStay()
    {
        BatchApproach plan = SlowDown(0.1);
        BatchOutcome many = ApproachBatches.Fly(plan, [], Draws(30, slow: 1, fast: 0.2, gust: 1, drag: 0.001), []);
        BatchOutcome few = ApproachBatches.Fly(plan, [], Draws(11, slow: 1, fast: 0.2, gust: 1, drag: 0.001), []);
        Assert.Equal(few.LoadAlongM, many.LoadAlongM[..11]);
        Assert.Equal(30, many.LoadAlongM.Distinct().Count());
    }

    // Closed form: the same motion by SlungLoadMotion, stepped with the same hook; along is east, so to the right is south.
    [Fact]
    public void Fly_NoHandNoGust_SameAsSlungLoadMotion()
    {
        BatchApproach plan = SlowDown(0.1, 60);
        SlungLoad load = new(30, 500, 1.4, 1.1);
        Enu wind = new(-4, -3, 0);
        Enu Velocity(int i) => new(plan.AlongMs[i], 0, plan.UpMs[i]);
        Enu Acceleration(int i) => new(plan.AlongMs2[i], 0, plan.UpMs2[i]);
        SlungLoadState s = SlungLoadMotion.Steady(load, Acceleration(0), Velocity(0) - wind);
        double tension = double.MaxValue;
        for (int i = 0; ; i++)
        {
            tension = Math.Min(tension, SlungLoadMotion.TensionN(load, s, Acceleration(i), Velocity(i) - wind) / (500 * G));
            if (i == 600)
                break;
            s = SlungLoadMotion.Step(load, s, new(Velocity(i), Acceleration(i), Acceleration(i + 1), wind), 0.1);
        }

        BatchOutcome o = ApproachBatches.Fly(plan, [], Draws(1, 30, 1.1 * 1.4 / 1000, -4, 3), []);
        Assert.Equal(plan.AlongM[600] + s.LoadFromHookEnu.East, o.LoadAlongM[0], 1e-6);
        Assert.Equal(-s.LoadFromHookEnu.North, o.LoadAcrossM[0], 1e-6);
        Assert.Equal(plan.UpM[600] + s.LoadFromHookEnu.Up, o.LoadUpM[0], 1e-6);
        Assert.Equal(tension, o.LeastTensionRatio[0], 1e-7);
        Assert.True(Math.Abs(s.LoadFromHookEnu.East) > 0.1);
    }

    // Closed form: T₀ = 2π·√(30/9.80665) = 10.98956 s, over five periods between passages below the hook.
    [Fact]
    public void Fly_LeanLetGo_SwingsWithTheClosedFormPeriod()
    {
        double first = Passage(2.797), last = Passage(57.745);
        Assert.Equal(10.98956, (last - first) / 5, 1e-5);

        static double Passage(double aboutS)
        {
            int i = (int)(aboutS / 0.1);
            (double a, double b) = (OffsetM(i), OffsetM(i + 1));
            Assert.True(a * b <= 0);
            return 0.1 * (i + a / (a - b));
        }

        static double OffsetM(int steps)
        {
            BatchApproach plan = Plan(0.1, steps + 1, t => t == 0 ? 0.01 : 0, _ => 0);
            return ApproachBatches.Fly(plan, [], Draws(1), []).LoadAlongM[0] - plan.AlongM[^1];
        }
    }

    // Closed form: a swing from 17° without drag keeps g·z + v²/2; v from the swing envelope and the sphere.
    [Fact]
    public void Fly_NoDrag_KeepsEnergy()
    {
        double before = Energy(100), after = Energy(900);
        Assert.True(before > 10);
        Assert.Equal(before, after, 5e-5);

        static double Energy(int steps)
        {
            BatchApproach plan = Plan(0.1, steps + 1, t => t == 0 ? 3 : 0, _ => 0);
            BatchOutcome o = ApproachBatches.Fly(plan, [], Draws(1), []);
            double r = o.LoadAlongM[0] - plan.AlongM[^1], z = o.LoadUpM[0];
            double v2 = (o.SwingM[0] * o.SwingM[0] - r * r) * G / 30 * (1 + r * r / (z * z));
            return G * (z + 30) + v2 / 2;
        }
    }

    // Closed form: tan of the trail angle = kW²/g; a tailwind takes the load along, a wind to the right to the right; no swing about that.
    [Fact]
    public void Fly_StandingInWind_HangsInItsTrail()
    {
        BatchOutcome o = ApproachBatches.Fly(Standing(0.1, 301), [], Draws(3, 30, 0.002, 8, 6), []);
        double push = 0.002 * 100, offset = 30 * push / Math.Sqrt(G * G + push * push);
        Assert.Equal(0.8 * offset, o.LoadAlongM[2], 1e-9);
        Assert.Equal(0.6 * offset, o.LoadAcrossM[2], 1e-9);
        Assert.Equal(-30 * G / Math.Sqrt(G * G + push * push), o.LoadUpM[2], 1e-9);
        Assert.Equal(0, o.SwingM[2], 1e-9);
        Assert.Equal(offset, o.LargestSwingM[2], 1e-9);
        Assert.Equal(Math.Sqrt(G * G + push * push) / G, o.LeastTensionRatio[2], 1e-12);
    }

    // Closed form: lean L·a/√(g² + a²) under a steady acceleration, to the rear; tension 1 + a/g under a steady one up.
    [Fact]
    public void Fly_SteadyAcceleration_LeansAndPulls()
    {
        BatchApproach plan = Plan(0.1, 301, _ => 1, _ => 0);
        BatchOutcome lean = ApproachBatches.Fly(plan, [], Draws(1), []);
        Assert.Equal(-30 / Math.Sqrt(G * G + 1), lean.LoadAlongM[0] - plan.AlongM[^1], 1e-9);
        Assert.Equal(30 / Math.Sqrt(G * G + 1), lean.SwingM[0], 1e-9);
        BatchOutcome down = ApproachBatches.Fly(Plan(0.1, 301, _ => 0, t => t is > 5 and < 6 ? -5 : 0), [], Draws(1), []);
        Assert.Equal(1 - 5 / G, down.LeastTensionRatio[0], 1e-9);
        BatchOutcome slack = ApproachBatches.Fly(Plan(0.1, 301, _ => 0, t => t is > 5 and < 6 ? -11 : 0), [], Draws(1), []);
        Assert.Equal(1 - 11 / G, slack.LeastTensionRatio[0], 1e-9);
    }

    // Closed form: the hook is plan + draw × mode; flying that sum as a plan gives the same load.
    [Fact]
    public void Fly_Mode_IsAddedToThePlan()
    {
        BatchApproach plan = SlowDown(0.1);
        BatchMode m = ModeOf(plan, 30);
        double[] Sum(double[] a, double[] b) => [.. a.Zip(b, (x, y) => x - 1.5 * y)];
        BatchApproach moved = new(0.1, Sum(plan.AlongM, m.AlongM), Sum(plan.UpM, m.UpM), Sum(plan.AlongMs, m.AlongMs), Sum(plan.UpMs, m.UpMs), Sum(plan.AlongMs2, m.AlongMs2), Sum(plan.UpMs2, m.UpMs2));
        BatchOutcome byMode = ApproachBatches.Fly(plan, [m], Draws(1, drag: 0.001, modes: [[-1.5]]), [300, 10]), direct = ApproachBatches.Fly(moved, [], Draws(1, drag: 0.001), []);
        Assert.Equal(direct.LoadAlongM[0], byMode.LoadAlongM[0], 1e-9);
        Assert.Equal(direct.LoadUpM[0], byMode.LoadUpM[0], 1e-9);
        Assert.Equal(-1.5 * m.AlongM[300], byMode.GateAlongErrorM[0][0], 1e-12);
        Assert.Equal(-1.5 * m.UpM[10], byMode.GateUpErrorM[1][0], 1e-12);
        Assert.Equal(-1.5 * m.AlongMs[10], byMode.GateAlongSpeedErrorMs[1][0], 1e-12);
        Assert.Equal(-1.5 * m.UpMs[300], byMode.GateUpSpeedErrorMs[0][0], 1e-12);
    }

    // Closed form: asked standard deviation of place, and σ·√(αk/(α + c)) of speed (stationary equations of the continuous filter, worked in the test),
    // at the start and later. Tolerance: five standard errors of 20,000 flights, 2.5 %; the step adds under 0.5 %.
    [Theory]
    [InlineData(1.5, 0, 0.19, 4, 0.1)]
    [InlineData(0, 0.4, 0.7, 0.5, 0.1)]
    [InlineData(0, 0.4, 0.7, 0.5, 0.05)]
    public void Fly_Hand_HasTheAskedSpread(double slow, double fast, double omega, double correlationS, double step)
    {
        BatchOutcome o = ApproachBatches.Fly(Standing(step, 201), [], Draws(20_000, slow: slow, fast: fast), [0, 60, 200]);
        double sigma = slow + fast, alpha = 1 / correlationS, c = 1.4 * omega, speed = sigma * Math.Sqrt(alpha * omega * omega / (alpha + c));
        for (int g = 0; g < 3; g++)
        {
            Assert.Equal(sigma, Deviation(o.GateAlongErrorM[g]), 0.025 * sigma);
            Assert.Equal(speed, Deviation(o.GateAlongSpeedErrorMs[g]), 0.03 * speed);
            Assert.Equal(0.35 * sigma, Deviation(o.GateUpErrorM[g]), 0.025 * 0.35 * sigma);
            Assert.Equal(0, o.GateAlongErrorM[g].Average(), 5 * sigma / Math.Sqrt(20_000));
        }
    }

    // Closed form: both wanders together add their variances.
    [Fact]
    public void Fly_SlowAndFastHand_VariancesAdd()
    {
        BatchOutcome o = ApproachBatches.Fly(Standing(0.1, 51), [], Draws(20_000, slow: 0.8, fast: 0.6), [50]);
        Assert.Equal(1, Deviation(o.GateAlongErrorM[0]), 0.025);
    }

    // Closed form: across a mean wind W the load answers a small gust as y″ + cy′ + ω²y = c·u, c = kW, ω² = S/(mL); under first-order u of
    // standard deviation σ that gives σ²c²(α + c)/(cω²(α² + cα + ω²)). Tolerance: five standard errors of 8,000 flights, 4 %.
    [Fact]
    public void Fly_Gusts_MoveTheLoadAsTheirVarianceSays()
    {
        const double k = 0.03, wind = 10, sigma = 0.2, length = 5, alpha = 0.2, c = k * wind;
        BatchOutcome o = ApproachBatches.Fly(Standing(0.1, 501), [], Draws(8_000, length, k, wind, 0, sigma), []);
        double push = k * wind * wind, omega2 = Math.Sqrt(G * G + push * push) / length;
        double expected = sigma * Math.Sqrt(c * (alpha + c) / (omega2 * (alpha * alpha + c * alpha + omega2)));
        Assert.Equal(expected, Deviation(o.LoadAcrossM), 0.04 * expected);
    }

    // Closed form: error falls with the square of the step (hook accelerations are linear between steps); the reference is a step of 0.01 s.
    [Fact]
    public void Fly_ShorterSteps_Converge()
    {
        double[] end = [.. new[] { 0.1, 0.05, 0.02, 0.01 }.Select(step => At(step))];
        double tenth = Math.Abs(end[0] - end[3]), twentieth = Math.Abs(end[1] - end[3]), fiftieth = Math.Abs(end[2] - end[3]);
        Assert.True(tenth < 5e-4, $"{tenth} {twentieth} {fiftieth}");
        Assert.InRange(tenth / twentieth, 3.5, 4.8);
        Assert.True(fiftieth < 3e-5);

        static double At(double step)
        {
            BatchOutcome o = ApproachBatches.Fly(SlowDown(step, 40), [], Draws(1, drag: 0.0015, windAlong: -5), []);
            BatchApproach plan = SlowDown(step, 40);
            return o.LoadAlongM[0] - plan.AlongM[^1];
        }
    }

    [Fact]
    public void Fly_WhatCannotBe_IsRefused()
    {
        BatchApproach plan = Standing(0.1, 11);
        void Refused(BatchApproach p, BatchMode[] modes, BatchDraws d, int[] gates) =>
            Assert.Throws<ArgumentOutOfRangeException>(() => ApproachBatches.Fly(p, modes, d, gates));
        Refused(plan with { StepS = 0.3 }, [], Draws(1), []);
        Refused(plan with { UpM = [0] }, [], Draws(1), []);
        Refused(plan with { AlongMs2 = [.. Enumerable.Repeat(double.NaN, 11)] }, [], Draws(1), []);
        Refused(plan, [], Draws(1), [11]);
        Refused(plan, [], Draws(1, length: 0), []);
        Refused(plan, [], Draws(1, drag: -1), []);
        Refused(plan, [], Draws(1, windAlong: double.PositiveInfinity), []);
        Refused(plan, [], Draws(1, gust: -0.1), []);
        Refused(plan, [], Draws(1, slow: -0.1), []);
        Refused(plan, [], Draws(1, fast: -0.1), []);
        Refused(plan, [], Draws(1, verticalShare: 1.1), []);
        Refused(plan, [], Draws(1, modes: [[1]]), []);
        Refused(plan, [ModeOf(plan, 30)], Draws(1, modes: [[1, 2]]), []);
        Assert.Empty(ApproachBatches.Fly(plan, [], Draws(0), []).SwingM);
    }
}
