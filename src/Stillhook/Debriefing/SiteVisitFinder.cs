using Stillhook.Physics.Earth;

namespace Stillhook.Debriefing;

/// <summary>Finds slow low points in a track and groups them by place. docs/method/rotations.md, steps 1 to 3.</summary>
internal static class SiteVisitFinder
{
    private const double LookAroundS = 12;   // descent and climb may begin and end just outside the slow stretch
    private const double DepartedMs = 6;
    private const double GivenUpAfterS = 120;
    private const double SameSpotM = 25, SameSpotRiseM = 6;
    private const double LaterIsWorthS = 3, WorthOfMetre = 0.55;
    private const double StandingS = 15;
    private const int HoversOverAShortStop = 2;
    private const double OpenedBeforeEndS = 30;

    /// <param name="path">The motion.</param>
    /// <param name="hasHeight">Whether heights are usable.</param>
    /// <param name="openedS">Last time the hook opened, s: a low point at which it did counts at the end of the record without the climb that is still to come.</param>
    /// <param name="settings">Thresholds.</param>
    public static List<SiteVisit> Find(RotationPath path, bool hasHeight, double openedS, DebriefSettings settings)
    {
        var visits = new List<SiteVisit>();
        foreach ((int from, int to) in SlowStretches(path, settings))
        {
            if (hasHeight)
                AddLowPoints(visits, path, from, to, openedS, settings);
            else if ((to - from) * path.StepS >= 5)
                visits.Add(Visit(path, from, to, from + (to - from) / 2, hasHeight));
        }
        NoteSpeedsBetween(visits, path);
        return visits;
    }

    private static IEnumerable<(int From, int To)> SlowStretches(RotationPath path, DebriefSettings settings)
    {
        int from = -1;
        for (int i = 0; i < path.Count; i++)
        {
            if (from < 0 && path.Speed[i] < settings.SlowBelowMs)
                from = i;
            else if (from >= 0 && path.Speed[i] > settings.FastAboveMs)
            {
                yield return (from, i);
                from = -1;
            }
        }
        if (from >= 0)
            yield return (from, path.Count - 1);
    }

    private static void AddLowPoints(List<SiteVisit> visits, RotationPath path, int slowFrom, int slowTo, double openedS, DebriefSettings settings)
    {
        int around = (int)(LookAroundS / path.StepS);
        int from = Math.Max(0, slowFrom - around), to = Math.Min(path.Count - 1, slowTo + around);
        double[] h = path.Height;
        int low = from, high = from, lastAdded = -1;
        bool sinking = true;
        double highBefore = h[from];
        for (int i = from; i <= to; i++)
        {
            if (sinking)
            {
                if (h[i] < h[low])
                    low = i;
                if (h[i] > h[low] + settings.MinimumProminenceM)
                    (sinking, high) = (false, i);
            }
            if (!sinking)
            {
                if (h[i] > h[high])
                    high = i;
                if (h[i] < h[high] - settings.MinimumProminenceM || i == to)
                {
                    bool slowAtLow = low >= slowFrom && low <= slowTo;
                    bool counts = slowAtLow && highBefore - h[low] >= settings.LeastDescentM && h[high] - h[low] >= settings.LeastClimbM;
                    if (counts)
                        lastAdded = AddOrMerge(visits, path, slowFrom, slowTo, low, lastAdded);
                    // A small wave on the way down does not use the descent up.
                    highBefore = counts ? h[high] : Math.Max(highBefore, h[high]);
                    (sinking, low) = (true, i);
                }
            }
        }
        bool endsHere = to == path.Count - 1 && lastAdded < low && path.Time(to) - openedS < OpenedBeforeEndS && openedS > path.Time(low) - LookAroundS;
        if (endsHere && highBefore - h[low] >= settings.LeastDescentM)
            AddOrMerge(visits, path, slowFrom, slowTo, low, lastAdded);
    }

    /// <summary>
    /// Low points over the same spot with little height between them are one visit. The last one before leaving counts, unless it is much
    /// shorter or much higher than the one before: a hook that dips on arrival and then hovers has not yet set down.
    /// </summary>
    private static int AddOrMerge(List<SiteVisit> visits, RotationPath path, int from, int to, int low, int previous)
    {
        SiteVisit visit = Visit(path, from, to, low, hasHeight: true);
        if (previous < 0)
        {
            visits.Add(visit);
            return low;
        }
        double between = double.NegativeInfinity;
        for (int i = previous; i <= low; i++)
            between = Math.Max(between, path.Height[i]);
        double rise = between - Math.Max(path.Height[previous], path.Height[low]);
        SiteVisit before = visits[^1];
        if ((before.Place - visit.Place).Horizontal > SameSpotM || rise > SameSpotRiseM)
            visits.Add(visit);
        else if (Worth(visit) + LaterIsWorthS - WorthOfMetre * (visit.Place.Up - before.Place.Up) >= Worth(before))
            visits[^1] = visit;
        else
            return previous;
        return low;
    }

    private static double Worth(SiteVisit visit) => Math.Min(visit.DwellS, 6);

