using Stillhook.Physics.Load;

namespace Stillhook.Approaching;

/// <summary>Spreads that simulated flights are drawn from, one standard deviation each. Own choice after what crews give and how hands wander, no source; docs/method/robustness.md.</summary>
public sealed record FlightSpread
{
    /// <summary>Line length, share, with 0.15 m of rounding on top: 1 %.</summary>
    public double LineShare { get; init; } = 0.01;

    /// <summary>Mass, share: 3 %.</summary>
    public double MassShare { get; init; } = 0.03;

    /// <summary>Drag area, share: 25 %.</summary>
    public double DragShare { get; init; } = 0.25;

    /// <summary>Wind direction, degrees: 15.</summary>
    public double WindDeg { get; init; } = 15;

    /// <summary>Wind speed, m/s: 2 kt; where nobody gave the wind the stated spread stands in both directions.</summary>
    public double WindMs { get; init; } = 2 * 1852.0 / 3600;

    /// <summary>Begin of the slow-down, s: 0.7.</summary>
    public double TimingS { get; init; } = 0.7;

    /// <summary>Speed brought in, m/s: 2 kt.</summary>
    public double EntryMs { get; init; } = 2 * 1852.0 / 3600;

    /// <summary>Height at the start mark, m: 10 ft.</summary>
    public double StartHeightM { get; init; } = 3.048;

    /// <summary>Slow wander of the hook about the path, m: 1.</summary>
    public double HandSlowM { get; init; } = 1;

    /// <summary>Fast wander, m: 0.2.</summary>
    public double HandFastM { get; init; } = 0.2;

    /// <summary>How much of a late or fast slow-down the pilot makes up by eye: 0.88.</summary>
    public double EyeGain { get; init; } = 0.88;
}

/// <summary>What the offered approach does when it is flown as people fly.</summary>
/// <param name="Flights">Simulated flights.</param>
/// <param name="MissM">Load's distance from the spot at contact, m: half of the flights, and 95 in 100.</param>
/// <param name="AlongM">Past the spot, m: mean and standard deviation.</param>
/// <param name="AcrossM">Right of the spot, m: mean and standard deviation.</param>
/// <param name="SwingM">Swing at contact, m: half, and 95 in 100.</param>
/// <param name="WorstTenthM">Mean over the worst tenth of distance from the spot plus swing, m: what plans are ranked by.</param>
/// <param name="GateBroken">Chance of each gate to be broken: 20 ft, 5 kt, or the sink limit.</param>
/// <param name="Causes">What the scatter of the place comes from, largest first, as shares of its variance.</param>
/// <param name="Slack">Share of flights in which the line went slack.</param>
/// <param name="Places">Where the load ended in the first flights: along, right, m.</param>
public sealed record Robustness(
    int Flights, Half95 MissM, MeanSigma AlongM, MeanSigma AcrossM, Half95 SwingM, double WorstTenthM, IReadOnlyList<double> GateBroken,
    IReadOnlyList<(string Cause, double Share)> Causes, double Slack, IReadOnlyList<(double Along, double Right)> Places);

/// <summary>Median and 95th percentile.</summary>
public readonly record struct Half95(double Half, double NinetyFive);

/// <summary>Mean and standard deviation.</summary>
public readonly record struct MeanSigma(double Mean, double Sigma)
{
    /// <summary>Variance.</summary>
    public double Variance => Sigma * Sigma;
}
