using Stillhook.Approaching;
using Stillhook.Files.Pictures;
using Stillhook.Files.Reports;
using Stillhook.Planning;

namespace Stillhook.App.Commands;

/// <summary>The approach as a person reads it in a terminal: the way in, its marks, power in and reject, how it comes out, what to look at, why not from elsewhere.</summary>
internal sealed class ApproachText(TextWriter output, ApproachPlan plan, DisplayUnits units)
{
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
                table.Add(ApproachWords.Wind(w), Invariant($"{p.CourseDeg:000}"), Invariant($"{p.Gates[0].DistanceM:0} m"), Invariant($"{p.Gates[0].AltimeterFt:0} ft"),
                    p.Gate(ApproachGates.RejectName) is { } reject ? Invariant($"{reject.AltimeterFt:0} ft, {ApproachWords.Before(reject)}") : ApproachWords.None, Invariant($"{Math.Ceiling(p.FallReachM):0} m ahead"), ApproachWords.NearestPerson(p), p.Reject is { } r ? ApproachWords.WayOut(r.TurnDeg) : ApproachWords.None);
            else
                table.Add(ApproachWords.Wind(w), "NONE");
        table.Write(output, "  ");
        foreach (ApproachInWind w in winds.Where(w => !w.Plan.IsOffered))
            output.WriteLine($"  {ApproachWords.Wind(w)}: {units.Sentence(w.Plan.Refused ?? "")}");
        output.WriteLine("  " + Cautions.Gates);
        output.WriteLine();
        output.WriteLine(S.Request.Contacts.Count == 0 ? "Contacts: none entered (contacts)." : "Contacts");
        foreach (Contact c in S.Request.Contacts)
            output.WriteLine($"  {c.Name}: {c.Reach}{(c.For is { Length: > 0 } why ? $" ({why})" : "")}");
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
        output.WriteLine("  " + ApproachWords.Conditions(plan, units));
        if (plan.Refused is { } why)
        {
            output.WriteLine("  NO APPROACH: " + units.Sentence(why));
            foreach (string remedy in plan.Remedies)
                output.WriteLine("    would work: " + units.Sentence(remedy));
        }
        else
            output.WriteLine("  " + ApproachWords.Way(plan));
        output.WriteLine();
    }

    /// <summary>The marks alone, with the setting they are for.</summary>
    public void WriteGates()
    {
        output.WriteLine($"Marks for {(S.QnhPa is { } qnh ? units.Pressure(qnh) : "the setting of the day")}; altimeter rounded up to 20 ft, temperature correction in it");
        TextTable table = new TextTable("Mark", "Before the spot", "Altimeter", "", "Load over spot's ground", "Speed", "Sink", "Power expected", "Flights off").Words(0, 1, 3, 5);
        foreach (ApproachGate g in plan.Gates)
            table.Add(g.Name, ApproachWords.Place(g), Invariant($"{g.AltimeterFt:0} ft"), plan.BesideReading(g), units.Height(g.LoadHeightM), ApproachWords.Speed(g), Invariant($"{g.SinkFtPerMin:0} ft/min"), ApproachWords.Power(g), g.Broken is { } b ? ApproachWords.Percent(b) : "");
        table.Write(output, "  ");
        output.WriteLine("  Sink at the start mark is what it settles to. Flights off: simulated flights more than 20 ft or 5 kt off the mark, or sinking faster than allowed.");
        if (ApproachWords.Powers(plan) is { } powers)
            output.WriteLine("  " + powers);
        output.WriteLine("  " + Cautions.Gates);
        output.WriteLine();
    }

    private void WriteTurningPoints()
    {
        if (ApproachWords.PowerIn(plan, units) is { } powerIn)
            output.WriteLine("Power in: " + powerIn);
        if (ApproachWords.Reject(plan, units) is { } reject)
            output.WriteLine("Reject: " + reject);
        output.WriteLine("Clock: " + ApproachWords.Clock(plan));
        output.WriteLine();
    }

    private void WriteOutcome()
    {
        output.WriteLine(ApproachWords.Outcome(plan.Robustness!));
        output.WriteLine("  " + ApproachWords.Causes(plan.Robustness!));
        output.WriteLine();
    }

    private void WriteChecks()
    {
        foreach (CheckItem item in ApproachWords.InOrder(plan.Checks))
            output.WriteLine($"  {ApproachWords.Verdict(item)}: {units.Sentence(item.Text)}");
        output.WriteLine();
    }

    private void WriteSectors()
    {
        if (plan.Sectors.Count < 2)
            return;
        output.WriteLine("Directions (true course flown)");
        foreach ((string courses, string found, _) in ApproachWords.Directions(plan.Sectors, units))
            output.WriteLine($"  {courses}: {found}");
        output.WriteLine();
    }

    private void WriteEmpty()
    {
        if (plan.Empty is not { } e)
            return;
        output.WriteLine("Empty way back: " + ApproachWords.Empty(e));
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

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
