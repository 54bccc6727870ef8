using Stillhook.Approaching;
using Stillhook.Files.Pictures;
using Stillhook.Files.Reports;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.App.Commands;

/// <summary>The approach as a person reads it in a terminal: the way in, its marks, power in and reject, how it comes out, what to look at, why not from elsewhere.</summary>
internal sealed class ApproachText(TextWriter output, ApproachPlan plan, DisplayUnits units)
{
    private const string None = "-";

    private ApproachSituation S => plan.Situation!;

    /// <summary>Writes the plan.</summary>
    /// <param name="changes">What moved, when it was planned again; null otherwise.</param>
    public void Write(IReadOnlyList<string>? changes)
    {
        output.WriteLine(Cautions.Plan);
        output.WriteLine();
        if (changes is not null)
            WriteChanges(changes);
        WriteHead();
        if (plan.IsOffered)
        {
            WriteGates();
            WriteTurningPoints();
            WriteOutcome();
        }
        WriteChecks();
        WriteSectors();
        WriteEmpty();
        WriteDefaults();
        output.WriteLine("The working of any figure: stillhook why JOB approach.power-in");
    }

    /// <summary>Alternatives for winds from all round: course, heights, how far a load would fall, who is near, and whom to reach.</summary>
    public void WriteWinds(IReadOnlyList<ApproachInWind> winds)
    {
        output.WriteLine(Cautions.Plan);
        output.WriteLine();
        output.WriteLine($"Approach of {S.LoadName} to {S.Site.Name} for winds from all round, altimeter for {(S.QnhPa is { } qnh ? units.Pressure(qnh) : "the setting of the day")}");
        TextTable table = new TextTable("Wind", "Course", "Start mark", "Altimeter there", "Decide by", "A load let go falls", "Nearest person to the way", "Way out").Words(4, 7);
        foreach (ApproachInWind w in winds)
            if (w.Plan is { IsOffered: true } p)
                table.Add(WindText(w), Invariant($"{p.CourseDeg:000}"), Invariant($"{p.Gates[0].DistanceM:0} m"), Invariant($"{p.Gates[0].AltimeterFt:0} ft"),
                    p.Gate(ApproachGates.RejectName) is { } reject ? Invariant($"{reject.AltimeterFt:0} ft, {Before(reject)}") : None, Invariant($"{Math.Ceiling(p.FallReachM):0} m ahead"), Nearest(p), p.Reject is { } r ? WayOutWords(r.TurnDeg) : None);
            else
                table.Add(WindText(w), "NONE");
        table.Write(output, "  ");
        foreach (ApproachInWind w in winds.Where(w => !w.Plan.IsOffered))
            output.WriteLine($"  {WindText(w)}: {units.Sentence(w.Plan.Refused ?? "")}");
        output.WriteLine("  " + Cautions.Gates);
        output.WriteLine();
        output.WriteLine(S.Request.Contacts.Count == 0 ? "Contacts: none entered (contacts)." : "Contacts");
        foreach (Contact c in S.Request.Contacts)
            output.WriteLine($"  {c.Name}: {c.Reach}{(c.For is { Length: > 0 } why ? $" ({why})" : "")}");
    }

    private static string WindText(ApproachInWind w) => Invariant($"{w.Wind.FromDeg:000}/{w.Wind.Speed.Knots:0}");

    private static string Nearest(ApproachPlan p)
    {
        Surroundings around = new(p.Situation!.Request, p.Situation.Site, p.Situation.Rules, null);
        CourseFrame course = new(p.CourseDeg);
        return around.People.Count == 0 ? None : Invariant($"{p.Way!.Path.Load.Min(l => around.People.Min(x => (course.ToEnu(l) - x.Place).Horizontal)):0} m");
    }

    private void WriteChanges(IReadOnlyList<string> changes)
    {
        output.WriteLine(changes.Count == 0 ? "No mark, course or gate moved by a step that a pilot could fly." : "What moved");
        foreach (string change in changes)
            output.WriteLine("  " + units.Sentence(change));
        output.WriteLine();
    }

