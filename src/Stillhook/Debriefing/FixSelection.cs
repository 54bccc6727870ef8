using Stillhook.Recording;

namespace Stillhook.Debriefing;

/// <summary>Chooses the fixes of a record that can be used, in order of time: first part of the repair.</summary>
internal static class FixSelection
{
    /// <summary>1990-01-01 UTC. Receivers without a fix count from 1970, 1980 or 1900; common practice, no source.</summary>
    public const double EarliestTimeS = 631152000;

    /// <summary>A group of fixes further than this from the others in time, and small, has a wrong date.</summary>
    private const double StrayDateS = 30 * 86400.0;

    /// <summary>Indices of usable fixes in order of time, and a time for each: strictly ascending.</summary>
    public static (int[] Index, double[] TimeS) Choose(FlightRecord record, List<Finding> findings)
    {
        int[] index = WithPositionAndTime(record, findings);
        double[] time = Array.ConvertAll(index, i => record.TimeS[i]);
        SortByTime(index, time, findings);
        DropUnsetClock(ref index, ref time, findings);
        DropStrayDates(ref index, ref time, findings);
        DropRepeats(record, ref index, ref time, findings);
        ResolveEqualTimes(record, ref index, ref time, findings);
        DropHeldPositions(record, ref index, ref time, findings);
        return (index, time);
    }

    private static int[] WithPositionAndTime(FlightRecord record, List<Finding> findings)
    {
        List<int> chosen = new(record.Count);
        long noPlace = 0, noTime = 0;
        for (int i = 0; i < record.Count; i++)
        {
            double lat = record.LatitudeDeg[i], lon = record.LongitudeDeg[i];
            if (!(Math.Abs(lat) <= 90) || !(Math.Abs(lon) <= 180) || (lat == 0 && lon == 0))
                noPlace++;
            else if (!double.IsFinite(record.TimeS[i]))
                noTime++;
            else
                chosen.Add(i);
        }
        Report(findings, noPlace, "no-position", "fixes without a usable position (empty, beyond ±90°/±180°, or exactly 0°/0°)", "Left out.");
        Report(findings, noTime, "no-time", "fixes without a time", "Left out: motion can't be worked without times.");
        return [.. chosen];
    }

    private static void SortByTime(int[] index, double[] time, List<Finding> findings)
    {
        long back = 0;
        for (int k = 1; k < time.Length; k++)
            back += time[k] < time[k - 1] ? 1 : 0;
        if (back == 0)
            return;
        Array.Sort(time, index);
        for (int k = 0, end; k < time.Length; k = end)
        {
            end = RunEnd(time, k);
            Array.Sort(index, k, end - k);
        }
        Report(findings, back, "times-shuffled", "times earlier than the one before", "Fixes were put in order of time.");
    }

    private static int RunEnd(double[] time, int k)
    {
        int end = k + 1;
        while (end < time.Length && time[end] == time[k])
            end++;
        return end;
    }

    private static void DropUnsetClock(ref int[] index, ref double[] time, List<Finding> findings)
    {
        int early = 0;
        while (early < time.Length && time[early] < EarliestTimeS)
            early++;
        if (early == 0)
            return;
        if (early == time.Length)
        {
            Report(findings, early, "clock-never-set", "fixes dated before 1990: the recorder's clock was never set",
                "Times were used relative to each other; dates and times of day are wrong.");
            return;
        }
        (index, time) = (index[early..], time[early..]);
        Report(findings, early, "clock-not-set", "fixes dated before 1990, from before the recorder's clock was set", "Left out.");
    }

    private static void DropStrayDates(ref int[] index, ref double[] time, List<Finding> findings)
    {
        List<(int Start, int End)> groups = [];
        for (int k = 1, start = 0; k <= time.Length; k++)
        {
            if (k < time.Length && time[k] - time[k - 1] <= StrayDateS)
                continue;
            groups.Add((start, k));
            start = k;
        }
        int total = time.Length;
        if (groups.Count < 2 || groups.All(g => g.End - g.Start >= total / 20))
            return;
        bool[] keep = new bool[total];
        foreach ((int start, int end) in groups.Where(g => g.End - g.Start >= total / 20))
            Array.Fill(keep, true, start, end - start);
        Keep(keep, ref index, ref time, out long dropped);
        Report(findings, dropped, "stray-date", "fixes dated more than 30 days from all the others", "Left out.");
    }

    private static void DropRepeats(FlightRecord record, ref int[] index, ref double[] time, List<Finding> findings)
    {
        bool[] keep = new bool[index.Length];
        for (int k = 0, runStart = 0; k < index.Length; k++)
        {
            if (time[k] != time[runStart])
                runStart = k;
            keep[k] = true;
            for (int j = runStart; j < k && keep[k]; j++)
                keep[k] = !SamePlace(record, index[j], index[k]);
        }
        Keep(keep, ref index, ref time, out long dropped);
        Report(findings, dropped, "repeated-fix", "fixes repeating one of the same time and place", "One of each was kept.");
    }

