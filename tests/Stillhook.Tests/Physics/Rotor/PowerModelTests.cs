using System.Diagnostics;
using CsCheck;
using Stillhook.Physics.Rotor;

namespace Stillhook.Tests.Physics.Rotor;

/// <summary>Charts here are simulated truth: made by <see cref="InventedHelicopter"/>, by other means than the model that is calibrated on them.</summary>
public class PowerModelTests
{
    private static readonly Dictionary<string, InventedHelicopter> Fleet = new InventedHelicopter[]
    {
        InventedHelicopter.LightSingle(), InventedHelicopter.LightPiston(), InventedHelicopter.MediumSingle(), InventedHelicopter.MediumTwin(), InventedHelicopter.Heavy(),
    }.ToDictionary(a => a.Name);

    private static readonly Dictionary<string, (double Height, double Temperature)[]> Grids = new()
    {
        ["63 points"] = Grid([0, 500, 1000, 1500, 2000, 2500, 3000, 3500, 4000], [-20, -10, 0, 10, 20, 30, 40]),
        ["35 points"] = Grid([0, 610, 1219, 1829, 2438, 3048, 3658], [-10, 0, 15, 25, 35]),
        ["24 points, standard day and so much warmer"] =
            [.. Grid([0, 600, 1200, 1800, 2400, 3000], [-20, 0, 20, 30]).Select(p => (p.Height, p.Temperature + 15 - 0.0065 * p.Height))],
        ["12 points"] = Grid([0, 1000, 2000, 3000], [0, 15, 30]),
        ["10 points, two temperatures"] = Grid([0, 800, 1600, 2400, 3200], [10, 30]),
        ["8 points, two temperatures"] = Grid([0, 1000, 2000, 3000], [10, 30]),
        ["4 points"] = Grid([500, 2500], [0, 30]),
    };

    public static TheoryData<string, string> Charts => new(
        from aircraft in Fleet.Keys from grid in Grids.Keys where Points(grid) >= 24 select (aircraft, grid));

    public static TheoryData<string, string> SmallCharts => new(
        from aircraft in Fleet.Keys from grid in Grids.Keys where Points(grid) < 24 select (aircraft, grid));

    // Simulated truth: half of the chart predicts the other within 2 %, and so does the whole between its points, against the unrounded truth.
    [Theory]
    [MemberData(nameof(Charts))]
    public void Calibrate_HalfOfAChart_PredictsTheRest(string aircraft, string grid)
    {
        (InventedHelicopter truth, PowerModel model, HoverChartPoint[] chart) = Calibrated(aircraft, grid);
        PredictionError error = Assert.IsType<PredictionError>(model.PredictionError);
        double between = Between(chart).Max(p => Math.Abs(model.HoverCeilingMassKg(p.Height, p.Temperature) / truth.HoverMassKg(p.Height, p.Temperature) - 1));
        TestContext.Current.SendDiagnosticMessage("{0}, {1}: half predicts half {2:P2}, RMS {3:P2}; truth between {4:P2}", aircraft, grid, error.LargestRelative, error.RmsRelative, between);
        Assert.InRange(error.LargestRelative, 1e-5, 0.02);
        Assert.InRange(error.RmsRelative, 1e-5, 0.005);
        Assert.InRange(error.PointsPredicted, chart.Count(p => p.MassKg < truth.MassLimitKg), chart.Length);
        Assert.Contains(error.WorstPoint, chart);
        Assert.True(between < 0.0125);
    }

    // Simulated truth: small charts too are right between their points to 2 % (4 points: 5 %), and the error they report is never less than what is found there.
    [Theory]
    [MemberData(nameof(SmallCharts))]
    public void Calibrate_SmallChart_IsHonest(string aircraft, string grid)
    {
        (InventedHelicopter truth, PowerModel model, HoverChartPoint[] chart) = Calibrated(aircraft, grid);
        double between = Between(chart).Max(p => Math.Abs(model.HoverCeilingMassKg(p.Height, p.Temperature) / truth.HoverMassKg(p.Height, p.Temperature) - 1));
        TestContext.Current.SendDiagnosticMessage("{0}, {1}: half predicts half {2:P2}; truth between {3:P2}", aircraft, grid, model.PredictionError?.LargestRelative, between);
        Assert.True(between < (chart.Length == 4 ? 0.05 : 0.02));
        Assert.Equal(chart.Count(p => p.MassKg < truth.MassLimitKg) >= 8, model.PredictionError is not null);
        Assert.True(model.PredictionError is null || model.PredictionError.LargestRelative > 0.5 * between);
    }

