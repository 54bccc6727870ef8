using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Reporting;

/// <summary>One measure of two deliveries.</summary>
/// <param name="Name">What was measured, with its unit.</param>
/// <param name="Before">In the earlier delivery.</param>
/// <param name="After">In the later one.</param>
/// <param name="InSpreads">Change over the spread that the measure usually has, without sign; for order only.</param>
public sealed record MeasureChange(string Name, double Before, double After, double InSpreads)
{
    /// <summary>Later less earlier.</summary>
    public double Change => After - Before;
}

/// <summary>A part of a delivery's time in two deliveries.</summary>
/// <param name="Name">Which part.</param>
/// <param name="BeforeS">In the earlier one, s.</param>
/// <param name="AfterS">In the later one, s.</param>
public sealed record TimePart(string Name, double BeforeS, double AfterS)
{
    /// <summary>Later less earlier, s.</summary>
    public double ChangeS => AfterS - BeforeS;
}

/// <summary>Two deliveries of one pilot to one spot with the same kind of load: what differed, and what that cost or saved. What led to it is for the pilot to say.</summary>
/// <param name="Earlier">The earlier delivery.</param>
/// <param name="Later">The later one.</param>
/// <param name="Parts">Time from approach start to clear, part by part; the parts add up to it. Empty where a time is missing.</param>
/// <param name="Smoothness">Smoothness of the slow-down, nearer zero is smoother; null where not measured in both.</param>
/// <param name="Differences">Measures known of both, the largest change in its own spreads first.</param>
public sealed record SameSpotPair(KeptLift Earlier, KeptLift Later, IReadOnlyList<TimePart> Parts, MeasureChange? Smoothness, IReadOnlyList<MeasureChange> Differences)
{
    /// <summary>Contacts within this are one spot, m. Own choice.</summary>
    public const double SameSpotM = 15;

    private const double SmoothnessSpread = 0.3, SwingSpreadM = 0.5, DistanceSpreadM = 40, CorrectionsSpread = 2;

    /// <summary>Approach start to clear, later less earlier, s; null where a time is missing.</summary>
    public double? TimeChangeS => Parts.Count > 0 ? Parts.Sum(p => p.ChangeS) : null;

    /// <summary>For each pilot, spot and kind of load of the day the first and the last measured delivery, where there are two.</summary>
    public static IReadOnlyList<SameSpotPair> Of(DayWork work)
    {
        ArgumentNullException.ThrowIfNull(work);
        List<List<KeptLift>> groups = [];
        foreach (KeptLift lift in CountedLift.Of(work.Lifts).Where(l => l is { Measures: not null, Delivery: not null, DeliveryTimeS: not null }))
            if (groups.Find(g => Alike(work, g[0], lift)) is { } known)
                known.Add(lift);
            else
                groups.Add([lift]);
        return [.. groups.Where(g => g.Count > 1).Select(g => Compare(g[0], g[^1]))];
    }

    /// <summary>Two deliveries side by side.</summary>
    /// <exception cref="ArgumentException">One was not measured.</exception>
    public static SameSpotPair Compare(KeptLift earlier, KeptLift later)
    {
        ArgumentNullException.ThrowIfNull(earlier);
        ArgumentNullException.ThrowIfNull(later);
        if (earlier.Measures is not { } a || later.Measures is not { } b)
            throw new ArgumentException("Both deliveries are measured.", earlier.Measures is null ? nameof(earlier) : nameof(later));
        FaultSettings spread = DebriefSettings.Default.Faults;
        MeasureChange?[] changes =
        [
            Change("start height, m", a.StartHeightM, b.StartHeightM, spread.StartHeightSpreadM),
            Change("start distance, m", a.StartDistanceM, b.StartDistanceM, DistanceSpreadM),
            Change("entry speed, m/s", a.EntrySpeedMs, b.EntrySpeedMs, spread.EntrySpeedSpreadMs),
            Change("peak slow-down, m/s²", a.PeakDecelMs2, b.PeakDecelMs2, spread.SlowdownSpreadMs2),
            Change("past the spot, m", a.OvershootM, b.OvershootM, spread.OvershootSpreadM),
            Change("short at the stop, m", a.StopShortM, b.StopShortM, spread.StopShortSpreadM),
            Change("off the line, m", Math.Abs(a.LineUpErrorM ?? double.NaN), Math.Abs(b.LineUpErrorM ?? double.NaN), spread.LateralSpreadM),
            Change("swing after the stop, m", a.SwingAfterStopM?.Value, b.SwingAfterStopM?.Value, SwingSpreadM),
            Change("swing at contact, m", a.SwingContactM?.Value, b.SwingContactM?.Value, SwingSpreadM),
            Change("sink at set-down, m/s", a.SinkLast15Ms, b.SinkLast15Ms, spread.SinkSpreadMs),
            Change("corrections", a.Corrections, b.Corrections, CorrectionsSpread),
        ];
        return new(earlier, later, TimeParts(earlier, later), Change("smoothness", a.Smoothness, b.Smoothness, SmoothnessSpread), [.. changes.OfType<MeasureChange>().OrderByDescending(c => c.InSpreads)]);
    }

    private static IReadOnlyList<TimePart> TimeParts(KeptLift a, KeptLift b)
    {
        (string Name, double? Before, double? After)[] parts =
        [
            ("approach to stop", a.StopTimeS - a.ApproachStartTimeS, b.StopTimeS - b.ApproachStartTimeS),
            ("stop to contact", a.DeliveryTimeS - a.StopTimeS, b.DeliveryTimeS - b.StopTimeS),
            ("contact to clear", a.ClearTimeS - a.DeliveryTimeS, b.ClearTimeS - b.DeliveryTimeS),
        ];
        return parts.All(p => p.Before is not null && p.After is not null) ? [.. parts.Select(p => new TimePart(p.Name, p.Before!.Value, p.After!.Value))] : [];
    }

    private static MeasureChange? Change(string name, double? before, double? after, double spread) =>
        before is { } a && after is { } b && double.IsFinite(a) && double.IsFinite(b) ? new(name, a, b, Math.Abs(b - a) / spread) : null;

    private static bool Alike(DayWork work, KeptLift a, KeptLift b) =>
        a.Family == b.Family && a.LineM == b.LineM && Pilot(work, a) == Pilot(work, b) && ApartM(a.Delivery!.Value, b.Delivery!.Value) <= SameSpotM;

    private static string? Pilot(DayWork work, KeptLift lift) => work.Flights.FirstOrDefault(f => f.Id == lift.FlightId)?.Pilot;

    /// <summary>Distance between two places along the ground, m.</summary>
    public static double ApartM(Place a, Place b) => new LocalFrame(a.LatitudeDeg, a.LongitudeDeg, 0).ToEnu(b.LatitudeDeg, b.LongitudeDeg, 0).Horizontal;
}
