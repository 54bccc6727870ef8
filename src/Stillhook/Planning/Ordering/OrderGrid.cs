namespace Stillhook.Planning.Ordering;

/// <summary>The problem in whole numbers: tenths of a kilogram and hundredths of a minute, each rounded once to the safe side.</summary>
internal sealed class OrderGrid
{
    /// <summary>Steps of the grid in a kilogram.</summary>
    public const int PerKg = 10;

    /// <summary>Steps of the grid in a minute.</summary>
    public const int PerMinute = 100;

    private const double Hair = 1e-6; // so that 0.3 kg, which is 2.9999999 tenths, stays 3

    public OrderGrid(OrderProblem problem)
    {
        OrderProblemCheck.Check(problem);
        Problem = problem;
        OrderPolicy policy = problem.Policy;
        (Loads, Sites, Base) = (problem.Loads.Count, problem.Sites.Count, problem.BaseSite);
        LegMinutes = Table(problem, l => Up(l.Minutes, PerMinute));
        LegFuel = Table(problem, l => Up(l.FuelKg, PerKg));
        Reserve = Up(policy.ReserveKg, PerKg);
        Tank = Down(policy.TankMaxKg, PerKg);
        Step = Math.Max(1, Up(policy.UpliftStepKg, PerKg));
        StartFuel = policy.StartFuelKg is double fuel ? Down(fuel, PerKg) : null;
        RefuelFixed = Up(policy.RefuelFixedMinutes, PerMinute);
        RefuelPerStep = Up(policy.RefuelMinutesPerKg * Step / PerKg, PerMinute);
        BreakDue = policy.BreakDueMinutes is double due ? Down(due, PerMinute) : null;
        BreakLength = Up(policy.BreakMinutes, PerMinute);
        Start = Up(policy.StartMinute, PerMinute);
        LatestEnd = policy.LatestEndMinute is double end ? Down(end, PerMinute) : int.MaxValue;
        Capacity = [.. problem.Routes.Select(r => r.CapacityKg.Select(c => Down(c, PerKg)).ToArray())];
        Need = [.. problem.Loads.Select(l => Up(l.NeedKg, PerKg))];
        Route = [.. problem.Loads.Select(l => l.Route)];
        (PickUp, Delivery) = ([.. problem.Routes.Select(r => r.PickUp)], [.. problem.Routes.Select(r => r.Delivery)]);
        LoadedMinutes = [.. problem.Routes.Select(r => Up(r.LoadedMinutes, PerMinute))];
        LoadedFuel = [.. problem.Routes.Select(r => Up(r.LoadedFuelKg, PerKg))];
        FixedMinutes = [.. problem.Routes.Select(r => Up(r.FixedMinutes, PerMinute))];
        FixedMax = [.. problem.Routes.Select(r => double.IsPositiveInfinity(r.FixedMaxKg) ? int.MaxValue : Down(r.FixedMaxKg, PerKg))];
        Dictionary<string, int> byNumber = problem.Loads.Select((l, i) => (l.Number, i)).ToDictionary(p => p.Number, p => p.i, StringComparer.Ordinal);
        Before = [.. problem.Loads.Select(l => l.After.Select(a => byNumber[a]).Distinct().Order().ToArray())];
        Block = Blocks(problem);
        SteadyCapacity = Capacity.All(c => c.All(v => v == c[0]));
    }

    public OrderProblem Problem { get; }
    public int Loads { get; }
    public int Sites { get; }
    public int Base { get; }
    public int[,] LegMinutes { get; }
    public int[,] LegFuel { get; }
    public int Reserve { get; }
    public int Tank { get; }
    public int Step { get; }
    public int? StartFuel { get; }
    public int RefuelFixed { get; }
    public int RefuelPerStep { get; }
    public int? BreakDue { get; }
    public int BreakLength { get; }
    public int Start { get; }
    public int LatestEnd { get; }
    public int[] Need { get; }
    public int[] Route { get; }
    public int[] PickUp { get; }
    public int[] Delivery { get; }
    public int[] LoadedMinutes { get; }
    public int[] LoadedFuel { get; }
    public int[] FixedMinutes { get; }
    public int[] FixedMax { get; }

    /// <summary>By route and clock hour: most of need and fuel together.</summary>
    public int[][] Capacity { get; }

    /// <summary>By load: the loads that must be delivered before it.</summary>
    public int[][] Before { get; }

    /// <summary>By load: its group where groups stay together, else -1 for all.</summary>
    public int[] Block { get; }

    /// <summary>Whether no capacity depends on the hour.</summary>
    public bool SteadyCapacity { get; }

    /// <summary>Clock hour of a moment.</summary>
    public static int Hour(int minute) => minute / (60 * PerMinute) % 24;

    /// <summary>Most fuel with which a load may be hooked on in an hour; negative: not at all.</summary>
    public int Allowance(int load, int hour) =>
        Need[load] <= FixedMax[Route[load]] ? Capacity[Route[load]][hour] - Need[load] : -1;

    /// <summary>Minutes of taking on fuel; nothing for nothing.</summary>
    public int RefuelMinutes(int uplift) => uplift == 0 ? 0 : RefuelFixed + uplift / Step * RefuelPerStep;

    /// <summary>The least whole number of steps that is not under an amount, as fuel.</summary>
    public int StepsUp(int fuel) => fuel <= 0 ? 0 : (fuel + Step - 1) / Step * Step;

    public static int Up(double value, int scale) => checked((int)Math.Ceiling(value * scale - Hair));
    public static int Down(double value, int scale) => checked((int)Math.Floor(value * scale + Hair));
    public static double Kg(int fuel) => fuel / (double)PerKg;
    public static double Minutes(int time) => time / (double)PerMinute;

    private static int[,] Table(OrderProblem problem, Func<EmptyLeg, int> value)
    {
        int n = problem.Sites.Count;
        int[,] table = new int[n, n];
        for (int from = 0; from < n; from++)
            for (int to = 0; to < n; to++)
                table[from, to] = value(problem.EmptyLegs[from][to]);
        return table;
    }

    private static int[] Blocks(OrderProblem problem)
    {
        if (!problem.Policy.GroupByDeliverySite)
            return [.. problem.Loads.Select(_ => -1)];
        Dictionary<string, int> known = new(StringComparer.Ordinal);
        return [.. problem.Loads.Select(l =>
        {
            string key = l.Group.Length > 0 ? "g" + l.Group : "s" + problem.Routes[l.Route].Delivery;
            return known.TryGetValue(key, out int block) ? block : known[key] = known.Count;
        })];
    }
}
