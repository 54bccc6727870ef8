using Stillhook.Physics.Earth;
using Stillhook.Planning;
using Stillhook.Recording;

namespace Stillhook.Debriefing;

/// <summary>Whether a record can be of a job: some of it must have been flown near one of its sites.</summary>
public static class RecordPlace
{
    /// <summary>Farther than this from every site, a record is of another job, m. Common practice, no source: loads go a few kilometres, and no leg goes past a site at this distance.</summary>
    public const double FarM = 50_000;

    private const int Looks = 2000; // of a whole day one every 15 s or so, in which nobody flies 50 km

    /// <summary>Least distance of the record from a site of the job, m, within 0.5 % up to 1,000 km (a straight line through the earth beyond); null when the job has no site or the record no position.</summary>
    public static double? NearestM(FlightRecord record, LiftRequest job)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(job);
        double? nearest = null;
        int step = Math.Max(1, record.Count / Looks);
        foreach (Site site in job.Sites)
        {
            LocalFrame frame = new(site.Latitude.Degrees, site.Longitude.Degrees, 0);
            for (int i = 0; i < record.Count; i += step)
            {
                Enu at = frame.ToEnu(record.LatitudeDeg[i], record.LongitudeDeg[i], 0);
                double distance = at.Length;
                if (double.IsFinite(distance) && !(nearest < distance))
                    nearest = distance;
            }
        }
        return nearest;
    }

    /// <summary>What to tell when the record is of another job; null when it can be of this one.</summary>
    public static Finding? OtherJob(FlightRecord record, LiftRequest job) => NearestM(record, job) is { } nearest && nearest > FarM
        ? new(Severity.Warning, "record-far-from-job", null, 1, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"The record comes no nearer to any site of the job '{job.Job}' than {nearest / 1000:0} km."),
            "It is not counted for that job. Take it in for the job it was flown for, or mend the positions of the sites.")
        : null;
}
