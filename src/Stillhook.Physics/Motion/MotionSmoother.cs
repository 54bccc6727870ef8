using System.Runtime.CompilerServices;

namespace Stillhook.Physics.Motion;

/// <summary>Columns of one axis, changed in place by the smoother.</summary>
/// <param name="Position">In: measured positions, m. Out: smoothed positions, m.</param>
/// <param name="Velocity">In: measured velocities, m/s (ignored where none is said to be measured). Out: smoothed velocities, m/s.</param>
/// <param name="Acceleration">Out: smoothed accelerations, m/s².</param>
public sealed record AxisColumns(double[] Position, double[] Velocity, double[] Acceleration);

/// <summary>Measurement variances and times shared by every axis smoothed together.</summary>
/// <param name="TimeS">Strictly ascending times, s.</param>
/// <param name="PositionVariance">m² at each time; infinite where no position was measured.</param>
/// <param name="VelocityVariance">m²/s² at each time, infinite where no velocity was measured; empty when there is none at all.</param>
public sealed record MeasurementColumns(double[] TimeS, double[] PositionVariance, double[] VelocityVariance);

/// <summary>Standard deviations of the smoothed motion: m, m/s, m/s².</summary>
public sealed record ErrorColumns(float[] Position, float[] Velocity, float[] Acceleration);

/// <summary>Normalised innovations squared: sum and number of measured values. Their ratio is 1 on average when the noise given is the noise met.</summary>
public readonly record struct InnovationCheck(double Sum, long Count)
{
    /// <summary>Sum over number; NaN without measurements.</summary>
    public double Mean => Sum / Count;
}

/// <summary>
/// Best estimate of position, velocity and acceleration at each time from all measurements before and after it:
/// Kalman filter forward, Rauch-Tung-Striebel smoother backward, for a body driven by white jerk.
/// </summary>
/// <remarks>
/// Model: x = (p, v, a), x' = F·x + w, F = [1 h h²/2; 0 1 h; 0 0 1], w from <see cref="DrivingNoise"/>; z = p or v plus white noise.
/// Filter in Joseph form; gain applied as K = P⁺·Hᵀ/R, so only the filtered covariance is kept. Smoother [RTS]:
/// C = P·Fᵀ·P₋⁻¹, xˢ = x + C·(xˢ₊ − F·x), Pˢ = (I − C·F)·P·(I − C·F)ᵀ + C·(Pˢ₊ + Q)·Cᵀ: a sum of squares, so it can't turn negative.
/// The covariance doesn't depend on the data, so axes with equal noise share it. While step and noise stay the same it settles;
/// from there on it is carried over instead of being worked again (settled: within 1e-14 of the variances).
/// Steps are taken to the microsecond: a time of 1.7e9 s is itself only good to 0.24 µs.
/// Not for use from two threads at once: it keeps its work space between calls.
/// </remarks>
public sealed class MotionSmoother
{
    private const double Settled = 1e-14;
    private MotionCovariance[] covariance = [];

    /// <summary>Smoothed covariances of the last call, one for each time.</summary>
    public ReadOnlySpan<MotionCovariance> Covariances => covariance.AsSpan(0, last);
    private int last;

    /// <summary>Smooths the times from <paramref name="start"/> to before <paramref name="end"/>.</summary>
    /// <param name="measured">Times and noise.</param>
    /// <param name="start">First index.</param>
    /// <param name="end">Index after the last.</param>
    /// <param name="axes">Axes that share the noise.</param>
    /// <param name="priorPosition">Expected position at the first time, m, one for each axis; velocity and acceleration are expected to be 0.</param>
    /// <param name="prior">How uncertain that is.</param>
    /// <param name="noise">What drives the motion.</param>
    /// <param name="errors">Receives the standard deviations.</param>
    public InnovationCheck Smooth(
        MeasurementColumns measured, int start, int end, AxisColumns[] axes, double[] priorPosition,
        MotionCovariance prior, DrivingNoise noise, ErrorColumns errors)
    {
        ArgumentNullException.ThrowIfNull(measured);
        ArgumentNullException.ThrowIfNull(axes);
        ArgumentNullException.ThrowIfNull(priorPosition);
        ArgumentNullException.ThrowIfNull(errors);
        ArgumentOutOfRangeException.ThrowIfNegative(start);
        ArgumentOutOfRangeException.ThrowIfLessThan(end, start);
        last = end - start;
        if (covariance.Length < last)
            covariance = new MotionCovariance[last];
        if (last == 0)
            return default;
        InnovationCheck check = Forward(measured, start, axes, priorPosition, prior, noise);
        Backward(measured.TimeS, start, axes, noise, errors);
        return check;
    }

