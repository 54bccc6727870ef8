using System.Diagnostics;
using System.Globalization;
using Stillhook.Planning.Ordering;
using Stillhook.Solving;

namespace Stillhook.Bench;

/// <summary>Times the search and the solver on bench/instances: medians of five on the wall and of processor time (which a busy machine leaves alone), with finish, bound and gap.</summary>
internal static class OrderRun
{
    public static int Run(string folder, params string[] only)
    {
        OrderPlanner.Plan(OrderInstances.All().First().Problem); // compiled before the clock starts
        Console.WriteLine("| instance | search, wall (processor) | its finish | plan, wall (processor) | finish | bound | gap | refuels | left out | known |");
        Console.WriteLine("|---|---|---|---|---|---|---|---|---|---|");
        foreach (OrderInstances.Instance instance in OrderInstances.Read(folder).Where(i => only.Length == 0 || only.Any(o => i.Name.Contains(o))))
            Console.WriteLine(Row(instance));
        return 0;
    }

    private static string Row(OrderInstances.Instance instance)
    {
        (string searchMs, OrderPlan search) = Median(() => OrderPlanner.Plan(instance.Problem));
        (string planMs, OrderPlan plan) = Median(() => OrderPlanner.Plan(instance.Problem, new CpSatOrderSolver()));
        return string.Create(CultureInfo.InvariantCulture,
            $"| {instance.Name} | {searchMs} ms | {search.Timeline.FinishMinute:0.00} | {planMs} ms | {plan.Timeline.FinishMinute:0.00} | {plan.BoundMinute:0.00} | {plan.Gap * 100:0.00} % | {plan.Timeline.Refuels} | {plan.LeftOut.Count} | {plan.Verdict} |");
    }

    private static (string Ms, OrderPlan Plan) Median(Func<OrderPlan> plan)
    {
        List<double> wall = [], processor = [];
        OrderPlan last = plan();
        for (int i = 0; i < 5; i++)
        {
            (long from, TimeSpan used) = (Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime);
            OrderPlan again = plan();
            wall.Add(Stopwatch.GetElapsedTime(from).TotalMilliseconds);
            processor.Add((Environment.CpuUsage.TotalTime - used).TotalMilliseconds);
            if (again.Timeline.FinishMinute != last.Timeline.FinishMinute || !again.Sequence.Lifts.SequenceEqual(last.Sequence.Lifts))
                Console.Error.WriteLine("Not the same plan twice.");
        }
        return (string.Create(CultureInfo.InvariantCulture, $"{wall.Order().ElementAt(2):0} ({processor.Order().ElementAt(2):0})"), last);
    }
}