    private static bool SamePlace(FlightRecord r, int a, int b) =>
        r.LatitudeDeg[a] == r.LatitudeDeg[b] && r.LongitudeDeg[a] == r.LongitudeDeg[b];

    /// <summary>Several places at one time: a recorder with whole seconds and more than one fix a second (spread them), or a doubtful fix (keep the likelier).</summary>
    private static void ResolveEqualTimes(FlightRecord record, ref int[] index, ref double[] time, List<Finding> findings)
    {
        long extra = 0, runs = 0;
        for (int k = 0, end; k < time.Length; k = end)
        {
            end = RunEnd(time, k);
            extra += end - k - 1;
            runs++;
        }
        if (extra == 0)
            return;
        if (runs >= 3 && extra >= 0.5 * runs)
        {
            Spread(time);
            Report(findings, extra, "times-too-coarse", "fixes sharing their time with another, all along the record", "They were spread evenly up to the next time.");
            return;
        }
        bool[] keep = new bool[time.Length];
        for (int k = 0, end; k < time.Length; k = end)
        {
            end = RunEnd(time, k);
            keep[Likeliest(record, index, k, end)] = true;
        }
        Keep(keep, ref index, ref time, out long dropped);
        Report(findings, dropped, "two-places-at-once", "fixes giving another place for the same time", "The place nearest to the fixes before and after was kept.");
    }

    private static void Spread(double[] time)
    {
        double lastStep = 1;
        for (int k = 0, end; k < time.Length; k = end)
        {
            end = RunEnd(time, k);
            double start = time[k], step = end < time.Length ? time[end] - start : lastStep;
            // Across a pause the fixes are spread over a usual step, not over the pause.
            step = Math.Min(step, 2 * lastStep);
            for (int j = k + 1; j < end; j++)
                time[j] = start + step * (j - k) / (end - k);
            lastStep = step;
        }
    }

    private static int Likeliest(FlightRecord r, int[] index, int start, int end)
    {
        int before = start > 0 ? index[start - 1] : -1, after = end < index.Length ? index[end] : -1;
        int best = start;
        double least = double.PositiveInfinity;
        for (int k = start; k < end; k++)
        {
            double d = (before < 0 ? 0 : Apart(r, before, index[k])) + (after < 0 ? 0 : Apart(r, index[k], after));
            if (d < least)
                (least, best) = (d, k);
        }
        return best;
    }

    /// <summary>Distance in degrees of latitude, good enough to compare.</summary>
    private static double Apart(FlightRecord r, int a, int b)
    {
        double dLat = r.LatitudeDeg[a] - r.LatitudeDeg[b];
        double dLon = Math.IEEERemainder(r.LongitudeDeg[a] - r.LongitudeDeg[b], 360) * Math.Cos(double.DegreesToRadians(r.LatitudeDeg[a]));
        return Math.Sqrt(dLat * dLat + dLon * dLon);
    }

    /// <summary>A recorder faster than its receiver writes the last place again; such a copy would look like a stop.</summary>
    private static void DropHeldPositions(FlightRecord record, ref int[] index, ref double[] time, List<Finding> findings)
    {
        const double longestHoldS = 5, jumpDeg = 3 / 111_000.0, jumpSpeedDegS = 3 / 111_000.0;
        bool[] keep = new bool[index.Length];
        Array.Fill(keep, true);
        long held = 0;
        for (int k = 0, end; k < index.Length; k = end)
        {
            end = k + 1;
            while (end < index.Length && SamePlace(record, index[k], index[end]))
                end++;
            if (end == k + 1 || end == index.Length || time[end] - time[k] > longestHoldS)
                continue;
            double jump = Apart(record, index[k], index[end]);
            if (jump < jumpDeg || jump < jumpSpeedDegS * (time[end] - time[k]))
                continue;
            Array.Fill(keep, false, k + 1, end - k - 1);
            held += end - k - 1;
        }
        // A few are a matter of chance when position comes in coarse steps.
        if (held < 0.02 * index.Length)
            return;
        Keep(keep, ref index, ref time, out _);
        Report(findings, held, "held-position", "fixes repeating the place before while moving", "Left out: the recorder wrote faster than its receiver measured.");
    }

    internal static void Keep(bool[] keep, ref int[] index, ref double[] time, out long dropped)
    {
        int n = 0;
        for (int k = 0; k < keep.Length; k++)
            if (keep[k])
                (index[n], time[n++]) = (index[k], time[k]);
        dropped = keep.Length - n;
        if (dropped > 0)
            (index, time) = (index[..n], time[..n]);
    }

    internal static void Report(List<Finding> findings, long count, string code, string what, string done, Severity severity = Severity.Warning)
    {
        if (count > 0)
            findings.Add(new(severity, code, null, count, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{count} {what}."), done));
    }
}
