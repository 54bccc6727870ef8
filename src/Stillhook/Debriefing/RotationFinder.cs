using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Debriefing;

/// <summary>What was found in a track: rotations to be measured, the sites, and why there are none.</summary>
internal sealed record FoundRotations(IReadOnlyList<RotationDraft> Drafts, IReadOnlyList<FoundSite> Sites, string? NoneBecause);

/// <summary>Finds the rotations of a track. The whole method: docs/method/rotations.md.</summary>
internal static class RotationFinder
{
    private const double CoarseStepS = 0.5;
    private const double LeastLegM = 60;

    /// <summary>Longest record taken as one working day: the even grid would fill the memory over months.</summary>
    private const double LongestDayS = 36 * 3600;
    private const double LeastHeightWorkM = 5;

    /// <summary>Labellings whose score is this much over the one with pick-ups and deliveries exchanged are sure.</summary>
    private const double SureMargin = 1.5;

    public static FoundRotations Find(Track track, FlightRecord record, QualityVerdict quality, LiftSetup setup, DebriefSettings settings)
    {
        IReadOnlyList<FoundSite> known = Known(setup, track);
        if (!quality.CanJudgeRotations)
            return new([], known, "The fixes are too few or too far apart to tell rotations.");
        if (track.Count < 10 || track.TimeS[^1] - track.TimeS[0] < 60)
            return new([], known, "The record is too short to hold a rotation: at least a minute of fixes is needed.");
        if (track.TimeS[^1] - track.TimeS[0] > LongestDayS)
            return new([], known, "The record spans more than 36 hours: give one day's lifting at a time.");

        RotationPath path = RotationPath.Sample(track, track.TimeS[0], track.TimeS[^1], CoarseStepS);
        List<SiteVisit> visits = SiteVisitFinder.Find(path, track.HasHeight, LastOpened(record), settings);
        if (record.Find(ChannelKind.LoadKg) is { } load && RotationLoadCell.Find(load, track) is { Count: > 0 } weighed)
            return new([.. weighed.Select(d => WithRelease(d, record, track))], Sites(weighed, known, track, settings), null);

        int sites = SiteVisitFinder.GroupByPlace(visits, path, track.HasHeight, setup.ContactLengthM, settings);
        (List<RotationSequence.Leg> legs, _, double margin) = RotationSequence.Decide(visits, sites, known, settings);
        legs.RemoveAll(l => (visits[l.PickUp].Place - visits[l.Delivery].Place).Horizontal < LeastLegM);
        string? none = Refusal(path, visits, legs);
        if (none is not null)
            return new([], known, none);

        Confidence confidence = track.HasHeight && legs.Count > 1 && margin > SureMargin ? Confidence.Medium : Confidence.Low;
        List<RotationDraft> drafts = [.. legs.Select(l => WithRelease(Draft(track, visits[l.PickUp], visits[l.Delivery], confidence, settings), record, track))];
        (drafts, none) = RotationEvidence.Weigh(drafts, track, quality, known.Count > 0, settings);
        return new(drafts, Sites(drafts, known, track, settings), none);
    }

    private static IReadOnlyList<FoundSite> Known(LiftSetup setup, Track track) =>
        [.. setup.Sites.Select(s => new FoundSite(s.Name, s.Use, track.Frame.ToEnu(s.LatitudeDeg, s.LongitudeDeg, track.Frame.HeightM), 0, Known: true))];

    private static RotationDraft Draft(Track track, SiteVisit pickUp, SiteVisit delivery, Confidence confidence, DebriefSettings settings)
    {
        if (!track.HasHeight)
        {
            return new()
            {
                LiftOffS = pickUp.SlowToS, ContactS = (delivery.SlowFromS + delivery.SlowToS) / 2, ClearS = delivery.SlowToS,
                LiftOffErrorS = pickUp.DwellS / 4, ContactErrorS = Math.Max(1, delivery.DwellS / 4), Confidence = Confidence.Low,
            };
        }
        (double liftOff, double liftOffError) = ContactFinder.LiftOff(track, pickUp, settings.LiftOffSlackM);
        (double contact, double contactError, double clear) = ContactFinder.Contact(track, delivery, settings.ContactSlackM);
        return new()
        {
            LiftOffS = liftOff, ContactS = contact, ClearS = clear, LiftOffErrorS = liftOffError, ContactErrorS = contactError, Confidence = confidence,
        };
    }

