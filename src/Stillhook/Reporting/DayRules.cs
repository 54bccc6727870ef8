using Stillhook.Planning;

namespace Stillhook.Reporting;

/// <summary>What the day sheet is made by: windows, tolerances and rules. Everything has a default that the sheet names.</summary>
public sealed record DayRules
{
    /// <summary>The defaults.</summary>
    public static DayRules Default { get; } = new();

    /// <summary>Lifts that the moving average of lifts per hour is taken over.</summary>
    public int PaceLifts { get; init; } = LiftTotals.UsualLifts;

    /// <summary>Flown time that the other moving average is taken over, s.</summary>
    public double PaceS { get; init; } = LiftTotals.UsualTimeS;

    /// <summary>How near tally and record must be.</summary>
    public MatchTolerance Match { get; init; } = new();

    /// <summary>Time to report an occurrence from becoming aware of it, s.</summary>
    public double ReportWithinS { get; init; } = OccurrencePrompt.UsualReportWithinS;

    /// <summary>Limits on parts beside those of the job.</summary>
    public IReadOnlyList<PartRule> PartRules { get; init; } = [];

    /// <summary>What the time split fills; null takes the first duty, flight or mark to the last.</summary>
    public Stretch? Day { get; init; }
}