    private void WriteHead()
    {
        output.WriteLine($"Approach of {S.LoadName} to {S.Site.Name}");
        string wind = S.Wind is { } w ? Invariant($"wind {w.FromDeg:000}/{w.Speed.Knots:0} kt{(S.ObservedGustMs > 0 ? Invariant($", gusts {w.Speed.Knots + S.ObservedGustMs / ApproachGates.KnotMs:0} kt") : "")}") : "wind not given";
        string time = S.Minute is { } minute ? ClockText.Of(Math.Floor(minute)) + ", " : "";
        output.WriteLine(Invariant($"  {time}{wind}, {S.TemperatureC:0.0} °C, {(S.QnhPa is { } qnh ? units.Pressure(qnh) : "no altimeter setting")}; line with rigging and load {S.ContactLengthM:0.0} m; {units.Mass(S.Load.MassKg + S.Load.LineKgPerM * S.Load.LengthM)} on the hook, line included{Left()}."));
        if (plan.Refused is { } why)
        {
            output.WriteLine("  NO APPROACH: " + units.Sentence(why));
            foreach (string remedy in plan.Remedies)
                output.WriteLine("    would work: " + units.Sentence(remedy));
            output.WriteLine();
            return;
        }
        PathShape shape = plan.Way!.Path.Shape;
        SectorCheck sector = plan.Sectors.First(x => x.CourseDeg == plan.CourseDeg);
        output.WriteLine(Invariant($"  Fly course {plan.CourseDeg:000}° true, {Winds(sector)}. Start mark {shape.StartM:0} m before the spot, path {shape.GlideDeg:0.0}°, {S.Rules.EntrySpeedMs.Value / ApproachGates.KnotMs:0} kt of air speed, one smooth slow-down of at most {S.Rules.SlowDownMs2.Value / 9.80665:0.00} g, {plan.Way.Path.TimeS(plan.Way.Path.Count - 1):0} s to contact; nose up to {new ApproachAttitude(S, plan.Way.Path).LargestNoseUpDeg():0}°."));
        output.WriteLine();
    }

    /// <summary>Power left over the spot, of what, and what limits it; with torque where that is known.</summary>
    private string Left()
    {
        if (S.Hover is not { } hover)
            return "";
        string torque = plan.Power is { TorquePercent: { } t, RequiredShare: { } share } ? Invariant($" (about {Math.Floor(t[^1] / share[^1]):0} % torque)") : "";
        return Invariant($"; {Math.Floor(hover.LeftPercent):0} % of the power there is{torque} is left over the spot (limit: {hover.From})");
    }

    private static string Winds(SectorCheck sector)
    {
        double ahead = sector.HeadwindMs / ApproachGates.KnotMs, side = sector.CrosswindMs / ApproachGates.KnotMs;
        string along = Math.Abs(ahead) < 0.5 ? "no wind along it" : Invariant($"{Math.Abs(ahead):0} kt from {(ahead > 0 ? "ahead" : "behind")}");
        return Math.Abs(side) < 0.5 ? along : Invariant($"{along}, {Math.Abs(side):0} kt from the {(side > 0 ? "left" : "right")}");
    }

    /// <summary>The marks alone, with the setting they are for.</summary>
    public void WriteGates()
    {
        output.WriteLine($"Marks for {(S.QnhPa is { } qnh ? units.Pressure(qnh) : "the setting of the day")}; altimeter rounded up to 20 ft, temperature correction in it");
        TextTable table = new TextTable("Mark", "Before the spot", "Altimeter", "Load over spot's ground", "Speed", "Sink", "Power expected", "Flights off").Words(0, 1, 4);
        foreach (ApproachGate g in plan.Gates)
            table.Add(g.Name, g.DistanceM > 0 ? Invariant($"{g.DistanceM:0} m{(g.Landmark is { } seen ? ", " + seen : "")}") : None, Invariant($"{g.AltimeterFt:0} ft"), units.Height(g.LoadHeightM), Speed(g), Invariant($"{g.SinkFtPerMin:0} ft/min"), Power(g), g.Broken is { } b ? Percent(b) : "");
        table.Write(output, "  ");
        output.WriteLine("  Sink at the start mark is what it settles to. Flights off: simulated flights more than 20 ft or 5 kt off the mark, or sinking faster than allowed.");
        output.WriteLine("  " + Cautions.Gates);
        output.WriteLine();
    }

    private static string Speed(ApproachGate g) => g.AirKt is { } air ? Invariant($"{air:0} kt air speed") : g.GroundMs < 2.5 ? g.GroundMs < 0.5 ? "still" : "walking pace" : Invariant($"{g.GroundKt:0} kt over ground");

    private static string Power(ApproachGate g) => g.TorquePercent is { } torque ? Invariant($"{torque:0} % torque") : g.PowerPercent is { } share ? Invariant($"{share:0} % of it") : None;

    private void WriteTurningPoints()
    {
        if (plan.PowerIn is { } p && plan.Gate(ApproachGates.PowerInName) is { } powerIn)
            output.WriteLine(Invariant($"Power in: begin to bring power in by {powerIn.AltimeterFt:0} ft on the altimeter, {Before(powerIn)}, at the latest{Rising(powerIn)}. Stopping the {powerIn.SinkFtPerMin:0} ft/min planned there takes {units.Height(p.LostM)}; sinking over {Floor50(plan.LargestSinkAtPowerInMs!.Value):0} ft/min there, reject."));
        if (plan.Reject is { } r && plan.Gate(ApproachGates.RejectName) is { } reject)
            output.WriteLine(Invariant($"Reject: decide by {reject.AltimeterFt:0} ft, {Before(reject)}, at the latest; way out {WayOutWords(r.TurnDeg)}, sink stopped and climbing, load at least {units.Height(Math.Floor(r.LowestM))} over what is under it."));
        output.WriteLine(Invariant($"Clock: one swing there and back {S.PeriodS:0.0} s. A load let go on the way falls at most {Math.Ceiling(plan.FallReachM):0} m ahead, margin included{(S.Options.Ground is null ? ", over level ground" : "")}."));
        output.WriteLine();
    }

