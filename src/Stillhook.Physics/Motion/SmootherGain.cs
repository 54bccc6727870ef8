using System.Runtime.CompilerServices;

namespace Stillhook.Physics.Motion;

/// <summary>Gain C = P·Fᵀ·P₋⁻¹ of the backward pass over one step, and the part of the smoothed covariance that doesn't depend on the later one.</summary>
/// <remarks>Called for every fix from one loop, so it is compiled well at once: the smoothing of a single debrief then takes half the time (bench/results).</remarks>
internal readonly struct SmootherGain
{
    private readonly double c00, c01, c02, c10, c11, c12, c20, c21, c22;
    private readonly MotionCovariance own;

    private SmootherGain(in Row r0, in Row r1, in Row r2, in MotionCovariance own)
    {
        (c00, c01, c02) = (r0.X, r0.Y, r0.Z);
        (c10, c11, c12) = (r1.X, r1.Y, r1.Z);
        (c20, c21, c22) = (r2.X, r2.Y, r2.Z);
        this.own = own;
    }

    private readonly record struct Row(double X, double Y, double Z);

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static SmootherGain Of(in MotionCovariance p, double h, DrivingNoise noise)
    {
        MotionCovariance predicted = p.After(h, noise);
        Row r0 = Solve(predicted, TimesFt(p.PP, p.PV, p.PA, h));
        Row r1 = Solve(predicted, TimesFt(p.PV, p.VV, p.VA, h));
        Row r2 = Solve(predicted, TimesFt(p.PA, p.VA, p.AA, h));
        MotionCovariance noiseOnly = new SmootherGain(r0, r1, r2, default).Smoothed(noise.Over(h));
        double c = h * h / 2;
        // I − C·F, row by row.
        SmootherGain left = new(
            new(1 - r0.X, -(h * r0.X + r0.Y), -(c * r0.X + h * r0.Y + r0.Z)),
            new(-r1.X, 1 - (h * r1.X + r1.Y), -(c * r1.X + h * r1.Y + r1.Z)),
            new(-r2.X, -(h * r2.X + r2.Y), 1 - (c * r2.X + h * r2.Y + r2.Z)), noiseOnly);
        return new(r0, r1, r2, left.Smoothed(p));
    }

    /// <summary>Own part + C·M·Cᵀ.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public MotionCovariance Smoothed(in MotionCovariance m)
    {
        Row a = Times(m, c00, c01, c02), b = Times(m, c10, c11, c12), d = Times(m, c20, c21, c22);
        return new(
            own.PP + c00 * a.X + c01 * a.Y + c02 * a.Z,
            own.PV + c10 * a.X + c11 * a.Y + c12 * a.Z,
            own.PA + c20 * a.X + c21 * a.Y + c22 * a.Z,
            own.VV + c10 * b.X + c11 * b.Y + c12 * b.Z,
            own.VA + c20 * b.X + c21 * b.Y + c22 * b.Z,
            own.AA + c20 * d.X + c21 * d.Y + c22 * d.Z);
    }

    /// <summary>Smooths the state at i from the smoothed state at i + 1.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Apply(AxisColumns axis, int i, double h)
    {
        double p = axis.Position[i], v = axis.Velocity[i], a = axis.Acceleration[i];
        double dp = axis.Position[i + 1] - (p + h * (v + h * a / 2));
        double dv = axis.Velocity[i + 1] - (v + h * a);
        double da = axis.Acceleration[i + 1] - a;
        axis.Position[i] = p + c00 * dp + c01 * dv + c02 * da;
        axis.Velocity[i] = v + c10 * dp + c11 * dv + c12 * da;
        axis.Acceleration[i] = a + c20 * dp + c21 * dv + c22 * da;
    }

    private static Row TimesFt(double p, double v, double a, double h) => new(p + h * v + h * h / 2 * a, v + h * a, a);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Row Times(in MotionCovariance m, double x, double y, double z) => new(
        m.PP * x + m.PV * y + m.PA * z,
        m.PV * x + m.VV * y + m.VA * z,
        m.PA * x + m.VA * y + m.AA * z);

    /// <summary>Solves M·x = r by L·D·Lᵀ. A part that has no variance has nothing to correct: its share is 0.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Row Solve(in MotionCovariance m, in Row r)
    {
        double i0 = Inverse(m.PP, m.PP), l10 = m.PV * i0, l20 = m.PA * i0;
        double i1 = Inverse(m.VV - l10 * m.PV, m.VV);
        double s21 = m.VA - l20 * m.PV, l21 = s21 * i1;
        double i2 = Inverse(m.AA - l20 * m.PA - l21 * s21, m.AA);
        double y1 = r.Y - l10 * r.X, y2 = r.Z - l20 * r.X - l21 * y1;
        double z = y2 * i2, y = y1 * i1 - l21 * z, x = r.X * i0 - l10 * y - l20 * z;
        return new(x, y, z);
    }

    private static double Inverse(double pivot, double scale) => pivot > 1e-15 * scale ? 1 / pivot : 0;
}
