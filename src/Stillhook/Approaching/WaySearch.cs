using System.Globalization;
using Stillhook.Physics.Earth;
using Stillhook.Physics.Line;
using Stillhook.Physics.Rotor;
using Stillhook.Planning;

namespace Stillhook.Approaching;

/// <summary>Looks for ways in: every direction, start distance, glide and height law, each either clear or with the reason against it.</summary>
/// <remarks>
/// In each direction the slow-down is as hard as the limit allows (<see cref="SlowDownFit"/>) and as soft at its ends as 0.57 of the swing's period, where it is shortest;
/// start marks are the next round 50 m beyond it and up to 250 m further; heights go up in steps of glide to the steepest permitted. What is left is ranked by time from 1 km out
/// plus, own choice: turning off the straight leg at 3° a second, half a second for each knot from the side, 0.3 s more where the wind puts the nose between pilot
/// and target, 0.3 s less for each knot from ahead, 10 s with the sun within 30° of the nose and under 40° high, 10 s with people or the crew's clear side ahead of the spot,
/// and 1 s for each degree that the path is off 8°, where a normal approach begins [FAA-H-8083-21]. In each direction the first that is clear and sinks less than 300 ft/min below 30 kt is taken, looked
/// for among the next 24 at most; else the first that is clear.
/// </remarks>
public sealed class WaySearch
{
    /// <summary>Half of the wedge in which the crew stands clear, degrees.</summary>
    public const double CrewSideDeg = 30;

    /// <summary>Step of the grid that ways are tried on, s.</summary>
    public const double TryStepS = 0.25;

    private const double Knot = 1852.0 / 3600, SectorDeg = 10, LightWindMs = 3 * Knot, LeastEntryMs = 1, RankFromM = 1000, LongestM = 2000;
    private const double SunOffDeg = 30, SunHighDeg = 40, UsualGlideDeg = 8, AheadDeg = 45, AheadM = 60;

    private const double LeastDescentM = 2;
    private const int MoreTries = 24;
    private static readonly double[] Glides = [5, 6, 7, 8, 9, 10, 12, 14, 16, 20, 25, 30];

    private readonly ApproachSituation s;
    private readonly Surroundings surroundings;
    private readonly double? pinnedStartM, pinnedGlideDeg, pinnedCourseDeg;

    /// <summary>A search.</summary>
    /// <param name="situation">Load, site, wind, rules.</param>
    /// <param name="surroundings">What is round the spot.</param>
    /// <param name="startM">Start mark when pinned, m.</param>
    /// <param name="glideDeg">Path angle when pinned, degrees.</param>
    /// <param name="courseDeg">Course when pinned, degrees.</param>
    public WaySearch(ApproachSituation situation, Surroundings surroundings, double? startM, double? glideDeg, double? courseDeg)
    {
        ArgumentNullException.ThrowIfNull(situation);
        ArgumentNullException.ThrowIfNull(surroundings);
        (s, this.surroundings, pinnedStartM, pinnedGlideDeg, pinnedCourseDeg) = (situation, surroundings, startM, glideDeg, courseDeg);
    }

    /// <summary>Softness that slow-downs are tried with, in swing periods: the shortest, and two that mind a wrong line length less.</summary>
    public static IReadOnlyList<double> Softness { get; } = [0.57, 0.8, 1.0];

    /// <summary>Every direction, in the order of its course.</summary>
    public IReadOnlyList<SectorCheck> AllRound()
    {
        if (pinnedCourseDeg is { } only)
            return [Sector(only)];
        List<double> courses = [.. Enumerable.Range(0, (int)(360 / SectorDeg)).Select(i => i * SectorDeg)];
        // The straight leg and the wind's eye deserve their own degree.
        foreach (double extra in new[] { s.Direct?.CourseDeg, s.Wind?.FromDeg }.OfType<double>().Select(c => Math.Round(c)))
            if (!courses.Contains(extra % 360))
                courses.Add(extra % 360);
        courses.Sort();
        // Shared out as they are done: directions that the wind rules out cost nothing, and they lie side by side.
        SectorCheck[] found = new SectorCheck[courses.Count];
        Parallel.For(0, found.Length, i => found[i] = Sector(courses[i]));
        return found;
    }

