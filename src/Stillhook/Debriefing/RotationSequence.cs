using Stillhook.Physics.Earth;

namespace Stillhook.Debriefing;

/// <summary>What a site is used for, as decided over the whole record.</summary>
internal enum SiteRole
{
    None,
    PickUp,
    Delivery,
}

/// <summary>Decides which visits are pick-ups and which are deliveries, for the whole record at once. docs/method/rotations.md, step 4.</summary>
/// <remarks>
/// The hook is either empty or loaded; a pick-up turns empty into loaded, a delivery the other way, any visit may be none of both. For given
/// roles of the sites the best labelling of all visits follows by dynamic programming over the two states; the roles are then improved one
/// site at a time from several starts. Scores are log-likelihood ratios against 'this visit is nothing'.
/// </remarks>
internal static class RotationSequence
{
    private const double ContactReward = 2;       // a visit that is a contact explains the descent and the climb
    private const double DepartureMiddleS = 13;   // design value from an earlier prototype: 9-12 s empty, 14-22 s loaded
    private const double DepartureSpreadS = 2.5;
    private const double FlightMs = 6, NoFlight = -4;   // a load is carried in flight
    private const int MostStarts = 8;

    public readonly record struct Leg(int PickUp, int Delivery);

    public static (List<Leg> Legs, SiteRole[] Roles, double Margin) Decide(List<SiteVisit> visits, int sites, IReadOnlyList<FoundSite> known, DebriefSettings settings)
    {
        if (sites == 0)
            return ([], [], 0);
        int[] count = new int[sites];
        foreach (SiteVisit v in visits)
        {
            if (v.Site >= 0)
                count[v.Site]++;
        }
        Enu[] place = Places(visits, sites);
        SiteRole[] pinned = Pinned(place, known, settings);
        if (pinned.Contains(SiteRole.PickUp) && pinned.Contains(SiteRole.Delivery))
        {
            (double fixedScore, List<Leg> fixedLegs) = Label(visits, pinned, count, place);
            return (fixedLegs, pinned, fixedScore);
        }
        int[] busiest = [.. Enumerable.Range(0, sites).OrderByDescending(s => count[s]).Take(MostStarts)];
        (double Score, List<Leg> Legs, SiteRole[] Roles) best = (0, [], new SiteRole[sites]);
        double opposite = 0;
        foreach (int hub in busiest)
        {
            foreach (SiteRole role in (SiteRole[])[SiteRole.PickUp, SiteRole.Delivery])
            {
                var roles = new SiteRole[sites];
                for (int s = 0; s < sites; s++)
                    roles[s] = pinned[s] != SiteRole.None ? pinned[s] : s == hub ? role : Other(role);
                (double score, List<Leg> legs) = Improve(visits, roles, pinned, count, place);
                if (score > best.Score)
                {
                    if (best.Roles.Length > 0 && best.Roles[hub] != roles[hub])
                        opposite = best.Score;
                    best = (score, legs, roles);
                }
                else if (best.Roles[hub] != roles[hub])
                    opposite = Math.Max(opposite, score);
            }
        }
        return (best.Legs, best.Roles, best.Score - opposite);
    }

    private static SiteRole Other(SiteRole role) => role == SiteRole.PickUp ? SiteRole.Delivery : SiteRole.PickUp;

    private static Enu[] Places(List<SiteVisit> visits, int sites)
    {
        var place = new Enu[sites];
        for (int s = 0; s < sites; s++)
        {
            double[] e = [.. visits.Where(v => v.Site == s).Select(v => v.Place.East)];
            double[] n = [.. visits.Where(v => v.Site == s).Select(v => v.Place.North)];
            double[] u = [.. visits.Where(v => v.Site == s).Select(v => v.Place.Up)];
            place[s] = new(SiteVisitFinder.Median(e), SiteVisitFinder.Median(n), SiteVisitFinder.Median(u));
        }
        return place;
    }

    private static SiteRole[] Pinned(Enu[] place, IReadOnlyList<FoundSite> known, DebriefSettings settings)
    {
        var pinned = new SiteRole[place.Length];
        for (int s = 0; s < place.Length; s++)
        {
            FoundSite? nearest = known.Where(k => k.Use != SiteUse.Base).MinBy(k => (k.PositionEnu - place[s]).Horizontal);
            if (nearest is not null && (nearest.PositionEnu - place[s]).Horizontal < settings.SiteRadiusM)
                pinned[s] = nearest.Use == SiteUse.PickUp ? SiteRole.PickUp : SiteRole.Delivery;
        }
        return pinned;
    }

    /// <summary>Changes one site's role at a time as long as the score rises.</summary>
    private static (double Score, List<Leg> Legs) Improve(List<SiteVisit> visits, SiteRole[] roles, SiteRole[] pinned, int[] count, Enu[] place)
    {
        (double score, List<Leg> legs) = Label(visits, roles, count, place);
        int[] several = [.. Enumerable.Range(0, roles.Length).Where(s => count[s] >= 2 && pinned[s] == SiteRole.None)];
        for (bool better = true; better;)
        {
            better = false;
            foreach (int s in several)
            {
                SiteRole before = roles[s];
                foreach (SiteRole role in (SiteRole[])[SiteRole.PickUp, SiteRole.Delivery, SiteRole.None])
                {
                    if (role == before)
                        continue;
                    roles[s] = role;
                    (double changed, List<Leg> changedLegs) = Label(visits, roles, count, place);
                    if (changed > score + 1e-9)
                        (score, legs, before, better) = (changed, changedLegs, role, true);
                    else
                        roles[s] = before;
                }
            }
        }
        return (score, legs);
    }

