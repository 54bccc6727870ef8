namespace Stillhook.Physics.Motion;

/// <summary>Best estimate of position, velocity and acceleration along some axes from all measurements so far: a Kalman filter fed one time after the other.</summary>
/// <remarks>
/// The forward half of <see cref="MotionSmoother"/>, same model and formulas ([BARSHALOM] section 6.2.3): what it gives at a time is what the
/// smoother gives for the last time of a record that ends there. Axes share one covariance, because they share the noise.
/// </remarks>
/// <param name="axes">Number of axes, 1 or more.</param>
/// <param name="noise">What drives the motion.</param>
/// <param name="prior">How uncertain place, speed and acceleration are before the first measurement, around the first place and rest.</param>
public sealed class MotionFilter(int axes, DrivingNoise noise, MotionCovariance prior)
{
    private readonly double[] position = new double[axes], velocity = new double[axes], acceleration = new double[axes];
    private MotionCovariance covariance;

    /// <summary>Time of the newest measurement, s; NaN before the first.</summary>
    public double TimeS { get; private set; } = double.NaN;

    /// <summary>Position along an axis, m.</summary>
    public double Position(int axis) => position[axis];

    /// <summary>Velocity along an axis, m/s.</summary>
    public double Velocity(int axis) => velocity[axis];

    /// <summary>Acceleration along an axis, m/s².</summary>
    public double Acceleration(int axis) => acceleration[axis];

    /// <summary>Covariance of position (m), velocity (m/s) and acceleration (m/s²), the same for every axis.</summary>
    public MotionCovariance Covariance => covariance;

    /// <summary>Forgets everything: the next measurement is the first.</summary>
    public void Restart() => TimeS = double.NaN;

    /// <summary>Takes in the measurements of one time.</summary>
    /// <param name="timeS">Later than the one before, s.</param>
    /// <param name="places">Measured positions, m, one an axis.</param>
    /// <param name="positionVariance">Of each, m².</param>
    /// <param name="speeds">Measured velocities, m/s, one an axis; not used when the variance is infinite.</param>
    /// <param name="velocityVariance">Of each, m²/s²; infinite when no velocity was measured.</param>
    public void Take(double timeS, ReadOnlySpan<double> places, double positionVariance, ReadOnlySpan<double> speeds, double velocityVariance)
    {
        bool first = double.IsNaN(TimeS);
        double h = first ? 0 : timeS - TimeS;
        if (!(first || h > 0))
            throw new ArgumentOutOfRangeException(nameof(timeS), timeS, "Permitted: later than the measurement before.");
        MotionCovariance p = (first ? prior : covariance.After(h, noise)).WithPosition(positionVariance);
        bool speedKnown = double.IsFinite(velocityVariance);
        covariance = speedKnown ? p.WithVelocity(velocityVariance) : p;
        for (int j = 0; j < position.Length; j++)
        {
            double at = first ? places[j] : position[j] + h * (velocity[j] + h * acceleration[j] / 2);
            double v = first ? 0 : velocity[j] + h * acceleration[j], a = first ? 0 : acceleration[j];
            // Gain K = P⁺·Hᵀ/R, as in the smoother.
            double wp = (places[j] - at) / positionVariance, wv = speedKnown ? (speeds[j] - v) / velocityVariance : 0;
            position[j] = at + covariance.PP * wp + covariance.PV * wv;
            velocity[j] = v + covariance.PV * wp + covariance.VV * wv;
            acceleration[j] = a + covariance.PA * wp + covariance.VA * wv;
        }
        TimeS = timeS;
    }
}
