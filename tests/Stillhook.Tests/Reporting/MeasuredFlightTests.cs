using Stillhook.Debriefing;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Simulating;
using UnitsNet;

namespace Stillhook.Tests.Reporting;

/// <summary>The demonstration day recorded with load cell and torque, debriefed with what its crew knows.</summary>
public sealed class RecordedDemoDay
{
    public RecordedDemoDay()
    {
        Truth = DemoDay.Fly();
        Record = Recorder.Record(Truth, DemoDay.RecorderModel with { Climb = true, LoadCell = true, Torque = true, ReleaseEvent = true }, DemoDay.Seed);
        DayScenario s = Truth.Scenario;
        (double pickLat, double pickLon, _) = Truth.ToGeodetic(default);
        (double spotLat, double spotLon, _) = Truth.ToGeodetic(s.TargetEnu);
        Job = Planning.Jobs.Job(Planning.Jobs.Aircraft(Planning.Jobs.FlatChart(3600)) with { Name = "invented", EquippedMass = Mass.FromKilograms(1260), TorqueLimit = Ratio.FromPercent(95) },
            [At(Planning.Jobs.Site("road", SiteUse.PickUp, 1640, 9), pickLat, pickLon), At(Planning.Jobs.Site("path", SiteUse.Delivery, 1825, 8), spotLat, spotLon)],
            [.. s.Rotations.Select((r, i) => Planning.Jobs.Load(FormattableString.Invariant($"{i + 1}"), r.LoadKg) with { Family = r.LoadKg < 600 ? "timber" : "stone" })]);
        LiftSetup exact = s.ExactSetup();
        Debrief = Stillhook.Job.Debrief(Record, exact with { Sites = LiftSetup.From(Job).Sites });
    }

    public SimulatedDay Truth { get; }

    public FlightRecord Record { get; }

    public LiftRequest Job { get; }

    public Debrief Debrief { get; }

    private static Site At(Site site, double latitude, double longitude) => site with { Latitude = Angle.FromDegrees(latitude), Longitude = Angle.FromDegrees(longitude) };
}

public class MeasuredFlightTests(RecordedDemoDay demo) : IClassFixture<RecordedDemoDay>
{
    // Simulated truth: 24 rotations; mass by load cell within 2 % and 15 kg of the load's; places within 6 m (recorder 1 m, and the load swings under the hook).
    [Fact]
    public void From_DemoDay_LiftsWithMassPlaceAndSite()
    {
        MeasuredFlight flight = MeasuredFlight.From(demo.Debrief, demo.Record, demo.Job);
        Assert.Equal(24, flight.Lifts.Count);
        Assert.All(flight.Lifts.Zip(demo.Truth.Rotations), x =>
        {
            Assert.True(x.First.LoadMeasured);
            Assert.Equal(demo.Truth.Scenario.Rotations[x.First.Number - 1].LoadKg, x.First.LoadKg!.Value, 0.02 * x.First.LoadKg.Value + 15);
            (double lat, double lon, _) = demo.Truth.ToGeodetic(x.Second.DeliveryEnu);
            Assert.True(111_000 * Math.Sqrt(Math.Pow(x.First.Delivery!.Value.LatitudeDeg - lat, 2) + Math.Pow(0.684 * (x.First.Delivery.Value.LongitudeDeg - lon), 2)) < 6);
            Assert.Equal(("road", "path"), (x.First.PickUpSite, x.First.DeliverySite));
            Assert.Equal(x.Second.GoArounds, x.First.GoArounds);
        });
        Assert.Equal(("pilot", "invented"), (flight.Flight.Pilot, flight.Flight.Aircraft));
        Assert.Equal(demo.Record.TimeS.Max(), flight.Flight.Recorded.ToS);
    }

    // Simulated truth: without one load of the list in the record's order the others keep their numbers or get none; never a wrong kind.
    [Fact]
    public void Assign_DemoDay_NumbersByOrderAndMass()
    {
        MeasuredFlight flight = MeasuredFlight.From(demo.Debrief, demo.Record, demo.Job, demo.Job.Loads);
        Assert.Equal(demo.Job.Loads.Select(l => l.Number), flight.Lifts.Select(l => l.LoadNumber));
        IReadOnlyList<KeptLift> unnumbered = MeasuredFlight.From(demo.Debrief, demo.Record, demo.Job).Lifts;
        IReadOnlyList<KeptLift> without = LoadNumbers.Assign([.. unnumbered.Where(l => l.Number != 6)], demo.Job.Loads); // 6 is timber among stones
        Assert.All(without, l => Assert.True(l.LoadNumber is null || l.LoadNumber == FormattableString.Invariant($"{l.Number}")));
        Assert.True(without.Count(l => l.LoadNumber is not null) >= 20);
    }

    // Simulated truth: in the air whenever the hook is off its resting place; the landing for fuel in the middle is found. Within 15 s at each landing and take-off.
    [Fact]
    public void AirborneFinder_DemoDay_FlightsAsFlown()
    {
        IReadOnlyList<Stretch> found = AirborneFinder.Find(demo.Debrief), truth = TrueFlights();
        Assert.Equal(truth.Count, found.Count);
        Assert.All(found.Zip(truth), f =>
        {
            Assert.Equal(f.Second.FromS, f.First.FromS, 15.0);
            Assert.Equal(f.Second.ToS, f.First.ToS, 15.0);
        });
    }

