using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Debriefing;

/// <summary>From a raw record to a clean table of fixes in a local frame, every repair reported.</summary>
internal static class FixRepair
{
    private const double DegreeM = 111_320;

    /// <summary>Beyond this spread a local frame distorts distances by more than 0.05 %.</summary>
    private const double WidestM = 200_000;

    /// <summary>The table; null when no fix can be used.</summary>
    public static FixTable? Clean(FlightRecord record, List<Finding> findings)
    {
        (int[] index, double[] time) = FixSelection.Choose(record, findings);
        if (index.Length == 0)
            return null;
        double[] lat = Array.ConvertAll(index, i => record.LatitudeDeg[i]), lon = Array.ConvertAll(index, i => record.LongitudeDeg[i]);
        (double[] altitude, bool fromPressure) = Altitudes(record, index, findings);
        LocalFrame frame = BusiestFrame(lat, lon, altitude);
        (double[] east, double[] north) = Project(frame, lat, lon);
        double[] height = Array.ConvertAll(altitude, a => a - frame.HeightM);
        double positionStep = PositionStep(lat, lon, frame), altitudeStep = QualityNoise.StepOf(altitude);

        bool[] breaks = DropPositionSpikes(ref index, ref time, ref east, ref north, ref height, positionStep, findings);
        double median = MedianStep(time);
        DropHeightSpikes(time, median, height, altitudeStep, findings);
        (double[] ve, double[] vn) = FixVelocity.Of(record, index, time, east, north, findings);
        double[] climb = FixVelocity.Climb(record, index);
        (int[] starts, int gaps, double gapTime) = Stretches(record, index, time, breaks, median);
        WarnIfWide(east, north, findings);
        return new(frame, time, east, north, height, ve, vn, climb, starts, median, gaps, gapTime, positionStep, altitudeStep, fromPressure);
    }

    private static (double[] Altitude, bool FromPressure) Altitudes(FlightRecord record, int[] index, List<Finding> findings)
    {
        double[] satellite = Pick(record.AltitudeM, index), pressure = Pick(record.PressureAltitudeM, index);
        bool useSatellite = Present(satellite);
        if (!useSatellite && Present(pressure))
        {
            findings.Add(new(Severity.Warning, "pressure-altitude-only", null, 1, "There is no satellite altitude, or it is zero throughout.",
                "Pressure altitude was used. It carries an error of some metres that changes with speed."));
            (satellite, useSatellite) = (pressure, true);
            EraseZeroRuns(satellite, findings);
            return (satellite, true);
        }
        if (!useSatellite)
        {
            findings.Add(new(Severity.Warning, "no-altitude", null, 1, "There is no altitude, or it is zero throughout.", "Heights can't be judged; the rest is kept."));
            return (Array.ConvertAll(satellite, _ => double.NaN), false);
        }
        EraseZeroRuns(satellite, findings);
        long missing = satellite.LongCount(double.IsNaN);
        FixSelection.Report(findings, missing, "altitude-missing", "fixes without altitude", "Height was carried across from the fixes around them.", Severity.Note);
        return (satellite, false);
    }

    private static double[] Pick(double[] column, int[] index) =>
        Array.ConvertAll(index, i => column.Length > i && Math.Abs(column[i]) < 20_000 ? column[i] : double.NaN);

    /// <summary>Zero throughout means 'not available' in several formats.</summary>
    private static bool Present(double[] altitude) => altitude.Any(a => !double.IsNaN(a) && a != 0);

    /// <summary>A recorder without a height writes exactly zero; next to heights of another size it is no height.</summary>
    private static void EraseZeroRuns(double[] altitude, List<Finding> findings)
    {
        const double jumpM = 50;
        long erased = 0;
        for (int k = 0, end; k < altitude.Length; k = end)
        {
            end = k + 1;
            if (altitude[k] != 0)
                continue;
            while (end < altitude.Length && altitude[end] == 0)
                end++;
            double before = k > 0 ? Math.Abs(altitude[k - 1]) : jumpM, after = end < altitude.Length ? Math.Abs(altitude[end]) : jumpM;
            if (!(before >= jumpM && after >= jumpM) || end - k == altitude.Length)
                continue;
            Array.Fill(altitude, double.NaN, k, end - k);
            erased += end - k;
        }
        FixSelection.Report(findings, erased, "altitude-zero", "altitudes of exactly zero between others of 50 m and more", "Taken as missing.");
    }

