using System.Globalization;
using Stillhook.Reporting;

namespace Stillhook.Planning;

/// <summary>What the aircraft was measured to take in the hover against the flight manual's torque page, or against the model where there is no page. Limits stay the chart's.</summary>
/// <param name="Percent">Measured over expected, mean over the plan's hovers that both cover, %.</param>
/// <param name="HalfBandPercent">Half width of the 90 % band of that mean: doubt of the measured line, %.</param>
/// <param name="Places">The plan's hovers that both cover.</param>
/// <param name="OfPlaces">All of the plan's hovers.</param>
/// <param name="AgainstChart">True: against the torque page; false: against the model.</param>
/// <param name="Baseline">What was measured.</param>
public sealed record MeasuredHover(double Percent, double HalfBandPercent, int Places, int OfPlaces, bool AgainstChart, HoverBaseline Baseline)
{
    private const int FewestPlaces = 3;

    /// <summary>Beyond its band, so that it is worth a look.</summary>
    public bool IsReal => Math.Abs(Percent) > HalfBandPercent;

    /// <summary>In a sentence.</summary>
    public string Facts => string.Create(CultureInfo.InvariantCulture,
        $"Hover torque of {Baseline.Aircraft} was measured {Math.Abs(Percent):0.0} % {(Percent >= 0 ? "above" : "below")} the {(AgainstChart ? "chart" : "model")} at the same mass and air (90 % band {Percent - HalfBandPercent:0.0} to {Percent + HalfBandPercent:0.0} %; {Baseline.Count} hovers; {Places} of the {OfPlaces} hovers of this plan lie inside them). Limits stay those of the chart.");

    /// <summary>Of a plan's hovers; null where fewer than three are covered by both.</summary>
    public static MeasuredHover? Of(HoverBaseline? baseline, IReadOnlyList<HoverExpected> hovers)
    {
        ArgumentNullException.ThrowIfNull(hovers);
        if (baseline is null)
            return null;
        HoverExpected[] onChart = [.. hovers.Where(h => h is { MeasuredTorquePercent: not null, ChartTorquePercent: > 0 })], onModel = [.. hovers.Where(h => h is { MeasuredTorquePercent: not null, ModelTorquePercent: > 0 })];
        bool chart = onChart.Length >= FewestPlaces;
        HoverExpected[] both = chart ? onChart : onModel;
        return both.Length < FewestPlaces ? null : new(
            both.Average(h => 100 * (h.MeasuredTorquePercent!.Value / (chart ? h.ChartTorquePercent : h.ModelTorquePercent)!.Value - 1)),
            both.Average(h => 100 * baseline.LineHalfBand(h.GrossKg, h.DensityAltitudeM) / h.MeasuredTorquePercent!.Value), both.Length, hovers.Count, chart, baseline);
    }

    /// <summary>The figure with its working.</summary>
    internal Figure Figure => new("hover.measured", $"measured hover torque over the {(AgainstChart ? "chart" : "model")}", new(UnitsNet.Ratio.FromPercent(Percent), 0.1), "mean over the plan's hovers of measured / expected - 1; measured = a x density ratio + b x mass^1.5 / root of density ratio",
        [
            new("a", new(UnitsNet.Ratio.FromPercent(Baseline.Profile), 0.01), InputFrom.Kept, "hovers before"), new("b, per t^1.5", new(UnitsNet.Ratio.FromPercent(Baseline.Induced), 0.01), InputFrom.Kept, "hovers before"),
            new("hovers measured on", Amount.Number(Baseline.Count, 1), InputFrom.Kept, "hovers before"), new("hovers left out as far off", Amount.Number(Baseline.LeftOut, 1), InputFrom.Kept, "hovers before"),
            new("spread of one hover", new(UnitsNet.Ratio.FromPercent(Baseline.Sigma), 0.01), InputFrom.Kept, "hovers before"),
        ], "LEISHMAN", "It says what the aircraft takes, not what it may lift: limits stay those of the chart.");
}
