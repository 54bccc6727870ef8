using Stillhook.Debriefing;
using Stillhook.Physics.Earth;

namespace Stillhook.Files.Pictures;

/// <summary>One delivery's motion laid out round its target, evenly in time, ready to be drawn.</summary>
/// <remarks>
/// The target is the known delivery site within <see cref="SameSiteM"/> of the contact, else the middle (median) of all contacts that near.
/// Heights are of the belly hook over the ground at this delivery's own contact. Along is the distance still to fly along the approach
/// course (negative past the contact point), across is right of that course.
/// </remarks>
public sealed class DeliveryPath
{
    /// <summary>Contacts nearer than this belong to one site, m. Own choice: wider than any scatter of set-downs, narrower than two sites stand apart.</summary>
    public const double SameSiteM = 60;

    private const double LongestS = 900;
    private const double AfterContactS = 6;
    private const int MostSamples = 3000;

    private DeliveryPath(Rotation rotation, int count)
    {
        Rotation = rotation;
        (TimeS, East, North, HeightM) = (new double[count], new double[count], new double[count], new double[count]);
        (AlongM, AcrossM, ToGoM, SpeedMs, SinkMs) = (new double[count], new double[count], new double[count], new double[count], new double[count]);
        (LoadEast, LoadNorth, LoadHeightM, LoadAlongM) = (new double[count], new double[count], new double[count], new double[count]);
        (LoadEastBandM, LoadNorthBandM, LoadAlongBandM) = (new double[count], new double[count], new double[count]);
    }

    /// <summary>The rotation drawn.</summary>
    public Rotation Rotation { get; }

    /// <summary>Direction of the approach, degrees true.</summary>
    public double CourseDeg { get; private init; }

    /// <summary>Target in the track's frame.</summary>
    public Enu Target { get; private init; }

    /// <summary>Where the load touched, m east and north of the target.</summary>
    public Enu Contact { get; private init; }

    /// <summary>Time of contact, s since 1970 UTC.</summary>
    public double ContactTimeS { get; private init; }

    /// <summary>Whether the load's swing is known, so that the load is drawn where it was and not straight below the hook.</summary>
    public bool HasSwing { get; private init; }

    /// <summary>Times, s since 1970 UTC.</summary>
    public double[] TimeS { get; }
    /// <summary>Hook east of the target, m.</summary>
    public double[] East { get; }
    /// <summary>Hook north of the target, m.</summary>
    public double[] North { get; }
    /// <summary>Hook over the contact ground, m.</summary>
    public double[] HeightM { get; }
    /// <summary>Distance to go along the approach course, m; negative past the contact.</summary>
    public double[] AlongM { get; }
    /// <summary>Right of the approach course through the contact, m.</summary>
    public double[] AcrossM { get; }
    /// <summary>Horizontal distance hook to contact point, m.</summary>
    public double[] ToGoM { get; }
    /// <summary>Ground speed, m/s.</summary>
    public double[] SpeedMs { get; }
    /// <summary>Sink, m/s, down positive.</summary>
    public double[] SinkMs { get; }
    /// <summary>Load east of the target, m.</summary>
    public double[] LoadEast { get; }
    /// <summary>Load north of the target, m.</summary>
    public double[] LoadNorth { get; }
    /// <summary>Load's underside over the contact ground, m.</summary>
    public double[] LoadHeightM { get; }
    /// <summary>Load's distance to go along the course, m.</summary>
    public double[] LoadAlongM { get; }
    /// <summary>Half-width of the band that holds the load's true place nine times in ten, east and west, m. NaN where the load's place is not known: no swing worked out for this moment, or the load is down.</summary>
    public double[] LoadEastBandM { get; }
    /// <summary>The same north and south, m.</summary>
    public double[] LoadNorthBandM { get; }
    /// <summary>The same along the course, m.</summary>
    public double[] LoadAlongBandM { get; }

    /// <summary>Number of samples.</summary>
    public int Count => TimeS.Length;

