using Google.OrTools.Sat;
using Stillhook.Planning.Ordering;

namespace Stillhook.Solving;

/// <summary>The order as a model of whole numbers. docs/method/order.md has it as formulas.</summary>
internal sealed partial class OrderModel
{
    private readonly OrderGrid grid;
    private readonly int n;
    private readonly int[] kindOf;
    private readonly List<int>[] members;
    private readonly int[] pickUps, deliveries;
    private readonly BoolVar[,] flies;          // position, kind
    private readonly BoolVar[,,,] link;         // position, delivery left, pick-up reached, by way of base
    private readonly LinearExpr[] stop, refuels;
    private readonly BoolVar?[] pause;
    private readonly IntVar[] uplift;           // steps
    private readonly IntVar?[] hookOn;          // minute on the grid; only where something depends on it
    private readonly IntVar[] fuel;             // at hook-on
    private readonly LinearExpr[] standing;     // minutes at base before the position
    private readonly IntVar? startSteps;
    private readonly OrderBound bound;
    private readonly int horizon;
    private readonly List<(int From, int To, int Hour)> bands;
    private readonly OrderSequence? hint;

    public OrderModel(OrderGrid grid, OrderSequence? hint)
    {
        (this.grid, this.hint, n) = (grid, hint, grid.Loads);
        int[] all = [.. Enumerable.Range(0, n)];
        kindOf = OrderMatching.Kinds(grid, all);
        members = [.. all.GroupBy(l => kindOf[l]).OrderBy(k => k.Key).Select(k => k.ToList())];
        pickUps = [.. all.Select(l => grid.PickUp[grid.Route[l]]).Distinct().Order()];
        deliveries = [.. all.Select(l => grid.Delivery[grid.Route[l]]).Distinct().Order()];
        horizon = Horizon();
        bound = new(grid, all, horizon);
        bands = Bands();
        flies = new BoolVar[n, members.Length];
        link = new BoolVar[n, deliveries.Length, pickUps.Length, 2];
        (stop, refuels, standing, pause) = (new LinearExpr[n], new LinearExpr[n], new LinearExpr[n], new BoolVar?[n]);
        (uplift, fuel, hookOn) = (new IntVar[n], new IntVar[n], new IntVar?[n]);
        startSteps = grid.StartFuel is null ? Model.NewIntVar(0, grid.Tank / grid.Step, "start") : null;
        Positions();
        Links();
        Stops();
        Fuel();
        Objective();
        if (bands.Count > 1 || grid.BreakDue is not null)
            Times();
        Capacities();
        Precedence();
        Groups();
        if (hint is not null)
            Hint();
    }

    public CpModel Model { get; } = new();

    private bool HasBreaks => grid.BreakDue is not null;

    private int RouteOf(int kind) => grid.Route[members[kind][0]];

    private int Horizon()
    {
        int day = grid.Start + 24 * 60 * OrderGrid.PerMinute;
        int known = hint is null ? day : OrderGrid.Up(OrderSimulator.Run(grid, hint).FinishMinute, OrderGrid.PerMinute);
        return Math.Max(Math.Min(known, grid.LatestEnd), grid.Start);
    }

    /// <summary>Stretches of the day with the same capacities, from start to horizon.</summary>
    private List<(int From, int To, int Hour)> Bands()
    {
        const int hour = 60 * OrderGrid.PerMinute;
        List<(int From, int To, int Hour)> found = [];
        for (int h = grid.Start / hour; h * hour <= horizon; h++)
        {
            bool same = found.Count > 0 && grid.Capacity.All(c => c[h % 24] == c[found[^1].Hour]);
            if (same)
                found[^1] = found[^1] with { To = (h + 1) * hour - 1 };
            else
                found.Add((h * hour, (h + 1) * hour - 1, h % 24));
        }
        return found;
    }

    private void Positions()
    {
        for (int k = 0; k < n; k++)
            for (int g = 0; g < members.Length; g++)
                flies[k, g] = Model.NewBoolVar($"y{k}_{g}");
        for (int k = 0; k < n; k++)
            Model.AddExactlyOne(Kinds(k));
        for (int g = 0; g < members.Length; g++)
            Model.Add(LinearExpr.Sum(Enumerable.Range(0, n).Select(k => flies[k, g])) == members[g].Count);
    }

    private IEnumerable<BoolVar> Kinds(int k) => Enumerable.Range(0, members.Length).Select(g => flies[k, g]);

