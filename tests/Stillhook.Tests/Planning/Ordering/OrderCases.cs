using CsCheck;
using Stillhook.Planning.Ordering;

namespace Stillhook.Tests.Planning.Ordering;

/// <summary>Invented problems for the tests of the order.</summary>
internal static class OrderCases
{
    /// <summary>One route of 14 kg a rotation from a base beside the pick-up: 5 min loaded with 8 kg, 3 min back with 6 kg.</summary>
    public static OrderProblem OneRoute(double[] needs, double capacityKg, OrderPolicy? policy = null) => new()
    {
        Sites = ["yard", "ridge"],
        BaseSite = 0,
        EmptyLegs = [[new(0, 0), new(3, 6)], [new(3, 6), new(0, 0)]],
        Routes = [new() { PickUp = 0, Delivery = 1, LoadedMinutes = 5, LoadedFuelKg = 8, CapacityKg = Steady(capacityKg) }],
        Loads = [.. needs.Select((n, i) => new OrderLoad { Number = $"{i + 1}", NeedKg = n, Route = 0 })],
        Policy = policy ?? new() { ReserveKg = 60, TankMaxKg = 260, StartFuelKg = 260, RefuelFixedMinutes = 6, RefuelMinutesPerKg = 0.05, StartMinute = 480 },
    };

    /// <summary>Two far ends of a valley, loads that must alternate between them: counting, which knows no precedence, can't prove the best.</summary>
    public static OrderProblem Alternating(int loads)
    {
        EmptyLeg near = new(1, 3), far = new(6, 18), none = new(0, 0);
        return new()
        {
            Sites = ["yard", "north store", "north", "south store", "south"], BaseSite = 0,
            EmptyLegs = [[none, near, near, far, far], [near, none, near, far, far], [near, near, none, far, far], [far, far, far, none, near], [far, far, far, near, none]],
            Routes =
            [
                new() { PickUp = 1, Delivery = 2, LoadedMinutes = 3, LoadedFuelKg = 9, CapacityKg = Steady(1000) },
                new() { PickUp = 3, Delivery = 4, LoadedMinutes = 3, LoadedFuelKg = 9, CapacityKg = Steady(1000) },
            ],
            Loads = [.. Enumerable.Range(1, loads).Select(i => new OrderLoad { Number = $"{i}", NeedKg = 600, Route = i % 2, After = i > 1 ? [$"{i - 1}"] : [] })],
            Policy = new() { ReserveKg = 60, TankMaxKg = 260, RefuelFixedMinutes = 6, RefuelMinutesPerKg = 0.05, UpliftStepKg = 10, StartMinute = 480 },
        };
    }

    public static double[] Steady(double capacityKg) => [.. Enumerable.Repeat(capacityKg, 24)];

    /// <summary>Random small problems: 1 or 2 routes, precedence, groups, breaks, hours, free or given start fuel. Figures on the planner's grid, so that it rounds nothing.</summary>
    public static Gen<OrderProblem> Problems(int fewest, int most) =>
        from count in Gen.Int[fewest, most]
        from numbers in Gen.Int[0, 99].Array[60]
        select Build(count, numbers);

    /// <summary>The same problems every time.</summary>
    public static IEnumerable<OrderProblem> Fixed(int problems, int fewest, int most, uint stream)
    {
        Gen<OrderProblem> gen = Problems(fewest, most);
        PCG random = new(stream, 20261125);
        for (int i = 0; i < problems; i++)
            yield return gen.Generate(random, null, out _);
    }

    private static OrderProblem Build(int count, int[] n)
    {
        int next = 0;
        int Draw(int below) => n[next++ % n.Length] % below;
        int deliveries = 1 + Draw(2), sites = 2 + deliveries;
        EmptyLeg[][] legs = [.. Enumerable.Range(0, sites).Select(_ => new EmptyLeg[sites])];
        for (int a = 0; a < sites; a++)
            for (int b = a + 1; b < sites; b++)
                legs[a][b] = legs[b][a] = new(2 + Draw(3) * 0.5, 4 + Draw(4));
        double[] byHour = [.. Enumerable.Range(0, 24).Select(h => 400.0)];
        if (Draw(3) == 0)
            for (int h = 9; h < 24; h++)
                byHour[h] = 370;
        OrderRoute[] routes = [.. Enumerable.Range(0, deliveries).Select(d => new OrderRoute
        {
            PickUp = 1, Delivery = 2 + d, LoadedMinutes = 4 + Draw(3), LoadedFuelKg = 9 + Draw(4), FixedMinutes = Draw(2), CapacityKg = byHour,
        })];
        bool breaks = Draw(3) == 0, group = Draw(2) == 0, free = Draw(2) == 0;
        OrderPolicy policy = new()
        {
            ReserveKg = 40, TankMaxKg = 120, StartFuelKg = free ? null : 70 + 10 * Draw(6), RefuelFixedMinutes = 4 + Draw(3),
            RefuelMinutesPerKg = Draw(2) * 0.1, UpliftStepKg = 10, GroupByDeliverySite = group, StartMinute = 520,
            BreakDueMinutes = breaks ? 45 : null, BreakMinutes = 10, LatestEndMinute = Draw(4) == 0 ? 590 : null,
        };
        List<OrderLoad> loads = [];
        for (int i = 0; i < count; i++)
            loads.Add(new()
            {
                Number = $"{i + 1}", NeedKg = 250 + 10 * Draw(11), Route = Draw(deliveries), Family = Draw(2) == 0 ? "box" : "",
                After = i > 0 && Draw(4) == 0 ? [$"{1 + Draw(i)}"] : [],
            });
        return new() { Sites = [.. Enumerable.Range(0, sites).Select(s => $"site {s}")], BaseSite = 0, EmptyLegs = legs, Routes = routes, Loads = loads, Policy = policy };
    }
}