    /// <summary>Lays a delivery out; null when it has no track, contact place or contact time.</summary>
    public static DeliveryPath? Of(Debrief debrief, Rotation rotation)
    {
        if (debrief.Track is not { Count: > 1 } track || rotation.DeliveryEnu is not { } contact || rotation.DeliveryTimeS is not { } contactTime)
            return null;
        double from = Math.Max(rotation.ApproachStartTimeS ?? contactTime - 90, contactTime - LongestS);
        double to = Math.Max(contactTime, Math.Min(rotation.ClearTimeS ?? contactTime + AfterContactS, contactTime + AfterContactS));
        double step = Math.Max(0.2, (to - from) / MostSamples);
        int count = Math.Max(2, (int)Math.Floor((to - from) / step) + 1);
        double course = rotation.Delivery?.ApproachCourseDeg ?? CourseFrom(track.At(from).Position, contact);
        Enu target = TargetOf(debrief, contact);
        SwingTrace? swing = debrief.Quality.CanJudgeSwing ? debrief.Swings.GetValueOrDefault(rotation.Number) : null;
        DeliveryPath path = new(rotation, count)
        {
            CourseDeg = course,
            Target = target,
            Contact = contact - target,
            ContactTimeS = contactTime,
            HasSwing = swing is not null,
        };
        (double sin, double cos) = Math.SinCos(double.DegreesToRadians(course));
        for (int i = 0; i < count; i++)
            path.Sample(i, track.At(Math.Min(from + i * step, to)), contact, swing, debrief.Setup.ContactLengthM, sin, cos);
        return path;
    }

    /// <summary>
    /// Samples in which each distance to go was passed for the last time, the farthest first: speed and sink against distance
    /// need one value a distance, and a go-around or an overshoot passes some distances more than once.
    /// </summary>
    public int[] LastPassages()
    {
        List<int> kept = [];
        double farthest = -1;
        for (int i = Array.FindLastIndex(TimeS, t => t <= ContactTimeS); i >= 0; i--)
        {
            if (ToGoM[i] <= farthest)
                continue;
            farthest = ToGoM[i];
            kept.Add(i);
        }
        kept.Reverse();
        return [.. kept];
    }

    private void Sample(int i, TrackPoint p, Enu contact, SwingTrace? swing, double contactLengthM, double sin, double cos)
    {
        Enu fromContact = p.Position - contact;
        int known = IndexAt(swing, p.TimeS);
        (double offsetEast, double offsetNorth) = known < 0 ? (0, 0) : (swing!.EastM[known], swing.NorthM[known]);
        TimeS[i] = p.TimeS;
        (East[i], North[i]) = (p.Position.East - Target.East, p.Position.North - Target.North);
        HeightM[i] = fromContact.Up;
        AlongM[i] = -(fromContact.East * sin + fromContact.North * cos);
        AcrossM[i] = fromContact.East * cos - fromContact.North * sin;
        ToGoM[i] = fromContact.Horizontal;
        SpeedMs[i] = p.Velocity.Horizontal;
        SinkMs[i] = -p.Velocity.Up;
        (LoadEast[i], LoadNorth[i]) = (East[i] + offsetEast, North[i] + offsetNorth);
        double offset = Math.Min(Math.Sqrt(offsetEast * offsetEast + offsetNorth * offsetNorth), contactLengthM);
        LoadHeightM[i] = Math.Max(0, HeightM[i] - Math.Sqrt(contactLengthM * contactLengthM - offset * offset));
        LoadAlongM[i] = AlongM[i] - (offsetEast * sin + offsetNorth * cos);
        (double eastError, double northError) = known < 0 || p.TimeS > ContactTimeS ? (double.NaN, double.NaN) : (swing!.EastErrorM[known], swing.NorthErrorM[known]);
        (LoadEastBandM[i], LoadNorthBandM[i], LoadAlongBandM[i]) = (SwingCurves.Ninety * eastError, SwingCurves.Ninety * northError, SwingCurves.Ninety * double.Hypot(eastError * sin, northError * cos));
    }

    private static int IndexAt(SwingTrace? swing, double timeS)
    {
        if (swing is null)
            return -1;
        int i = (int)Math.Round((timeS - swing.StartTimeS) / swing.StepS);
        return i >= 0 && i < swing.EastM.Length ? i : -1;
    }

    private static Enu TargetOf(Debrief debrief, Enu contact)
    {
        IEnumerable<FoundSite> known = debrief.Sites.Where(s => s is { Known: true, Use: SiteUse.Delivery } && (s.PositionEnu - contact).Horizontal < SameSiteM);
        if (known.MinBy(s => (s.PositionEnu - contact).Horizontal) is { } site)
            return site.PositionEnu;
        Enu[] near = [.. debrief.Rotations.Select(r => r.DeliveryEnu).OfType<Enu>().Where(c => (c - contact).Horizontal < SameSiteM)];
        return new(Median(near.Select(c => c.East)), Median(near.Select(c => c.North)), contact.Up);
    }

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }

    private static double CourseFrom(Enu from, Enu to)
    {
        double course = double.RadiansToDegrees(Math.Atan2(to.East - from.East, to.North - from.North));
        return course < 0 ? course + 360 : course;
    }
}