    /// <summary>Frame at the fix nearest to the median latitude and longitude of the record, at its median altitude.</summary>
    private static LocalFrame BusiestFrame(double[] lat, double[] lon, double[] altitude)
    {
        int stride = Math.Max(1, lat.Length / 4096);
        int[] sample = [.. Enumerable.Range(0, (lat.Length + stride - 1) / stride).Select(i => i * stride)];
        double[] la = Array.ConvertAll(sample, i => lat[i]);
        // Longitudes relative to one of them, so that a record across 180° has a median.
        double[] lo = Array.ConvertAll(sample, i => Math.IEEERemainder(lon[i] - lon[sample[0]], 360));
        double midLat = Median(la), midLon = Median(lo);
        int best = Enumerable.Range(0, sample.Length).MinBy(k => Math.Pow(la[k] - midLat, 2) + Math.Pow(lo[k] - midLon, 2));
        double[] known = [.. sample.Select(i => altitude[i]).Where(a => !double.IsNaN(a))];
        double height = known.Length > 0 ? Median(known) : altitude.FirstOrDefault(a => !double.IsNaN(a));
        return new(lat[sample[best]], lon[sample[best]], double.IsNaN(height) ? 0 : Math.Round(height));
    }

    private static double Median(double[] values)
    {
        double[] sorted = [.. values];
        Array.Sort(sorted);
        return sorted[sorted.Length / 2];
    }

    /// <summary>East and north of the places at the frame's own height, so that noise in altitude doesn't move them.</summary>
    private static (double[] East, double[] North) Project(LocalFrame frame, double[] lat, double[] lon)
    {
        double[] east = new double[lat.Length], north = new double[lat.Length];
        for (int k = 0; k < lat.Length; k++)
        {
            Enu p = frame.ToEnu(lat[k], lon[k], frame.HeightM);
            (east[k], north[k]) = (p.East, p.North);
        }
        return (east, north);
    }

    private static double PositionStep(double[] lat, double[] lon, LocalFrame frame)
    {
        double north = QualityNoise.StepOf(lat) * DegreeM, east = QualityNoise.StepOf(lon) * DegreeM * Math.Cos(double.DegreesToRadians(frame.LatitudeDeg));
        return Math.Max(north, east);
    }

    private static bool[] DropPositionSpikes(
        ref int[] index, ref double[] time, ref double[] east, ref double[] north, ref double[] height, double positionStep, List<Finding> findings)
    {
        const double slackM = 30;
        (bool[] keep, bool[] breaks) = FixSpikes.Jumps(time, east, north, slackM, FixSpikes.TopSpeed(time, east, north));
        long dropped = Apply(keep, ref index, ref time, ref east, ref north, ref height, ref breaks);
        for (int round = 0; round < 2; round++)
        {
            double step = MedianStep(time);
            double noise = Math.Max(QualityNoise.OfPosition(time, step, 0, east, north), Math.Max(0.2, positionStep / 2));
            keep = FixSpikes.Singles(time, east, north, double.IsNaN(noise) ? 5 : noise, step);
            long now = Apply(keep, ref index, ref time, ref east, ref north, ref height, ref breaks);
            dropped += now;
            if (now == 0)
                break;
        }
        FixSelection.Report(findings, dropped, "position-spike", "positions that no aircraft can have flown through", "Left out.");
        FixSelection.Report(findings, breaks.LongCount(b => b), "position-jump", "jumps to another place, faster than any helicopter, without return", "The track was broken there.");
        return breaks;
    }