    // Regression only: the chart comes back at its points within 0.1 %, whatever its size.
    [Fact]
    public void HoverCeiling_AtChartPoints_IsTheChart()
    {
        foreach (string aircraft in Fleet.Keys)
            foreach (string grid in Grids.Keys)
            {
                (_, PowerModel model, HoverChartPoint[] chart) = Calibrated(aircraft, grid);
                foreach (HoverChartPoint p in chart)
                {
                    Assert.Equal(1, model.HoverCeilingMassKg(p.PressureAltitudeM, p.TemperatureK) / p.MassKg, 0.001);
                    Assert.True(model.Hover(p.MassKg, p.PressureAltitudeM, p.TemperatureK).Fraction < 1.001);
                }
            }
    }

    // Simulated truth: torque at 85 % of the greatest mass within 2.5 %, where the chart shows the transmission's limit.
    [Theory]
    [InlineData("light single turbine")]
    [InlineData("light piston")]
    [InlineData("medium twin turbine")]
    [InlineData("heavy twin turbine")]
    public void Hover_PartLoad_TorqueIsTheTruths(string aircraft)
    {
        (InventedHelicopter truth, PowerModel model, HoverChartPoint[] chart) = Calibrated(aircraft, "35 points");
        Assert.True(model.ScaledByTransmission);
        foreach ((double h, double t) in Between(chart))
        {
            double mass = 0.85 * truth.HoverMassKg(h, t);
            HoverPower power = model.Hover(mass, h, t);
            Assert.Equal(1, power.TorquePercent!.Value / (100 * truth.RequiredW(mass, h, t) / truth.TransmissionW), 0.025);
            Assert.Equal(1, power.Fraction / (truth.RequiredW(mass, h, t) / truth.AvailableW(h, t)), 0.025);
        }
    }

    // Simulated truth: cut off at a mass limit, a chart hides the power there; the model may then ask for too much, by up to 10 %, but not for too little (2 %).
    [Fact]
    public void Hover_ChartCutOffByMass_ErrsToTheSafeSide()
    {
        foreach (string grid in Grids.Keys)
        {
            (InventedHelicopter truth, PowerModel model, HoverChartPoint[] chart) = Calibrated("medium single turbine", grid);
            foreach ((double h, double t) in Between(chart))
            {
                double mass = 0.85 * truth.HoverMassKg(h, t);
                Assert.InRange(model.Hover(mass, h, t).Fraction / (truth.RequiredW(mass, h, t) / truth.AvailableW(h, t)), 0.98, 1.10);
            }
        }
    }

    // Without a transmission limit there is no torque, but the fraction of the power available is the same calibration.
    [Fact]
    public void Hover_NoTransmissionLimit_StillKnowsTheFraction()
    {
        InventedHelicopter truth = Fleet["light single turbine"];
        HoverChartPoint[] chart = truth.Chart(Grids["35 points"].Select(p => (p.Height, p.Temperature + 273.15)));
        HoverPower power = PowerModel.Calibrate(truth.Rotor, chart).Hover(2000, 1500, 288);
        Assert.Null(power.TorquePercent);
        Assert.Equal(truth.RequiredW(2000, 1500, 288) / truth.AvailableW(1500, 288), power.Fraction, 0.02);
        Assert.Equal(power.AvailableW - power.RequiredW, power.MarginW, 1e-6);
    }

