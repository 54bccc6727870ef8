using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Planning;

namespace Stillhook.Briefing;

/// <summary>Makes the receivers' sheets: one for each delivery site.</summary>
internal static class ReceiverSheets
{
    /// <summary>A place less than this to either side of a way's direction is taken to lie under it, degrees: an eighth of the circle each side, our choice, no source.</summary>
    private const double UnderDeg = 45;

    public static IReadOnlyList<ReceiverSheet> Of(LiftPlan plan, IReadOnlyList<BriefedApproach> approaches) =>
        [.. plan.Request.Sites.Where(s => s.Use == SiteUse.Delivery && plan.Loads.Any(l => GoesTo(plan, l, s))).Select(s => Sheet(plan, s, [.. approaches.Where(a => a.Site == s.Name)]))];

    private static bool GoesTo(LiftPlan plan, LoadPlan load, Site site) => plan.Request.SiteOf(load.OnHook.Load.Delivery, SiteUse.Delivery) == site;

    private static ReceiverSheet Sheet(LiftPlan plan, Site site, BriefedApproach[] approaches)
    {
        LoadPlan[] loads = [.. plan.Loads.Where(l => GoesTo(plan, l, site) && l.Lift is not null).OrderBy(l => l.Lift!.Position)];
        (double M, bool IsDefault)? keep = StandOffM(approaches);
        double? standOff = keep?.M;
        StandingSpot[] people = [.. People(site, standOff)];
        ReceiverWay[] ways = [.. approaches.Where(a => CockpitCards.Blocked(a.Plan) is null).Select(Way).DistinctBy(w => (w.FromDeg, w.OutDeg))];
        double? escape = site.CrewClearSide?.Degrees;
        return new()
        {
            Site = site.Name,
            Loads = [.. loads.Select((l, i) => new ReceiverRow(i + 1, l.OnHook.Load.Number, l.OnHook.Load.Name, l.OnHook.Load.Mass.Kilograms, l.OnHook.Load.HowKnown, l.OnHook.Load.Note, l.OnHook.Load.CrewNeeded, l.Lift!.ProvingLift))],
            People = people,
            StandOffM = standOff,
            StandOffIsDefault = keep is { IsDefault: true },
            EscapeSideDeg = escape,
            Ways = ways,
            UnderAWay = [.. ways.SelectMany(w => Under(w, escape, people))],
            Sketch = SiteSketch.Draw(site, people, standOff, escape, ways),
        };
    }

    /// <summary>How far the load comes and swings in 95 of 100 simulated flights, and never less than the distance kept from people; and whether that distance, set by nobody, decides.</summary>
    private static (double M, bool IsDefault)? StandOffM(BriefedApproach[] approaches)
    {
        ApproachPlan[] known = [.. approaches.Where(a => a.Plan is { IsOffered: true, Robustness: not null }).Select(a => a.Plan)];
        if (known.Length == 0)
            return null;
        double comes = known.Max(p => p.Robustness!.MissM.NinetyFive + p.Robustness.SwingM.NinetyFive);
        Chosen<double> kept = known[0].Situation!.Rules.PeopleClearanceM;
        return (Math.Ceiling(Math.Max(kept.Value, comes)), kept.Value >= comes && kept.From == InputFrom.Default);
    }

    private static IEnumerable<StandingSpot> People(Site site, double? standOffM)
    {
        LocalFrame frame = new(site.Latitude.Degrees, site.Longitude.Degrees, 0);
        foreach ((Spot spot, int i) in site.People.Select((s, i) => (s, i)))
        {
            Enu place = frame.ToEnu(spot.Latitude.Degrees, spot.Longitude.Degrees, 0);
            yield return new((i + 1).ToString(System.Globalization.CultureInfo.InvariantCulture), spot.Name ?? "person", place.Horizontal, Bearing(place), place.Horizontal < standOffM);
        }
    }

    /// <summary>The escape side and people's places within <see cref="UnderDeg"/> of the course beyond the spot, or of the way out.</summary>
    private static IEnumerable<UnderAWay> Under(ReceiverWay way, double? escapeDeg, StandingSpot[] people)
    {
        foreach ((double? deg, StandingSpot? person) in people.Select(p => ((double?)p.BearingDeg, (StandingSpot?)p)).Prepend((escapeDeg, null)))
        {
            if (deg is not { } place)
                continue;
            if (Apart(place, way.FromDeg + 180) < UnderDeg)
                yield return new(person, way, WhenItRejects: false);
            if (way.OutDeg is { } goes && Apart(place, goes) < UnderDeg)
                yield return new(person, way, WhenItRejects: true);
        }
    }

    private static double Apart(double aDeg, double bDeg) => Math.Abs(Math.IEEERemainder(aDeg - bDeg, 360));

    /// <summary>True bearing of a place from the spot, degrees.</summary>
    internal static double Bearing(Enu place) => (double.RadiansToDegrees(Math.Atan2(place.East, place.North)) + 360) % 360;

    private static ReceiverWay Way(BriefedApproach a) =>
        new(a.Reason, (a.Plan.CourseDeg + 180) % 360, a.Plan.Reject is { } r ? (a.Plan.CourseDeg + r.TurnDeg + 360) % 360 : null, a.Plan.Situation!.Wind is { } w && w.Speed.MetersPerSecond > 0.25 ? w.FromDeg : null);
}
