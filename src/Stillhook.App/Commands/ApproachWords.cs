using Stillhook.Approaching;
using Stillhook.Files.Pictures;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.App.Commands;

/// <summary>An approach in words and sentences, the same in the terminal and on the page.</summary>
internal static class ApproachWords
{
    /// <summary>Stands where there is nothing to say.</summary>
    public const string None = "-";

    /// <summary>Time, wind, air, line and load it is planned for, and what power is left over the spot.</summary>
    public static string Conditions(ApproachPlan plan, DisplayUnits units)
    {
        ApproachSituation s = plan.Situation!;
        string wind = s.Wind is { } w ? Invariant($"wind {w.FromDeg:000}/{w.Speed.Knots:0} kt{(s.ObservedGustMs > 0 ? Invariant($", gusts {w.Speed.Knots + s.ObservedGustMs / ApproachGates.KnotMs:0} kt") : "")}") : "wind not given";
        string time = s.Minute is { } minute ? ClockText.Of(minute) + ", " : "";
        return Invariant($"{time}{wind}, {s.TemperatureC:0.0} °C, {(s.QnhPa is { } qnh ? units.Pressure(qnh) : "no altimeter setting")}; line with rigging and load {s.ContactLengthM:0.0} m; {units.Mass(s.Load.MassKg + s.Load.LineKgPerM * s.Load.LengthM)} on the hook, line included{Left(plan)}.");
    }

    /// <summary>The way in: course, wind along it, start mark, path, speed, slow-down, time.</summary>
    public static string Way(ApproachPlan plan)
    {
        ApproachSituation s = plan.Situation!;
        PathShape shape = plan.Way!.Path.Shape;
        SectorCheck sector = plan.Sectors.First(x => x.CourseDeg == plan.CourseDeg);
        return Invariant($"Fly course {plan.CourseDeg:000}° true, {Winds(sector)}. Start mark {shape.StartM:0} m before the spot, path {shape.GlideDeg:0.0}°, {s.Rules.EntrySpeedMs.Value / ApproachGates.KnotMs:0} kt of air speed, one smooth slow-down of at most {s.Rules.SlowDownMs2.Value / 9.80665:0.00} g, {plan.Way.Path.TimeS(plan.Way.Path.Count - 1):0} s to contact; nose up to {new ApproachAttitude(s, plan.Way.Path).LargestNoseUpDeg():0}°.");
    }

    /// <summary>When power must be coming on; null without such a gate.</summary>
    public static string? PowerIn(ApproachPlan plan, DisplayUnits units) => plan.PowerIn is { } p && plan.Gate(ApproachGates.PowerInName) is { } powerIn
        ? Invariant($"begin to bring power in by {powerIn.AltimeterFt:0} ft on the altimeter, {Before(powerIn)}, at the latest{Rising(plan, powerIn)}. Stopping the {powerIn.SinkFtPerMin:0} ft/min planned there takes {units.Height(p.LostM)}; sinking over {Floor50(plan.LargestSinkAtPowerInMs!.Value):0} ft/min there, reject.") : null;

    /// <summary>Where going around is decided at the latest, and the way out; null without such a gate.</summary>
    public static string? Reject(ApproachPlan plan, DisplayUnits units) => plan.Reject is { } r && plan.Gate(ApproachGates.RejectName) is { } reject
        ? Invariant($"decide by {reject.AltimeterFt:0} ft, {Before(reject)}, at the latest; way out {WayOut(r.TurnDeg)}, sink stopped and climbing, load at least {units.Height(Math.Floor(r.LowestM))} over what is under it.") : null;

    /// <summary>The swing as a clock, and how far a load falls.</summary>
    public static string Clock(ApproachPlan plan) =>
        Invariant($"one swing there and back {plan.Situation!.SwingWords}, with this load and line: from the aircraft free to move to the hook held still. A load let go on the way falls at most {Math.Ceiling(plan.FallReachM):0} m ahead, margin included{(plan.Situation.Options.Ground is null ? ", over level ground" : "")}.");

    /// <summary>How the simulated flights come out.</summary>
    public static string Outcome(Robustness r) =>
        Invariant($"In {r.Flights} simulated flights with drawn line, load, wind, timing and hand the load is within {r.MissM.Half:0.0} m of the spot at contact in half of them, within {r.MissM.NinetyFive:0.0} m in 95 of 100, before any help from the ground; swing then {r.SwingM.Half:0.0} m and {r.SwingM.NinetyFive:0.0} m.");

    /// <summary>What the scatter comes from, largest first.</summary>
    public static string Causes(Robustness r) => "The scatter comes from " + string.Join(", ", r.Causes.Where(c => c.Share >= 0.02).Select(c => $"{c.Cause} {Percent(c.Share)}")) + ".";

    /// <summary>The empty way back.</summary>
    public static string Empty(EmptyLine e) =>
        Invariant($"line and hook swing once in {e.PeriodS:0.0} s and trail {e.TrailDeg:0}° at {e.AtMs / ApproachGates.KnotMs:0} kt.{(e.LargestSpeedMs is { } limit && limit < 1.5 * e.AtMs ? Invariant($" In steady air it comes within 3 m of the tail at {Math.Floor(limit / ApproachGates.KnotMs / 5) * 5:0} kt.") : "")} {e.Note}");

