using Stillhook.Physics.Motion;

namespace Stillhook.Tests.Physics.Motion;

public class SpectralArcLengthTests
{
    private static double[] Sampled(int n, double rate, Func<double, double> f) => [.. Enumerable.Range(0, n).Select(i => f(i / rate))];

    private static double MinimumJerk(double s) => s is < 0 or > 1 ? 0 : 30 * s * s * (1 - s) * (1 - s);

    // Published: documentation of the first author's reference code to [SPARC]: exp(−5t²), t = −1..0.99, 100 Hz.
    [Fact]
    public void Of_Gaussian_MatchesReferenceCode() =>
        Assert.Equal(-1.41403, SpectralArcLength.Of(Sampled(200, 100, t => Math.Exp(-5 * (t - 1) * (t - 1))), 100), 1e-5);

    // Closed form: minimum-jerk speed, worked apart from the code; the band ends on a bin, so ±0.005.
    [Theory]
    [InlineData(1, -1.4058), InlineData(10, -1.4024)]
    public void Of_MinimumJerk_MatchesWorkedValue(double duration, double expected) =>
        Assert.Equal(expected, SpectralArcLength.Of(Sampled((int)(100 * duration) + 1, 100, t => MinimumJerk(t / duration)), 100), 0.005);

    // Closed form: two minimum-jerk pulses of 1 s, starts this far apart, worked apart from the code.
    [Theory]
    [InlineData(0.5, -1.6311), InlineData(0.7, -1.8963), InlineData(1.0, -2.2445)]
    public void Of_TwoPulses_MatchesWorkedValue(double apart, double expected) =>
        Assert.Equal(expected, SpectralArcLength.Of(Sampled((int)Math.Round(100 * (1 + apart)) + 1, 100, t => MinimumJerk(t) + MinimumJerk(t - apart)), 100), 0.005);

    // Closed form: the measure has no unit, so scaling speed changes nothing.
    [Fact]
    public void Of_ScaledSpeed_IsTheSame()
    {
        double[] v = Sampled(300, 50, t => MinimumJerk(t / 6) + 0.1 * Math.Sin(3 * t)), w = [.. v.Select(x => 7 * x)];
        Assert.Equal(SpectralArcLength.Of(v, 50), SpectralArcLength.Of(w, 50), 1e-9);
    }

    [Fact]
    public void Of_NothingToMeasure_IsNaN()
    {
        Assert.Equal(double.NaN, SpectralArcLength.Of([], 10));
        Assert.Equal(double.NaN, SpectralArcLength.Of([1], 10));
        Assert.Equal(double.NaN, SpectralArcLength.Of(new double[50], 10));
        Assert.Equal(double.NaN, SpectralArcLength.Of([1, double.NaN, 1], 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => SpectralArcLength.Of([1, 2], 0));
    }
}
