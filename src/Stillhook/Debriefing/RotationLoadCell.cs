using Stillhook.Recording;

namespace Stillhook.Debriefing;

/// <summary>Rotations told by the load on the hook. docs/method/rotations.md, step 5.</summary>
internal static class RotationLoadCell
{
    private const double LeastCarriedS = 12;
    private const double BounceS = 8;        // shorter times without load belong to the same carry when the hook did not move away
    private const double LeastLoadKg = 30;
    private const double LiftingS = 25, LiftingM = 15; // how long and how far a load is pulled on and set back before it is lifted for good; design values

    public static List<RotationDraft> Find(Channel load, Track track)
    {
        (double[] time, double[] kg) = Clean(load);
        var drafts = new List<RotationDraft>();
        if (time.Length < 10)
            return drafts;
        double bare = Quantile(kg, 0.1), carried = Quantile(kg, 0.98) - bare;
        if (carried < LeastLoadKg)
            return drafts;
        foreach ((int from, int to, int tries) in Carries(time, kg, bare, track))
        {
            double own = SiteVisitFinder.Median(kg[from..(to + 1)]) - bare;
            double half = bare + own / 2;
            double liftOff = LastRise(time, kg, from, to, half, track), contact = CrossForward(time, kg, to, half);
            if (contact - liftOff < LeastCarriedS)
                continue;
            double moved = (track.At(contact).Position - track.At(liftOff).Position).Horizontal;
            if (moved < 30)
                continue;
            double step = (time[^1] - time[0]) / (time.Length - 1);
            drafts.Add(new()
            {
                LiftOffS = liftOff, ContactS = contact, Tries = tries,
                LiftOffErrorS = Math.Max(0.1, step / 2), ContactErrorS = Math.Max(0.1, step / 2),
                Confidence = Confidence.High,
            });
        }
        return drafts;
    }

    private static (double[] Time, double[] Kg) Clean(Channel load)
    {
        var order = Enumerable.Range(0, load.TimeS.Length).Where(i => double.IsFinite(load.TimeS[i]) && double.IsFinite(load.Value[i])).ToArray();
        double[] time = Array.ConvertAll(order, i => load.TimeS[i]), kg = Array.ConvertAll(order, i => load.Value[i]);
        Array.Sort(time, kg);
        return (time, kg);
    }

    private static List<(int From, int To, int Tries)> Carries(double[] time, double[] kg, double bare, Track track)
    {
        double on = bare + Math.Max(LeastLoadKg, 0.25 * SiteVisitFinder.Median(Array.FindAll(kg, k => k > bare + LeastLoadKg)) - 0.25 * bare);
        var carries = new List<(int From, int To, int Tries)>();
        int from = -1;
        for (int i = 0; i <= kg.Length; i++)
        {
            bool loaded = i < kg.Length && kg[i] > on;
            if (loaded && from < 0)
                from = i;
            if (loaded || from < 0)
                continue;
            bool again = carries.Count > 0 && time[from] - time[carries[^1].To] < BounceS
                && (track.At(time[from]).Position - track.At(time[carries[^1].To]).Position).Horizontal < 15;
            if (again)
            {
                bool nearEnd = time[from] - time[carries[^1].From] > LeastCarriedS;
                carries[^1] = (carries[^1].From, i - 1, carries[^1].Tries + (nearEnd && time[from] - time[carries[^1].To] > 1 ? 1 : 0));
            }
            else
                carries.Add((from, i - 1, 1));
            from = -1;
        }
        return carries;
    }

    /// <summary>
    /// Last time near the pick-up that the load rose through half of what was carried: a load pulled on or lifted and set back is lifted for good later.
    /// </summary>
    private static double LastRise(double[] time, double[] kg, int from, int to, double half, Track track)
    {
        double? rise = null;
        Physics.Earth.Enu place = track.At(time[from]).Position;
        for (int k = Math.Max(1, from); k <= to && time[k] < time[from] + LiftingS; k++)
        {
            bool rose = kg[k - 1] < half && kg[k] >= half;
            if (rose && (rise is null || (track.At(time[k]).Position - place).Horizontal < LiftingM))
                rise = Interpolate(time, kg, k - 1, half);
        }
        return rise ?? time[from];
    }

    private static double CrossForward(double[] time, double[] kg, int i, double half)
    {
        int k = Math.Min(i, kg.Length - 1);
        while (k > 0 && kg[k] < half)
            k--;
        return k >= kg.Length - 1 ? time[^1] : Interpolate(time, kg, k, half);
    }

    private static double Interpolate(double[] time, double[] kg, int k, double level)
    {
        double d = kg[k + 1] - kg[k];
        double s = Math.Abs(d) < 1e-9 ? 0.5 : Math.Clamp((level - kg[k]) / d, 0, 1);
        return time[k] + s * (time[k + 1] - time[k]);
    }

    private static double Quantile(double[] values, double q)
    {
        double[] sorted = [.. values];
        Array.Sort(sorted);
        return sorted[(int)(q * (sorted.Length - 1))];
    }
}
