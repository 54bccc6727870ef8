using System.Globalization;
using Stillhook.Physics.Earth;

namespace Stillhook.Reporting;

/// <summary>How strongly somebody is asked to think of a report.</summary>
public enum PromptKind
{
    /// <summary>Of a kind that has to be reported in many places.</summary>
    LikelyReportable,

    /// <summary>Only the crew knows whether there was anything to report.</summary>
    AskTheCrew,
}

/// <summary>Something of the day that somebody may have to report: facts, no cause, nobody to blame.</summary>
/// <param name="Kind">How strongly.</param>
/// <param name="What">What it was, in the words of the mark or of the record.</param>
/// <param name="AtS">When, s since 1970 UTC.</param>
/// <param name="Where">The lift's place of delivery, or of pick-up when nearer in time; null when no lift was near.</param>
/// <param name="AwareAtS">When somebody knew of it: the time of the mark; null for what only the record shows.</param>
/// <param name="ReportByS">End of the time to report, counted from then; null when that is not known.</param>
/// <param name="Facts">Time, place and values, each a sentence.</param>
/// <param name="Words">What to do about it.</param>
public sealed record OccurrencePrompt(PromptKind Kind, string What, double AtS, Place? Where, double? AwareAtS, double? ReportByS, IReadOnlyList<string> Facts, string Words)
{
    /// <summary>Time to report from becoming aware, s: 72 h [EU-376/2014].</summary>
    public const double UsualReportWithinS = 72 * 3600;

    private const double NearLiftS = 120, NearExceedanceS = 60, EarlyReleaseS = 2, SameEventS = 300;

    /// <summary>The prompts of a day in order of time: events somebody marked, hooks that opened before the load touched, approaches given up, recorded exceedances.</summary>
    /// <param name="work">The day.</param>
    /// <param name="reportWithinS">Time to report, s, above 0: the local rule.</param>
    public static IReadOnlyList<OccurrencePrompt> Of(DayWork work, double reportWithinS = UsualReportWithinS)
    {
        ArgumentNullException.ThrowIfNull(work);
        if (!(reportWithinS > 0 && double.IsFinite(reportWithinS)))
            throw new ArgumentOutOfRangeException(nameof(reportWithinS), reportWithinS, "The time to report is above 0 s.");
        IReadOnlyList<KeptLift> lifts = CountedLift.Of(work.Lifts);
        IEnumerable<OccurrencePrompt> marked = work.Events.Where(e => double.IsFinite(e.AtS)).Select(e => Marked(work, e, lifts, reportWithinS));
        IEnumerable<OccurrencePrompt> recorded = lifts.Where(l => OpenedEarly(l) && !work.Events.Any(e => e.Kind is EventKind.UnplannedRelease or EventKind.Jettison && Math.Abs(e.AtS - l.ReleaseTimeS!.Value) <= SameEventS)).Select(l => Early(work, l, reportWithinS));
        IEnumerable<OccurrencePrompt> rejects = lifts.Where(l => l.GoArounds > 0 && CountedLift.TimeS(l) is not null).Select(l => GivenUp(work, l));
        IEnumerable<OccurrencePrompt> beyond = work.Flights.SelectMany(f => f.Exceedances).Select(e => Beyond(work, e, lifts));
        return [.. marked.Concat(recorded).Concat(rejects).Concat(beyond).OrderBy(p => p.AtS).ThenBy(p => p.Kind).ThenBy(p => p.What, StringComparer.Ordinal)];
    }

    /// <summary>An event in the crew's words.</summary>
    public static string EventWords(EventKind kind) => kind switch
    {
        EventKind.UnplannedRelease => "Load released or lost without being meant to",
        EventKind.Jettison => "Load dropped on purpose",
        EventKind.Snag => "Load, line or hook caught",
        EventKind.PerformanceShortfall => "Aircraft did less than was expected of it",
        EventKind.Injury => "Somebody hurt",
        EventKind.TimeMark => "Moment marked, not named yet",
        _ => "Something hit or broken",
    };

    private static bool OpenedEarly(KeptLift l) => l.ReleaseTimeS is { } r && l.DeliveryTimeS is { } d && r < d - EarlyReleaseS;

    private static OccurrencePrompt Marked(DayWork work, EventMark mark, IReadOnlyList<KeptLift> lifts, double withinS)
    {
        KeptLift? lift = Near(lifts, mark.AtS);
        List<string> facts = FactsOf(work, mark.AtS, lift);
        if (!string.IsNullOrWhiteSpace(mark.Note))
            facts.Add($"Noted: {mark.Note}");
        facts.AddRange(work.Flights.SelectMany(f => f.Exceedances).Where(e => Math.Abs(e.AtS - mark.AtS) <= NearExceedanceS).Select(e => WriteUp.Sentence(work, e)));
        if (mark.Kind == EventKind.TimeMark)
            return new(PromptKind.AskTheCrew, EventWords(mark.Kind), mark.AtS, PlaceOf(lift, mark.AtS), mark.AtS, null, facts, "Somebody marked this moment. Name the event on the Day page, or withdraw the mark.");
        double by = mark.AtS + withinS;
        return new(PromptKind.LikelyReportable, EventWords(mark.Kind), mark.AtS, PlaceOf(lift, mark.AtS), mark.AtS, by, facts,
            $"{Likely(withinS)} The clock ends at {DayText.DateAndClock(work, by)} if somebody knew of it when it was marked. The local authority decides.");
    }

