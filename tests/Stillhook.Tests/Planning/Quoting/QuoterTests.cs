using Stillhook.Planning;
using Stillhook.Planning.Quoting;
using UnitsNet;
using UnitsNet.Units;

namespace Stillhook.Tests.Planning.Quoting;

public class QuoterTests
{
    private static readonly QuoteBasis Measured = new() { Lifts = 90, Cycle = Duration.FromSeconds(95), CycleSpread = Duration.FromSeconds(12), MeasuredOn = 30 };

    private static readonly QuotedDay Day = new()
    {
        Refuels = new(3, InputFrom.Figure, "fuel.refuels"), RefuelStop = new(Duration.FromMinutes(12), InputFrom.JobFile, "day.refuelStop"),
        Breaks = new(1, InputFrom.Figure, "day.breaks"), BreakLength = new(Duration.FromMinutes(30), InputFrom.JobFile, "policy.break"),
        Burn = new(MassFlow.FromKilogramsPerHour(160), InputFrom.Figure, "fuel.rotation"),
    };

    // Closed form: 90 · 95 s = 8550 s; spread 12·√(90 + 8100/30) = 227.684 s; Student's t for 29 is 1.3114 (Published, any t table): ±298.59 s.
    // Stops 3·12 + 30 = 66 min = 3960 s. Fuel at 160 kg/h.
    [Fact]
    public void Quote_NinetyMeasuredLifts_IsARangeWithRefuels()
    {
        Quote quote = Quoter.Quote(Measured, Day);
        AssertSeconds([8550 - 298.6, 8550, 8550 + 298.6], quote.FlightTime!, 0.1);
        AssertSeconds([12_510 - 298.6, 12_510, 12_510 + 298.6], quote.OnSite!, 0.1);
        Assert.Equal([366.7, 380.0, 393.3], quote.Fuel!.Figures.Select(f => Math.Round((double)f.Value.Quantity.As(MassUnit.Kilogram), 1)));
        Assert.Null(quote.Cost);
        Assert.Contains(quote.OnSite!.High.Inputs, i => i is { Name: "refuelling stops", Where: "fuel.refuels" });
    }

    // Closed form: somebody's estimate, the same figures: the spread is doubt about the mean, 1.28155·90·12 = 1384.08 s.
    [Fact]
    public void Quote_Estimate_TakesTheWholeSpreadAsDoubtAboutTheMean()
    {
        Quote quote = Quoter.Quote(Measured with { MeasuredOn = null }, Day);
        AssertSeconds([8550 - 1384.08, 8550, 8550 + 1384.08], quote.FlightTime!, 0.01);
        Assert.Contains("estimate", quote.FlightTime!.Low.Note, StringComparison.Ordinal);
        Assert.Contains(quote.Items, i => i.Code == "quote-estimate");
    }

    // Closed form: an independent simulation, cycle by cycle. True spread and mean are drawn from what k measured rotations leave open
    // (s²(k − 1)/χ², then normal with spread/√k), then every rotation by itself. Tolerance: 4 standard errors of the simulated percentile,
    // √(p(1 − p)/N)/density, the density taken at the normal's.
    [Theory]
    [InlineData(90, 30)]
    [InlineData(90, 4)]
    [InlineData(12, 200)]
    public void Quote_Measured_MatchesSimulation(int lifts, int measured)
    {
        const int days = 20_000;
        Random random = new(20260601);
        double[] totals = new double[days];
        for (int d = 0; d < days; d++)
        {
            double chi2 = 0;
            for (int i = 1; i < measured; i++)
                chi2 += Math.Pow(Gauss(random), 2);
            double spread = 12 * Math.Sqrt((measured - 1) / chi2), mean = 95 + spread / Math.Sqrt(measured) * Gauss(random);
            for (int i = 0; i < lifts; i++)
                totals[d] += mean + spread * Gauss(random);
        }
        Array.Sort(totals);
        QuoteRange flight = Quoter.Quote(Measured with { Lifts = lifts, MeasuredOn = measured }, Day).FlightTime!;
        double sigma = 12 * Math.Sqrt(lifts + (double)lifts * lifts / measured), error = Math.Sqrt(0.09 / days) / 0.17550 * sigma;
        double fewRotations = measured < 10 ? 1.6 : 1; // The t density at its 90th percentile for ν = 3 is 0.62 of the normal's.
        AssertSeconds([totals[days / 10], totals[days / 2], totals[days * 9 / 10]], flight, 4 * error * fewRotations + 0.005 * sigma);
    }

