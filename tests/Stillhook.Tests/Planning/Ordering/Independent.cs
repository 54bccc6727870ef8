using Stillhook.Planning.Ordering;

namespace Stillhook.Tests.Planning.Ordering;

/// <summary>The rules of an order, written apart from the planner in plain doubles, and the best order by trying all.</summary>
internal static class Independent
{
    /// <summary>Fails where the plan breaks a rule, loses a load or names a wrong finish.</summary>
    public static void Check(OrderProblem problem, OrderPlan plan)
    {
        int[] flown = [.. plan.Sequence.Lifts.Select(l => l.Load)];
        Assert.Equal(Enumerable.Range(0, problem.Loads.Count), flown.Concat(plan.LeftOut.Select(l => l.Load)).Order());
        bool mixed = plan.Notes.Any(n => n.Contains("groups mixed"));
        double? finish = Finish(problem with { Policy = problem.Policy with { GroupByDeliverySite = problem.Policy.GroupByDeliverySite && !mixed } }, plan.Sequence);
        Assert.NotNull(finish);
        Assert.Equal(finish.Value, plan.Timeline.FinishMinute, 1e-6);
    }

    /// <summary>Minute back at base, or null where a rule is broken.</summary>
    public static double? Finish(OrderProblem p, OrderSequence s)
    {
        const double hair = 1e-6;
        OrderPolicy policy = p.Policy;
        double fuel = s.StartFuelKg, t = policy.StartMinute, clock = 0;
        int at = p.BaseSite;
        if (fuel > policy.TankMaxKg + hair || policy.StartFuelKg is double given && Math.Abs(given - fuel) > hair)
            return null;
        List<int> flown = [];
        void Fly(int to)
        {
            EmptyLeg leg = p.EmptyLegs[at][to];
            (t, clock, fuel, at) = (t + leg.Minutes, clock + leg.Minutes, fuel - leg.FuelKg, to);
        }
        foreach (LiftDecision d in s.Lifts)
        {
            if (d.UpliftBeforeKg > 0 || d.BreakBefore)
            {
                Fly(p.BaseSite);
                double minutes = d.UpliftBeforeKg > 0 ? policy.RefuelFixedMinutes + d.UpliftBeforeKg * policy.RefuelMinutesPerKg : 0;
                double steps = d.UpliftBeforeKg / policy.UpliftStepKg;
                fuel += d.UpliftBeforeKg;
                if (fuel > policy.TankMaxKg + hair || Math.Abs(steps - Math.Round(steps)) > hair)
                    return null;
                minutes = d.BreakBefore ? Math.Max(minutes, policy.BreakMinutes) : minutes;
                t += minutes;
                clock = d.BreakBefore ? 0 : clock + minutes;
            }
            OrderLoad load = p.Loads[d.Load];
            OrderRoute route = p.Routes[load.Route];
            Fly(route.PickUp);
            (t, clock) = (t + route.FixedMinutes, clock + route.FixedMinutes);
            bool apart = policy.GroupByDeliverySite && flown.Count > 0 && Site(p, flown[^1]) != route.Delivery && flown.Any(f => Site(p, f) == route.Delivery);
            if (load.NeedKg + fuel > route.CapacityKg[(int)((t + hair) / 60) % 24] + hair || load.NeedKg > route.FixedMaxKg || apart || flown.Contains(d.Load)
                || load.After.Any(a => !flown.Any(f => p.Loads[f].Number == a)))
                return null;
            (t, clock, fuel, at) = (t + route.LoadedMinutes, clock + route.LoadedMinutes, fuel - route.LoadedFuelKg, route.Delivery);
            EmptyLeg home = p.EmptyLegs[at][p.BaseSite];
            if (fuel - home.FuelKg < policy.ReserveKg - hair || clock + home.Minutes > (policy.BreakDueMinutes ?? 1e9) + hair || t + home.Minutes > (policy.LatestEndMinute ?? 1e9) + hair)
                return null;
            flown.Add(d.Load);
        }
        if (s.Lifts.Count > 0)
            Fly(p.BaseSite);
        return t;
    }

    private static int Site(OrderProblem p, int load) => p.Routes[p.Loads[load].Route].Delivery;
}
