using Stillhook.Physics.Earth;
using Stillhook.Physics.Motion;

namespace Stillhook.Approaching;

/// <summary>The last place from which going around keeps the load clear.</summary>
/// <param name="Index">Sample of the path.</param>
/// <param name="DistanceM">Distance to go of the hook there, m.</param>
/// <param name="HookHeightM">Height of the hook there over the spot's ground.</param>
/// <param name="LoadHeightM">Height of the load's underside there.</param>
/// <param name="TurnDeg">Turn of the way out, degrees; right positive, 0 straight on.</param>
/// <param name="LowestM">Least height of the load over what is under it on that way out.</param>
public sealed record RejectGate(int Index, double DistanceM, double HookHeightM, double LoadHeightM, double TurnDeg, double LowestM)
{
    /// <summary>Turns that a way out is tried with, straight on first.</summary>
    public static IReadOnlyList<double> Turns { get; } = [0, -45, 45, -90, 90];
}

/// <summary>Flies the way out from each place of a path.</summary>
/// <remarks>
/// The path goes on for the reaction; then the sink ends with the acceleration of <see cref="SinkArrest"/> as it builds up behind the lag (power in hand as in the hover, whatever the speed: speed helps,
/// it is not counted on) and a climb follows of 1 m/s, or of what the power in hand gives in the hover, 2(x − 1)·v_h, when that is less [LEISHMAN], at the ground speed of the moment. The turn is flown at 6° a second. For 30 s the load must stay over the ground, obstacles and wires by
/// the clearance, within 30 m of the spot over the ground by half of the power-in reserve (10 ft), and off everybody by the people's distance, the fall zone with it. The gate is never lower than 20 ft
/// of load height, and with less power left than the operator's reserve never later than power in.
/// </remarks>
public sealed class WayOut
{
    /// <summary>How long the way out is looked at, s.</summary>
    public const double AheadS = 30;

    /// <summary>Turn on the way out, degrees a second.</summary>
    public const double TurnRateDeg = 6;

    private const double LeastLoadHeightM = 20 * 0.3048, StepS = 0.2, MostClimbMs = 1, SideM = 5, NearM = 30, OverTheSpotM = 3, CrewWithinM = 60, UsualInducedMs = 10;

    private readonly ApproachSituation s;
    private readonly Surroundings surroundings;
    private readonly SinkArrest arrest;
    private readonly double climbMs;

    /// <summary>Ways out in a situation.</summary>
    public WayOut(ApproachSituation situation, Surroundings surroundings, SinkArrest arrest) =>
        (s, this.surroundings, this.arrest, climbMs) = (situation, surroundings, arrest, Math.Clamp(2 * (arrest.PowerOverHover - 1) * (situation.HoverInducedMs ?? UsualInducedMs), 0, MostClimbMs));

    /// <summary>The gate: the last sample such that a way out is there at it and at every sample before; null when there is none at the start mark.</summary>
    /// <param name="path">The way in.</param>
    /// <param name="courseDeg">Its true course.</param>
    /// <param name="powerIn">Power-in gate: with less power left than the operator's reserve, going around is decided no later.</param>
    public RejectGate? Last(LoadPath path, double courseDeg, PowerInGate? powerIn = null)
    {
        ArgumentNullException.ThrowIfNull(path);
        int latest = powerIn is not null && s.Hover?.LeftPercent < s.Rules.HoverReservePercent.Value ? powerIn.Index : path.StopIndex - 1;
        RejectGate? best = null;
        foreach (double turn in RejectGate.Turns)
            if (Last(path, courseDeg, turn, latest) is { } gate && (best is null || gate.DistanceM < best.DistanceM - 20))
                best = gate;
        return best;
    }

    private RejectGate? Last(LoadPath path, double courseDeg, double turnDeg, int latest)
    {
        RejectGate? last = null;
        int every = Math.Max(1, (int)(StepS / path.StepS));
        // Below one step of the altimeter over contact no reading tells the gate from the ground.
        for (int i = path.StartIndex; i <= latest && path.LoadHeightM[i] >= LeastLoadHeightM; i += every)
        {
            if (Lowest(path, courseDeg, turnDeg, i) is not { } lowest)
                break;
            last = new(i, -path.Hook[i].East, path.Hook[i].Up, path.LoadHeightM[i], turnDeg, lowest);
        }
        return last;
    }

