using Stillhook.Physics.Line;
using Stillhook.Physics.Motion;

namespace Stillhook.Tests.Physics.Motion;

public class SwingAfterRampTests
{
    private const double Length = 30, Speed = 15;

    private static double Pulse(AccelerationPulse pulse, double x) => pulse switch
    {
        AccelerationPulse.Constant => 1,
        AccelerationPulse.HalfSine => Math.PI / 2 * Math.Sin(Math.PI * x),
        AccelerationPulse.RaisedCosine => 1 - Math.Cos(2 * Math.PI * x),
        AccelerationPulse.Quartic => 30 * x * x * (1 - x) * (1 - x),
        _ => 140 * Math.Pow(x * (1 - x), 3),
    };

    // Closed form: zeros of the spectra, worked apart.
    [Theory]
    [InlineData(AccelerationPulse.Constant, 1, 2, 3)]
    [InlineData(AccelerationPulse.HalfSine, 1.5, 2.5, 3.5)]
    [InlineData(AccelerationPulse.RaisedCosine, 2, 3, 4)]
    [InlineData(AccelerationPulse.Quartic, 1.834566, 2.89503, 3.92251)]
    [InlineData(AccelerationPulse.Sextic, 2.22433, 3.31587, 4.36022)]
    public void ZeroSwingPeriods_MatchTable(AccelerationPulse pulse, double first, double second, double third)
    {
        Assert.Equal(first, SwingAfterRamp.ZeroSwingPeriods(pulse), 6e-6);
        Assert.Equal(second, SwingAfterRamp.ZeroSwingPeriods(pulse, 2), 6e-6);
        Assert.Equal(third, SwingAfterRamp.ZeroSwingPeriods(pulse, 3), 6e-6);
    }

    // Closed form: the spectrum's definition |∫p(x)·e^(−2πinx)dx| by midpoint quadrature, the removable poles at n = 0, 0.5 and 1 among the places.
    [Fact]
    public void Share_AnyDuration_IsTheFourierIntegral()
    {
        foreach (AccelerationPulse pulse in Enum.GetValues<AccelerationPulse>())
        {
            foreach (double n in new[] { 0, 0.01, 0.3, 0.499999, 0.5, 0.63, 0.64, 1, 1.000001, 1.5, 2.2, 3, 7.7 })
            {
                double c = 0, s = 0;
                for (int i = 0; i < 20_000; i++)
                {
                    double x = (i + 0.5) / 20_000, p = Pulse(pulse, x) / 20_000;
                    (c, s) = (c + p * Math.Cos(2 * Math.PI * n * x), s + p * Math.Sin(2 * Math.PI * n * x));
                }
                Assert.Equal(Math.Sqrt(c * c + s * s), SwingAfterRamp.Share(pulse, n), 1e-7);
            }
        }
    }

    // Closed form: n = 0.5, 1, 1.5, 2, 2.5, 3; worked apart.
    [Theory]
    [InlineData(AccelerationPulse.Constant, new double[] { .63662, 0, .21221, 0, .12732, 0 })]
    [InlineData(AccelerationPulse.HalfSine, new double[] { .78540, .33333, 0, .06667, 0, .02857 })]
    [InlineData(AccelerationPulse.RaisedCosine, new double[] { .84883, .5, .16977, 0, .02425, 0 })]
    [InlineData(AccelerationPulse.Quartic, new double[] { .83540, .46197, .12398, .02887, .02946, .00570 })]
    public void Share_HalfPeriods_MatchTable(AccelerationPulse pulse, double[] shares)
    {
        for (int i = 0; i < shares.Length; i++)
            Assert.Equal(shares[i], SwingAfterRamp.Share(pulse, (i + 1) / 2.0), 6e-6);
    }

    // Published case [CRANE-TRICK]: period 8.97 s, 1 m/s for exactly a period, nothing left. Closed form: v/ω = 1.4276 m; stopped at nine tenths 0.8823 m.
    [Fact]
    public void UniformMove_CraneTrick_MatchesPublishedCase()
    {
        double w = 2 * Math.PI / 8.97;
        Assert.Equal(0, SwingAfterRamp.AfterUniformMoveM(1, 8.97, w), 1e-12);
        Assert.Equal(0.8823, SwingAfterRamp.AfterUniformMoveM(1, 0.9 * 8.97, w), 5e-5);
        Assert.Equal(2 * 1.4276, SwingAfterRamp.AfterUniformMoveM(1, 8.97 / 2, w), 1e-4);
        Assert.Equal(1.4276, SwingAfterRamp.ResidualM(AccelerationPulse.Constant, 1, 0, w), 5e-5);
    }

    // Closed form: 0.63662 of the linear instant stop of 50.106°. Simulated truth: the nonlinear pendulum, worked apart by another integration.
    [Theory]
    [InlineData(AccelerationPulse.Constant, 0.5, 31.899, 31.104, 31.111)]
    [InlineData(AccelerationPulse.Constant, 1, 0, 0.1801, 15.848)]
    [InlineData(AccelerationPulse.Constant, 2, 0, 0.0454, 7.962)]
    [InlineData(AccelerationPulse.RaisedCosine, 2, 0, 0.108, 10.555)]
    [InlineData(AccelerationPulse.Quartic, 1.834566, 0, 0.126, 11.282)]
    [InlineData(AccelerationPulse.Quartic, 1.5, 6.212, 5.963, null)]
    public void StopFromSpeed_LinearAndNonlinear_MatchWorkedCases(AccelerationPulse pulse, double periods, double linearDeg, double residualDeg, double? peakDeg)
    {
        double duration = periods * Swing.PeriodS(Length);
        Assert.Equal(linearDeg, SwingAfterRamp.ResidualRad(pulse, Speed, duration, Length) * 180 / Math.PI, 1e-3);
        (double residual, double peak) = DrivenPendulum.Run(Length, duration, t => -Speed / duration * Pulse(pulse, t / duration));
        Assert.Equal(residualDeg, residual, 1e-3);
        if (peakDeg is double p)
            Assert.Equal(p, peak, 1e-3);
    }

    [Fact]
    public void Ramps_Unphysical_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SwingAfterRamp.Share(AccelerationPulse.Constant, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => SwingAfterRamp.Share((AccelerationPulse)99, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => SwingAfterRamp.ResidualM(AccelerationPulse.Constant, -1, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => SwingAfterRamp.ResidualRad(AccelerationPulse.Constant, 1, 1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => SwingAfterRamp.AfterUniformMoveM(1, 1, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => SwingAfterRamp.ZeroSwingPeriods(AccelerationPulse.Constant, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => SwingAfterRamp.ZeroSwingPeriods(AccelerationPulse.Constant, 99));
    }
}
