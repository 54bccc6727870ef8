using Stillhook.Planning.Ordering;

namespace Stillhook.Tests.Planning.Ordering;

/// <summary>Soonest finish over every order, every set of stops, every uplift in steps and every break: written apart from search, solver and simulator.</summary>
internal sealed class BestByTryingAll(OrderProblem problem)
{
    private const double Hair = 1e-6;
    private readonly OrderPolicy policy = problem.Policy;
    private readonly Dictionary<(int Flown, int Last, int Fuel, int Time, int Clock, int Site), bool> seen = [];
    private double best = double.PositiveInfinity;

    /// <summary>Minute back at base with all loads flown; infinite when there is no way.</summary>
    public double Finish()
    {
        int steps = (int)Math.Floor(policy.TankMaxKg / policy.UpliftStepKg + Hair);
        IEnumerable<double> starts = policy.StartFuelKg is double given ? [given] : Enumerable.Range(0, steps + 1).Select(s => s * policy.UpliftStepKg);
        foreach (double fuel in starts)
            Go(0, -1, problem.BaseSite, fuel, policy.StartMinute, 0);
        return best;
    }

    private void Go(int flown, int last, int at, double fuel, double t, double clock)
    {
        if (flown == (1 << problem.Loads.Count) - 1)
        {
            best = Math.Min(best, last < 0 ? t : t + problem.EmptyLegs[at][problem.BaseSite].Minutes);
            return;
        }
        if (t >= best || !seen.TryAdd((flown, last, Key(fuel), Key(t), Key(clock), at), true))
            return;
        for (int load = 0; load < problem.Loads.Count; load++)
            if ((flown >> load & 1) == 0)
                Lift(flown, load, last, at, fuel, t, clock);
        EmptyLeg toBase = problem.EmptyLegs[at][problem.BaseSite];
        for (int rest = 0; rest <= (policy.BreakDueMinutes is null || last < 0 ? 0 : 1); rest++)
            for (double uplift = rest == 1 ? 0 : policy.UpliftStepKg; fuel - toBase.FuelKg + uplift <= policy.TankMaxKg + Hair; uplift += policy.UpliftStepKg)
            {
                double stop = uplift > 0 ? policy.RefuelFixedMinutes + uplift * policy.RefuelMinutesPerKg : 0;
                stop = rest == 1 ? Math.Max(stop, policy.BreakMinutes) : stop;
                for (int load = 0; load < problem.Loads.Count; load++)
                    if ((flown >> load & 1) == 0)
                        Lift(flown, load, last, problem.BaseSite, fuel - toBase.FuelKg + uplift, t + toBase.Minutes + stop, rest == 1 ? 0 : clock + toBase.Minutes + stop);
            }
    }

    private void Lift(int flown, int load, int last, int at, double fuel, double t, double clock)
    {
        OrderLoad l = problem.Loads[load];
        OrderRoute route = problem.Routes[l.Route];
        EmptyLeg leg = problem.EmptyLegs[at][route.PickUp], home = problem.EmptyLegs[route.Delivery][problem.BaseSite];
        double before = leg.Minutes + route.FixedMinutes, after = before + route.LoadedMinutes;
        double hooked = fuel - leg.FuelKg;
        if (l.After.Any(a => Enumerable.Range(0, problem.Loads.Count).Any(o => problem.Loads[o].Number == a && (flown >> o & 1) == 0)))
            return;
        if (policy.GroupByDeliverySite && last >= 0 && Site(last) != Site(load)
            && Enumerable.Range(0, problem.Loads.Count).Any(o => (flown >> o & 1) == 1 && Site(o) == Site(load)))
            return;
        bool fits = l.NeedKg <= route.FixedMaxKg && l.NeedKg + hooked <= route.CapacityKg[(int)((t + before + Hair) / 60) % 24] + Hair;
        bool wayHome = hooked - route.LoadedFuelKg - home.FuelKg >= policy.ReserveKg - Hair && clock + after + home.Minutes <= (policy.BreakDueMinutes ?? 1e9) + Hair
            && t + after + home.Minutes <= (policy.LatestEndMinute ?? 1e9) + Hair;
        if (fits && wayHome)
            Go(flown | 1 << load, load, route.Delivery, hooked - route.LoadedFuelKg, t + after, clock + after);
    }

    private int Site(int load) => problem.Routes[problem.Loads[load].Route].Delivery;

    private static int Key(double value) => (int)Math.Round(value * 100);
}