    /// <summary>Least height over what is under the load on the way out, m; null when it is not clear.</summary>
    private double? Lowest(LoadPath path, double courseDeg, double turnDeg, int from)
    {
        if (arrest.DecelerationMs2 is not { } a)
            return null;
        int reaction = (int)(s.Rules.ReactionS.Value / path.StepS);
        double lowest = double.PositiveInfinity, height = 0, sink = 0, speed = 0, heading = courseDeg;
        Enu at = default;
        for (int i = from; i <= from + reaction; i++)
        {
            int k = Math.Min(i, path.Count - 1);
            (at, height, sink, speed) = (new CourseFrame(courseDeg).ToEnu(path.Load[k]), path.LoadHeightM[k], path.SinkMs(k), path.SpeedMs[k]);
        }
        for (double t = 0; t < AheadS; t += StepS)
        {
            sink = Math.Max(-climbMs, sink - a * (1 - Math.Exp(-t / s.Rules.LagS.Value)) * StepS);
            height -= sink * StepS;
            double left = turnDeg - (heading - courseDeg);
            heading += Math.Sign(left) * Math.Min(Math.Abs(left), TurnRateDeg * StepS);
            at += new CourseFrame(heading).ToEnu(new(speed * StepS, 0, 0));
            if (Clear(at, heading, height) is not { } over || SomebodyUnder(at, new CourseFrame(heading).ToEnu(new(speed, 0, 0)), height))
                return null;
            lowest = Math.Min(lowest, over);
        }
        return lowest;
    }

    /// <summary>Height over what is under the load, m; null when it or the rotor comes closer to something than is kept.</summary>
    private double? Clear(Enu at, double headingDeg, double loadHeightM)
    {
        double clearance = s.Rules.ClearanceM.Value, hookM = loadHeightM + s.ContactLengthM, keep = at.Horizontal < NearM ? PowerInGate.LeastReserveM / 2 : clearance;
        if (surroundings.HighestM(at, headingDeg, at.Horizontal < NearM ? 0 : clearance + SideM) is not { } ground || surroundings.HighestM(at, headingDeg, surroundings.RotorRadiusM + clearance) is not { } beside)
            return null;
        double over = loadHeightM - ground;
        bool clear = over >= keep && hookM >= beside + clearance;
        foreach ((_, Enu place, double top) in surroundings.Obstacles)
            Mind((at - place).Horizontal, clearance, top);
        foreach ((_, Enu wireFrom, Enu to, double? top, double keepM) in surroundings.Wires)
            Mind(GroundDistance.ToSegmentM(at, wireFrom, to), Math.Max(keepM, clearance), top ?? double.PositiveInfinity);
        return clear ? over : null;

        // Under the load as on the way in; beside it the rotor, which is a line's length higher, still reaches farther.
        void Mind(double awayM, double keepM, double topM)
        {
            bool under = awayM < keepM + SideM;
            if (under)
                over = Math.Min(over, loadHeightM - topM);
            clear &= under ? loadHeightM >= topM + keepM : awayM >= surroundings.RotorRadiusM + keepM || hookM >= topM + keepM;
        }
    }

    /// <summary>Whether the crew's side, or anybody, would be within the people's distance of where the load is or would fall; not asked while it is over the spot itself.</summary>
    private bool SomebodyUnder(Enu at, Enu velocity, double loadHeightM)
    {
        FallZone zone = surroundings.Falls(at, velocity, s.Wind is { } wind ? wind.VelocityEnu : default, loadHeightM);
        return at.Horizontal > OverTheSpotM && (OnTheCrewsSide(at) || surroundings.People.Any(p => zone.DistanceM(p.Place) < s.Rules.PeopleClearanceM.Value));
    }

    private bool OnTheCrewsSide(Enu at) => s.Site.CrewClearSide is { } side && at.Horizontal < CrewWithinM && WaySearch.Apart(double.RadiansToDegrees(Math.Atan2(at.East, at.North)), side.Degrees) < WaySearch.CrewSideDeg;
}
