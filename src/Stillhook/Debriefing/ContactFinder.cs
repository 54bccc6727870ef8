namespace Stillhook.Debriefing;

/// <summary>Lift-off and contact from the height of the hook alone. docs/method/rotations.md, step 6.</summary>
internal static class ContactFinder
{
    private const double StepS = 0.2;
    private const double PlateauM = 0.7;
    private const double LeastSlackM = 0.3;
    private const double SinkingMs = 0.15;
    private const double LeastSinkM = 0.8;
    private const double LeavingM = 3, WanderM = 2.5;

    /// <summary>Load leaves the ground: the last time the hook is under its resting height plus the usual slack before it passes 4 m over it.</summary>
    public static (double TimeS, double ErrorS) LiftOff(Track track, SiteVisit visit, double slackM)
    {
        RotationPath path = RotationPath.Sample(track, visit.LowestS - 60, visit.LowestS + 60, StepS);
        double[] h = path.Height;
        int low = Lowest(path, visit.LowestS);
        int left = low;
        while (left < h.Length - 1 && h[left] < h[low] + 4)
            left++;
        double rest = Rest(path, low, forward: false);
        int i = left;
        while (i > 0 && h[i - 1] >= rest + slackM)
            i--;
        return (path.Time(i), Error(path, i));
    }

    /// <summary>Load touches: the last time the hook is over its resting height plus the usual slack. Clear: the hook is over that height again, climbing.</summary>
    public static (double TimeS, double ErrorS, double ClearS) Contact(Track track, SiteVisit visit, double slackM)
    {
        RotationPath path = RotationPath.Sample(track, visit.LowestS - 60, visit.LowestS + 60, StepS);
        double[] h = path.Height;
        int low = Lowest(path, visit.LowestS);
        int leave = low;
        while (leave < h.Length - 1 && h[leave] < h[low] + LeavingM)
            leave++;
        (int from, int to) = LastSink(path, leave);
        double sunk = h[from] - h[to];
        double touchHeight = h[to] + Math.Min(slackM, (LeastSlackM + sunk) / 2);
        int i = to;
        while (i > from && h[i] < touchHeight)
            i--;
        int clear = leave;
        while (clear > to && h[clear - 1] > h[to] + slackM)
            clear--;
        return (path.Time(i), Error(path, i), path.Time(clear));
    }

    /// <summary>
    /// The last real sink before leaving: the load was on the line at its top and lay on the ground at its foot. Later sinking of less than
    /// <see cref="LeastSinkM"/> is wandering over the placed load.
    /// </summary>
    private static (int From, int To) LastSink(RotationPath path, int leave)
    {
        (int From, int To) best = (leave, leave);
        double most = 0;
        for (int i = leave; i > 0;)
        {
            while (i > 0 && path.Climb[i] > -SinkingMs)
                i--;
            int to = i;
            while (i > 0 && path.Climb[i] <= -SinkingMs)
                i--;
            double sunk = path.Height[i] - path.Height[to];
            bool low = path.Height[to] < path.Height[leave] - LeavingM + WanderM;
            if (low && sunk > most)
                (best, most) = ((i, to), sunk);
            if (most > LeastSinkM)
                break;
        }
        return best;
    }

    /// <summary>Hook leaves a set-down whose contact time is known: 1.5 m over the lowest height after it, or 5 m away.</summary>
    public static double Clear(Track track, double contactS)
    {
        RotationPath path = RotationPath.Sample(track, contactS, contactS + 90, StepS);
        double low = path.Height[0];
        for (int i = 1; i < path.Count; i++)
        {
            low = Math.Min(low, path.Height[i]);
            if (path.Height[i] > low + 1.5 || path.DistanceTo(i, path.Position(0)) > 5)
                return path.Time(i);
        }
        return path.Time(path.Count - 1);
    }

    private static int Lowest(RotationPath path, double nearS)
    {
        int low = path.Index(nearS), reach = (int)(1.5 / StepS);
        int from = Math.Max(0, low - reach), to = Math.Min(path.Count - 1, low + reach);
        for (int i = from; i <= to; i++)
        {
            if (path.Height[i] < path.Height[low])
                low = i;
        }
        return low;
    }

    /// <summary>Median height while the hook rests near its lowest point.</summary>
    private static double Rest(RotationPath path, int low, bool forward)
    {
        int reach = (int)(10 / StepS);
        var resting = new List<double>();
        int from = forward ? low - reach / 4 : low - reach, to = forward ? low + reach : low + reach / 4;
        for (int i = Math.Max(0, from); i <= Math.Min(path.Count - 1, to); i++)
        {
            if (path.Height[i] < path.Height[low] + PlateauM)
                resting.Add(path.Height[i]);
        }
        return SiteVisitFinder.Median([.. resting]);
    }

    /// <summary>Half a metre of unknown slack at the present vertical speed.</summary>
    private static double Error(RotationPath path, int i) => Math.Clamp(0.5 / Math.Max(0.1, Math.Abs(path.Climb[i])), 0.3, 5);
}