    // Closed form: the whole spread of an estimate as doubt about the mean, simulated.
    [Fact]
    public void Quote_Estimate_MatchesSimulation()
    {
        const int days = 40_000;
        Random random = new(7);
        double[] totals = [.. Enumerable.Range(0, days).Select(_ => 90 * (95 + 12 * Gauss(random))).Order()];
        double error = Math.Sqrt(0.09 / days) / 0.17550 * 90 * 12;
        AssertSeconds([totals[days / 10], totals[days / 2], totals[days * 9 / 10]], Quoter.Quote(Measured with { MeasuredOn = null }, Day).FlightTime!, 4 * error);
    }

    // Closed form: likely 2.375 h · 2400 + 380 kg · 1.5 + 900 = 7170; high (8550 + 298.59)/3600 h · 2400 + 393.27 · 1.5 + 900 = 7388.97.
    [Fact]
    public void Quote_Cost_IsHoursFuelAndFixed()
    {
        Quote quote = Quoter.Quote(Measured with { PricePerHour = 2400, FuelPricePerKg = 1.5, FixedPrice = 900, Currency = "EUR" }, Day);
        double[] cost = [.. quote.Cost!.Figures.Select(f => (double)f.Value.Quantity.As(ScalarUnit.Amount))];
        Assert.Equal(7170, cost[1], 1e-6);
        Assert.Equal(7388.97, cost[2], 0.1);
        Assert.Equal(2 * cost[1], cost[0] + cost[2], 1e-6);
        Assert.Contains("EUR", quote.Cost.Likely.Name, StringComparison.Ordinal);
    }

    [Fact]
    public void Quote_NothingToGoBy_SaysSo()
    {
        Quote quote = Quoter.Quote(new(), new());
        Assert.Null(quote.FlightTime);
        Assert.Equal(["quote-lifts", "quote-cycle"], quote.Items.Select(i => i.Code));
        Assert.Empty(quote.Figures);
    }

    // Closed form: planned rotation of 100 s, no spread entered: a fifth, 20 s; ±1.28155·40·20 = 1025.24 s about 4000 s, and a ferry of 600 s.
    [Fact]
    public void Quote_PlannedCycleWithoutSpread_TakesAFifthAndSaysSo()
    {
        Quote quote = Quoter.Quote(new() { Ferry = Duration.FromMinutes(10), MeasuredOn = 50 },
            new() { Lifts = new(40, InputFrom.JobFile, "loads"), PlannedCycle = new(Duration.FromSeconds(100), InputFrom.Figure, "time.rotation") });
        AssertSeconds([4600 - 1025.24, 4600, 4600 + 1025.24], quote.FlightTime!, 0.01);
        Assert.Contains(quote.FlightTime!.Low.Inputs, i => i is { From: InputFrom.Default, Where: "quote.cycleSpread" });
        Assert.Null(quote.Fuel);
        Assert.Equal(["quote-spread", "quote-estimate", "quote-burn", "quote-price"], quote.Items.Select(i => i.Code));
    }

    [Fact]
    public void Quote_WildSpread_NeverGoesBelowTheFerry()
    {
        Quote quote = Quoter.Quote(new() { Lifts = 10, Cycle = Duration.FromSeconds(60), CycleSpread = Duration.FromSeconds(90), Ferry = Duration.FromMinutes(20) }, Day);
        Assert.Equal(1200, (double)quote.FlightTime!.Low.Value.Quantity.As(DurationUnit.Second), 1e-6);
    }

    [Fact]
    public void Quote_Figures_HaveOneKeyEachAndInputsThatExist()
    {
        Figure[] figures = [.. Quoter.Quote(Measured with { PricePerHour = 2400 }, Day).Figures];
        Assert.Equal(12, figures.Select(f => f.Key).Distinct().Count());
        Assert.All(figures.SelectMany(f => f.Inputs).Where(i => i is { From: InputFrom.Figure } && i.Where.StartsWith("quote.", StringComparison.Ordinal)),
            i => Assert.Contains(i.Where, figures.Select(f => f.Key)));
    }

    private static double Gauss(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static void AssertSeconds(double[] expected, QuoteRange range, double tolerance)
    {
        Assert.Equal(3, range.Figures.Count());
        foreach ((double s, Figure figure) in expected.Zip(range.Figures))
            Assert.Equal(s, (double)figure.Value.Quantity.As(DurationUnit.Second), tolerance);
    }
}
