using Stillhook.Approaching;
using Stillhook.Planning;

namespace Stillhook.App.Serving;

/// <summary>Approaches as planned and as tried with another wind, line, load or temperature, fast enough to follow a slider.</summary>
/// <remarks>
/// A tried wind takes the lift plan as it stands: wind does not enter it. What does enter it has the lift plan made again for the one load, in the order of the plan (only when that order holds no more is another looked for, and that is said); the last few are remembered.
/// While a slider moves, fewer flights are simulated; once it is let go, as many as for a plan.
/// </remarks>
internal sealed class ApproachWork(JobWork jobs)
{
    /// <summary>Simulated flights of the offered way while a slider moves.</summary>
    public const int SlidingFlights = 500;

    private const int SlidingTrials = 160, Remembered = 12;
    private readonly Lock guard = new();
    private readonly LinkedList<(string Text, string What, object Value)> recent = [];

    /// <summary>The approach as planned.</summary>
    public ApproachPlan Planned(OpenJob job, string? load, string? site) => jobs.Approach(job, Options(job, load, site));

    /// <summary>The approach with what moved. With nothing moved, the one planned.</summary>
    /// <param name="job">The job.</param>
    /// <param name="planned">The approach as planned.</param>
    /// <param name="shift">What moved.</param>
    /// <param name="sliding">True while a slider moves.</param>
    public ApproachPlan Tried(OpenJob job, ApproachPlan planned, ApproachShift shift, bool sliding)
    {
        if (shift.IsEmpty || planned.Situation is not { } s)
            return planned;
        // The load of the plan stays, whichever would then be the heaviest that lifts.
        ApproachOptions options = s.Options with { Load = s.Listed?.Number, Site = s.Site.Name, Shift = shift };
        if (sliding)
            options = options with { Flights = SlidingFlights, TrialFlights = SlidingTrials };
        ApproachPlan Make() => ApproachPlanner.Plan(shift.Applied(job.File.Request), Lift(job, shift.OfTheLift(), s.Listed?.Number), options);
        return sliding ? Make() : Once(job.Kept.Text, $"approach {options.Load} {options.Site} {shift} {job.Ground?.Stamp}", Make);
    }

    /// <summary>Alternatives for a wind speed from all round.</summary>
    public IReadOnlyList<ApproachInWind> InWinds(OpenJob job, ApproachPlan planned, UnitsNet.Speed speed)
    {
        ApproachSituation s = planned.Situation!;
        return Once(job.Kept.Text, FormattableString.Invariant($"winds {s.Listed?.Number} {s.Site.Name} {speed.MetersPerSecond} {job.Ground?.Stamp}"),
            () => ApproachesInWinds.Plan(job.File.Request, jobs.Plan(job), s.Options with { Load = s.Listed?.Number, Site = s.Site.Name }, speed));
    }

    private static ApproachOptions Options(OpenJob job, string? load, string? site) => job.ApproachOptions() with { Load = load, Site = site };

    private LiftPlan Lift(OpenJob job, ApproachShift shift, string? load) =>
        shift.IsEmpty ? jobs.Plan(job) : Once(job.Kept.Text, $"lift {load} {shift}", () => Job.Plan(shift.Applied(job.File.Request.InOrder([.. jobs.Plan(job).Order?.Lifts.Select(l => l.Number) ?? []])), job.PlanOptions() with { Solver = null, OnlyLoad = load }));

    private T Once<T>(string text, string what, Func<T> make)
        where T : class
    {
        lock (guard)
            if (recent.FirstOrDefault(r => r.What == what && r.Text == text).Value is T known)
                return known;
        T made = make();
        lock (guard)
        {
            recent.AddFirst((text, what, made));
            while (recent.Count > Remembered)
                recent.RemoveLast();
        }
        return made;
    }
}