    private string Rising(ApproachGate powerIn) => powerIn.TorquePercent is { } there && plan.Gates[^1].TorquePercent is { } over ? Invariant($": about {there:0} % torque there, rising to {over:0} % over the spot") : "";

    private static string Before(ApproachGate gate) => gate.DistanceM > 0 ? Invariant($"{gate.DistanceM:0} m before the spot") : "over the spot";

    private static double Floor50(double sinkMs) => Math.Floor(sinkMs / 0.3048 * 60 / 50) * 50;

    private static string WayOutWords(double turnDeg) => turnDeg == 0 ? "straight on" : Invariant($"{Math.Abs(turnDeg):0}° to the {(turnDeg > 0 ? "right" : "left")}");

    private void WriteOutcome()
    {
        Robustness r = plan.Robustness!;
        output.WriteLine(Invariant($"In {r.Flights} simulated flights with drawn line, load, wind, timing and hand the load is within {r.MissM.Half:0.0} m of the spot at contact in half of them, within {r.MissM.NinetyFive:0.0} m in 95 of 100, before any help from the ground; swing then {r.SwingM.Half:0.0} m and {r.SwingM.NinetyFive:0.0} m."));
        output.WriteLine("  The scatter comes from " + string.Join(", ", r.Causes.Where(c => c.Share >= 0.02).Select(c => $"{c.Cause} {Percent(c.Share)}")) + ".");
        output.WriteLine();
    }

    private void WriteChecks()
    {
        foreach (CheckItem item in plan.Checks.OrderByDescending(i => i.Red).ThenByDescending(i => i.Verdict))
            output.WriteLine($"  {(item.Red ? "LOOK AT" : item.Verdict switch { CheckVerdict.Fails => "FAILS", CheckVerdict.ToConfirm => "to confirm", _ => "in order" })}: {units.Sentence(item.Text)}");
        output.WriteLine();
    }

    /// <summary>Directions side by side that are ruled out for the same reason stand on one line.</summary>
    private void WriteSectors()
    {
        if (plan.Sectors.Count < 2)
            return;
        output.WriteLine("Directions (true course flown)");
        for (int i = 0; i < plan.Sectors.Count;)
        {
            int to = i;
            while (to + 1 < plan.Sectors.Count && (plan.Sectors[to + 1].Block?.Code, plan.Sectors[to + 1].Block?.Subject) == (plan.Sectors[i].Block?.Code, plan.Sectors[i].Block?.Subject))
                to++;
            SectorCheck worst = plan.Sectors.Skip(i).Take(to - i + 1).MaxBy(x => x.Block?.Excess ?? 0)!;
            string courses = to == i ? Invariant($"{plan.Sectors[i].CourseDeg:000}") : Invariant($"{plan.Sectors[i].CourseDeg:000} to {plan.Sectors[to].CourseDeg:000}");
            output.WriteLine($"  {courses}: {(worst.Block is { } block ? units.Sentence(block.Text) + (to > i ? Invariant($" (course {worst.CourseDeg:000})") : "") : "can be flown.")}");
            i = to + 1;
        }
        output.WriteLine();
    }

    private void WriteEmpty()
    {
        if (plan.Empty is not { } e)
            return;
        output.WriteLine(Invariant($"Empty way back: line and hook swing once in {e.PeriodS:0.0} s and trail {e.TrailDeg:0}° at {e.AtMs / ApproachGates.KnotMs:0} kt.{(e.LargestSpeedMs is { } limit && limit < 1.5 * e.AtMs ? Invariant($" In steady air it comes within 3 m of the tail at {Math.Floor(limit / ApproachGates.KnotMs / 5) * 5:0} kt.") : "")} {e.Note}"));
        output.WriteLine("  " + Cautions.EmptyLine);
        output.WriteLine();
    }

    private void WriteDefaults()
    {
        if (plan.Defaults.Count == 0)
            return;
        output.WriteLine("Nobody set these; set yours in the job file:");
        foreach (FigureInput input in plan.Defaults)
            output.WriteLine($"  {input.Where}: {input.Name}, {AmountText.Of(input.Value, units)}");
        output.WriteLine();
    }

    private static string Percent(double share) => share is > 0 and < 0.005 ? "under 1 %" : Invariant($"{100 * share:0} %");

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