    private static double Step(double[] t, int i) => Math.Round((t[i] - t[i - 1]) * 1e6) * 1e-6;

    private InnovationCheck Forward(
        MeasurementColumns measured, int start, AxisColumns[] axes, double[] priorPosition, MotionCovariance prior, DrivingNoise noise)
    {
        bool anyVelocity = measured.VelocityVariance.Length > 0;
        double sum = 0;
        long count = 0;
        bool settled = false;
        double lastH = double.NaN, lastRp = double.NaN, lastRv = double.NaN;
        MotionCovariance p = default;
        for (int k = 0; k < last; k++)
        {
            int i = start + k;
            double rp = measured.PositionVariance[i], rv = anyVelocity ? measured.VelocityVariance[i] : double.PositiveInfinity;
            double h = k == 0 ? 0 : Step(measured.TimeS, i);
            bool asBefore = h == lastH && rp == lastRp && rv == lastRv;
            if (!(settled && asBefore))
            {
                MotionCovariance next = Known(k == 0 ? prior : p.After(h, noise), rp, rv);
                settled = asBefore && next.Near(p, Settled);
                p = next;
                (lastH, lastRp, lastRv) = (h, rp, rv);
            }
            covariance[k] = p;
            for (int j = 0; j < axes.Length; j++)
                sum += k == 0
                    ? Advance(axes[j], i, priorPosition[j], 0, 0, p, rp, rv)
                    : Advance(axes[j], i, h, p, rp, rv);
            count += ((double.IsFinite(rp) ? 1 : 0) + (double.IsFinite(rv) ? 1 : 0)) * axes.Length;
        }
        return new(sum, count);
    }

    private static MotionCovariance Known(MotionCovariance p, double rp, double rv)
    {
        if (double.IsFinite(rp))
            p = p.WithPosition(rp);
        return double.IsFinite(rv) ? p.WithVelocity(rv) : p;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static double Advance(AxisColumns axis, int i, double h, in MotionCovariance p, double rp, double rv)
    {
        double v0 = axis.Velocity[i - 1], a = axis.Acceleration[i - 1], v = v0 + h * a;
        return Advance(axis, i, axis.Position[i - 1] + h * (v0 + h * a / 2), v, a, p, rp, rv);
    }

    /// <summary>Takes in the measurements of one time; returns the normalised innovation squared, νᵀ·S⁻¹·ν = Σ ν·(residual after)/R.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static double Advance(AxisColumns axis, int i, double pos, double vel, double acc, in MotionCovariance p, double rp, double rv)
    {
        double np = double.IsFinite(rp) ? (axis.Position[i] - pos) : 0, nv = double.IsFinite(rv) ? (axis.Velocity[i] - vel) : 0;
        double wp = np / rp, wv = nv / rv;
        double dp = p.PP * wp + p.PV * wv, dv = p.PV * wp + p.VV * wv;
        axis.Position[i] = pos + dp;
        axis.Velocity[i] = vel + dv;
        axis.Acceleration[i] = acc + p.PA * wp + p.VA * wv;
        return wp * (np - dp) + wv * (nv - dv);
    }

    private void Backward(double[] t, int start, AxisColumns[] axes, DrivingNoise noise, ErrorColumns errors)
    {
        MotionCovariance smoothed = covariance[last - 1], filtered = default;
        Spread(smoothed, errors, start + last - 1, out float sp, out float sv, out float sa);
        SmootherGain gain = default;
        double lastH = double.NaN;
        bool settled = false;
        for (int k = last - 2; k >= 0; k--)
        {
            int i = start + k;
            double h = Step(t, i + 1);
            if (h != lastH || covariance[k] != filtered)
            {
                (lastH, filtered, settled) = (h, covariance[k], false);
                gain = SmootherGain.Of(filtered, h, noise);
            }
            if (!settled)
            {
                MotionCovariance next = gain.Smoothed(smoothed);
                settled = next.Near(smoothed, Settled);
                smoothed = next;
                Spread(smoothed, errors, i, out sp, out sv, out sa);
            }
            covariance[k] = smoothed;
            (errors.Position[i], errors.Velocity[i], errors.Acceleration[i]) = (sp, sv, sa);
            foreach (AxisColumns axis in axes)
                gain.Apply(axis, i, h);
        }
    }

    private static void Spread(in MotionCovariance p, ErrorColumns errors, int i, out float sp, out float sv, out float sa)
    {
        (sp, sv, sa) = ((float)Math.Sqrt(p.PP), (float)Math.Sqrt(p.VV), (float)Math.Sqrt(p.AA));
        (errors.Position[i], errors.Velocity[i], errors.Acceleration[i]) = (sp, sv, sa);
    }
}
