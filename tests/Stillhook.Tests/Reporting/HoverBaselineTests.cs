using MathNet.Numerics.LinearRegression;
using Stillhook.Physics.Air;
using Stillhook.Reporting;

namespace Stillhook.Tests.Reporting;

public class HoverBaselineTests
{
    private const double A = 21, B = 18.5;

    private static double DensityRatio(double m) => Math.Pow(1 - 0.0065 * m / 288.15, 4.25588);

    private static double Torque(double kg, double altitudeM) => A * DensityRatio(altitudeM) + B * Math.Pow(kg / 1000, 1.5) / Math.Sqrt(DensityRatio(altitudeM));

    private static HoverPoint Hover(double kg, double altitudeM, double torque) => new(0, "own", null, altitudeM, kg, torque, null);

    private static List<HoverPoint> Drawn(int count, double sigma, Random random, double shift = 1)
    {
        List<HoverPoint> hovers = [];
        for (int i = 0; i < count; i++)
        {
            double kg = 1700 + 700 * random.NextDouble(), altitude = 500 + 2000 * random.NextDouble(), noise = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            hovers.Add(Hover(kg, altitude, shift * Torque(kg, altitude) + sigma * noise));
        }
        return hovers;
    }

    private static HoverBaseline Learned(IReadOnlyList<HoverPoint> hovers)
    {
        (HoverBaseline? baseline, string? why) = HoverBaseline.Learn("own", hovers);
        Assert.True(baseline is not null, why);
        return baseline;
    }

    // Closed form: made by the rule itself, with the density ratio of the standard atmosphere from its own formula.
    [Fact]
    public void Learn_HoversMadeByTheRule_FindsIt()
    {
        HoverBaseline baseline = Learned(Drawn(10, 0, new(1)));
        Assert.Equal(A, baseline.Profile, 1e-2);
        Assert.Equal(B, baseline.Induced, 1e-2);
        Assert.Equal(Torque(2000, 1500), baseline.At(2000, 1500)!.Value, 1e-3);
        Assert.Equal("%", baseline.Unit);
    }

    // Against a general library: without hovers far off the line is that of least squares.
    [Fact]
    public void Learn_EvenScatter_IsLeastSquares()
    {
        // Off by the same amount up and down in turn: every hover is within 1.345 spreads.
        List<HoverPoint> hovers = [.. Enumerable.Range(0, 12).Select(i => (Kg: 1700 + 60.0 * i, Alt: 800 + 100.0 * (i % 5))).Select((x, i) => Hover(x.Kg, x.Alt, Torque(x.Kg, x.Alt) + (i % 2 == 0 ? 0.5 : -0.5)))];
        double[][] x = [.. hovers.Select(h => new[] { DensityRatio(h.DensityAltitudeM), Math.Pow(h.GrossKg / 1000, 1.5) / Math.Sqrt(DensityRatio(h.DensityAltitudeM)) })];
        double[] expected = MultipleRegression.QR(x, [.. hovers.Select(h => h.TorquePercent!.Value)], intercept: false);
        HoverBaseline baseline = Learned(hovers);
        Assert.Equal(expected[0], baseline.Profile, 1e-3);
        Assert.Equal(expected[1], baseline.Induced, 1e-3);
    }