    // A slip of one digit in the chart is found by the cross-check.
    [Fact]
    public void PredictionError_MistypedPoint_PointsNearIt()
    {
        InventedHelicopter truth = Fleet["light single turbine"];
        HoverChartPoint[] chart = truth.Chart(Grids["63 points"].Select(p => (p.Height, p.Temperature + 273.15)));
        chart[31] = chart[31] with { MassKg = chart[31].MassKg + 300 };
        PredictionError error = PowerModel.Calibrate(truth.Rotor, chart, new(truth.TransmissionW)).PredictionError!;
        Assert.True(error.LargestRelative > 0.08);
        Assert.Equal(chart[31], error.WorstPoint);
    }

    [Fact]
    public void Hover_MoreMass_TakesMoreOfThePower()
    {
        (_, PowerModel model, _) = Calibrated("medium twin turbine", "35 points");
        Gen.Select(Gen.Double[3000, 8000], Gen.Double[0, 3600], Gen.Double[264, 307]).Sample((mass, h, t) =>
        {
            HoverPower at = model.Hover(mass, h, t), more = model.Hover(1.01 * mass, h, t);
            Assert.True(more.RequiredW > at.RequiredW && more.AvailableW == at.AvailableW && more.Fraction > at.Fraction);
            Assert.Equal(1, model.Hover(model.HoverCeilingMassKg(h, t), h, t).Fraction, 1e-9);
        });
    }

    // Forward flight at no speed is the hover; the load's drag and climb add; 20 m/s takes less than hover.
    [Fact]
    public void Forward_Edges_AgreeWithHover()
    {
        (InventedHelicopter truth, PowerModel model, _) = Calibrated("medium twin turbine", "35 points");
        HoverPower hover = model.Hover(7000, 1000, 290);
        FlightPower still = model.Forward(7000, 1000, 290, 0), slow = model.Forward(7000, 1000, 290, 20), towed = model.Forward(7000, 1000, 290, 20, 0, 5), up = model.Forward(7000, 1000, 290, 20, 2);
        Assert.Equal(hover.RequiredW, still.Power.RequiredW, 1e-6 * hover.RequiredW);
        Assert.Equal(hover.AvailableW, still.Power.AvailableW, 1e-9);
        Assert.True(slow.Power.RequiredW < hover.RequiredW && towed.Power.RequiredW > slow.Power.RequiredW && up.Power.RequiredW > slow.Power.RequiredW);
        Assert.Equal(slow.Parts.TotalW, slow.Power.RequiredW, 1e-6);
        Assert.True(model.PowerAvailableW(1000, 290) <= truth.TransmissionW * (1 + 1e-12));
    }

    [Theory]
    [InlineData(1500, 290, true)]
    [InlineData(0, 263.15, true)]
    [InlineData(3658, 308.15, true)]
    [InlineData(3700, 290, false)]
    [InlineData(1500, 309, false)]
    [InlineData(-50, 290, false)]
    public void InsideChart_OfPlace_IsTold(double h, double t, bool inside)
    {
        (_, PowerModel model, _) = Calibrated("medium twin turbine", "35 points");
        Assert.Equal(inside, model.Hover(6000, h, t).InsideChart);
    }

    // A chart for one kind of day only is a line, and off that line everything is outside.
    [Fact]
    public void InsideChart_OneLine_HoldsOnlyTheLine()
    {
        InventedHelicopter truth = Fleet["light single turbine"];
        HoverChartPoint[] chart = truth.Chart(Enumerable.Range(0, 12).Select(i => (250.0 * i, 288.15 - 1.625 * i)));
        PowerModel model = PowerModel.Calibrate(truth.Rotor, chart, new(truth.TransmissionW));
        Assert.True(model.Hover(2000, 1100, 288.15 - 0.0065 * 1100).InsideChart);
        Assert.False(model.Hover(2000, 1100, 285).InsideChart);
        Assert.False(model.Hover(2000, 2800, 288.15 - 0.0065 * 2800).InsideChart);
    }

    // Published: 12.9 ft² at 5 000 lb [NDARC-STUDENT]; 4.4·5^(2/3) = 12.87.
    [Fact]
    public void TypicalFlatPlateArea_FiveThousandPounds_MatchesExample() =>
        Assert.Equal(12.9, PowerModel.TypicalFlatPlateAreaM2(5000 * 0.45359237) / (0.3048 * 0.3048), 0.051);

