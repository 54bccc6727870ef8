using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Reporting;

/// <summary>Finds when the aircraft was in the air, from the motion of its hook.</summary>
/// <remarks>
/// On the ground: at rest (under 0.5 m/s across and 0.3 m/s up or down) for 20 s or more (5 s at either end of the record), lower over the nearest pick-up or delivery than half of line and load. Where neither is within 300 m, or the
/// record has no heights: hardly moving at all (mean under 0.15 m/s) for 60 s or more. A gap in the record is on the ground when either side of it is. What went nowhere (30 m across, or half of
/// line and load up) was no flight. Own choices; docs/method/day.md tells how well it does.
/// </remarks>
public static class AirborneFinder
{
    private const double RestMs = 0.5, RestUpMs = 0.3, LeastRestS = 20, LeastRestAtAnEndS = 5, BridgeS = 4;
    private const double NearM = 300, LeastHeightM = 3;
    private const double StillMs = 0.15, LeastStillS = 60;
    private const double LongGapS = 120, LeastFlightS = 15, LeastWayM = 30;

    /// <summary>Stretches in the air, s since 1970 UTC; empty without a track.</summary>
    public static IReadOnlyList<Stretch> Find(Debrief debrief)
    {
        ArgumentNullException.ThrowIfNull(debrief);
        if (debrief.Track is not { Count: > 1 } track)
            return [];
        Enu[] places = [.. debrief.Rotations.SelectMany(r => new[] { r.PickupEnu, r.DeliveryEnu }).OfType<Enu>()];
        double lowM = Math.Max(LeastHeightM, debrief.Setup.ContactLengthM / 2);
        List<Stretch> ground = [.. Rests(track).Where(r => OnGround(track, r, places, lowM)).Select(r => new Stretch(track.TimeS[r.From], track.TimeS[r.To]))];
        ground.AddRange(Gaps(track, ground));
        Stretch whole = new(track.TimeS[0], track.TimeS[^1]);
        return [.. StretchSet.Without([whole], ground).Where(s => s.LengthS >= LeastFlightS && WentSomewhere(track, s, lowM))];
    }

    /// <summary>Receivers wander on the ground too: a flight goes somewhere or up.</summary>
    private static bool WentSomewhere(Track track, Stretch flight, double lowM)
    {
        int first = FirstAt(track, flight.FromS), last = Math.Min(track.Count - 1, FirstAt(track, flight.ToS));
        Enu from = new(track.East[first], track.North[first], track.Up[first]);
        return Enumerable.Range(first, last - first + 1).Any(i => (new Enu(track.East[i], track.North[i], 0) - from).Horizontal > LeastWayM || track.HasHeight && track.Up[i] - from.Up > lowM);
    }

    private static int FirstAt(Track track, double timeS) => Array.BinarySearch(track.TimeS, timeS) is >= 0 and int at ? at : ~Array.BinarySearch(track.TimeS, timeS);

    private static List<(int From, int To)> Rests(Track track)
    {
        List<(int From, int To)> rests = [];
        for (int i = 0; i < track.Count; i++)
        {
            if (!(SpeedMs(track, i) < RestMs && (!track.HasHeight || Math.Abs(track.VelocityUp[i]) < RestUpMs)))
                continue;
            if (rests.Count > 0 && track.TimeS[i] - track.TimeS[rests[^1].To] <= BridgeS)
                rests[^1] = (rests[^1].From, i);
            else
                rests.Add((i, i));
        }
        return rests;
    }

    private static bool OnGround(Track track, (int From, int To) rest, Enu[] places, double lowM)
    {
        double lengthS = track.TimeS[rest.To] - track.TimeS[rest.From];
        bool atAnEnd = rest.From == 0 || rest.To == track.Count - 1;
        if (lengthS < (atAnEnd ? LeastRestAtAnEndS : LeastRestS))
            return false;
        int middle = (rest.From + rest.To) / 2;
        Enu here = new(track.East[middle], track.North[middle], Median(track.Up[rest.From..(rest.To + 1)]));
        Enu[] near = track.HasHeight ? [.. places.Where(p => (p - here).Horizontal <= NearM)] : [];
        if (near.Length > 0)
            return here.Up - near.MinBy(p => (p - here).Horizontal).Up < lowM;
        return lengthS >= LeastStillS && Enumerable.Range(rest.From, rest.To - rest.From + 1).Average(i => SpeedMs(track, i)) < StillMs;
    }

    private static IEnumerable<Stretch> Gaps(Track track, List<Stretch> ground)
    {
        foreach (int k in track.StretchStarts.Where(k => k > 0))
        {
            Stretch gap = new(track.TimeS[k - 1], track.TimeS[k]);
            if (gap.LengthS >= LongGapS && ground.Any(g => g.ToS == gap.FromS || g.FromS == gap.ToS))
                yield return gap;
        }
    }

    private static double SpeedMs(Track track, int i) => Math.Sqrt(track.VelocityEast[i] * track.VelocityEast[i] + track.VelocityNorth[i] * track.VelocityNorth[i]);

    private static double Median(double[] values)
    {
        Array.Sort(values);
        return values[values.Length / 2];
    }
}
