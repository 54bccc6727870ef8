using Stillhook.Planning.Ordering;
using Stillhook.Solving;
using Stillhook.Tests.Planning.Ordering;

namespace Stillhook.Tests.Solving;

public class OrderSolverProcessTests
{
    private static readonly OrderProblem Asked = OrderCases.Alternating(8);

    [Fact]
    public void Plan_SolverInItsOwnProcess_GivesTheSamePlanAsInThisOne()
    {
        string program = Path.Combine(AppContext.BaseDirectory, "Stillhook.App.dll");
        OrderPlan apart = Plan(new OrderSolverProcess("dotnet", [program, "solve-order"])), here = Plan(new CpSatOrderSolver());
        Assert.Empty(apart.Notes);
        Assert.Equal(OrderVerdict.Proven, apart.Verdict);
        Assert.Equal(here.Timeline.FinishMinute, apart.Timeline.FinishMinute);
        Assert.Equal(here.Sequence.Lifts, apart.Sequence.Lifts);
    }

    [Theory]
    [InlineData("kill -9 $$", "code 137")]
    [InlineData("kill -SEGV $$", "code 139")]
    [InlineData("cat >/dev/null; echo '{\"outcome\":'", "can't be read")]
    [InlineData("cat >/dev/null; echo '{\"outcome\":77}'", "can't be read")]
    [InlineData("exec sleep 60", "no answer in")]
    [InlineData("exit 3", "code 3")]
    [InlineData("cat >/dev/null; echo '{\"outcome\":\"Optimal\",\"sequence\":{\"startFuelKg\":252,\"lifts\":[{\"load\":99}]}}'", null)]
    [InlineData("cat >/dev/null; echo '{\"outcome\":\"Optimal\",\"sequence\":{\"startFuelKg\":252,\"lifts\":[{\"load\":0}]},\"boundMinute\":480}'", "not used")]
    public void Plan_SolverThatFails_KeepsTheSearchsPlan(string script, string? said)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "needs a POSIX shell");
        OrderPlan search = Plan(null), plan = Plan(new OrderSolverProcess("/bin/sh", ["-c", script]) { GraceSeconds = 0.5 }, new(1, 0.5));
        Assert.Equal(search.Sequence.Lifts, plan.Sequence.Lifts);
        Assert.NotEqual(OrderVerdict.Proven, plan.Verdict);
        Assert.Null(plan.Timeline.Broken);
        if (said is not null)
            Assert.Contains(said, Assert.Single(plan.Notes));
    }

    [Fact]
    public void Plan_ProgramThatDoesNotExist_KeepsTheSearchsPlan() =>
        Assert.Contains("could not be run", Assert.Single(Plan(new OrderSolverProcess("/no/such/program", [])).Notes));

    private static OrderPlan Plan(IOrderSolver? solver, OrderLimits? limits = null) =>
        OrderPlanner.Plan(Asked, solver, limits, TestContext.Current.CancellationToken);
}