    [Fact]
    public void Calibrate_BadChart_IsRefused()
    {
        InventedHelicopter truth = Fleet["light single turbine"];
        HoverChartPoint[] chart = truth.Chart(Grids["4 points"].Select(p => (p.Height, p.Temperature + 273.15)));
        Assert.Throws<ArgumentException>(() => PowerModel.Calibrate(truth.Rotor, chart[..3]));
        Assert.Throws<ArgumentException>(() => PowerModel.Calibrate(truth.Rotor, [.. chart, chart[0] with { MassKg = 1 }]));
        Assert.Throws<ArgumentOutOfRangeException>(() => PowerModel.Calibrate(truth.Rotor, [.. chart[..3], chart[3] with { MassKg = double.NaN }]));
        Assert.Throws<ArgumentOutOfRangeException>(() => PowerModel.Calibrate(truth.Rotor, [.. chart[..3], chart[3] with { TemperatureK = 20 }]));
        Assert.Throws<ArgumentOutOfRangeException>(() => PowerModel.Calibrate(truth.Rotor, chart, new(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => PowerModel.Calibrate(truth.Rotor, chart).Hover(double.NaN, 0, 288));
        Assert.Throws<ArgumentOutOfRangeException>(() => PowerModel.Calibrate(truth.Rotor, chart).Forward(1000, 0, 288, -3));
    }

    // Own measurement: 0.33 µs on the author's machine with a chart of 100 points; the best of several batches, so that a busy machine doesn't fail it.
    [Fact]
    public void Hover_HundredPoints_TakesUnderTwoMicroseconds()
    {
        InventedHelicopter truth = Fleet["medium twin turbine"];
        PowerModel model = PowerModel.Calibrate(truth.Rotor, truth.Chart(Enumerable.Range(0, 100).Select(i => (i / 10 * 400.0, 253.15 + i % 10 * 6.5))), new(truth.TransmissionW));
        double best = double.PositiveInfinity, sum = 0;
        for (int batch = 0; batch < 40; batch++)
        {
            long start = Stopwatch.GetTimestamp();
            for (int i = 0; i < 5000; i++)
                sum += model.Hover(6000 + i % 500, 1000 + i % 1500, 285).Fraction;
            best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalMicroseconds / 5000);
        }
        Assert.True(sum > 0);
        Assert.InRange(best, 0, 2);
    }

    private static (double Height, double Temperature)[] Grid(double[] heights, double[] celsius) =>
        [.. from h in heights from c in celsius select (h, c)];

    private static int Points(string grid) => Grids[grid].Length;

    private static (InventedHelicopter Truth, PowerModel Model, HoverChartPoint[] Chart) Calibrated(string aircraft, string grid)
    {
        InventedHelicopter truth = Fleet[aircraft];
        HoverChartPoint[] chart = truth.Chart(Grids[grid].Select(p => (p.Height, p.Temperature + 273.15)));
        return (truth, PowerModel.Calibrate(truth.Rotor, chart, new(truth.TransmissionW)), chart);
    }

    // Places between the points of a chart: middles between neighbours in height and temperature.
    private static IEnumerable<(double Height, double Temperature)> Between(HoverChartPoint[] chart)
    {
        HoverChartPoint[][] rows = [.. chart.GroupBy(p => p.PressureAltitudeM).OrderBy(r => r.Key).Select(r => r.OrderBy(p => p.TemperatureK).ToArray())];
        for (int i = 1; i < rows.Length; i++)
            for (int j = 1; j < rows[i].Length; j++)
                yield return ((rows[i][j].PressureAltitudeM + rows[i - 1][j].PressureAltitudeM) / 2,
                    (rows[i][j].TemperatureK + rows[i][j - 1].TemperatureK + rows[i - 1][j].TemperatureK + rows[i - 1][j - 1].TemperatureK) / 4);
    }
}