    /// <summary>What is found in one direction with the softness that is shortest.</summary>
    public SectorCheck Sector(double courseDeg) => Sector(courseDeg, Softness[0]);

    /// <summary>What is found in one direction.</summary>
    /// <param name="courseDeg">True course.</param>
    /// <param name="softness">Width of the soft ends in swing periods.</param>
    public SectorCheck Sector(double courseDeg, double softness)
    {
        HangingLoad hanging = s.Hanging(courseDeg);
        SectorCheck Result(WayIn? way, PathBlock? block) => new(courseDeg, way, block, -hanging.WindAlongMs, hanging.WindRightMs);
        return Forbidden(courseDeg, hanging) is { } forbidden ? Result(null, forbidden) : Best(courseDeg, hanging, softness, Result);
    }

    private PathBlock? Forbidden(double courseDeg, in HangingLoad hanging)
    {
        double tail = hanging.WindAlongMs, cross = Math.Abs(hanging.WindRightMs);
        if (s.Wind is { } wind && wind.Speed.MetersPerSecond > LightWindMs && tail > 0.5 * Knot)
            return Block("downwind", $"downwind by {tail / Knot:0} kt.", 10 + tail);
        double gusting = cross * (1 + s.ObservedGustMs / Math.Max(0.1, s.Wind?.Speed.MetersPerSecond ?? 0));
        if (gusting > s.Rules.CrosswindMs.Value)
            return Block("crosswind", $"{gusting / Knot:0} kt from the side{(s.ObservedGustMs > 0 ? " in gusts" : "")}; {s.Rules.CrosswindMs.Value / Knot:0} kt are allowed.", 5 + gusting / s.Rules.CrosswindMs.Value);
        return s.Site.CrewClearSide is { } side && Apart(courseDeg + 180, side.Degrees) < CrewSideDeg
            ? Block("crew-side", $"it comes in over the side that the crew keeps clear ({side.Degrees:000}°).", 8) : null;
    }

    private SectorCheck Best(double courseDeg, HangingLoad hanging, double softness, Func<WayIn?, PathBlock?, SectorCheck> result)
    {
        double air = s.Rules.EntrySpeedMs.Value, cross = hanging.WindRightMs;
        if (air <= Math.Abs(cross))
            return result(null, Block("crosswind", $"the wind from the side is faster than the approach.", 9));
        double entry = hanging.WindAlongMs + Math.Sqrt(air * air - cross * cross);
        if (entry <= LeastEntryMs)
            return result(null, Block("headwind", $"{-hanging.WindAlongMs / Knot:0} kt from ahead leave {Math.Max(0, entry) / Knot:0} kt over the ground at {air / Knot:0} kt of air speed.", 9));
        if (pinnedGlideDeg > s.Rules.SteepestGlideDeg.Value + 1e-6)
            return result(null, Steep(pinnedGlideDeg.Value));
        double soft = softness * Swing.PeriodS(hanging.Load.LengthM), box = SlowDownFit.BoxS(hanging, entry, soft, s.Rules.SlowDownMs2.Value, s.Rules.TauRate);
        PathShape pattern = new(entry, 0, 0, box, soft, HeightLaw.Glide, 1, s.Rules.LetDownM.Value, s.Rules.TouchDownSinkMs.Value) { TauRate = s.Rules.TauRate };
        if (Starts(pattern.SlowDownM) is not { Count: > 0 } starts)
            return result(null, TooShort(pattern));
        PathBlock? nearest = null;
        WayIn? fallback = null;
        int more = MoreTries;
        foreach ((PathShape shape, double cost) in starts.SelectMany(start => Heights(pattern with { StartM = start })).Select(x => (x, CostS(courseDeg, hanging, x))).OrderBy(x => Math.Round(x.Item2, 6)))
        {
            if (SlowDownFit.Fitted(shape, hanging, s.SinkLimit, s.Rules.SlowDownMs2.Value, TryStepS) is not { } path)
                continue;
            if (fallback is not null && --more < 0)
                break;
            // With one in hand only a quieter one would be better.
            if (fallback is not null && AmberSinkFromM(path) is not null)
                continue;
            if (Breaks(path, courseDeg) is not { } block)
                if (AmberSinkFromM(path) is null)
                    return result(new(courseDeg, path, cost), null);
                else
                    fallback ??= new(courseDeg, path, cost);
            else
                nearest = nearest is null || block.Excess < nearest.Excess ? block : nearest;
        }
        if (fallback is not null)
            return result(fallback, null);
        return result(null, nearest ?? (starts.Any(start => Heights(pattern with { StartM = start }).Any()) ? TooShort(pattern) : TooLow(starts[^1])));
    }

