namespace Stillhook.Physics.Motion;

/// <summary>Symmetric covariance of position (m), velocity (m/s) and acceleration (m/s²) along one axis.</summary>
/// <param name="PP">Position variance, m².</param>
/// <param name="PV">Position with velocity, m²/s.</param>
/// <param name="PA">Position with acceleration, m²/s².</param>
/// <param name="VV">Velocity variance, m²/s².</param>
/// <param name="VA">Velocity with acceleration, m²/s³.</param>
/// <param name="AA">Acceleration variance, m²/s⁴.</param>
public readonly record struct MotionCovariance(double PP, double PV, double PA, double VV, double VA, double AA)
{
    /// <summary>Independent parts with these standard deviations (m, m/s, m/s²).</summary>
    public static MotionCovariance FromDeviations(double position, double velocity, double acceleration) =>
        new(position * position, 0, 0, velocity * velocity, 0, acceleration * acceleration);

    /// <summary>Covariance a step later: F·P·Fᵀ + Q of the driving noise. [BARSHALOM] section 6.2.3.</summary>
    public MotionCovariance After(double stepS, DrivingNoise noise)
    {
        double h = stepS, c = h * h / 2;
        double pv = PV + h * VV + c * VA, pa = PA + h * VA + c * AA, va = VA + h * AA;
        MotionCovariance q = noise.Over(h);
        return new(
            PP + h * PV + c * PA + h * pv + c * pa + q.PP,
            pv + h * pa + q.PV,
            pa + q.PA,
            VV + h * VA + h * va + q.VV,
            va + q.VA,
            AA + q.AA);
    }

    /// <summary>Covariance once a position of this variance (m²) is known: Joseph form, symmetric by construction.</summary>
    public MotionCovariance WithPosition(double variance)
    {
        double s = PP + variance, kv = PV / s, ka = PA / s;
        double keep = variance / s;
        return new(
            PP * keep, PV * keep, PA * keep,
            VV - 2 * kv * PV + kv * kv * s,
            VA - kv * PA - ka * PV + kv * ka * s,
            AA - 2 * ka * PA + ka * ka * s);
    }

    /// <summary>Covariance once a velocity of this variance (m²/s²) is known: Joseph form.</summary>
    public MotionCovariance WithVelocity(double variance)
    {
        double s = VV + variance, kp = PV / s, ka = VA / s;
        double keep = variance / s;
        return new(
            PP - 2 * kp * PV + kp * kp * s,
            PV * keep,
            PA - kp * VA - ka * PV + kp * ka * s,
            VV * keep, VA * keep,
            AA - 2 * ka * VA + ka * ka * s);
    }

    /// <summary>Whether another covariance equals this one within a part of the standard deviations.</summary>
    public bool Near(in MotionCovariance o, double part)
    {
        double p = part * Math.Sqrt(PP), v = part * Math.Sqrt(VV), a = part * Math.Sqrt(AA);
        double sp = Math.Sqrt(PP), sv = Math.Sqrt(VV), sa = Math.Sqrt(AA);
        return Math.Abs(PP - o.PP) <= p * sp && Math.Abs(VV - o.VV) <= v * sv && Math.Abs(AA - o.AA) <= a * sa
            && Math.Abs(PV - o.PV) <= p * sv && Math.Abs(PA - o.PA) <= p * sa && Math.Abs(VA - o.VA) <= v * sa;
    }

    /// <summary>Sum, element by element.</summary>
    public static MotionCovariance operator +(in MotionCovariance a, in MotionCovariance b) =>
        new(a.PP + b.PP, a.PV + b.PV, a.PA + b.PA, a.VV + b.VV, a.VA + b.VA, a.AA + b.AA);
}

/// <summary>White noise that drives the motion, as spectral densities.</summary>
/// <param name="Jerk">Density of white jerk, m²/s⁵: acceleration wanders by √(Jerk·t).</param>
/// <param name="Velocity">Density of white velocity, m²/s: position wanders by √(Velocity·t). Zero for a body with mass.</param>
public readonly record struct DrivingNoise(double Jerk, double Velocity = 0)
{
    /// <summary>Covariance the noise adds over a step (s). The integral of the white noise over the step, exact; [BARSHALOM] section 6.2.3.</summary>
    public MotionCovariance Over(double stepS)
    {
        double h = stepS, h2 = h * h, h3 = h2 * h;
        return new(
            Jerk * h3 * h2 / 20 + Velocity * h, Jerk * h2 * h2 / 8, Jerk * h3 / 6,
            Jerk * h3 / 3, Jerk * h2 / 2,
            Jerk * h);
    }
}
