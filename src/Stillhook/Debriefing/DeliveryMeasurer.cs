using Stillhook.Physics.Earth;
using Stillhook.Physics.Motion;

namespace Stillhook.Debriefing;

/// <summary>Measures one delivery. Every definition: docs/method/delivery.md.</summary>
internal static class DeliveryMeasurer
{
    private const double StepS = 0.1;
    private const double NearM = 40;
    private const double StoppedMs = 1.5;
    private const double SlowdownOverS = 2;
    private const double LastHeightM = 1.5;
    private const double GoAroundNearM = 70;
    private const double GoAroundClimbM = 8;
    private const double GoAroundAwayM = 60;

    /// <summary>Fills times, places and measures of a rotation from its draft; swing of the loaded leg may be null.</summary>
    public static Rotation Measure(int number, RotationDraft draft, Track track, LiftSetup setup, SwingTrace? swing, DebriefSettings settings)
    {
        RotationPath path = RotationPath.Sample(track, draft.LiftOffS, draft.ContactS, StepS);
        int contact = path.Count - 1;
        Enu hook = path.Position(contact);
        Enu place = Ground(hook, setup, track) + Offset(swing, draft.ContactS);
        Enu pickUp = Ground(path.Position(0), setup, track);
        double[] d = new double[path.Count];
        for (int i = 0; i < d.Length; i++)
            d[i] = path.DistanceTo(i, place);

        int near = LastEntry(d, NearM);
        int stop = FirstStop(path, near);
        var notJudged = new List<string>();
        ApproachStart? start = null;
        if (track.HasHeight)
        {
            start = ApproachStart.Find(path, d, stop, hook.Up);
            if (start is null)
                notJudged.Add("Start mark and glide: height over distance shows no bend on the way in.");
        }
        else
            notJudged.Add("Heights, glide, sink: the record has no usable altitude.");
        int startAt = start is { } s ? path.Index(s.TimeS) : ApproachStart.InboundFrom(d, stop);
        (double east, double north) = Course(path, startAt, place);

        (double? decel, double? decelAt) = PeakSlowdown(path, d, startAt, stop);
        double past = 0, sideways = 0;
        for (int i = near; i <= contact; i++)
        {
            double e = path.East[i] - place.East, n = path.North[i] - place.North;
            past = Math.Max(past, e * east + n * north);
            double right = e * north - n * east;
            if (i >= stop && Math.Abs(right) > Math.Abs(sideways))
                sideways = right;
        }
        double shortBy = -((path.East[stop] - place.East) * east + (path.North[stop] - place.North) * north);
        return new Rotation
        {
            Number = number,
            PickupTimeS = draft.LiftOffS,
            DeliveryTimeS = draft.ContactS,
            DeliveryTimeErrorS = draft.ContactErrorS,
            ReleaseTimeS = draft.ReleaseS ?? draft.ClearS,
            ClearTimeS = draft.ClearS,
            StopTimeS = path.Time(stop),
            ApproachStartTimeS = start?.TimeS,
            PickupEnu = pickUp,
            DeliveryEnu = place,
            GoArounds = GoArounds(path, d, track.HasHeight),
            Confidence = draft.Confidence,
            NotJudged = notJudged,
            Delivery = new Delivery
            {
                StartHeightM = start?.HeightOverContactM + setup.ContactLengthM,
                StartDistanceM = start?.DistanceM,
                GlideDeg = start?.GlideDeg,
                EntrySpeedMs = start is null ? null : path.MeanSpeed(startAt),
                PeakDecelMs2 = decel,
                PeakDecelDistanceM = decelAt,
                OvershootM = past,
                StopShortM = shortBy,
                LineUpErrorM = sideways,
                LateralMissM = LateralMiss(track, setup, place, east, north),
                ApproachCourseDeg = (double.RadiansToDegrees(Math.Atan2(east, north)) + 360) % 360,
                HoverTimeS = draft.ContactS - path.Time(stop),
                SinkLast15Ms = track.HasHeight ? LastSink(path, hook.Up) : null,
                Smoothness = start is null ? null : Smoothness(path, startAt, stop),
                Corrections = Corrections(path, startAt, settings.CorrectionDeadBandMs2, east, north),
                Tries = draft.Tries,
                SecondsOverPeople = SecondsOverPeople(path, track, setup, swing, settings),
                Gates = Gates(path, d, hook.Up, setup, track.HasHeight, near, settings),
            },
        };
    }

    /// <summary>Spectral arc length of the slow-down's amount, start to stop. Not of the speed: the measure is made for what starts and ends at zero.</summary>
    private static double? Smoothness(RotationPath path, int start, int stop)
    {
        if (stop - start < 2)
            return null;
        double[] slowdown = new double[stop - start];
        for (int i = 0; i < slowdown.Length; i++)
            slowdown[i] = Math.Abs(path.Speed[start + i + 1] - path.Speed[start + i]) / StepS;
        double length = SpectralArcLength.Of(slowdown, 1 / StepS);
        return double.IsFinite(length) ? length : null;
    }

    /// <summary>The place on the ground under the hook when the line is tight.</summary>
    private static Enu Ground(Enu hook, LiftSetup setup, Track track) => track.HasHeight ? hook with { Up = hook.Up - setup.ContactLengthM } : hook;

    private static Enu Offset(SwingTrace? swing, double timeS)
    {
        if (swing is null || swing.EastM.Length == 0)
            return default;
        int i = Math.Clamp((int)Math.Round((timeS - swing.StartTimeS) / swing.StepS), 0, swing.EastM.Length - 1);
        return new(swing.EastM[i], swing.NorthM[i], 0);
    }

