using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.Planning;

/// <summary>The limits that stand where the operator gave none, and that a given one takes its place.</summary>
public class PolicyInForceTests
{
    private static readonly LiftRequest Bare = Jobs.Job(Jobs.Aircraft(Jobs.FlatChart(2600)), [], Jobs.Load("1", 500)) with { Policy = null, Day = null };

    // Published: construction 10 % (SPO-HESLO), reserve 20 min (SPO-OP-131, 14CFR-91.151), contingency 10 % (LUFTBODV3-34), break of 30 min after 180 (BARS), 8 h of flying, 14 h of duty and 10 h of rest (PNW-2007).
    // From memory: new plan at 5 °C or 1,000 ft (NWCG-PMS-510). Common practice, no source: 5 % on a label, 10 % on an estimate, 3 hPa, 5 kt, 10 min and 30 kg/min at the pump.
    [Fact]
    public void Policy_NothingGiven_DefaultsOfTheirSources()
    {
        PolicyInForce p = new(Bare);
        Assert.Equal((PayloadMethod.Direct, false, false), (p.Method.Value, p.ReduceJettisonable.Value, p.GroupBySite.Value));
        Assert.Equal([10, 0, 0, 5, 10], new[] { p.ConstructionPercent, p.MassMarginKg, p.PowerMarginPercent, p.LabelPercent, p.EstimatePercent }.Select(c => c.Value));
        Assert.Equal([20, 10, 180, 30, 480, 840, 600], new[] { p.ReserveMinutes, p.ContingencyPercent, p.BreakAfterMinutes, p.BreakMinutes, p.FlyingPerDayMinutes, p.DutyDayMinutes, p.RestMinutes }.Select(c => c.Value));
        Assert.Equal([5, 304.8, 300, 5, 10, 30], new[] { p.ReplanTemperatureC, p.ReplanAltitudeM, p.ReplanQnhPa, p.ReplanWindKt, p.RefuelStopMinutes, p.RefuelKgPerMinute }.Select(c => Math.Round(c.Value, 9)));
        Assert.Equal("PNW-2007", p.RestSource);
        Assert.Equal(InputFrom.Default, p.ReserveMinutes.From);
    }

    // Closed form: what is entered, in the units of the plan.
    [Fact]
    public void Policy_Given_TakesTheDefaultsPlace()
    {
        PolicyInForce p = new(Bare with
        {
            Policy = new() { Reserve = Duration.FromMinutes(30), PowerMargin = Ratio.FromPercent(7), ReplanQnh = Pressure.FromHectopascals(4), GroupBySite = true, Rest = Duration.FromHours(11) },
            Day = new() { RefuelRate = MassFlow.FromKilogramsPerHour(1200) },
        });
        Assert.Equal([30, 7, 400, 660, 20], new[] { p.ReserveMinutes, p.PowerMarginPercent, p.ReplanQnhPa, p.RestMinutes, p.RefuelKgPerMinute }.Select(c => Math.Round(c.Value, 9)));
        Assert.True(p.GroupBySite.Value);
        Assert.Equal((InputFrom.JobFile, "policy.reserve"), (p.ReserveMinutes.From, p.ReserveMinutes.Where));
        Assert.Contains("without a source", p.RestSource, StringComparison.Ordinal);
    }
}