    // The same with a poorer recorder: 2.5 m, a fix a second, no load cell and no speed.
    [Fact]
    public void AirborneFinder_PoorerRecorder_FlightsAsFlown()
    {
        FlightRecord record = Recorder.Record(demo.Truth, RecorderModel.WithError(2.5) with { RateHz = 1, Speed = false }, 7);
        IReadOnlyList<Stretch> found = AirborneFinder.Find(Stillhook.Job.Debrief(record, demo.Debrief.Setup)), truth = TrueFlights();
        Assert.Equal(truth.Count, found.Count);
        Assert.Equal(truth.Sum(t => t.LengthS), found.Sum(f => f.LengthS), 60.0);
    }

    // A record that begins and ends in the air has no ground; one without a track has no flights.
    [Fact]
    public void AirborneFinder_CutInTheAir_OneFlight()
    {
        Track track = demo.Debrief.Track!;
        double from = demo.Truth.Rotations[2].PickupTimeS, to = demo.Truth.Rotations[8].ReleaseTimeS;
        int a = Array.FindIndex(track.TimeS, t => t >= from), b = Array.FindIndex(track.TimeS, t => t >= to);
        FlightRecord record = demo.Record;
        FlightRecord cut = record with
        {
            TimeS = record.TimeS[a..b], LatitudeDeg = record.LatitudeDeg[a..b], LongitudeDeg = record.LongitudeDeg[a..b], AltitudeM = record.AltitudeM[a..b],
            GroundSpeedMs = record.GroundSpeedMs[a..b], CourseDeg = record.CourseDeg[a..b], ClimbMs = record.ClimbMs[a..b], SegmentStarts = [0],
        };
        Debrief debrief = Stillhook.Job.Debrief(cut, demo.Debrief.Setup);
        Assert.Equal(debrief.Track!.TimeS[^1] - debrief.Track.TimeS[0], Assert.Single(AirborneFinder.Find(debrief)).LengthS, 1e-6);
        Assert.Empty(AirborneFinder.Find(demo.Debrief with { Track = null }));
    }

    private List<Stretch> TrueFlights()
    {
        List<Stretch> flights = [];
        double from = double.NaN;
        IReadOnlyList<MotionSample> motion = demo.Truth.Motion;
        for (int i = 0; i < motion.Count; i++)
        {
            bool air = motion[i].Hook.Up > 1.5;
            if (air && double.IsNaN(from))
                from = demo.Truth.TimeS(i);
            if ((!air || i == motion.Count - 1) && !double.IsNaN(from))
            {
                flights.Add(new(from, demo.Truth.TimeS(i)));
                from = double.NaN;
            }
        }
        return flights;
    }

    // Simulated truth: a hover is steady between lift-off and contact; mass as entered and weighed; density altitude near the sites' 1 640 and 1 825 m and the line. Heavier takes more torque.
    [Fact]
    public void HoverPoints_DemoDay_MassAirAndTorque()
    {
        IReadOnlyList<KeptLift> lifts = MeasuredFlight.From(demo.Debrief, demo.Record, demo.Job, demo.Job.Loads).Lifts;
        HoverGiven given = new() { Job = demo.Job, Fuel = (_, _) => new(180, FuelFrom.Gauge), Clock = t => DateTimeOffset.UnixEpoch.AddSeconds(t), Pilot = "pilot" };
        (IReadOnlyList<HoverPoint> hovers, string? why) = HoverPoints.Find(demo.Debrief, demo.Record, lifts, given);
        Assert.Null(why);
        Assert.True(hovers.Count >= 20, FormattableString.Invariant($"{hovers.Count} hovers"));
        Assert.All(hovers, h =>
        {
            KeptLift lift = lifts.Single(l => h.AtS > l.PickUpTimeS && h.AtS < l.DeliveryTimeS);
            Assert.Equal(1260 + 80 + 180 + 45 + lift.LoadKg!.Value, h.GrossKg, 1e-6);
            Assert.InRange(h.DensityAltitudeM, 1600, 2300);
            Assert.InRange(h.TorquePercent!.Value, 30, 130);
        });
        double Mean(bool heavy) => hovers.Where(h => h.GrossKg > 2150 == heavy).Average(h => h.TorquePercent!.Value);
        Assert.True(Mean(true) > Mean(false));
    }

    [Fact]
    public void HoverPoints_SomethingMissing_SaysWhat()
    {
        HoverGiven given = new() { Job = demo.Job with { Aircraft = demo.Job.Aircraft! with { EquippedMass = null } }, Fuel = (_, _) => new(180, FuelFrom.Gauge), Clock = t => DateTimeOffset.UnixEpoch.AddSeconds(t) };
        Assert.Contains("equipped mass", HoverPoints.Find(demo.Debrief, demo.Record, [], given).WhyNone, StringComparison.Ordinal);
    }
}
