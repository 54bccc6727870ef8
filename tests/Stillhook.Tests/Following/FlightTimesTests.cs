using Stillhook.Debriefing;
using Stillhook.Following;
using Stillhook.Planning;
using Stillhook.Reporting;
using Stillhook.Simulating;

namespace Stillhook.Tests.Following;

public class FlightTimesTests(FollowedDemoDay demo, ITestOutputHelper output) : IClassFixture<FollowedDemoDay>
{
    private const double StepS = 10;

    /// <summary>Closed form: sums of the times fed, each to a step.</summary>
    [Fact]
    public void Take_StandsOnKnownGround_AreNotFlown()
    {
        FlightTimes times = new();
        Feed(times, 0, 3600, standing: false);
        Feed(times, 3600, 4200, standing: true);
        Feed(times, 4200, 5000, standing: false);
        Assert.InRange(times.Airborne.Sum(s => s.LengthS), 4400 - 2 * StepS, 4400 + 2 * StepS);
        Assert.InRange(Assert.Single(times.Stands).When.LengthS, 600 - StepS, 600);
        Feed(times, 5000, 6900, standing: true);
        Assert.Equal((5000, 6890), (times.Stands[^1].When.FromS, times.Stands[^1].When.ToS));
        Assert.Equal(2, times.Stands.Count);
    }

    // Simulated day with a landing for fuel. The file's own finder is the rule; what is followed may differ by what it can't know yet: 60 s a day (Pinned; 48 s measured, all of it the last stand, after which no look comes).
    [Fact]
    public void Take_DemoDayFollowed_GivesTheTimesOfTheFile()
    {
        (FlightTimes times, SimulatedDay day) = (demo.Times, demo.Truth);
        IReadOnlyList<Stretch> file = AirborneFinder.Find(demo.File);
        Assert.True(file.Count >= 2);
        output.WriteLine(FormattableString.Invariant($"flown live {times.Airborne.Sum(s => s.LengthS):0} s in {times.Airborne.Count}, file {file.Sum(s => s.LengthS):0} s in {file.Count}"));
        Assert.InRange(times.Airborne.Sum(s => s.LengthS) - file.Sum(s => s.LengthS), -60, 60);
        // The landing for fuel is a stand of its own, near the base.
        double fuelS = (file[0].ToS + file[1].FromS) / 2;
        Stand stop = Assert.Single(times.Stands, s => s.When.FromS < fuelS && s.When.ToS > fuelS);
        (double lat, double lon, _) = day.ToGeodetic(day.Scenario.BaseEnu ?? default);
        Assert.InRange(111_000 * Math.Sqrt(Math.Pow(stop.At!.Value.LatitudeDeg - lat, 2) + Math.Pow(0.684 * (stop.At.Value.LongitudeDeg - lon), 2)), 0, 60);
    }

    private static void Feed(FlightTimes times, double fromS, double toS, bool standing)
    {
        for (double t = fromS; t < toS; t += StepS)
            times.Take(t, standing ? fromS : null, null);
    }

    // Simulated day: 24 loads flown in the order of the list, but the list says 900 kg for the seventh, which weighs 480 kg. Closed form: the rule of a record, so live and file say the same.
    [Fact]
    public void LiveLoads_OneMassContradicts_NumbersAndTallyAreThoseOfTheFile()
    {
        PlannedLoad[] list = [.. demo.Truth.Scenario.Rotations.Select((r, i) => Planning.Jobs.Load(FormattableString.Invariant($"{i + 1}"), i == 6 ? 900 : r.LoadKg))];
        LiftPlan plan = Job.Plan(
            Planning.Jobs.Job(Planning.Jobs.Aircraft(Planning.Jobs.FlatChart(3600)), [Planning.Jobs.Site("road", SiteUse.PickUp, 1640, 9), Planning.Jobs.Site("path", SiteUse.Delivery, 1825, 8, 46.905)], list)
                with { Day = new() { Start = new TimeOnly(8, 0), Order = [.. list.Select(l => l.Number)] } }, new());
        Assert.Equal(list.Select(l => l.Number), plan.Order!.Lifts.Select(l => l.Number));
        LiveLoads live = LiveLoads.Of(demo.Follower.Deliveries.All, plan, []);
        IReadOnlyList<KeptLift> file = MeasuredFlight.From(demo.File, demo.Record, plan.Request, MeasuredFlight.InOrder(plan)).Lifts;
        Assert.Equal(file.Select(l => l.LoadNumber), live.Delivered.Select(l => l.LoadNumber));
        Assert.Equal([.. list.Select(l => l.Number == "7" ? null : l.Number)], live.Delivered.Select(l => l.LoadNumber));
        Assert.Equal((23, 1), (live.Gone.Count, live.NotPlaced));
        // Pinned: 2 kg; the empty legs round a lift are the same samples, taken from a part of the record.
        Assert.All(file.Zip(live.Delivered), x => Assert.Equal(x.First.LoadMeasured ? x.First.LoadKg!.Value : double.NaN, x.Second.CarriedKg ?? double.NaN, 2.0));
        // In the middle of the day: seven delivered, the seventh not placed, the eighth next.
        LiveLoads seven = LiveLoads.Of([.. demo.Follower.Deliveries.All.Where(d => !d.Withdrawn).Take(7)], plan, []);
        Assert.Equal(["1", "2", "3", "4", "5", "6", null], seven.Delivered.Select(l => l.LoadNumber));
        Assert.Equal((6, 1), (seven.Gone.Count, seven.NotPlaced));
        Assert.Equal("7", seven.NextLoad!.OnHook.Load.Number);
        LiveLoads eight = LiveLoads.Of([.. demo.Follower.Deliveries.All.Where(d => !d.Withdrawn).Take(8)], plan, []);
        Assert.Equal("9", eight.NextLoad!.OnHook.Load.Number);
    }
}