    /// <summary>Directions side by side that are ruled out for the same reason, as one: the courses and what was found.</summary>
    public static IEnumerable<(string Courses, string Found, bool Allowed)> Directions(IReadOnlyList<SectorCheck> sectors, DisplayUnits units)
    {
        for (int i = 0; i < sectors.Count;)
        {
            int to = i;
            while (to + 1 < sectors.Count && (sectors[to + 1].Block?.Code, sectors[to + 1].Block?.Subject) == (sectors[i].Block?.Code, sectors[i].Block?.Subject))
                to++;
            SectorCheck worst = sectors.Skip(i).Take(to - i + 1).MaxBy(x => x.Block?.Excess ?? 0)!;
            string courses = to == i ? Invariant($"{sectors[i].CourseDeg:000}") : Invariant($"{sectors[i].CourseDeg:000} to {sectors[to].CourseDeg:000}");
            yield return (courses, worst.Block is { } block ? units.Sentence(block.Text) + (to > i ? Invariant($" (course {worst.CourseDeg:000})") : "") : "can be flown.", worst.Block is null);
            i = to + 1;
        }
    }

    /// <summary>What a check says, in a word or two.</summary>
    public static string Verdict(CheckItem item) => item.Red ? "LOOK AT" : item.Verdict switch { CheckVerdict.Fails => "FAILS", CheckVerdict.ToConfirm => "to confirm", _ => "in order" };

    /// <summary>Checks, most pressing first.</summary>
    public static IEnumerable<CheckItem> InOrder(IEnumerable<CheckItem> checks) => checks.OrderByDescending(i => i.Red).ThenByDescending(i => i.Verdict);

    /// <summary>Where a mark is.</summary>
    public static string Place(ApproachGate g) => g.DistanceM > 0 ? Invariant($"{g.DistanceM:0} m{(g.Landmark is { } seen ? ", " + seen : "")}") : None;

    /// <summary>Speed at a mark: of the air where an indicator shows it, else over the ground.</summary>
    public static string Speed(ApproachGate g) => g.AirKt is { } air ? Invariant($"{air:0} kt air speed") : g.GroundMs < 2.5 ? g.GroundMs < 0.5 ? "still" : "walking pace" : Invariant($"{g.GroundKt:0} kt over ground");

    /// <summary>Power expected at a mark.</summary>
    public static string Power(ApproachGate g) => g.TorquePercent is { } torque ? Invariant($"{torque:0} % torque") : g.PowerPercent is { } share ? Invariant($"{share:0} % of it") : None;

    /// <summary>A mark's distance in a sentence.</summary>
    public static string Before(ApproachGate gate) => gate.DistanceM > 0 ? Invariant($"{gate.DistanceM:0} m before the spot") : "over the spot";

    /// <summary>Which way a way out turns.</summary>
    public static string WayOut(double turnDeg) => turnDeg == 0 ? "straight on" : Invariant($"{Math.Abs(turnDeg):0}° to the {(turnDeg > 0 ? "right" : "left")}");

    /// <summary>A wind as direction and knots.</summary>
    public static string Wind(ApproachInWind w) => Invariant($"{w.Wind.FromDeg:000}/{w.Wind.Speed.Knots:0}");

    /// <summary>Distance of the nearest person from the load's way, m.</summary>
    public static string NearestPerson(ApproachPlan p)
    {
        Surroundings around = new(p.Situation!.Request, p.Situation.Site, p.Situation.Rules, null);
        CourseFrame course = new(p.CourseDeg);
        return around.People.Count == 0 ? None : Invariant($"{p.Way!.Path.Load.Min(l => around.People.Min(x => (course.ToEnu(l) - x.Place).Horizontal)):0} m");
    }

    /// <summary>A share in percent.</summary>
    public static string Percent(double share) => share is > 0 and < 0.005 ? "under 1 %" : Invariant($"{100 * share:0} %");

    /// <summary>Power left over the spot, of what, and what limits it; with torque where that is known.</summary>
    private static string Left(ApproachPlan plan)
    {
        if (plan.Situation!.Hover is not { } hover)
            return "";
        return Invariant($"; power left over the spot {HoverRatio.Shown(hover.LeftPercent):0} % of the most there is, in still air, nothing taken off for gusts or a margin (limit: {hover.From})");
    }

    /// <summary>How power expected and power left hang together, in one sentence; null where one of them is not known.</summary>
    public static string? Powers(ApproachPlan plan) => plan is { Situation.Hover: { } hover, Power: { TorquePercent: { } t, RequiredShare: { } share }, Gates: [.., { TorquePercent: { } over }] }
        ? Invariant($"Power expected is torque used, by the power model, in the wind of the plan: {over:0} % over the spot. Power left there, {HoverRatio.Shown(hover.LeftPercent):0} %, is not the rest to 100: it is of the most there is here (about {Math.Floor(t[^1] / share[^1]):0} % torque by the model), by the tightest of torque page, model and chart, in still air.") : null;

    private static string Winds(SectorCheck sector)
    {
        double ahead = sector.HeadwindMs / ApproachGates.KnotMs, side = sector.CrosswindMs / ApproachGates.KnotMs;
        string along = Math.Abs(ahead) < 0.5 ? "no wind along it" : Invariant($"{Math.Abs(ahead):0} kt from {(ahead > 0 ? "ahead" : "behind")}");
        return Math.Abs(side) < 0.5 ? along : Invariant($"{along}, {Math.Abs(side):0} kt from the {(side > 0 ? "left" : "right")}");
    }

    private static string Rising(ApproachPlan plan, ApproachGate powerIn) => powerIn.TorquePercent is { } there && plan.Gates[^1].TorquePercent is { } over ? Invariant($": about {there:0} % torque there, rising to {over:0} % over the spot") : "";

    private static double Floor50(double sinkMs) => Math.Floor(sinkMs / 0.3048 * 60 / 50) * 50;

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
