using Stillhook.Debriefing;
using Stillhook.Physics.Earth;
using Stillhook.Recording;
using UnitsNet;

namespace Stillhook.Tests.Debriefing;

public class DebrieferTests
{
    private static readonly LiftSetup Setup = new() { Line = new(Length.FromMeters(30), Origin.Typed) };
    private static readonly QualityVerdict Quality = new(0.2, 0, 0, 0, 0, 0, true, false, [], []);

    private static Debrief Run(HandMadeDay day, double slowErrorM = 0, bool hasHeight = true, params Channel[] channels) =>
        Debriefer.FromTrack(day.Record(channels), day.Track(slowErrorM, hasHeight), Quality, Setup, null, TestContext.Current.CancellationToken);

    // Simulated truth: the day's own event times; slack 1 to 1.5 m at 0.5 m/s leaves up to about 2 s.
    private static void FindsAll(HandMadeDay day, Debrief debrief, double toleranceS)
    {
        Assert.Equal(day.Contacts.Count, debrief.Rotations.Count);
        for (int i = 0; i < day.Contacts.Count; i++)
        {
            Assert.Equal(day.LiftOffs[i], debrief.Rotations[i].PickupTimeS!.Value, toleranceS);
            Assert.Equal(day.Contacts[i], debrief.Rotations[i].DeliveryTimeS!.Value, toleranceS);
        }
    }

    [Theory]
    [InlineData(1, 0)]
    [InlineData(2, 1)]
    [InlineData(3, 2)]
    [InlineData(4, 2)]
    public void FromTrack_PlainDay_FindsEveryRotation(int seed, double slowErrorM)
    {
        HandMadeDay day = new HandMadeDay(seed).Ground(60).Rotations(6).FlyTo(new(20, -15, 0), 10, 9, 14);
        FindsAll(day, Run(day, slowErrorM), slowErrorM > 1 ? 8 : 4);
    }

    // Closed form: the course from pick-up to spot, to either side of north; flown straight, so the last stretch has it too.
    [Theory]
    [InlineData(800, 500, 57.995)]
    [InlineData(-700, -600, 229.399)]
    [InlineData(-700, 600, 310.601)]
    public void Debrief_StraightWayIn_HasItsCourse(double east, double north, double courseDeg)
    {
        HandMadeDay day = new HandMadeDay(11) { Target = new(east, north, 120) }.Ground(60).Rotations(3).FlyTo(new(20, -15, 0), 10, 9, 14);
        Debrief debrief = Run(day);
        Assert.Equal(3, debrief.Rotations.Count);
        Assert.All(debrief.Rotations, r => Assert.Equal(courseDeg, r.Delivery!.ApproachCourseDeg!.Value, 0.4));
    }

    [Fact]
    public void FromTrack_LookFirst_IsNoRotation()
    {
        var day = new HandMadeDay(5);
        day.Ground(60).FlyTo(day.Target, 55, 9, 14).Wait(10).Vertical(day.Target, 52, 0.5).Vertical(day.Target, 60, 1).Rotations(4).Wait(1);
        FindsAll(day, Run(day, 1), 4);
    }

    [Fact]
    public void FromTrack_WaitingStopWithLoad_IsNoDelivery()
    {
        var day = new HandMadeDay(6);
        Enu wait = new(320, 180, 40);
        day.Ground(60).Rotations(2).HookOn().FlyTo(wait, 60, 15, 14).Vertical(wait, 56, 0.5).Wait(20).Vertical(wait, 64, 1).SetDown().Rotations(2)
            .FlyTo(new(20, -15, 0), 10, 9, 14);
        FindsAll(day, Run(day, 1), 4);
    }

    [Fact]
    public void FromTrack_FuelLanding_IsNoVisit()
    {
        var day = new HandMadeDay(7);
        day.Ground(60).Rotations(2).FlyTo(day.Base, 12, 9, 14).Vertical(day.Base, 0, 1).Ground(200).Vertical(day.Base, 12, 1).Rotations(3)
            .FlyTo(day.Base, 12, 9, 14).Vertical(day.Base, 0, 1).Ground(30);
        FindsAll(day, Run(day, 1), 4);
    }

    [Fact]
    public void FromTrack_GoAround_BelongsToItsRotation()
    {
        var day = new HandMadeDay(8);
        day.Ground(60).Rotations(2).HookOn();
        day.FlyTo(day.Target, 45, 15, 20).Vertical(day.Target, 42, 0.8).Vertical(day.Target, 55, 1).FlyTo(new(200, 900, 120), 80, 15, 14).SetDown().Rotations(2).FlyTo(day.Base, 12, 9, 14);
        Debrief debrief = Run(day, 1);
        FindsAll(day, debrief, 4);
        // Simulated truth: one approach given up, in the third rotation.
        Assert.Equal([0, 0, 1, 0, 0], debrief.Rotations.Select(r => r.GoArounds));
    }

    [Fact]
    public void FromTrack_LoadCell_TimesWithinOneSample()
    {
        HandMadeDay day = new HandMadeDay(9).Ground(60).Rotations(4).FlyTo(new(20, -15, 0), 12, 9, 14);
        Debrief debrief = Run(day, 2, true, day.LoadCell(640));
        FindsAll(day, debrief, 0.2);
        Assert.All(debrief.Rotations, r => Assert.Equal(Confidence.High, r.Confidence));
    }

    [Fact]
    public void FromTrack_NoAltitude_FindsRotationsWithoutHeights()
    {
        HandMadeDay day = new HandMadeDay(10).Ground(60).Rotations(4).FlyTo(new(20, -15, 0), 12, 9, 14);
        Debrief debrief = Run(day, 1, hasHeight: false);
        Assert.All(debrief.Rotations, r =>
        {
            Assert.Equal(Confidence.Low, r.Confidence);
            Assert.Null(r.Delivery!.StartHeightM);
            Assert.Null(r.Delivery.SinkLast15Ms);
            Assert.Contains(r.NotJudged, s => s.Contains("altitude"));
        });
    }

    [Fact]
    public void FromTrack_WalkWithHeights_GivesAReason()
    {
        TrackPoint[] walk = [.. Enumerable.Range(0, 3600).Select(i => new TrackPoint(i, new(i * 1.2, 40 * Math.Sin(i / 200.0), 30 * Math.Sin(i / 300.0)), new(1.2, 0.2 * Math.Cos(i / 200.0), 0.1 * Math.Cos(i / 300.0)), default))];
        Debrief debrief = Debriefer.FromTrack(new HandMadeDay(1).Record(), HandMadeDay.Make(walk), Quality, Setup, null, TestContext.Current.CancellationToken);
        Assert.Empty(debrief.Rotations);
        Assert.Contains("6 m/s", debrief.NoRotationsBecause);
    }
}