    /// <summary>Adds the recorded hook opening that belongs to the delivery, and the climb away when it isn't known yet.</summary>
    private static RotationDraft WithRelease(RotationDraft draft, FlightRecord record, Track track)
    {
        double clear = draft.ClearS ?? ContactFinder.Clear(track, draft.ContactS);
        double? release = null;
        if (record.Find(ChannelKind.HookOpen) is { } hook)
        {
            double[] rises = [.. Rises(hook).Where(t => t > draft.ContactS - 15 && t < draft.ContactS + 90)];
            if (rises.Length > 0)
                release = rises.MinBy(t => Math.Abs(t - clear));
        }
        return draft with { ClearS = Math.Max(clear, release ?? clear), ReleaseS = release, Confidence = release is null ? draft.Confidence : Confidence.High };
    }

    private static double LastOpened(FlightRecord record) =>
        record.Find(ChannelKind.HookOpen) is { } hook ? Rises(hook).DefaultIfEmpty(double.NegativeInfinity).Max() : double.NegativeInfinity;

    private static IEnumerable<double> Rises(Channel hook)
    {
        for (int i = 1; i < hook.TimeS.Length; i++)
        {
            if (hook.Value[i] >= 0.5 && hook.Value[i - 1] < 0.5 && double.IsFinite(hook.TimeS[i]))
                yield return hook.TimeS[i];
        }
    }

    private static string? Refusal(RotationPath path, List<SiteVisit> visits, List<RotationSequence.Leg> legs)
    {
        if (legs.Count > 0)
            return null;
        if (path.Speed.Max() < 6)
            return "Nothing here moves like an aircraft with a load: the ground speed never passes 6 m/s (12 kt).";
        if (visits.Count == 0)
        {
            return path.Height.Max() - path.Height.Min() < LeastHeightWorkM
                ? "No place where the hook came down slowly to a lowest point and climbed away: the height hardly changes."
                : "No place where the hook came down slowly to a lowest point and climbed away from it in the hover.";
        }
        return visits.Count == 1
            ? "Only one place where the hook came down slowly and climbed away: a rotation needs a pick-up and a delivery."
            : "The slow low points do not make pick-ups followed by deliveries at another place.";
    }

    private static List<FoundSite> Sites(IReadOnlyList<RotationDraft> drafts, IReadOnlyList<FoundSite> known, Track track, DebriefSettings settings)
    {
        var sites = known.ToList();
        foreach ((SiteUse use, string name, Func<RotationDraft, double> when) in new (SiteUse, string, Func<RotationDraft, double>)[]
            { (SiteUse.PickUp, "Pick-up", d => d.LiftOffS), (SiteUse.Delivery, "Delivery", d => d.ContactS) })
        {
            int found = 0;
            foreach (Enu place in drafts.Select(d => track.At(when(d)).Position))
            {
                int at = sites.FindIndex(s => s.Use == use && (s.PositionEnu - place).Horizontal < settings.SiteRadiusM);
                if (at < 0)
                    sites.Add(new($"{name} {++found}", use, place, 1, Known: false));
                else
                    sites[at] = sites[at] with { Visits = sites[at].Visits + 1, PositionEnu = sites[at].Known ? sites[at].PositionEnu : Mean(sites[at], place) };
            }
        }
        return sites;
    }

    private static Enu Mean(FoundSite site, Enu place) => site.PositionEnu + 1.0 / (site.Visits + 1) * (place - site.PositionEnu);
}
