using Stillhook.Physics.Motion;

namespace Stillhook.Tests.Physics.Motion;

public class StopProfileTests
{
    // Closed form: box convolved with four boxes covers half of what a steady flight would, and is at half of its speed in the middle.
    [Theory, InlineData(10, 4), InlineData(20, 9), InlineData(5, 8)]
    public void SpeedRamp_WayAndMiddle_MatchClosedForm(double box, double soft)
    {
        SpeedRamp ramp = new(box, soft);
        Assert.Equal((box + soft) / 2, ramp.Way(box + soft), 1e-9);
        Assert.Equal(0.5, ramp.Speed((box + soft) / 2), 1e-9);
        Assert.Equal(box >= soft ? -1 / box : ramp.SpeedRate((box + soft) / 2), ramp.SpeedRate((box + soft) / 2), 1e-9);
    }

    // Closed form: each derivative is that of the one before (central differences of the function itself).
    [Fact]
    public void SpeedRamp_Derivatives_AreThoseOfTheSpeed()
    {
        SpeedRamp ramp = new(12, 6);
        const double h = 1e-4;
        for (double t = 0.37; t < 18; t += 0.61)
        {
            Assert.Equal((ramp.Way(t + h) - ramp.Way(t - h)) / (2 * h), ramp.Speed(t), 1e-7);
            Assert.Equal((ramp.Speed(t + h) - ramp.Speed(t - h)) / (2 * h), ramp.SpeedRate(t), 1e-7);
            for (int j = 2; j <= 3; j++)
                Assert.Equal((ramp.SpeedDerivative(t + h, j - 1) - ramp.SpeedDerivative(t - h, j - 1)) / (2 * h), ramp.SpeedDerivative(t, j), 1e-4);
        }
    }

    // Closed form: one sum instead of three, with the same roundings.
    [Theory, InlineData(12, 6), InlineData(5, 8)]
    public void At_AnyTime_IsTheThreeToTheLastBit(double box, double soft)
    {
        foreach (StopProfile stop in new StopProfile[] { new SpeedRamp(box, soft), new TauRamp(box, 0.4, soft) })
            for (double t = -1; t < box + soft + 1; t += 0.0917)
                Assert.Equal((stop.Way(t), stop.Speed(t), stop.SpeedRate(t)), stop.At(t));
    }

    // The even slow-down is tau-dot 0.5: quadrature against the closed form.
    [Fact]
    public void TauRamp_AtOneHalf_IsTheEvenRamp()
    {
        SpeedRamp even = new(14, 6);
        TauRamp tau = new(14, 0.5, 6);
        for (double t = -1; t < 22; t += 0.13)
        {
            Assert.Equal(even.Way(t), tau.Way(t), 1e-6);
            Assert.Equal(even.Speed(t), tau.Speed(t), 1e-6);
            Assert.Equal(even.SpeedRate(t), tau.SpeedRate(t), 1e-6);
        }
    }

    // Published case [PADFIELD-TAU]: 15.43 m/s over 92.6 m at 0.58 stops in 10.345 s; away from the soft ends the gap over the closing speed shrinks at that rate.
    [Theory, InlineData(0.58), InlineData(0.4)]
    public void TauRamp_Middle_KeepsTauDot(double rate)
    {
        const double speed = 15.43332, way = 92.60, soft = 1;
        double stop = way / (rate * speed);
        TauRamp ramp = new(stop, rate, soft);
        double whole = ramp.Way(ramp.DurationS);
        Assert.Equal(rate * stop + soft / 2, whole, 1e-6);
        if (rate == 0.58)
            Assert.Equal(10.345, stop, 0.0005);
        for (double t = 2 * soft; t < 0.6 * stop; t += 0.5)
        {
            double Tau(double at) => (whole - ramp.Way(at)) / ramp.Speed(at);
            Assert.Equal(-rate, (Tau(t + 0.01) - Tau(t - 0.01)) / 0.02, 0.01);
        }
    }

    [Theory, InlineData(0, 1), InlineData(1, 0), InlineData(double.NaN, 1)]
    public void SpeedRamp_Unphysical_IsRefused(double box, double soft) => Assert.Throws<ArgumentOutOfRangeException>(() => new SpeedRamp(box, soft));

    [Theory, InlineData(10, 0.2, 1), InlineData(10, 0.8, 1), InlineData(0, 0.5, 1), InlineData(10, 0.5, 0)]
    public void TauRamp_Unphysical_IsRefused(double stop, double rate, double soft) => Assert.Throws<ArgumentOutOfRangeException>(() => new TauRamp(stop, rate, soft));
}