    /// <summary>First sample after the last time the distance came under a limit; 0 when always under.</summary>
    private static int LastEntry(double[] d, double limit)
    {
        int i = d.Length - 1;
        while (i > 0 && d[i - 1] < limit)
            i--;
        return i;
    }

    private static int FirstStop(RotationPath path, int from)
    {
        for (int i = from; i < path.Count; i++)
        {
            if (path.MeanSpeed(i) < StoppedMs)
                return i;
        }
        return path.Count - 1;
    }

    /// <summary>Direction from the start mark to the delivery point.</summary>
    private static (double East, double North) Course(RotationPath path, int start, Enu place)
    {
        double e = place.East - path.East[start], n = place.North - path.North[start];
        double length = Math.Max(1e-6, Math.Sqrt(e * e + n * n));
        return (e / length, n / length);
    }

    private static (double? Ms2, double? DistanceM) PeakSlowdown(RotationPath path, double[] d, int start, int stop)
    {
        int over = (int)Math.Round(SlowdownOverS / path.StepS);
        double? most = null, at = null;
        for (int i = start; i + over <= stop; i++)
        {
            double slow = (path.Speed[i] - path.Speed[i + over]) / SlowdownOverS;
            if (most is null || slow > most)
                (most, at) = (slow, d[i + over / 2]);
        }
        return (most, at);
    }

    /// <summary>1.5 m over the time of the last 1.5 m of load height, m/s.</summary>
    private static double? LastSink(RotationPath path, double contactHeight)
    {
        int i = path.Count - 1;
        while (i > 0 && path.Height[i] < contactHeight + LastHeightM)
            i--;
        if (i == 0)
            return null;
        double s = (path.Height[i] - contactHeight - LastHeightM) / Math.Max(1e-9, path.Height[i] - path.Height[i + 1]);
        double time = path.Time(path.Count - 1) - (path.Time(i) + Math.Clamp(s, 0, 1) * path.StepS);
        return time > 0 ? LastHeightM / time : null;
    }

    /// <summary>Changes of sign of the along-track acceleration beyond a dead band.</summary>
    private static int Corrections(RotationPath path, int from, double deadBand, double east, double north)
    {
        int half = (int)Math.Round(0.5 / path.StepS), changes = 0, sign = 0;
        for (int i = from + half; i + half < path.Count; i += half)
        {
            double before = path.VelocityEast[i - half] * east + path.VelocityNorth[i - half] * north;
            double after = path.VelocityEast[i + half] * east + path.VelocityNorth[i + half] * north;
            double a = (after - before) / (2 * half * path.StepS);
            if (Math.Abs(a) < deadBand || Math.Sign(a) == sign)
                continue;
            if (sign != 0)
                changes++;
            sign = Math.Sign(a);
        }
        return changes;
    }

    /// <summary>Times the hook came near the delivery point, climbed and went away again before the delivery.</summary>
    private static int GoArounds(RotationPath path, double[] d, bool hasHeight)
    {
        int count = 0;
        bool inside = false;
        double closest = 0, low = 0;
        for (int i = 0; i < d.Length; i++)
        {
            if (!inside)
            {
                inside = d[i] < GoAroundNearM;
                (closest, low) = (d[i], path.Height[i]);
                continue;
            }
            closest = Math.Min(closest, d[i]);
            low = Math.Min(low, path.Height[i]);
            bool climbed = !hasHeight || path.Height[i] > low + GoAroundClimbM;
            if (d[i] > Math.Max(GoAroundNearM, closest + GoAroundAwayM) && climbed)
            {
                count++;
                inside = false;
            }
        }
        return count;
    }

    private static double? LateralMiss(Track track, LiftSetup setup, Enu place, double east, double north)
    {
        KnownSite? target = setup.Sites.Where(s => s.Use == SiteUse.Delivery)
            .MinBy(s => (track.Frame.ToEnu(s.LatitudeDeg, s.LongitudeDeg, track.Frame.HeightM) - place).Horizontal);
        if (target is null)
            return null;
        Enu miss = place - track.Frame.ToEnu(target.LatitudeDeg, target.LongitudeDeg, track.Frame.HeightM);
        return miss.Horizontal > 200 ? null : miss.East * north - miss.North * east;
    }

    private static double? SecondsOverPeople(RotationPath path, Track track, LiftSetup setup, SwingTrace? swing, DebriefSettings settings)
    {
        if (setup.People.Count == 0)
            return null;
        Enu[] people = [.. setup.People.Select(p => track.Frame.ToEnu(p.LatitudeDeg, p.LongitudeDeg, track.Frame.HeightM))];
        int over = 0;
        for (int i = 0; i < path.Count; i++)
        {
            Enu load = path.Position(i) + Offset(swing, path.Time(i));
            if (people.Any(p => (p - load).Horizontal < settings.PersonRadiusM))
                over++;
        }
        return over * path.StepS;
    }

    private static List<GatePassage> Gates(RotationPath path, double[] d, double contactHeight, LiftSetup setup, bool hasHeight, int near, DebriefSettings settings)
    {
        var gates = new List<GatePassage>();
        IEnumerable<double> distances = setup.Gates.Count > 0 ? setup.Gates.Select(g => g.DistanceM) : settings.GateDistancesM;
        foreach (double gate in distances.OrderDescending())
        {
            int i = near;
            while (i > 0 && d[i] < gate)
                i--;
            while (i < path.Count - 1 && d[i] > gate)
                i++;
            if (Math.Abs(d[i] - gate) < 5)
                gates.Add(new(gate, path.Time(i), hasHeight ? path.Height[i] - contactHeight + setup.ContactLengthM : double.NaN, path.MeanSpeed(i), hasHeight ? -path.Climb[i] : double.NaN));
        }
        return gates;
    }
}
