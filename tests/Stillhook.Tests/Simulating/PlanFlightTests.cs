using Stillhook.Adjusting;
using Stillhook.Approaching;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Files.Records;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Simulating;

namespace Stillhook.Tests.Simulating;

/// <summary>A plan flown, recorded, read and debriefed: the debrief must find the plan, and the fault that was flown. Simulated truth throughout.</summary>
public class PlanFlightTests
{
    private static readonly Lazy<(LiftRequest Request, ApproachPlan Plan)> Planned = new(() =>
    {
        LiftRequest request = JobFile.Read(File.OpenRead(Repository.File("examples/path-repair.json"))).Request;
        return (request, Job.Approach(request, Job.Plan(request, new()), new() { Flights = 500 }));
    });

    private static readonly Lazy<SimulatedDay> AsPlanned = new(() => PlanFlight.Fly(Planned.Value.Plan, [Fault.None, Fault.None, Fault.None]));

    private static LiftSetup Setup => Planned.Value.Plan.Onto(LiftSetup.From(Planned.Value.Request) with { Gates = [] });

    private static FlightRecord Recorded(SimulatedDay day) => Recorder.Record(day, RecorderModel.WithError(0.5) with { Climb = true, LoadCell = true }, 1);

    [Fact]
    public void Fly_AsPlanned_LoadHangsStillAtContactOverTheSpot()
    {
        foreach (TruthRotation r in AsPlanned.Value.Rotations)
        {
            Assert.InRange(r.SwingContactM!.Value, 0, 0.05);
            Assert.InRange(r.LateralMissM!.Value, -0.05, 0.05);
            Assert.InRange(r.OvershootM!.Value, 0, 0.3);
            Assert.Equal(Planned.Value.Plan.Way!.Path.Shape.TouchDownSinkMs, r.SinkLast15Ms!.Value, 0.02);
        }
    }

    [Fact]
    public void Debrief_OfThePlanFlown_FindsItPerfect()
    {
        ApproachPlan plan = Planned.Value.Plan;
        Debrief debrief = Job.Debrief(Recorded(AsPlanned.Value), Setup);
        Assert.Equal(3, debrief.Rotations.Count);
        foreach (Rotation r in debrief.Rotations)
        {
            Delivery d = r.Delivery!;
            Assert.Empty(d.Faults);
            // Height of the hook at the knee over the target, within the recorder's and the knee's own error.
            Assert.Equal(plan.Way!.Path.Hook[0].Up, d.StartHeightM!.Value, 4.0);
            Assert.Equal(plan.Way.Path.Shape.StartM, d.StartDistanceM!.Value, 15.0);
            Assert.Equal(plan.Way.Path.Shape.EntryMs, d.EntrySpeedMs!.Value, 0.3);
            Assert.Equal(plan.Way.Path.PeakHookSlowDownMs2(), d.PeakDecelMs2!.Value, 0.08);
        }
        NextApproach next = Job.Next(debrief);
        Assert.Empty(next.Changes);
    }

    [Theory]
    [InlineData(Fault.Overshoot), InlineData(Fault.Undershoot), InlineData(Fault.HighStart), InlineData(Fault.LowStart), InlineData(Fault.AbruptSlowdown)]
    [InlineData(Fault.FastEntry), InlineData(Fault.LateSink), InlineData(Fault.LateralOffset), InlineData(Fault.HoverWait)]
    public void Debrief_OfAFaultFlown_FindsThatFault(Fault fault)
    {
        Debrief debrief = Job.Debrief(Recorded(PlanFlight.Fly(Planned.Value.Plan, [Fault.None, fault])), Setup);
        Assert.Equal([Fault.None, fault], debrief.Rotations.Select(r => r.Delivery!.MainFault));
    }

    [Theory]
    [InlineData(RecordFormat.Gpx), InlineData(RecordFormat.Nmea), InlineData(RecordFormat.Csv), InlineData(RecordFormat.Igc)]
    public void Debrief_OfThePlanWrittenAndRead_FindsItPerfectInEveryFormat(RecordFormat format)
    {
        using MemoryStream stream = new();
        RecordWriter.Write(Recorded(AsPlanned.Value), format, stream);
        stream.Position = 0;
        FlightRecord read = RecordReader.Read(stream, "day." + format);
        Debrief debrief = Job.Debrief(read, Setup);
        Assert.Equal(3, debrief.Rotations.Count);
        Assert.All(debrief.Rotations, r => Assert.Empty(r.Delivery!.Faults));
    }

    [Fact]
    public void Fly_GoAround_IsNoFaultOfAPath() =>
        Assert.Throws<ArgumentException>(() => PlanFlight.Fly(Planned.Value.Plan, [Fault.GoAround]));
}