    private PathBlock TooLow(double startM)
    {
        double glide = pinnedGlideDeg ?? s.Rules.SteepestGlideDeg.Value, height = startM * Math.Tan(double.DegreesToRadians(glide));
        return Block("too-low", $"{glide:0.#}° over {startM:0} m gives {height:0.0} m at the start mark; the load is to come to rest {s.Rules.LetDownM.Value:0.#} m up and must come down to there.", (s.Rules.LetDownM.Value + LeastDescentM) / Math.Max(0.1, height));
    }

    private List<double> Starts(double slowDownM)
    {
        if (pinnedStartM is { } pinned)
            return slowDownM <= pinned ? [pinned] : [];
        double longest = Math.Min(LongestM, 0.8 * (s.Direct?.LengthM ?? LongestM / 0.8)), first = Math.Ceiling(slowDownM / 50) * 50;
        return [.. new[] { first, first + 50, first + 150, first + 250 }.Where(d => d <= longest)];
    }

    private PathBlock TooShort(PathShape pattern)
    {
        double there = pinnedStartM ?? 0.8 * (s.Direct?.LengthM ?? LongestM), v = pattern.EntryMs, needed = v * v / (2 * there) / Gravity.Standard;
        return Block("too-short", $"slowing down from {v / Knot:0} kt over the ground at {s.Rules.SlowDownMs2.Value / Gravity.Standard:0.00} g takes {pattern.SlowDownM:0} m, there are {there:0} m (even a slow-down as hard at its ends as in its middle needs {needed:0.000} g).", 1 + pattern.SlowDownM / there);
    }

    private IEnumerable<PathShape> Heights(PathShape shape)
    {
        double steepest = s.Rules.SteepestGlideDeg.Value;
        IEnumerable<double> glides = pinnedGlideDeg is { } pinned ? [pinned] : Glides.Where(g => g <= steepest).DefaultIfEmpty(steepest);
        foreach (double glide in glides)
        {
            double height = shape.StartM * Math.Tan(double.DegreesToRadians(glide));
            if (height < shape.LetDownM + LeastDescentM)
                continue;
            if (pinnedGlideDeg is not null)
            {
                yield return shape with { StartHeightM = height };
                yield break;
            }
            foreach (double bend in new[] { 1.0, 1.2, 1.4 })
                yield return shape with { StartHeightM = height, Bend = bend };
            yield return shape with { StartHeightM = height, Law = HeightLaw.AllowedSink };
        }
    }

    /// <summary>What a path breaks, worst first; null when it is clear.</summary>
    public PathBlock? Breaks(LoadPath path, double courseDeg)
    {
        ArgumentNullException.ThrowIfNull(path);
        if (path.Shape.GlideDeg > s.Rules.SteepestGlideDeg.Value + 1e-6)
            return Steep(path.Shape.GlideDeg);
        double nose = new ApproachAttitude(s, path).LargestNoseUpDeg();
        if (nose > s.Rules.NoseUpDeg.Value)
            return Block("nose-up", $"the nose comes up {nose:0.0}°; {s.Rules.NoseUpDeg.Value:0.#}° are allowed.", nose / s.Rules.NoseUpDeg.Value);
        PathBlock? sink = TooFast(path);
        PathBlock? around = surroundings.Blocks(path, courseDeg);
        return sink is null || around?.Excess > sink.Excess ? around : sink;
    }

