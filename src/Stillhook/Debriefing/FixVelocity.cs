using Stillhook.Recording;

namespace Stillhook.Debriefing;

/// <summary>Recorded speed, course and climb as velocities, once they agree with the positions.</summary>
internal static class FixVelocity
{
    /// <summary>Under this speed the course means nothing, m/s; common practice, no source.</summary>
    public const double CourseMeansNothingMs = 0.5;

    /// <summary>Velocity east and north, m/s; NaN where not recorded; empty when the record has none or it disagrees with the positions.</summary>
    public static (double[] East, double[] North) Of(FlightRecord record, int[] index, double[] t, double[] east, double[] north, List<Finding> findings)
    {
        if (record.GroundSpeedMs.Length == 0 || record.CourseDeg.Length == 0)
            return ([], []);
        double[] ve = new double[index.Length], vn = new double[index.Length];
        bool any = false;
        for (int k = 0; k < index.Length; k++)
        {
            double speed = record.GroundSpeedMs[index[k]], course = record.CourseDeg[index[k]];
            if (!(speed >= 0 && speed < 400) || (double.IsNaN(course) && speed > CourseMeansNothingMs))
            {
                (ve[k], vn[k]) = (double.NaN, double.NaN);
                continue;
            }
            (double s, double c) = double.IsNaN(course) ? (0, 0) : Math.SinCos(double.DegreesToRadians(course));
            (ve[k], vn[k]) = (speed * s, speed * c);
            any = true;
        }
        return any && Agrees(t, east, north, ve, vn, findings) ? (ve, vn) : ([], []);
    }

    /// <summary>Climb, m/s; NaN where not recorded; empty when the record has none.</summary>
    public static double[] Climb(FlightRecord record, int[] index)
    {
        if (record.ClimbMs.Length == 0)
            return [];
        double[] climb = Array.ConvertAll(index, i => Math.Abs(record.ClimbMs[i]) < 100 ? record.ClimbMs[i] : double.NaN);
        return climb.All(double.IsNaN) ? [] : climb;
    }

    /// <summary>Speed in another unit, or a course that isn't true north's, would bend the track: compare with the positions first.</summary>
    private static bool Agrees(double[] t, double[] x, double[] y, double[] ve, double[] vn, List<Finding> findings)
    {
        const double slowestMs = 3, longestS = 6, ratioOff = 0.15, courseOffDeg = 10;
        List<double> ratios = [], turns = [];
        for (int k = 1; k < t.Length - 1; k += Math.Max(1, t.Length / 20_000))
        {
            double dt = t[k + 1] - t[k - 1], dx = (x[k + 1] - x[k - 1]) / dt, dy = (y[k + 1] - y[k - 1]) / dt;
            double moved = Math.Sqrt(dx * dx + dy * dy), said = Math.Sqrt(ve[k] * ve[k] + vn[k] * vn[k]);
            if (dt > longestS || moved < slowestMs || !(said > 0))
                continue;
            ratios.Add(said / moved);
            turns.Add(double.RadiansToDegrees(Math.Atan2(ve[k] * dy - vn[k] * dx, ve[k] * dx + vn[k] * dy)));
        }
        if (ratios.Count < 10)
            return true;
        ratios.Sort();
        turns.Sort();
        double ratio = ratios[ratios.Count / 2], turn = turns[turns.Count / 2];
        if (Math.Abs(ratio - 1) <= ratioOff && Math.Abs(turn) <= courseOffDeg)
            return true;
        findings.Add(new(Severity.Warning, "speed-disagrees", null, ve.Length,
            string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Recorded speed is {ratio:0.00} times the speed of the positions, recorded course {turn:0}° off theirs."),
            "Speed and course were not used. Check their units and that the course is true."));
        return false;
    }
}
