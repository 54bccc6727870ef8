namespace Stillhook.Debriefing;

/// <summary>Lift-off and contact from the height of the hook alone. docs/method/rotations.md, step 6.</summary>
internal static class ContactFinder
{
    private const double StepS = 0.2;
    private const double PlateauM = 0.7;
    private const double LeastSlackM = 0.3;
    private const double StillSinkingMs = 0.1;

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
        double rest = Rest(path, low, forward: true);
        int i = TouchAt(path, low, rest, slackM);
        int clear = low;
        while (clear < h.Length - 1 && h[clear] < rest + slackM && path.DistanceTo(clear, path.Position(low)) < 5)
            clear++;
        return (path.Time(i), Error(path, i), path.Time(clear));
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

    /// <summary>
    /// The last time over the resting height by the usual slack; when the last steady sink began lower than that allows, the slack
    /// was smaller, and the middle of what is possible is taken.
    /// </summary>
    private static int TouchAt(RotationPath path, int low, double rest, double slackM)
    {
        double[] h = path.Height;
        int i = low;
        while (i > 0 && h[i] < rest + LeastSlackM)
            i--;
        int foot = i;
        while (i > 0 && path.Climb[i] < -StillSinkingMs)
            i--;
        double sunk = h[i] - rest;
        double slack = Math.Min(slackM, (LeastSlackM + sunk) / 2);
        int touch = foot;
        while (touch > 0 && h[touch] < rest + slack)
            touch--;
        return touch;
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