    private static SiteVisit Visit(RotationPath path, int from, int to, int low, bool hasHeight)
    {
        int first = low, last = low;
        if (hasHeight)
        {
            while (first > from && path.Height[first - 1] < path.Height[low] + 1)
                first--;
            while (last < path.Count - 1 && path.Height[last + 1] < path.Height[low] + 1)
                last++;
        }
        else
            (first, last) = (from, to);
        return new SiteVisit
        {
            LowestS = path.Time(low),
            SlowFromS = path.Time(from),
            SlowToS = path.Time(to),
            Place = path.Position(low),
            DwellS = (last - first) * path.StepS,
            DepartureS = DepartureTime(path, last),
        };
    }

    private static double DepartureTime(RotationPath path, int last)
    {
        int limit = Math.Min(path.Count - 1, last + (int)(GivenUpAfterS / path.StepS));
        for (int i = last; i <= limit; i++)
        {
            if (path.Speed[i] > DepartedMs)
                return (i - last) * path.StepS;
        }
        return double.PositiveInfinity;
    }

    private static void NoteSpeedsBetween(List<SiteVisit> visits, RotationPath path)
    {
        for (int k = 0; k <= visits.Count; k++)
        {
            int from = k == 0 ? 0 : path.Index(visits[k - 1].LowestS);
            int to = k == visits.Count ? path.Count - 1 : path.Index(visits[k].LowestS);
            double fastest = 0;
            for (int i = from; i <= to; i++)
                fastest = Math.Max(fastest, path.Speed[i]);
            if (k > 0)
                visits[k - 1].LeftToMs = fastest;
            if (k < visits.Count)
                visits[k].ArrivedFromMs = fastest;
        }
    }

    /// <summary>Marks landings, groups the other visits by place, and notes each one's height over its site's usual lowest height.</summary>
    /// <returns>Number of sites.</returns>
    public static int GroupByPlace(List<SiteVisit> visits, RotationPath path, bool hasHeight, double contactLengthM, DebriefSettings settings)
    {
        if (hasHeight)
            MarkLandings(visits, path, contactLengthM);
        int sites = 0;
        for (int i = 0; i < visits.Count; i++)
        {
            if (visits[i].Landing || visits[i].Site >= 0)
                continue;
            Spread(visits, i, sites++, settings.SiteRadiusM);
        }
        for (int s = 0; s < sites; s++)
        {
            double[] heights = [.. visits.Where(v => v.Site == s).Select(v => v.Place.Up)];
            double usual = Median(heights);
            foreach (SiteVisit v in visits.Where(v => v.Site == s))
                v.OverUsualM = v.Place.Up - usual;
        }
        return sites;
    }

    private static void Spread(List<SiteVisit> visits, int first, int site, double radiusM)
    {
        // Mean place of the growing group, so that a chain of visits does not run along a line.
        double e = visits[first].Place.East, n = visits[first].Place.North;
        int count = 1;
        visits[first].Site = site;
        for (int i = first + 1; i < visits.Count; i++)
        {
            SiteVisit v = visits[i];
            if (v.Landing || v.Site >= 0 || Math.Sqrt(Sq(v.Place.East - e / count) + Sq(v.Place.North - n / count)) > radiusM)
                continue;
            v.Site = site;
            e += v.Place.East;
            n += v.Place.North;
            count++;
        }
    }

    /// <summary>
    /// A landing lies about a line's length under the hovers beside it, or at the height at which the record began or ended at rest. One hover over a short stop is not enough: the first
    /// delivery of a day lies as far under the look that was taken from above it.
    /// </summary>
    private static void MarkLandings(List<SiteVisit> visits, RotationPath path, double contactLengthM)
    {
        double step = Math.Max(4, 0.45 * contactLengthM);
        foreach (SiteVisit v in visits)
        {
            double[] beside = [.. visits.Where(w => w != v && (w.Place - v.Place).Horizontal < 80).Select(w => w.Place.Up)];
            v.Landing = v.DwellS > StandingS ? MostlyHigher(beside, v.Place.Up + step) : beside.Length >= HoversOverAShortStop && MostlyHigher(beside, v.Place.Up + 1.7 * step);
        }
        foreach (int end in (int[])[0, path.Count - 1])
        {
            if (path.Speed[end] > 1)
                continue;
            var beside = visits.Where(v => (v.Place - path.Position(end)).Horizontal < 200).ToList();
            double hover = Median([.. beside.Where(v => !v.Landing).Select(v => v.Place.Up)]);
            if (hover - path.Height[end] < step)
                continue;
            foreach (SiteVisit v in beside)
                v.Landing |= v.DwellS > StandingS && v.Place.Up < (hover + path.Height[end]) / 2;
        }
    }

    private static bool MostlyHigher(double[] heights, double than) => heights.Length > 0 && heights.Count(h => h > than) * 2 > heights.Length;

    internal static double Median(double[] values)
    {
        if (values.Length == 0)
            return double.NaN;
        double[] sorted = [.. values];
        Array.Sort(sorted);
        int mid = sorted.Length / 2;
        return sorted.Length % 2 == 1 ? sorted[mid] : (sorted[mid - 1] + sorted[mid]) / 2;
    }

    private static double Sq(double x) => x * x;
}