    // Simulated truth: two of twelve hovers read 15 % too much, near the ground or in a gust; the line moves by less than half a percent.
    [Fact]
    public void Learn_TwoHoversFarOff_HardlyMoveTheLine()
    {
        List<HoverPoint> hovers = Drawn(12, 0.4, new(5));
        hovers[3] = hovers[3] with { TorquePercent = 1.15 * hovers[3].TorquePercent };
        hovers[8] = hovers[8] with { TorquePercent = 1.15 * hovers[8].TorquePercent };
        Assert.Equal((10, 2), (Learned(hovers).Count, Learned(hovers).LeftOut));
        double ours = Learned(hovers).At(2000, 1500)!.Value / Torque(2000, 1500) - 1;
        Assert.InRange(ours, -0.01, 0.01);
        // The same by plain least squares is out by more than twice as much: leaving them out does it.
        double[] plain = MultipleRegression.QR([.. hovers.Select(h => new[] { DensityRatio(h.DensityAltitudeM), Math.Pow(h.GrossKg / 1000, 1.5) / Math.Sqrt(DensityRatio(h.DensityAltitudeM)) })], [.. hovers.Select(h => h.TorquePercent!.Value)], intercept: false);
        double theirs = (plain[0] * DensityRatio(1500) + plain[1] * Math.Pow(2, 1.5) / Math.Sqrt(DensityRatio(1500))) / Torque(2000, 1500) - 1;
        Assert.True(Math.Abs(theirs) > 2 * Math.Abs(ours), $"{theirs:0.0000} and {ours:0.0000}");
    }

    // Closed form: ten deliveries learned, today everything takes 4 % more at the same mass.
    [Fact]
    public void Compare_TodayFourPercentMore_SaysFour()
    {
        HoverShift shift = Learned(Drawn(10, 0.3, new(3))).Compare(Drawn(8, 0.3, new(4), shift: 1.04))!;
        Assert.Equal(4, shift.Percent, 0.6);
        Assert.True(shift.IsReal);
        Assert.InRange(shift.Count, 5, 8);
    }

    // Simulated truth: on days when nothing changed the band holds nine times in ten, and the band of single hovers too.
    [Fact]
    public void Bands_DaysLikeAnyOther_HoldNineInTen()
    {
        Random random = new(11);
        const int days = 1500;
        int day = 0, single = 0;
        for (int i = 0; i < days; i++)
        {
            HoverBaseline baseline = Learned(Drawn(20, 0.8, random));
            if (baseline.Compare(Drawn(6, 0.8, random)) is { IsReal: false })
                day++;
            HoverPoint next = Hover(2050, 1500, Torque(2050, 1500)) with { TorquePercent = Drawn(1, 0.8, random) is var d ? Torque(2050, 1500) + d[0].TorquePercent - Torque(d[0].GrossKg, d[0].DensityAltitudeM) : 0 };
            if (Math.Abs(next.TorquePercent!.Value - baseline.At(2050, 1500)!.Value) <= baseline.HalfBand(2050, 1500))
                single++;
        }
        Assert.InRange(day / (double)days, 0.86, 0.97);
        Assert.InRange(single / (double)days, 0.86, 0.95);
    }

    [Fact]
    public void Learn_TooFewOrAllAlike_SaysWhy()
    {
        Assert.Contains("4 hovers", HoverBaseline.Learn("own", Drawn(4, 0, new(1))).Why, StringComparison.Ordinal);
        Assert.Contains("about the same mass", HoverBaseline.Learn("own", [.. Enumerable.Range(0, 8).Select(i => Hover(2000 + i, 1000, 80))]).Why, StringComparison.Ordinal);
        Assert.Null(HoverBaseline.Learn("another", Drawn(20, 0, new(1))).Baseline);
    }

    // Masses that fall while torque rises: nothing is learned from them.
    [Fact]
    public void Learn_TorqueFallsWithMass_Refused() =>
        Assert.Contains("does not rise with mass", HoverBaseline.Learn("own", [.. Enumerable.Range(0, 8).Select(i => Hover(1800 + 60 * i, 1000, 90 - i))]).Why, StringComparison.Ordinal);

    [Fact]
    public void Learn_FuelOnlyAssumed_NotLearnedFrom()
    {
        HoverPoint[] hovers = [.. Drawn(20, 0.3, new(1)).Select((h, i) => h with { FuelKg = 150, FuelFrom = i < 4 ? FuelFrom.Gauge : FuelFrom.Assumed })];
        Assert.Contains("4 hovers with torque or power are kept of own, beside 16 whose fuel on board is only assumed", HoverBaseline.Learn("own", hovers).Why, StringComparison.Ordinal);
    }

