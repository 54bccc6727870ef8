using Stillhook.Physics.Motion;

namespace Stillhook.Tests.Following;

public class MotionFilterTests
{
    /// <summary>Closed form: at its last time a smoother knows no more than a filter.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Take_AtEachTime_IsTheSmoothersEnd(bool speeds)
    {
        Random random = new(5);
        const int n = 200;
        double[] t = new double[n], x = new double[n], v = new double[n];
        for (int k = 0; k < n; k++)
        {
            t[k] = 1_750_000_000 + 0.2 * k + (k > 90 ? 3.4 : 0);
            x[k] = 20 * Math.Sin(0.2 * k * 0.3) + random.NextDouble() - 0.5;
            v[k] = 6 * Math.Cos(0.2 * k * 0.3) + 0.2 * (random.NextDouble() - 0.5);
        }
        DrivingNoise noise = new(0.08);
        MotionCovariance prior = MotionCovariance.FromDeviations(1, 60, 3);
        MotionFilter filter = new(1, noise, prior);
        double velocityVariance = speeds ? 0.01 : double.PositiveInfinity;
        for (int k = 0; k < n; k++)
        {
            filter.Take(t[k], [x[k]], 0.09, [v[k]], velocityVariance);
            if (k % 37 != 0)
                continue;
            AxisColumns axis = new((double[])x.Clone(), (double[])v.Clone(), new double[n]);
            new MotionSmoother().Smooth(
                new(t, [.. Enumerable.Repeat(0.09, n)], speeds ? [.. Enumerable.Repeat(0.01, n)] : []), 0, k + 1, [axis], [x[0]], prior, noise,
                new(new float[n], new float[n], new float[n]));
            Assert.Equal(axis.Position[k], filter.Position(0), 1e-6);
            Assert.Equal(axis.Velocity[k], filter.Velocity(0), 1e-6);
            Assert.Equal(axis.Acceleration[k], filter.Acceleration(0), 1e-6);
        }
    }

    [Fact]
    public void Take_TimeNotLater_IsRefused()
    {
        MotionFilter filter = new(1, new(0.08), MotionCovariance.FromDeviations(1, 60, 3));
        filter.Take(10, [0], 1, [0], 1);
        Assert.Throws<ArgumentOutOfRangeException>(() => filter.Take(10, [0], 1, [0], 1));
    }
}
