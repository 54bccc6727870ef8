using Stillhook.Recording;

namespace Stillhook.Files.Records;

/// <summary>What the places of a whole record show, whatever its format.</summary>
internal static class RecordChecks
{
    private const double OnePlaceM = 5; // wander of a resting satellite receiver over minutes; own measurement on resting records
    private const double MetresPerDegree = 111_195; // of latitude on a 6,371.0 km sphere

    /// <summary>Words a record of no fix, one fix, or one place.</summary>
    public static void WordPlaces(FlightRecord record, FindingLog findings)
    {
        if (record.Count == 0)
        {
            if (!findings.Findings.Any(f => f.Severity == Severity.Error))
                findings.Error("no-fixes", null, "The record holds no position.", "Check that the recorder had a satellite fix and that the track, not only way points, was exported.");
            return;
        }

        if (record.Count == 1)
            findings.Warn("one-fix", null, "The record holds a single position.", "Nothing that needs movement can be judged.");
        else if (Extent(record) < OnePlaceM)
            findings.Warn("all-at-one-place", null, "All positions lie within 5 m.", "No flight can be found in it; check that the right record was chosen.");
    }

    /// <summary>Longitudes are brought into −180..180; what can't be a place on earth is taken out and counted.</summary>
    public static FlightRecord WithoutImpossiblePlaces(FlightRecord record, FindingLog findings, long? firstLine)
    {
        int wrapped = 0;
        var kept = new List<int>(record.Count);
        for (int i = 0; i < record.Count; i++)
        {
            double longitude = record.LongitudeDeg[i];
            if (Math.Abs(record.LatitudeDeg[i]) > 90 || Math.Abs(longitude) > 360) continue;
            if (Math.Abs(longitude) > 180)
            {
                record.LongitudeDeg[i] = longitude - 360 * Math.Sign(longitude);
                wrapped++;
            }

            kept.Add(i);
        }

        if (wrapped > 0)
            findings.Note("longitude-wrapped", firstLine, "Longitudes between 180 and 360 degrees.", "Brought into -180 to 180.", wrapped);
        if (kept.Count == record.Count) return record;
        findings.Warn("position-out-of-range", firstLine, "Latitude beyond 90 or longitude beyond 360 degrees.",
            "These points were left out; expected decimal degrees, north and east positive.", record.Count - kept.Count);
        return Select(record, kept);
    }

    private static FlightRecord Select(FlightRecord record, List<int> kept)
    {
        double[] Of(double[] column) => column.Length == 0 ? column : [.. kept.Select(i => column[i])];
        var starts = new List<int>();
        foreach (int start in record.SegmentStarts)
        {
            int moved = kept.FindIndex(i => i >= start);
            if (moved >= 0 && !starts.Contains(moved)) starts.Add(moved);
        }

        return record with
        {
            TimeS = Of(record.TimeS),
            LatitudeDeg = Of(record.LatitudeDeg),
            LongitudeDeg = Of(record.LongitudeDeg),
            AltitudeM = Of(record.AltitudeM),
            PressureAltitudeM = Of(record.PressureAltitudeM),
            GroundSpeedMs = Of(record.GroundSpeedMs),
            CourseDeg = Of(record.CourseDeg),
            ClimbMs = Of(record.ClimbMs),
            SegmentStarts = [.. starts],
        };
    }

    private static double Extent(FlightRecord record)
    {
        double latitude0 = record.LatitudeDeg[0], longitude0 = record.LongitudeDeg[0], largest = 0;
        double east = MetresPerDegree * Math.Cos(latitude0 * Math.PI / 180);
        for (int i = 1; i < record.Count && largest < OnePlaceM; i++)
        {
            double north = (record.LatitudeDeg[i] - latitude0) * MetresPerDegree;
            double across = Math.IEEERemainder(record.LongitudeDeg[i] - longitude0, 360) * east;
            largest = Math.Max(largest, Math.Sqrt(north * north + across * across));
        }

        return largest;
    }
}