    private static long Apply(
        bool[] keep, ref int[] index, ref double[] time, ref double[] east, ref double[] north, ref double[] height, ref bool[] breaks)
    {
        int n = 0;
        bool pending = false;
        for (int k = 0; k < keep.Length; k++)
        {
            pending |= breaks[k];
            if (!keep[k])
                continue;
            (index[n], time[n], east[n], north[n], height[n], breaks[n]) = (index[k], time[k], east[k], north[k], height[k], pending);
            pending = false;
            n++;
        }
        if (n == keep.Length)
            return 0;
        (index, time, east, north, height, breaks) = (index[..n], time[..n], east[..n], north[..n], height[..n], breaks[..n]);
        return keep.Length - n;
    }

    private static void DropHeightSpikes(double[] time, double medianStep, double[] height, double altitudeStep, List<Finding> findings)
    {
        const double slackM = 20;
        long dropped = FixSpikes.DropHeightJumps(time, height, slackM + 2 * altitudeStep);
        double noise = Math.Max(QualityNoise.OfPosition(time, medianStep, 0, height), Math.Max(0.3, altitudeStep / 2));
        bool[] keep = FixSpikes.Singles(time, height, new double[height.Length], double.IsNaN(noise) ? 5 : noise, medianStep);
        for (int k = 0; k < keep.Length; k++)
        {
            if (keep[k])
                continue;
            height[k] = double.NaN;
            dropped++;
        }
        FixSelection.Report(findings, dropped, "altitude-spike", "altitudes that no aircraft can have flown through", "Taken as missing.");
    }

    private static double MedianStep(double[] time)
    {
        if (time.Length < 2)
            return double.NaN;
        double[] steps = new double[time.Length - 1];
        for (int k = 0; k < steps.Length; k++)
            steps[k] = time[k + 1] - time[k];
        Array.Sort(steps);
        return steps[steps.Length / 2];
    }

    private static (int[] Starts, int Gaps, double GapTimeS) Stretches(FlightRecord record, int[] index, double[] time, bool[] breaks, double median)
    {
        List<int> starts = [0];
        int gaps = 0;
        double gapTime = 0;
        bool interleaved = SegmentChanges(record, index) > index.Length / 20;
        for (int k = 1; k < time.Length; k++)
        {
            double step = time[k] - time[k - 1];
            bool gap = step > 5 * median && step > 5;
            if (gap)
            {
                gaps++;
                gapTime += step;
            }
            // A new segment marks a break in recording or another recorder; segments that lie through each other in time do not.
            bool newSegment = (!interleaved || step > 2 * median) && SegmentOf(record, index[k]) != SegmentOf(record, index[k - 1]);
            if (gap || breaks[k] || newSegment)
                starts.Add(k);
        }
        return ([.. starts], gaps, gapTime);
    }

    private static int SegmentChanges(FlightRecord record, int[] index)
    {
        int changes = 0;
        if (record.SegmentStarts.Length > 1)
            for (int k = 1; k < index.Length; k++)
                changes += SegmentOf(record, index[k]) != SegmentOf(record, index[k - 1]) ? 1 : 0;
        return changes;
    }

    private static int SegmentOf(FlightRecord record, int i)
    {
        if (record.SegmentStarts.Length < 2)
            return 0;
        int s = Array.BinarySearch(record.SegmentStarts, i);
        return s >= 0 ? s : ~s - 1;
    }

    private static void WarnIfWide(double[] east, double[] north, List<Finding> findings)
    {
        int far = 0;
        double furthest = 0;
        for (int k = 0; k < east.Length; k++)
        {
            double d = Math.Sqrt(east[k] * east[k] + north[k] * north[k]);
            furthest = Math.Max(furthest, d);
            far += d > WidestM ? 1 : 0;
        }
        FixSelection.Report(findings, far, "wide-record",
            string.Create(System.Globalization.CultureInfo.InvariantCulture, $"fixes further than 200 km from the busiest place (up to {furthest / 1000:0} km)"),
            "Kept; distances out there are short by 0.05 % and more. Split the record by day to judge them.");
    }
}
