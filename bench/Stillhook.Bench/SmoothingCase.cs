using Stillhook.Physics.Motion;

namespace Stillhook.Bench;

/// <summary>Three axes of measured position and velocity at 10 Hz, smoothed by ours or by the matrix version.</summary>
public sealed class SmoothingCase
{
    private const double PositionVariance = 0.09, VelocityVariance = 0.01;

    /// <summary>Spectral density of the white jerk, m²/s⁵.</summary>
    public const double JerkDensity = 0.0064;

    private readonly double[] timeS, position, velocity, positionVariance, velocityVariance;

    public SmoothingCase(int count)
    {
        var random = new Random(1);
        timeS = [.. Enumerable.Range(0, count).Select(i => 0.1 * i)];
        position = [.. timeS.Select(t => 50 * Math.Sin(t / 9) + 0.3 * (random.NextDouble() - 0.5))];
        velocity = [.. timeS.Select(t => 50.0 / 9 * Math.Cos(t / 9) + 0.1 * (random.NextDouble() - 0.5))];
        positionVariance = [.. timeS.Select(_ => PositionVariance)];
        velocityVariance = [.. timeS.Select(_ => VelocityVariance)];
    }

    /// <summary>East and north share their noise, up has its own: two passes, three axes, covariances kept.</summary>
    public double Ours()
    {
        var smoother = new MotionSmoother();
        AxisColumns east = Axis(), north = Axis(), up = Axis();
        Run(smoother, east, north);
        Run(smoother, up);
        return east.Position[^1] + up.Acceleration[0];
    }

    public double Matrix()
    {
        double sum = 0;
        for (int axis = 0; axis < 3; axis++)
            sum += Baselines.MatrixSmoother.Smooth(timeS, position, velocity, PositionVariance, VelocityVariance, JerkDensity).State[0][2];
        return sum;
    }

    /// <summary>Largest difference of the two in any smoothed position, m: the race is only fair between equal answers.</summary>
    public double LargestDifferenceM()
    {
        AxisColumns axis = Axis();
        Run(new MotionSmoother(), axis);
        var other = Baselines.MatrixSmoother.Smooth(timeS, position, velocity, PositionVariance, VelocityVariance, JerkDensity).State;
        return axis.Position.Select((p, i) => Math.Abs(p - other[i][0])).Max();
    }

    private AxisColumns Axis() => new((double[])position.Clone(), (double[])velocity.Clone(), new double[timeS.Length]);

    private void Run(MotionSmoother smoother, params AxisColumns[] axes) =>
        smoother.Smooth(new(timeS, positionVariance, velocityVariance), 0, timeS.Length, axes, [.. axes.Select(_ => position[0])],
            MotionCovariance.FromDeviations(10, 20, 2), new DrivingNoise(JerkDensity), new(new float[timeS.Length], new float[timeS.Length], new float[timeS.Length]));
}
