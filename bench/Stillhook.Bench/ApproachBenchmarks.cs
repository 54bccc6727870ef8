using BenchmarkDotNet.Attributes;
using Stillhook.Approaching;
using Stillhook.Files.Jobs;
using Stillhook.Planning;

namespace Stillhook.Bench;

/// <summary>The approach of the example job: one path, one direction, all directions, and 10,000 simulated flights of the one offered.</summary>
[MemoryDiagnoser]
public class ApproachBenchmarks
{
    private LiftRequest request = null!;
    private LiftPlan lift = null!;
    private ApproachPlan plan = null!;
    private WaySearch search = null!;
    private RobustnessTrial trial = null!;

    [GlobalSetup]
    public void Setup()
    {
        request = JobFile.Read(new MemoryStream(File.ReadAllBytes(PlanningBenchmarks.ExampleJob()))).Request;
        lift = Planner.Plan(request, new());
        plan = Job.Approach(request, lift, new() { Flights = 100 });
        search = new(plan.Situation!, new(request, plan.Situation!.Site, plan.Situation.Rules, null), null, null, null);
        trial = new(plan.Situation);
    }

    /// <summary>Goal 20 ms: one path fitted to the slow-down's limit on the plan's own grid.</summary>
    [Benchmark] public LoadPath OnePath() => SlowDownFit.Fitted(plan.Way!.Path.Shape, plan.Way.Path.Hanging, plan.Situation!.SinkLimit, plan.Situation.Rules.SlowDownMs2.Value, 0.05)!;

    [Benchmark] public SectorCheck OneDirection() => search.Sector(plan.CourseDeg);

    /// <summary>Goal 150 ms: every direction with obstacles.</summary>
    [Benchmark] public IReadOnlyList<SectorCheck> AllDirections() => search.AllRound();

    /// <summary>Goal 0.5 s on one core.</summary>
    [Benchmark] public Robustness TenThousandFlights() => trial.Fly(plan.Way!, [200, 100, 50], 10_000, 1);

    [Benchmark] public ApproachPlan WholeApproach() => Job.Approach(request, lift, new());
}
