namespace Stillhook.Reporting;

/// <summary>What was measured on flights before: it feeds forecasts and quotes, and never changes a limit.</summary>
public sealed record MeasuredBefore
{
    /// <summary>Rotations by leg and kind of load.</summary>
    public IReadOnlyList<CycleBaseline> Cycles { get; init; } = [];

    /// <summary>What the aircraft takes to hover; null when its hovers carry no line.</summary>
    public HoverBaseline? Hover { get; init; }

    /// <summary>The last day flown against those before it; null when there are no two.</summary>
    public HoverDay? LastDay { get; init; }
}
