using Stillhook.Physics.Motion;

namespace Stillhook.Tests.Physics.Motion;

public class StopTests
{
    private const double G = 9.80665, Knot = 1852.0 / 3600, FootPerMinute = 0.3048 / 60;

    // Published case [PADFIELD-HFD] chapter 8 (500 ft, slope of tau 0.58, stop in about 10 s); the numbers are closed form, worked apart.
    [Fact]
    public void TauStop_PublishedCase_MatchesClosedForm()
    {
        TauStop stop = new(15.43332, 92.60, 0.58);
        Assert.Equal(10.345, stop.StopTimeS, 5e-4);
        Assert.Equal(0.1102 * G, stop.DecelerationAtMs2(0), 5e-5 * G);
        foreach ((double t, double x, double v, double a) in new[]
            { (2, 63.935, 13.210, 0.1169), (5.0, 29.658, 9.567, 0.1322), (8.0, 7.165, 5.268, 0.1659) })
        {
            Assert.Equal(x, stop.DistanceAtM(t), 6e-4);
            Assert.Equal(v, stop.SpeedAtMs(t), 6e-4);
            Assert.Equal(a * G, stop.DecelerationAtMs2(t), 6e-5 * G);
        }
        Assert.Equal(0, stop.DistanceAtM(11));
    }

    // Closed form: speed and deceleration are the derivatives of the distance, here by differences; c = 0.5 is an even deceleration.
    [Theory]
    [InlineData(0.3)]
    [InlineData(0.5)]
    [InlineData(0.7)]
    public void TauStop_AnyRate_IsItsOwnDerivative(double c)
    {
        TauStop stop = new(20, 300, c);
        for (double t = 1, h = 1e-3; t < stop.StopTimeS - 1; t += 2)
        {
            Assert.Equal((stop.DistanceAtM(t - h) - stop.DistanceAtM(t + h)) / (2 * h), stop.SpeedAtMs(t), 1e-5);
            Assert.Equal((stop.SpeedAtMs(t - h) - stop.SpeedAtMs(t + h)) / (2 * h), stop.DecelerationAtMs2(t), 1e-5);
            if (c == 0.5)
                Assert.Equal(20 * 20 / 600.0, stop.DecelerationAtMs2(t), 1e-12);
        }
    }

    // Closed form of a law from memory [HEFFLEY-1979]: k = 27a/(4V), A = V/k and the time by the integral, worked apart; and the same time by quadrature.
    [Fact]
    public void PerceivedRangeStop_SixtyKnots_MatchesClosedForm()
    {
        PerceivedRangeStop stop = PerceivedRangeStop.From(60 * 0.514444, 0.15 * G);
        Assert.Equal(0.32168, stop.RatePerS, 5e-6);
        Assert.Equal(95.954, stop.ScaleM, 1e-3);
        Assert.Equal(47.977, stop.PeakRangeM, 5e-4);
        Assert.Equal(10.289, stop.SpeedMs(stop.PeakRangeM), 5e-4);
        Assert.Equal(0.15 * G, stop.PeakDecelerationMs2, 1e-12);
        Assert.Equal(0.15 * G, stop.DecelerationMs2(stop.PeakRangeM), 1e-12);
        Assert.Equal(35.81, stop.TimeS(600, 3), 5e-3);
        double time = 0;
        for (int i = 0; i < 100_000; i++)
            time += 0.00597 / stop.SpeedMs(3 + (i + 0.5) * 0.00597);
        Assert.Equal(time, stop.TimeS(600, 3), 1e-5);
        PerceivedRangeStop softer = PerceivedRangeStop.From(60 * 0.514444, 0.10 * G);
        Assert.Equal(0.21445, softer.RatePerS, 6e-6);
        Assert.Equal(143.93, softer.ScaleM, 6e-3);
    }

    // Closed form: a = V·dV/dR, here by differences.
    [Fact]
    public void PerceivedRangeStop_Deceleration_IsTheSlopeOfSpeed()
    {
        PerceivedRangeStop stop = new(0.3, 100);
        for (double r = 1; r < 1000; r *= 1.5)
            Assert.Equal(stop.SpeedMs(r) * (stop.SpeedMs(r + 1e-3) - stop.SpeedMs(r - 1e-3)) / 2e-3, stop.DecelerationMs2(r), 1e-6);
    }

    // Closed form: 101.27 ft/min per kt of tan; rows of path angle, columns 10 to 50 kt. Half of the last digit.
    [Theory]
    [InlineData(6, new double[] { 106, 213, 319, 426, 532 })]
    [InlineData(8, new double[] { 142, 285, 427, 569, 712 })]
    [InlineData(10, new double[] { 179, 357, 536, 714, 893 })]
    [InlineData(12, new double[] { 215, 431, 646, 861, 1076 })]
    [InlineData(15, new double[] { 271, 543, 814, 1085, 1357 })]
    public void Sink_OnAPath_MatchesTable(double angle, double[] feetPerMinute)
    {
        for (int i = 0; i < feetPerMinute.Length; i++)
            Assert.Equal(feetPerMinute[i], SlowDownDistance.SinkMs((i + 1) * 10 * Knot, angle * Math.PI / 180) / FootPerMinute, 0.5);
    }

    // Closed form: V²/(2a), rounded to 10 m.
    [Theory]
    [InlineData(60, 0.03, 1620)]
    [InlineData(60, 0.05, 970)]
    [InlineData(60, 0.08, 610)]
    [InlineData(40, 0.03, 720)]
    [InlineData(40, 0.05, 430)]
    [InlineData(40, 0.08, 270)]
    public void SlowDown_MatchesTableAndBack(double kt, double g, double metres)
    {
        double distance = SlowDownDistance.DistanceM(kt * Knot, g * G);
        Assert.Equal(metres, distance, 5.0);
        Assert.Equal(g * G, SlowDownDistance.NeededDecelerationMs2(kt * Knot, distance), 1e-12);
    }

    [Fact]
    public void Stops_Unphysical_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new TauStop(0, 100, 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TauStop(10, double.NaN, 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TauStop(10, 100, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TauStop(10, 100, 0.5).DecelerationOverMs2(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TauStop(10, 100, 0.5).SpeedOverMs(101));
        Assert.Throws<ArgumentOutOfRangeException>(() => PerceivedRangeStop.From(30, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PerceivedRangeStop(0.3, 100).TimeS(100, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PerceivedRangeStop(0.3, 100).TimeS(100, 101));
        Assert.Throws<ArgumentOutOfRangeException>(() => SlowDownDistance.DistanceM(30, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => SlowDownDistance.NeededDecelerationMs2(double.NaN, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => SlowDownDistance.SinkMs(30, Math.PI / 2));
    }
}
