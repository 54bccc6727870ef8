using Stillhook.Physics.Motion;

namespace Stillhook.Tests.Physics.Motion;

public class InputShaperTests
{
    // Closed form: powers of K = exp(−ζπ/√(1 − ζ²)), worked apart.
    [Theory]
    [InlineData(0, new[] { 0.5, 0.5 }, new[] { 0.25, 0.5, 0.25 })]
    [InlineData(0.02, new[] { 0.515706, 0.484294 }, new[] { 0.265953, 0.499507, 0.234541 })]
    [InlineData(0.05, new[] { 0.539238, 0.460762 }, new[] { 0.290778, 0.496921, 0.212301 })]
    [InlineData(0.10, new[] { 0.578286, 0.421714 }, new[] { 0.334415, 0.487743, 0.177843 })]
    public void Steps_Damped_MatchTable(double zeta, double[] zv, double[] zvd)
    {
        InputShaper two = InputShaper.ZeroVibration(0.57, zeta), three = InputShaper.ZeroVibrationDerivative(0.57, zeta);
        Assert.Equal(zv, two.Steps.Select(s => Math.Round(s.Share, 6)));
        Assert.Equal(zvd, three.Steps.Select(s => Math.Round(s.Share, 6)));
        double half = Math.PI / (0.57 * Math.Sqrt(1 - zeta * zeta));
        Assert.Equal([0, half, 2 * half], three.Steps.Select(s => s.TimeS));
        Assert.Equal(half, two.DelayS);
    }

    // Closed form: shares add to 1 and nothing is left at the frequency and damping designed for (residual by its own sum, not by the binomial).
    [Theory]
    [InlineData(0)]
    [InlineData(0.05)]
    [InlineData(0.3)]
    public void Residual_AsDesigned_IsZero(double zeta)
    {
        foreach (InputShaper shaper in new[] { InputShaper.ZeroVibration(2, zeta), InputShaper.ZeroVibrationDerivative(2, zeta), InputShaper.ZeroVibrationSecondDerivative(2, zeta) })
        {
            Assert.Equal(1, shaper.Steps.Sum(s => s.Share), 1e-12);
            Assert.Equal(0, shaper.ResidualShare(1, zeta), 1e-12);
        }
    }

    // Closed form: |cos(πr/2)| and its square and cube, %; a line 10 % longer is r = 1/√1.1.
    [Theory]
    [InlineData(1.05, 7.846, 0.616, 0.048)]
    [InlineData(0.95, 7.846, 0.616, 0.048)]
    [InlineData(1.10, 15.643, 2.447, 0.383)]
    [InlineData(0.80, 30.90, 9.55, 2.95)]
    public void Residual_OffFrequency_MatchesTable(double ratio, double zv, double zvd, double zvdd)
    {
        double tolerance = ratio == 0.80 ? 6e-3 : 6e-4;
        Assert.Equal(zv, 100 * InputShaper.ZeroVibration(0.57).ResidualShare(ratio), tolerance);
        Assert.Equal(zvd, 100 * InputShaper.ZeroVibrationDerivative(0.57).ResidualShare(ratio), tolerance);
        Assert.Equal(zvdd, 100 * InputShaper.ZeroVibrationSecondDerivative(0.57).ResidualShare(ratio), tolerance);
    }

    [Fact] // Closed form, as above: 7.3 % and 0.53 %.
    public void Residual_LineTenPercentLonger_MatchesClosedForm()
    {
        Assert.Equal(7.3, 100 * InputShaper.ZeroVibration(0.57).ResidualShare(1 / Math.Sqrt(1.1)), 0.05);
        Assert.Equal(0.53, 100 * InputShaper.ZeroVibrationDerivative(0.57).ResidualShare(1 / Math.Sqrt(1.1)), 0.005);
    }

    // Closed form: width of the 5 % band; the literature's 0.06, 0.286 and 0.399 (from memory) agree to their digits.
    [Fact]
    public void BandWidth_FivePercent_MatchesClosedForm()
    {
        Assert.Equal(0.0637, InputShaper.ZeroVibration(3).BandWidth(0.05), 5e-5);
        Assert.Equal(4 / Math.PI * Math.Asin(0.05), InputShaper.ZeroVibration(3).BandWidth(0.05), 1e-9);
        Assert.Equal(0.2871, InputShaper.ZeroVibrationDerivative(3).BandWidth(0.05), 5e-5);
        Assert.Equal(0.4804, InputShaper.ZeroVibrationSecondDerivative(3).BandWidth(0.05), 5e-5);
        Assert.Equal(2 - 2 / Math.PI * Math.Acos(-0.85 / 1.05), InputShaper.ExtraInsensitive(3).BandWidth(0.05), 1e-8); // 0.39945
        Assert.Equal(0.05, InputShaper.ExtraInsensitive(3).ResidualShare(1), 1e-12);
        Assert.Equal(0, InputShaper.ExtraInsensitive(3).BandWidth(0.04));
    }

    // Closed form: two half steps of speed half a period apart, 0 to 5 m/s on 30 m, leave nothing; the load's own undamped motion is written out here.
    [Fact]
    public void ZeroVibration_TwoHalfSteps_LeaveNothing()
    {
        double w = Math.Sqrt(9.80665 / 30), peak = 0;
        InputShaper shaper = InputShaper.ZeroVibration(w);
        double Offset(double t) => shaper.Steps.Where(s => s.TimeS <= t).Sum(s => -5 * s.Share / w * Math.Sin(w * (t - s.TimeS)));
        for (double t = 0; t < 30; t += 0.001)
        {
            peak = Math.Max(peak, Math.Abs(Offset(t)));
            if (t > shaper.DelayS)
                Assert.Equal(0, Offset(t), 1e-12);
        }
        Assert.Equal(4.373, peak, 5e-4);
    }

    [Fact]
    public void Shapers_Unphysical_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => InputShaper.ZeroVibration(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => InputShaper.ZeroVibration(1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => InputShaper.ExtraInsensitive(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => InputShaper.ZeroVibration(1).ResidualShare(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => InputShaper.ZeroVibration(1).BandWidth(0));
    }
}
