namespace Stillhook.Planning.Ordering;

/// <summary>Something that improves on the search and says how good an order is. It stands outside this assembly: solvers bring native code.</summary>
public interface IOrderSolver
{
    /// <summary>Tries to fly all loads of the problem, finishing soonest. Never throws for a failure of its own: it answers <see cref="OrderAnswer.Failed"/>.</summary>
    /// <param name="problem">Only loads that are to be flown.</param>
    /// <param name="hint">A sequence to begin from, with all loads; or null.</param>
    /// <param name="limits">How long it may take.</param>
    /// <param name="cancellation">Ends it early.</param>
    OrderAnswer Solve(OrderProblem problem, OrderSequence? hint, OrderLimits limits, CancellationToken cancellation);
}

/// <summary>How long a solver may take.</summary>
/// <param name="DeterministicSeconds">The solver's own measure of work, about a second of a fast core each: the same input ends at the same point.</param>
/// <param name="WallSeconds">Guard on the real clock; when it ends the solving, the plan may differ next time.</param>
public readonly record struct OrderLimits(double DeterministicSeconds, double WallSeconds)
{
    /// <summary>1.3 s of the solver's own measure, 10 s on the wall.</summary>
    public static OrderLimits Usual { get; } = new(1.3, 10);
}

/// <summary>What a solver answered.</summary>
/// <param name="Outcome">How it ended.</param>
/// <param name="Sequence">Its sequence, if any; to be checked by the simulator.</param>
/// <param name="BoundMinute">No sequence of all the loads ends before this clock minute; null when it knows none.</param>
/// <param name="Reason">Why it failed, in words.</param>
public sealed record OrderAnswer(OrderOutcome Outcome, OrderSequence? Sequence, double? BoundMinute, string? Reason = null)
{
    /// <summary>No answer, and why.</summary>
    public static OrderAnswer Failed(string reason) => new(OrderOutcome.Failed, null, null, reason);
}

/// <summary>How a solver ended.</summary>
public enum OrderOutcome
{
    /// <summary>The sequence is proven best.</summary>
    Optimal,
    /// <summary>Deterministic limit reached; best so far.</summary>
    Feasible,
    /// <summary>The wall clock ended it; best so far, may differ next time.</summary>
    CutOff,
    /// <summary>Proven: not all loads can be flown.</summary>
    Infeasible,
    /// <summary>Deterministic limit reached without a sequence.</summary>
    Unknown,
    /// <summary>No answer.</summary>
    Failed,
}