    /// <summary>Best labelling for given roles: two states (empty, loaded), Viterbi.</summary>
    private static (double Score, List<Leg> Legs) Label(List<SiteVisit> visits, SiteRole[] roles, int[] count, Enu[] place)
    {
        int n = visits.Count;
        double usual = UsualDistance(roles, count, place);
        int mostDelivery = Most(roles, count, SiteRole.Delivery), mostPickUp = Most(roles, count, SiteRole.PickUp);
        double empty = 0, loaded = double.NegativeInfinity;
        var cameEmpty = new bool[n];   // at visit i the best way to 'empty' was a delivery here
        var cameLoaded = new bool[n];
        for (int i = 0; i < n; i++)
        {
            SiteVisit v = visits[i];
            (double nextEmpty, double nextLoaded) = (empty, loaded);
            if (v.Site >= 0 && roles[v.Site] == SiteRole.PickUp)
            {
                double s = empty + Contact(v) + (v.LeftToMs > FlightMs ? 0 : NoFlight) + Departure(v) + Popular(count[v.Site], mostPickUp);
                if (s >= nextLoaded)
                    (nextLoaded, cameLoaded[i]) = (s, true);
            }
            if (v.Site >= 0 && roles[v.Site] == SiteRole.Delivery)
            {
                double s = loaded + Contact(v) + (v.ArrivedFromMs > FlightMs ? 0 : NoFlight) - Departure(v) + Popular(count[v.Site], mostDelivery) + Far(place, roles, v, usual);
                if (s >= nextEmpty)
                    (nextEmpty, cameEmpty[i]) = (s, true);
            }
            (empty, loaded) = (nextEmpty, nextLoaded);
        }
        // A load still on the hook at the end of the record is no rotation.
        return (empty, Legs(n, cameEmpty, cameLoaded));
    }

    private static List<Leg> Legs(int n, bool[] cameEmpty, bool[] cameLoaded)
    {
        var legs = new List<Leg>();
        bool isLoaded = false;
        int delivery = -1;
        for (int i = n - 1; i >= 0; i--)
        {
            if (!isLoaded && cameEmpty[i])
                (delivery, isLoaded) = (i, true);
            else if (isLoaded && cameLoaded[i])
            {
                legs.Add(new(i, delivery));
                isLoaded = false;
            }
        }
        legs.Reverse();
        return legs;
    }

    /// <summary>How well a visit looks like a contact: not far over the site's usual lowest height.</summary>
    private static double Contact(SiteVisit v)
    {
        double over = Math.Max(0, v.OverUsualM - 2) / 3;
        return ContactReward - Math.Min(8, over * over) + 0.1 * Math.Min(v.DwellS, 8);
    }

    /// <summary>Positive when the departure was slow as with a load.</summary>
    private static double Departure(SiteVisit v) =>
        double.IsPositiveInfinity(v.DepartureS) ? 0 : Math.Clamp((v.DepartureS - DepartureMiddleS) / DepartureSpreadS, -2.5, 2.5) * 0.7;

    private static double Popular(int count, int most) => 0.7 * Math.Log((count + 1.0) / (most + 1.0));

    private static int Most(SiteRole[] roles, int[] count, SiteRole role)
    {
        int most = 0;
        for (int s = 0; s < roles.Length; s++)
        {
            if (roles[s] == role)
                most = Math.Max(most, count[s]);
        }
        return most;
    }

    /// <summary>A stop much nearer to the pick-up than the deliveries usually are is a wait.</summary>
    private static double Far(Enu[] place, SiteRole[] roles, SiteVisit v, double usual)
    {
        double nearest = double.PositiveInfinity;
        for (int s = 0; s < place.Length; s++)
        {
            if (roles[s] == SiteRole.PickUp)
                nearest = Math.Min(nearest, (place[s] - v.Place).Horizontal);
        }
        return nearest < 0.35 * usual ? -3 : 0;
    }

    private static double UsualDistance(SiteRole[] roles, int[] count, Enu[] place)
    {
        var distances = new List<double>();
        for (int d = 0; d < roles.Length; d++)
        {
            if (roles[d] != SiteRole.Delivery)
                continue;
            double nearest = double.PositiveInfinity;
            for (int p = 0; p < roles.Length; p++)
            {
                if (roles[p] == SiteRole.PickUp)
                    nearest = Math.Min(nearest, (place[p] - place[d]).Horizontal);
            }
            for (int k = 0; k < count[d]; k++)
                distances.Add(nearest);
        }
        return distances.Count == 0 ? 0 : SiteVisitFinder.Median([.. distances]);
    }
}
