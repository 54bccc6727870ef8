using System.Globalization;
using Stillhook.Approaching;
using Stillhook.Files.Pictures.Approach;

namespace Stillhook.Tests.Files.Pictures.Approach;

public class ApproachNumbersTests
{
    private static readonly ApproachPlan Plan = ExampleApproach.Offered;
    private static readonly string[] Lines = ApproachNumbers.Csv(Plan).Split('\n', StringSplitOptions.RemoveEmptyEntries);

    private static double[] Column(string name)
    {
        int at = Array.IndexOf(ApproachNumbers.Heading.Split(','), name);
        return [.. Lines.Skip(1).Select(l => double.Parse(l.Split(',')[at], CultureInfo.InvariantCulture))];
    }

    [Fact]
    public void Csv_EveryRow_HasEveryColumn()
    {
        Assert.Equal(ApproachNumbers.Heading, Lines[0]);
        Assert.Equal(13, ApproachNumbers.Heading.Split(',').Length);
        Assert.All(Lines, l => Assert.Equal(13, l.Split(',').Length));
        // Closed form: a row each 0.5 s of the path's whole time, one more at contact when that falls between.
        LoadPath path = Plan.Way!.Path;
        int steps = path.Count - 1, every = (int)Math.Round(0.5 / path.StepS);
        Assert.Equal(1 + steps / every + 1 + (steps % every == 0 ? 0 : 1), Lines.Length);
    }

    [Fact]
    public void Csv_Rows_AreHalfASecondApartFromTheLeadToContact()
    {
        double[] time = Column("timeS"), toGo = Column("distanceToGoM"), height = Column("loadHeightM"), speed = Column("groundSpeedKt");
        Assert.Equal(-LoadPath.LeadS, time[0], 1e-9);
        Assert.All(Enumerable.Range(1, time.Length - 2), i => Assert.Equal(0.5, time[i] - time[i - 1], 1e-9));
        // Closed form: at rest over the spot at contact; the load's underside within one step's sink of the ground.
        Assert.Equal(0, toGo[^1], 0.01);
        Assert.Equal(0, speed[^1], 0.01);
        Assert.Equal(0, height[^1], 0.4 * Plan.Way!.Path.StepS + 0.01);
    }

    [Fact]
    public void Csv_DistanceFallsByTheGroundSpeed()
    {
        double[] toGo = Column("distanceToGoM"), speed = Column("groundSpeedKt");
        // Closed form: trapezium of the speed over 0.5 s; speeds are written to 0.01 kt, distances to 0.01 m, and the rule is off by at most |a'|·Δt³/12.
        for (int i = 1; i < toGo.Length - 1; i++)
            Assert.Equal((speed[i] + speed[i - 1]) / 2 * 1852 / 3600 * 0.5, toGo[i - 1] - toGo[i], 0.02);
    }

    [Fact]
    public void Csv_SinkAndSlowDown_StayWithinTheirLimits()
    {
        double[] sink = Column("sinkFtPerMin"), limit = Column("sinkLimitFtPerMin"), slowDown = Column("slowDownG");
        // The plan's own rule: sink at most 0.05 m/s (10 ft/min) over its limit; the slow-down is fitted to 0.08 g; rows every 0.5 s may miss its peak by a little.
        Assert.All(Enumerable.Range(0, sink.Length), i => Assert.True(sink[i] <= limit[i] + 10, $"{sink[i]} over {limit[i]}"));
        Assert.InRange(slowDown.Max(), 0.076, 0.08005);
    }

    [Fact]
    public void Csv_NoPowerModel_LeavesThoseCellsEmpty() =>
        Assert.All(ApproachNumbers.Csv(Plan with { Power = null }).Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1), l => Assert.EndsWith(",,", l, StringComparison.Ordinal));

    [Fact]
    public void Csv_Refused_IsTheHeadingAlone() => Assert.Equal(ApproachNumbers.Heading + "\n", ApproachNumbers.Csv(ExampleApproach.Refused));
}
