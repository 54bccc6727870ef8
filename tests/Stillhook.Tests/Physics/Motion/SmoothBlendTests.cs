using Stillhook.Physics.Motion;

namespace Stillhook.Tests.Physics.Motion;

public class SmoothBlendTests
{
    // Closed form: peaks of s', s'', s''' and the integral of s'''², worked apart; on a grid of 10 000 (a smooth peak is missed by under 1e-6).
    [Theory]
    [InlineData(3, 1.5, 6, 12, 144)]
    [InlineData(5, 1.875, 5.773503, 60, 720)]
    [InlineData(7, 2.1875, 7.51319, 52.5, 1120)]
    [InlineData(9, 2.46094, 9.37198, 78.75, 1903.217)]
    public void At_Degree_HasTheKnownPeaks(int degree, double speed, double acceleration, double jerk, double jerkSquared)
    {
        SmoothBlend blend = SmoothBlend.OfDegree(degree);
        double[] peak = new double[5];
        double sum = 0;
        for (int i = 0; i <= 10_000; i++)
        {
            for (int d = 1; d < 5; d++)
                peak[d] = Math.Max(peak[d], Math.Abs(blend.At(i / 10_000.0, d)));
            sum += (i is 0 or 10_000 ? 0.5 : 1) * Math.Pow(blend.At(i / 10_000.0, 3), 2) / 10_000;
        }
        Assert.Equal(degree, blend.Degree);
        Assert.Equal(speed, peak[1], 6e-6);
        Assert.Equal(acceleration, peak[2], 6e-6);
        Assert.Equal(jerk, peak[3], 6e-6);
        Assert.Equal(jerkSquared, sum, 2e-3);
    }

    // Closed form: 0 and 1 at the ends, as many derivatives zero there as the degree allows and not one more; each derivative is the slope of the one before.
    [Theory]
    [InlineData(3)]
    [InlineData(5)]
    [InlineData(7)]
    [InlineData(9)]
    public void At_EndsAndSlopes_AreThoseOfTheBlend(int degree)
    {
        SmoothBlend blend = SmoothBlend.OfDegree(degree);
        Assert.Equal(0, blend.At(0));
        Assert.Equal(1, blend.At(1), 1e-13);
        for (int d = 1; d <= 4; d++)
        {
            bool flat = d <= (degree - 1) / 2 || d > degree;
            Assert.Equal(flat, Math.Abs(blend.At(0, d)) < 1e-9);
            Assert.Equal(flat, Math.Abs(blend.At(1, d)) < 1e-9);
            Assert.Equal((blend.At(0.3 + 1e-5, d - 1) - blend.At(0.3 - 1e-5, d - 1)) / 2e-5, blend.At(0.3, d), 1e-4);
        }
    }

    // Closed form: D = 50 m in 20 s on 30 m; lead (L/g)·max x'' and the hook's largest x'' + (L/g)·x''''; the nonlinear pendulum then keeps 0.0105° (worked apart by another integration).
    [Theory]
    [InlineData(7, 20, 2.8730, 0.8030, 0.0105)]
    [InlineData(9, 20, 3.5838, 0.6148, 0.0146)]
    [InlineData(9, 15, 6.371, 1.563, 0.118)]
    public void FlatPath_DrivesTheLoadToRest(int degree, double duration, double lead, double largest, double residualDeg)
    {
        const double distance = 50, length = 30, ratio = length / 9.80665;
        SmoothBlend blend = SmoothBlend.OfDegree(degree);
        double X(double t, int d) => distance / Math.Pow(duration, d) * blend.At(Math.Min(1, t / duration), d);
        double Hook(double t) => X(t, 2) + ratio * X(t, 4);
        double[] times = [.. Enumerable.Range(0, 20_001).Select(i => i * duration / 20_000)];
        Assert.Equal(lead, times.Max(t => ratio * Math.Abs(X(t, 2))), 1e-3);
        Assert.Equal(largest, times.Max(t => Math.Abs(Hook(t))), 1e-3);
        Assert.Equal(residualDeg, DrivenPendulum.Run(length, duration, Hook).ResidualDeg, residualDeg > 0.1 ? 1e-3 : 1e-4);
    }

    [Fact]
    public void At_Outside_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SmoothBlend.Quintic.At(1.001));
        Assert.Throws<ArgumentOutOfRangeException>(() => SmoothBlend.Quintic.At(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => SmoothBlend.Quintic.At(0.5, 5));
        Assert.Throws<ArgumentOutOfRangeException>(() => SmoothBlend.OfDegree(4));
    }
}