    // Closed form: of b·m^1.5 a share dm of mass off is 1.5·dm off; with a·σ beside it at 2 000 kg and 1 500 m, 40 kg are 1.5 · 40/2000 · (b·y/P) = 2.30 %, times Student's t.
    [Fact]
    public void Compare_FuelByThePlan_BandHoldsItsDoubt()
    {
        HoverBaseline baseline = Learned(Drawn(2000, 0.001, new(2)));
        double y = B * Math.Pow(2, 1.5) / Math.Sqrt(DensityRatio(1500)), t = 1.6456; // Student's t of 1 998 and 0.95
        HoverShift read = baseline.Compare([Hover(2000, 1500, Torque(2000, 1500))])!, planned = baseline.Compare([Hover(2000, 1500, Torque(2000, 1500)) with { FuelFrom = FuelFrom.Plan }])!;
        Assert.Equal(100 * t * 1.5 * 40 / 2000 * y / Torque(2000, 1500), planned.HalfBandPercent, 0.01);
        Assert.True(read.HalfBandPercent < 0.01);
    }

    // Closed form: ten deliveries with two hovers each; a day with everything 4 % up, and the operator's threshold at 3 %.
    [Fact]
    public void HoverDay_FourPercentOverThreshold_FactsAndWriteUp()
    {
        List<HoverPoint> before = Drawn(20, 0.2, new(7)), today = Drawn(12, 0.2, new(8), shift: 1.04);
        HoverDay over = HoverDay.Of("own", before, today, 3), under = HoverDay.Of("own", before, today, 5);
        Assert.Matches(@"^Hover torque today is (3\.[89]|4\.[012]) % above baseline at the same mass and air", over.Sentence);
        Assert.EndsWith("Write up; maintenance decides.", over.Sentence, StringComparison.Ordinal);
        Assert.False(under.ToWriteUp);
        Assert.DoesNotContain("maintenance", under.Sentence, StringComparison.Ordinal);
        Assert.False(HoverDay.Of("own", before, today).ToWriteUp);
        Assert.Contains("No hover baseline yet", HoverDay.Of("own", [], today, 3).Sentence, StringComparison.Ordinal);
    }

    // Two days 20 h apart: the last is held against the first.
    [Fact]
    public void HoverDay_Last_IsTheLastDayFlown()
    {
        HoverPoint[] hovers = [.. Drawn(10, 0.1, new(1)).Select((h, i) => h with { AtS = 600 * i }), .. Drawn(6, 0.1, new(2), shift: 1.04).Select((h, i) => h with { AtS = 72_000 + 600 * i })];
        HoverDay last = HoverDay.Last("own", hovers)!;
        Assert.Equal((72_000.0, 10), (last.FromS!.Value, last.Baseline!.Count + last.Baseline.LeftOut));
        Assert.Equal(4, last.Shift!.Percent, 0.4);
    }

    [Fact]
    public void At_OutsideWhatWasLearned_SaysNothing()
    {
        HoverBaseline baseline = Learned(Drawn(30, 0, new(1)));
        Assert.Null(baseline.At(2900, 1500));
        Assert.Null(baseline.At(2000, 4000));
        Assert.Null(baseline.Compare([Hover(2900, 1500, 99)]));
    }

    // Simulated truth: the powers drawn. Power, where only power was recorded.
    [Fact]
    public void Learn_PowerInKilowatts_KeepsItsUnit()
    {
        List<HoverPoint> hovers = [.. Drawn(10, 0, new(1)).Select(h => h with { TorquePercent = null, PowerKw = 4.78 * h.TorquePercent })];
        HoverBaseline baseline = Learned(hovers);
        Assert.Equal("kW", baseline.Unit);
        Assert.Equal(4.78 * Torque(2000, 1500), baseline.At(2000, 1500)!.Value, 0.01);
    }
}