    /// <summary>Distance to go from which the aircraft sinks 300 ft/min or more below 30 kt of air speed, m: inside the limit, but not as practice has it; null when it never does.</summary>
    public static double? AmberSinkFromM(LoadPath path)
    {
        ArgumentNullException.ThrowIfNull(path);
        for (int i = path.StartIndex; i < path.StopIndex; i++)
            if (path.Hanging.AirspeedMs(path.SpeedMs[i]) < VortexRing.AmberBelowSpeedMs && path.SinkMs(i) >= VortexRing.AmberSinkMs)
                return path.DistanceM[i];
        return null;
    }

    private PathBlock Steep(double glideDeg) => Block("steep", $"{glideDeg:0.0}° from the start mark to the spot; {s.Rules.SteepestGlideDeg.Value:0.#}° are allowed.", glideDeg / s.Rules.SteepestGlideDeg.Value);

    private PathBlock? TooFast(LoadPath path)
    {
        SinkLimit limit = s.SinkLimit;
        double worst = 0.05, at = 0, allowed = 0;
        // Nobody gave the wind: the stated spread is taken from behind, where the air speed is least. Gusts that were observed come and go as much.
        double fromBehind = s.Wind is null ? s.Rules.GustSpreadMs.Value : s.ObservedGustMs;
        for (int i = 1; i < path.StopIndex; i++)
        {
            double permitted = limit.At(Math.Max(0, path.Hanging.AirspeedMs(path.SpeedMs[i]) - fromBehind)), over = path.SinkMs(i) - permitted;
            if (over > worst)
                (worst, at, allowed) = (over, path.DistanceM[i], permitted);
        }
        return worst <= 0.05 ? null
            : Block("sink", $"sinking {Math.Ceiling((allowed + worst) / 0.3048 * 60 / 10) * 10:0} ft/min {at:0} m before the spot; {Math.Floor(allowed / 0.3048 * 60 / 10) * 10:0} are allowed at the air speed there.", worst / allowed);
    }

    private double CostS(double courseDeg, in HangingLoad hanging, PathShape shape)
    {
        double cost = (RankFromM - shape.StartM) / shape.EntryMs + shape.StopS;
        double crossKt = hanging.WindRightMs / Knot;
        cost += 0.5 * Math.Abs(crossKt) + 0.3 * hanging.WindAlongMs / Knot;
        if (s.Request.Aircraft?.PilotSide is { } side && crossKt * (side == PilotSide.Right ? 1 : -1) < -1)
            cost += 0.3 * Math.Abs(crossKt);
        if (s.Direct is { } direct)
            cost += Apart(direct.CourseDeg, courseDeg) / 3;
        cost += Math.Abs(shape.GlideDeg - UsualGlideDeg);
        return cost + (SunInTheEyes(s.Sun, courseDeg) ? 10 : 0) + (SomebodyAhead(courseDeg) ? 10 : 0);
    }

    /// <summary>Whether somebody stands, or the crew's own side lies, where an overshoot or the way out would lead.</summary>
    private bool SomebodyAhead(double courseDeg) => s.Site.CrewClearSide is { } side && Apart(side.Degrees, courseDeg) < AheadDeg
        || surroundings.People.Any(p => p.Place.Horizontal is > 1 and < AheadM && Apart(double.RadiansToDegrees(Math.Atan2(p.Place.East, p.Place.North)), courseDeg) < AheadDeg);

    /// <summary>Whether the sun stands in the pilot's eyes on a course.</summary>
    public static bool SunInTheEyes(SunPosition? sun, double courseDeg) =>
        sun is { ElevationDeg: > -1 and < SunHighDeg } up && Apart(up.AzimuthDeg, courseDeg) < SunOffDeg;

    /// <summary>Angle between two directions, 0 to 180 degrees.</summary>
    public static double Apart(double aDeg, double bDeg) => Math.Abs(Math.IEEERemainder(aDeg - bDeg, 360));

    private static PathBlock Block(string code, FormattableString text, double excess) => new(code, text.ToString(CultureInfo.InvariantCulture), excess);
}
