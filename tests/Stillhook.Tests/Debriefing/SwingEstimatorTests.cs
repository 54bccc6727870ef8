using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using UnitsNet;

namespace Stillhook.Tests.Debriefing;

public class SwingEstimatorTests
{
    private static readonly LiftSetup setup = new()
    {
        Line = new(Length.FromMeters(30), Origin.Typed),
        Load = new(Mass.FromKilograms(500), Origin.Typed),
        Aircraft = new(Mass.FromKilograms(1800), Origin.Typed),
        DragArea = new(Area.FromSquareMeters(1e-6), Origin.Typed),
        Wind = new(new Stillhook.Debriefing.Wind(0, Speed.Zero), Origin.Typed),
    };

    /// <summary>A hook that flies east as told: (position, velocity, acceleration) at a time; 10 fixes a second, exact.</summary>
    private static Track Flown(double seconds, Func<double, (double P, double V, double A)> east)
    {
        double[] time = [.. Enumerable.Range(0, (int)(seconds * 10) + 1).Select(i => i / 10.0)], zero = new double[time.Length];
        var motion = time.Select(east).ToArray();
        double[] p = [.. motion.Select(m => m.P)], v = [.. motion.Select(m => m.V)];
        float[] unknown = new float[time.Length];
        return new()
        {
            Frame = new LocalFrame(0, 0, 0), TimeS = time, East = p, North = zero, Up = zero,
            VelocityEast = v, VelocityNorth = zero, VelocityUp = zero,
            AccelerationEast = [.. motion.Select(m => m.A)], AccelerationNorth = zero, AccelerationUp = zero,
            HorizontalErrorM = unknown, HorizontalVelocityErrorMs = unknown, HorizontalAccelerationErrorMs2 = unknown,
            HeightErrorM = unknown, ClimbErrorMs = unknown, VerticalAccelerationErrorMs2 = unknown,
            StretchStarts = [0], HasHeight = true,
            Fixes = new TrackFixes(p, zero, v, zero, 0.05, 0.01),
        };
    }

    private static readonly SwingOptions free = new() { SetDownAtEnd = false, LoadDisturbance = 1e-6, JerkDensity = 20, LengthError = 1e-4 };

    [Fact]
    public void Estimate_hook_stopped_at_once_swings_as_far_as_an_instant_stop_does()
    {
        // Hook at 2 knots, load hanging plumb below it, stopped within half a second.
        const double V = 1.028888, Stop = 0.5;
        Track track = Flown(60, t => t < 10 ? (V * t, V, 0)
            : t < 10 + Stop ? (V * t - V / Stop / 2 * (t - 10) * (t - 10), V - V / Stop * (t - 10), -V / Stop)
            : (V * 10 + V * Stop / 2, 0, 0));
        SwingTrace trace = SwingEstimator.Estimate(track, 0, 60, setup, free).Trace!;

        // Closed form: the load keeps V, so the offset swings to V·√(L/g) = 1.7996 m; over half a second the stop takes 0.4 % off.
        double largest = trace.EastM.Select(Math.Abs).Max();
        Assert.InRange(largest, 1.7996 - 0.05, 1.7996 + 0.05);
        Assert.All(trace.NorthM, n => Assert.InRange(n, -0.01, 0.01));
    }

    [Fact]
    public void Estimate_steady_trail_is_in_the_offset_and_not_in_the_shown_swing()
    {
        const double Knots60 = 30.8667;
        LiftSetup draggy = setup with { DragArea = new(Area.FromSquareMeters(2), Origin.Typed) };
        // From the hover to 60 kt over two minutes, gently, then steady for three.
        const double Ramp = 120;
        Track track = Flown(300, t =>
        {
            double x = Math.Min(t / Ramp, 1), v = Knots60 * x * x * (3 - 2 * x);
            double p = Knots60 * (Ramp * (x * x * x - x * x * x * x / 2) + Math.Max(0, t - Ramp));
            return (p, v, t < Ramp ? Knots60 / Ramp * 6 * x * (1 - x) : 0);
        });
        SwingTrace trace = SwingEstimator.Estimate(track, 0, 300, draggy, free).Trace!;

        // Closed form: tan θ = ½ρV²·S_D/(m·g) is 13.3887° for 2 m², 500 kg, 60 kt, on 30 m 6.9466 m aft.
        Assert.InRange(trace.EastM[^10], -6.9466 - 0.1, -6.9466 + 0.1);
        Assert.InRange(trace.ShownEastM[^10], -0.1, 0.1);
    }

    [Fact]
    public void Estimate_steady_acceleration_lean_is_taken_off_the_shown_swing()
    {
        const double A = 0.980665 / 2; // 0.05 g
        // Acceleration builds up over 40 s and then stays.
        const double Ramp = 40;
        Track track = Flown(90, t => t < Ramp
            ? (A / Ramp * t * t * t / 6, A / Ramp * t * t / 2, A / Ramp * t)
            : (A * Ramp * Ramp / 6 + A * Ramp / 2 * (t - Ramp) + A / 2 * (t - Ramp) * (t - Ramp), A * Ramp / 2 + A * (t - Ramp), A));
        SwingTrace trace = SwingEstimator.Estimate(track, 0, 90, setup, free).Trace!;

        // Closed form: the ramp leaves a swing of at most 2·(A/40)/ω³ = 0.131 m about the lean L·sin(atan(0.05)) = 1.498 m.
        int k = trace.EastM.Length - 30;
        Assert.InRange(trace.EastM[k], -1.498 - 0.2, -1.498 + 0.2);
        Assert.InRange(trace.ShownEastM[k], -0.2, 0.2);
    }

    [Fact]
    public void Estimate_gap_longer_than_half_a_swing_is_not_assessable()
    {
        Track whole = Flown(60, _ => (0, 0, 0));
        int[] keep = [.. Enumerable.Range(0, whole.Count).Where(i => whole.TimeS[i] is < 20 or > 32)];
        double[] Part(double[] a) => [.. keep.Select(i => a[i])];
        float[] unknown = new float[keep.Length];
        double[] zero = new double[keep.Length];
        Track track = new()
        {
            Frame = whole.Frame, TimeS = Part(whole.TimeS), East = zero, North = zero, Up = zero,
            VelocityEast = zero, VelocityNorth = zero, VelocityUp = zero, AccelerationEast = zero, AccelerationNorth = zero, AccelerationUp = zero,
            HorizontalErrorM = unknown, HorizontalVelocityErrorMs = unknown, HorizontalAccelerationErrorMs2 = unknown,
            HeightErrorM = unknown, ClimbErrorMs = unknown, VerticalAccelerationErrorMs2 = unknown,
            StretchStarts = [0], HasHeight = true, Fixes = new TrackFixes(zero, zero, [], [], 0.3, 0.1),
        };
        SwingEstimate estimate = SwingEstimator.Estimate(track, 0, 60, setup);
        Assert.Null(estimate.Trace);
        // Pinned: the plain reason.
        Assert.Equal("A gap of 12 s in the loaded leg is longer than half a swing.", estimate.Reason);
    }

    [Theory]
    [InlineData(10, 10)]
    [InlineData(10, 5)]
    [InlineData(10, double.NaN)]
    public void Estimate_times_the_wrong_way_round_is_not_assessable(double from, double to) =>
        Assert.Null(SwingEstimator.Estimate(Flown(60, _ => (0, 0, 0)), from, to, setup).Trace);
}
