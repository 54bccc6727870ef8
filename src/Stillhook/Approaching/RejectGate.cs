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
/// the clearance, over the spot's own ground by half of the power-in reserve, and off everybody by the people's distance.
/// </remarks>
public sealed class WayOut
{
    /// <summary>How long the way out is looked at, s.</summary>
    public const double AheadS = 30;

    /// <summary>Turn on the way out, degrees a second.</summary>
    public const double TurnRateDeg = 6;

    private const double StepS = 0.2, MostClimbMs = 1, SideM = 5, UsualInducedMs = 10;

    private readonly ApproachSituation s;
    private readonly Surroundings surroundings;
    private readonly SinkArrest arrest;
    private readonly double climbMs;

    /// <summary>Ways out in a situation.</summary>
    public WayOut(ApproachSituation situation, Surroundings surroundings, SinkArrest arrest) =>
        (s, this.surroundings, this.arrest, climbMs) = (situation, surroundings, arrest, Math.Clamp(2 * (arrest.PowerOverHover - 1) * (situation.HoverInducedMs ?? UsualInducedMs), 0, MostClimbMs));

    /// <summary>The gate: the last sample such that a way out is there at it and at every sample before; null when there is none at the start mark.</summary>
    public RejectGate? Last(LoadPath path, double courseDeg)
    {
        ArgumentNullException.ThrowIfNull(path);
        RejectGate? best = null;
        foreach (double turn in RejectGate.Turns)
            if (Last(path, courseDeg, turn) is { } gate && (best is null || gate.DistanceM < best.DistanceM - 20))
                best = gate;
        return best;
    }

    private RejectGate? Last(LoadPath path, double courseDeg, double turnDeg)
    {
        RejectGate? last = null;
        int every = Math.Max(1, (int)(StepS / path.StepS));
        for (int i = path.StartIndex; i < path.StopIndex; i += every)
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
            if (Clear(at, height) is not { } over || SomebodyUnder(at, new CourseFrame(heading).ToEnu(new(speed, 0, 0)), height))
                return null;
            lowest = Math.Min(lowest, over);
        }
        return lowest;
    }

    /// <summary>Height over what is under the load; null when that is too little, or somebody stands there.</summary>
    private double? Clear(Enu at, double loadHeightM)
    {
        double clearance = s.Rules.ClearanceM.Value;
        if (surroundings.GroundM(at) is not { } ground)
            return null;
        double over = loadHeightM - ground, keep = at.Horizontal < 30 ? PowerInGate.LeastReserveM / 2 : Math.Min(clearance, PowerInGate.LeastReserveM);
        if (over < keep)
            return null;
        foreach ((_, Enu place, double obstacle) in surroundings.Obstacles)
            over = Math.Min(over, Over((at - place).Horizontal, clearance, obstacle));
        foreach ((_, Enu wireFrom, Enu to, double? wire, double keepM) in surroundings.Wires)
            over = Math.Min(over, Over(GroundDistance.ToSegmentM(at, wireFrom, to), keepM, wire ?? double.PositiveInfinity));
        // Under the load as on the way in; beside it the rotor, which is a line's length higher, still reaches farther.
        double Over(double awayM, double keepM, double topM) =>
            awayM < keepM + SideM ? loadHeightM - topM - keepM : awayM < surroundings.RotorRadiusM + keepM ? loadHeightM + s.ContactLengthM - topM - keepM : double.PositiveInfinity;
        return over < 0 ? null : over;
    }
    /// <summary>Whether somebody but those at the spot would be within the people's distance of where the load is or would fall.</summary>
    private bool SomebodyUnder(Enu at, Enu velocity, double loadHeightM)
    {
        double margin = s.Rules.PeopleClearanceM.Value, atTheSpot = margin + 3;
        Enu lands = at + FallZone.Reach(velocity, s.Wind is { } wind ? wind.VelocityEnu : default, loadHeightM);
        return at.Horizontal > atTheSpot && surroundings.People.Any(p => p.Place.Horizontal > atTheSpot && GroundDistance.ToSegmentM(p.Place, at, lands) < margin);
    }
}
