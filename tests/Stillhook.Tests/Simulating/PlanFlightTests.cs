using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Records;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Simulating;
using Stillhook.Tests.Files.Jobs;

namespace Stillhook.Tests.Simulating;

/// <summary>A plan flown, recorded, read and debriefed: the debrief must find the plan, and the fault that was flown.</summary>
public class PlanFlightTests
{
    private static readonly Lazy<(LiftRequest Request, ApproachPlan Plan)> Planned = new(() =>
    {
        LiftRequest request = JobFile.Read(File.OpenRead(Repository.File("examples/path-repair.json"))).Request;
        return (request, Job.Approach(request, Job.Plan(request, new()), new() { Flights = 500 }));
    });

    [Fact]
    public void Look()
    {
        (LiftRequest request, ApproachPlan plan) = Planned.Value;
        SimulatedDay day = PlanFlight.Fly(plan, [Fault.None, Fault.Overshoot, Fault.HighStart, Fault.AbruptSlowdown, Fault.FastEntry, Fault.LateSink, Fault.LateralOffset, Fault.HoverWait, Fault.Undershoot, Fault.LowStart, Fault.None]);
        void Say(string t) => TestContext.Current.TestOutputHelper?.WriteLine(t);
        foreach (TruthRotation r in day.Rotations)
            Say($"T {r.Number} {r.MainFault} start {r.StartHeightM:0.0} {r.StartDistanceM:0} v {r.EntrySpeedMs:0.0} a {r.PeakDecelMs2:0.00} over {r.OvershootM:0.0} short {r.StopShortM:0.0} sw50 {r.Swing50mM:0.00} after {r.SwingAfterStopM:0.00} contact {r.SwingContactM:0.00} hover {r.HoverTimeS:0.0} sink {r.SinkLast15Ms:0.00} lat {r.LateralMissM:0.0} glide {r.GlideDeg:0.0}");
        FlightRecord record = Recorder.Record(day, RecorderModel.WithError(0.5) with { Climb = true, LoadCell = true }, 1);
        Debrief debrief = Job.Debrief(record, LiftSetup.From(request));
        foreach (Rotation r in debrief.Rotations)
            if (r.Delivery is { } d)
                Say($"D {r.Number} {d.MainFault} [{string.Join(",", d.Faults)}] start {d.StartHeightM:0.0} {d.StartDistanceM:0} v {d.EntrySpeedMs:0.0} a {d.PeakDecelMs2:0.00} over {d.OvershootM:0.0} short {d.StopShortM:0.0} sw50 x hover {d.HoverTimeS:0.0} sink {d.SinkLast15Ms:0.00} ga {r.GoArounds}");
        Say(debrief.Rotations.Count + " " + debrief.NoRotationsBecause + string.Join(";", debrief.Findings.Select(f => f.What)));
    }
}