    /// <summary>A figure of the route flown at a position.</summary>
    private LinearExpr At(int k, Func<int, int> ofRoute) =>
        LinearExpr.WeightedSum(Kinds(k), Enumerable.Range(0, members.Length).Select(g => ofRoute(RouteOf(g))));

    private LinearExpr AnyOf(int k, Func<int, bool> ofRoute) =>
        LinearExpr.Sum(Enumerable.Range(0, members.Length).Where(g => ofRoute(RouteOf(g))).Select(g => flies[k, g]));

    /// <summary>How one position follows the last: from which delivery to which pick-up, directly or by way of base.</summary>
    private void Links()
    {
        for (int k = 1; k < n; k++)
        {
            List<BoolVar> stops = [];
            for (int d = 0; d < deliveries.Length; d++)
                for (int p = 0; p < pickUps.Length; p++)
                {
                    link[k, d, p, 0] = Model.NewBoolVar($"x{k}_{d}_{p}_0");
                    stops.Add(link[k, d, p, 1] = Model.NewBoolVar($"x{k}_{d}_{p}_1"));
                }
            stop[k] = LinearExpr.Sum(stops);
            for (int d = 0; d < deliveries.Length; d++)
                Model.Add(LinearExpr.Sum(From(k, d)) == AnyOf(k - 1, r => grid.Delivery[r] == deliveries[d]));
            for (int p = 0; p < pickUps.Length; p++)
                Model.Add(LinearExpr.Sum(Into(k, p)) == AnyOf(k, r => grid.PickUp[r] == pickUps[p]));
        }
    }

    private IEnumerable<BoolVar> From(int k, int d) =>
        Enumerable.Range(0, pickUps.Length).SelectMany(p => new[] { link[k, d, p, 0], link[k, d, p, 1] });

    private IEnumerable<BoolVar> Into(int k, int p) =>
        Enumerable.Range(0, deliveries.Length).SelectMany(d => new[] { link[k, d, p, 0], link[k, d, p, 1] });

    private LinearExpr Legs(int k, int[,] legs)
    {
        if (k == 0)
            return At(0, r => legs[grid.Base, grid.PickUp[r]]);
        List<LinearExpr> terms = [];
        for (int d = 0; d < deliveries.Length; d++)
            for (int p = 0; p < pickUps.Length; p++)
            {
                terms.Add(link[k, d, p, 0] * legs[deliveries[d], pickUps[p]]);
                terms.Add(link[k, d, p, 1] * (legs[deliveries[d], grid.Base] + legs[grid.Base, pickUps[p]]));
            }
        return LinearExpr.Sum(terms);
    }

    /// <summary>The leg from base where there was a stop, else nothing.</summary>
    private LinearExpr LegFromBase(int k, int[,] legs) => k == 0
        ? At(0, r => legs[grid.Base, grid.PickUp[r]])
        : LinearExpr.Sum(Enumerable.Range(0, pickUps.Length).SelectMany(p =>
            Enumerable.Range(0, deliveries.Length).Select(d => link[k, d, p, 1] * legs[grid.Base, pickUps[p]])));

    private LinearExpr Home(int k, int[,] legs) => At(k, r => legs[grid.Delivery[r], grid.Base]);

    private void Stops()
    {
        int most = grid.Tank / grid.Step;
        for (int k = 0; k < n; k++)
        {
            uplift[k] = Model.NewIntVar(0, k == 0 && startSteps is not null ? 0 : most, $"u{k}");
            if (k == 0)
                stop[0] = startSteps is null ? Model.NewBoolVar("stop0") : LinearExpr.Constant(0);
            refuels[k] = stop[k];
            if (HasBreaks && k > 0)
                Pause(k);
            Model.Add(uplift[k] <= refuels[k] * most);
            Model.Add(uplift[k] >= refuels[k]);
            standing[k] = Standing(k);
        }
        Model.Add(LinearExpr.Sum(refuels) >= bound.Refuels);
        if (HasBreaks)
            Model.Add(LinearExpr.Sum(pause.OfType<BoolVar>()) >= bound.Breaks);
    }

    private void Pause(int k)
    {
        BoolVar refuel = Model.NewBoolVar($"r{k}"), rest = Model.NewBoolVar($"b{k}");
        (refuels[k], pause[k]) = (refuel, rest);
        Model.Add(refuel <= stop[k]);
        Model.Add(rest <= stop[k]);
        Model.Add(refuel + rest >= stop[k]);
    }

