using Google.OrTools.Sat;
using Stillhook.Planning.Ordering;

namespace Stillhook.Solving;

/// <summary>The order by constraint solving: which kind of load flies at each position, and the fuel; loads are matched to positions afterwards.</summary>
/// <remarks>
/// One worker, fixed seed and the solver's deterministic time, so that the same problem gives the same answer; a wall-clock guard may cut it off, and
/// then the answer says so. The model is exact on the grid of <see cref="OrderProblem"/>, the hour of each hook-on included, so its bound is a
/// bound on every order of all the loads. Native code: a fault in it ends the process, so in the program it runs in <see cref="OrderSolverProcess"/>.
/// </remarks>
public sealed class CpSatOrderSolver : IOrderSolver
{
    private const int Seed = 7;

    /// <inheritdoc/>
    public OrderAnswer Solve(OrderProblem problem, OrderSequence? hint, OrderLimits limits, CancellationToken cancellation)
    {
        OrderGrid grid = new(problem);
        if (grid.Loads == 0)
            return new(OrderOutcome.Optimal, OrderSequence.Empty, problem.Policy.StartMinute);
        if (Enumerable.Range(0, grid.Loads).Any(l => grid.Need[l] > grid.FixedMax[grid.Route[l]]))
            return new(OrderOutcome.Infeasible, null, null);
        OrderModel model = new(grid, hint);
        string invalid = model.Model.Validate();
        if (invalid.Length > 0 || model.Model.Model.FloatingPointObjective is not null)
            return OrderAnswer.Failed("the model is not one of whole numbers only: " + invalid);
        return Solve(model, limits, cancellation);
    }

    private static OrderAnswer Solve(OrderModel model, OrderLimits limits, CancellationToken cancellation)
    {
        CpSolver solver = new() { StringParameters = Parameters(limits) };
        using CancellationTokenRegistration stop = cancellation.Register(solver.StopSearch);
        CpSolverStatus status = solver.Solve(model.Model);
        bool cut = cancellation.IsCancellationRequested || solver.WallTime() >= limits.WallSeconds;
        return status switch
        {
            CpSolverStatus.Optimal => Answer(OrderOutcome.Optimal),
            CpSolverStatus.Feasible => Answer(cut ? OrderOutcome.CutOff : OrderOutcome.Feasible),
            CpSolverStatus.Infeasible => new(OrderOutcome.Infeasible, null, null),
            CpSolverStatus.Unknown => new(cut ? OrderOutcome.CutOff : OrderOutcome.Unknown, null, Bound()),
            _ => OrderAnswer.Failed($"the solver calls the model {status}"),
        };

        OrderAnswer Answer(OrderOutcome outcome) => model.Read(solver) is OrderSequence sequence
            ? new(outcome, sequence, Bound()) : OrderAnswer.Failed("no loads match the solver's positions");

        // A bound between two whole numbers is as good as the next whole number; the hair keeps noise in the last digit from raising it.
        double Bound() => OrderGrid.Minutes((int)Math.Ceiling(Math.Clamp(solver.BestObjectiveBound, 0, int.MaxValue / 2) - 1e-4));
    }

    private static string Parameters(OrderLimits limits) => FormattableString.Invariant(
        $"num_workers:1 random_seed:{Seed} linearization_level:2 max_deterministic_time:{limits.DeterministicSeconds} max_time_in_seconds:{limits.WallSeconds}");
}