    private static OccurrencePrompt Early(DayWork work, KeptLift lift, double withinS)
    {
        double at = lift.ReleaseTimeS!.Value;
        List<string> facts = FactsOf(work, at, lift);
        facts.Add(string.Create(CultureInfo.InvariantCulture, $"By the record the hook opened {lift.DeliveryTimeS!.Value - at:0.0} s before the load touched; times of a recorder may be off."));
        return new(PromptKind.LikelyReportable, "Hook opened before the load touched, by the record", at, PlaceOf(lift, at), null, null, facts,
            $"If it was not meant: {Likely(withinS)} The clock runs from when somebody becomes aware. The local authority decides.");
    }

    private static OccurrencePrompt GivenUp(DayWork work, KeptLift lift)
    {
        double at = CountedLift.TimeS(lift)!.Value;
        return new(PromptKind.AskTheCrew, lift.GoArounds == 1 ? "One approach given up before this delivery" : string.Create(CultureInfo.InvariantCulture, $"{lift.GoArounds} approaches given up before this delivery"), at, PlaceOf(lift, at), null, null,
            FactsOf(work, at, lift), "Giving up an approach is what it is for. If something out of the ordinary led to it, mark the event.");
    }

    private static OccurrencePrompt Beyond(DayWork work, Exceedance e, IReadOnlyList<KeptLift> lifts)
    {
        KeptLift? lift = Near(lifts, e.AtS);
        return new(PromptKind.AskTheCrew, "Recorded value beyond an entered limit", e.AtS, PlaceOf(lift, e.AtS), null, null, [.. FactsOf(work, e.AtS, lift), WriteUp.Sentence(work, e)],
            $"{WriteUp.Words} Ask the operator whether it has to be reported too.");
    }

    private static string Likely(double withinS)
    {
        string hours = string.Create(CultureInfo.InvariantCulture, $"{withinS / 3600:0.##} hours");
        return withinS == UsualReportWithinS ? $"Likely reportable; EU 376/2014: report within {hours} of becoming aware." : $"Likely reportable; the rule entered: report within {hours} of becoming aware.";
    }

    private static List<string> FactsOf(DayWork work, double atS, KeptLift? lift)
    {
        List<string> facts = [$"Time {DayText.DateAndClock(work, atS)} ({DayText.Clock(work, atS)})."];
        if (lift is null)
            return facts;
        string number = lift.LoadNumber is { } n ? $", load {n}" : "", kind = lift.Family is { } f ? $", {f}" : "";
        string mass = lift.LoadKg is { } kg ? string.Create(CultureInfo.InvariantCulture, $", {kg:0} kg {(lift.LoadMeasured ? "by load cell" : "by the list")}") : "";
        facts.Add(string.Create(CultureInfo.InvariantCulture, $"Lift {lift.Number}{number}{kind}{mass}{(lift.LineM is { } line ? FormattableString.Invariant($", line {line:0.#} m") : "")}."));
        if (PlaceOf(lift, atS) is { } place)
            facts.Add(string.Create(CultureInfo.InvariantCulture, $"Place {place.LatitudeDeg:0.00000}, {place.LongitudeDeg:0.00000}{(AtPickUp(lift, atS) ? lift.PickUpSite : lift.DeliverySite) switch { { } site => $" ({site})", null => "" }}, where the load was {(AtPickUp(lift, atS) ? "picked up" : "set down")}."));
        return facts;
    }

    private static KeptLift? Near(IReadOnlyList<KeptLift> lifts, double atS)
    {
        double From(KeptLift l) => l.PickUpTimeS ?? CountedLift.TimeS(l) ?? double.PositiveInfinity;
        double To(KeptLift l) => l.ClearTimeS ?? CountedLift.TimeS(l) ?? double.NegativeInfinity;
        double Off(KeptLift l) => Math.Max(0, Math.Max(From(l) - atS, atS - To(l)));
        return lifts.Where(l => Off(l) <= NearLiftS).MinBy(Off);
    }

    private static bool AtPickUp(KeptLift l, double atS) => l.PickUp is not null && (l.Delivery is null || l is { PickUpTimeS: { } p, DeliveryTimeS: { } d } && Math.Abs(atS - p) < Math.Abs(atS - d));

    private static Place? PlaceOf(KeptLift? lift, double atS) => lift is null ? null : AtPickUp(lift, atS) ? lift.PickUp : lift.Delivery;
}