    private LinearExpr Standing(int k)
    {
        LinearExpr refuelling = refuels[k] * grid.RefuelFixed + uplift[k] * grid.RefuelPerStep;
        if (pause[k] is not BoolVar rest)
            return refuelling;
        int most = Math.Max(grid.BreakLength, grid.RefuelFixed + grid.Tank / grid.Step * grid.RefuelPerStep);
        IntVar both = Model.NewIntVar(0, most, $"dur{k}");
        Model.AddMaxEquality(both, [refuelling, rest * grid.BreakLength]);
        Model.Add(both >= refuelling + rest * OrderBound.BreakBeyondRefuelling(grid));
        return both;
    }

    private void Fuel()
    {
        for (int k = 0; k < n; k++)
        {
            fuel[k] = Model.NewIntVar(0, grid.Tank, $"f{k}");
            LinearExpr before = k > 0 ? fuel[k - 1] - At(k - 1, r => grid.LoadedFuel[r])
                : startSteps is not null ? startSteps * grid.Step : LinearExpr.Constant(grid.StartFuel!.Value);
            Model.Add(fuel[k] == before - Legs(k, grid.LegFuel) + uplift[k] * grid.Step);
            Model.Add(fuel[k] + LegFromBase(k, grid.LegFuel) <= grid.Tank);
            Model.Add(fuel[k] - At(k, r => grid.LoadedFuel[r]) - Home(k, grid.LegFuel) >= grid.Reserve);
        }
    }

    private void Objective()
    {
        List<LinearExpr> terms = [Home(n - 1, grid.LegMinutes)];
        for (int k = 0; k < n; k++)
            terms.AddRange([Legs(k, grid.LegMinutes), standing[k]]);
        int loaded = Enumerable.Range(0, n).Sum(l => grid.LoadedMinutes[grid.Route[l]] + grid.FixedMinutes[grid.Route[l]]);
        LinearExpr finish = LinearExpr.Sum(terms) + (grid.Start + loaded);
        Model.Add(finish >= bound.Finish);
        Model.Add(finish <= horizon);
        Model.Minimize(finish);
    }

    private void Times()
    {
        for (int k = 0; k < n; k++)
        {
            hookOn[k] = Model.NewIntVar(grid.Start, horizon, $"h{k}");
            LinearExpr before = k > 0 ? hookOn[k - 1]! + At(k - 1, r => grid.LoadedMinutes[r]) : LinearExpr.Constant(grid.Start);
            Model.Add(hookOn[k]! == before + Legs(k, grid.LegMinutes) + standing[k] + At(k, r => grid.FixedMinutes[r]));
        }
        if (grid.BreakDue is int due)
            BreakClock(due);
    }

    private void BreakClock(int due)
    {
        LinearExpr since = LinearExpr.Constant(grid.Start);
        for (int k = 0; k < n; k++)
        {
            if (pause[k] is BoolVar rest)
            {
                IntVar ended = Model.NewIntVar(grid.Start, horizon, $"e{k}");
                Model.Add(ended <= since).OnlyEnforceIf(rest.Not());
                Model.Add(ended <= hookOn[k]! - At(k, r => grid.FixedMinutes[r]) - LegFromBase(k, grid.LegMinutes)).OnlyEnforceIf(rest);
                since = ended;
            }
            Model.Add(hookOn[k]! + At(k, r => grid.LoadedMinutes[r]) + Home(k, grid.LegMinutes) - since <= due);
        }
    }

    private void Precedence()
    {
        for (int load = 0; load < n; load++)
            foreach (int before in grid.Before[load])
                for (int k = 0; k < n; k++)
                    Model.Add(Flown(before, k) >= Flown(load, k + 1));
    }

    private LinearExpr Flown(int load, int positions) =>
        LinearExpr.Sum(Enumerable.Range(0, Math.Min(positions, n)).Select(k => flies[k, kindOf[load]]));

    private void Groups()
    {
        int[] blocks = [.. grid.Block.Distinct()];
        if (blocks.Length < 2)
            return;
        foreach (int block in blocks)
        {
            List<BoolVar> begins = [];
            for (int k = 0; k < n; k++)
            {
                begins.Add(Model.NewBoolVar($"s{k}_{block}"));
                Model.Add(k == 0 ? begins[0] >= InBlock(0, block) : begins[k] >= InBlock(k, block) - InBlock(k - 1, block));
            }
            Model.AddExactlyOne(begins);
        }
    }

    private LinearExpr InBlock(int k, int block) =>
        LinearExpr.Sum(Enumerable.Range(0, members.Length).Where(g => grid.Block[members[g][0]] == block).Select(g => flies[k, g]));
}
