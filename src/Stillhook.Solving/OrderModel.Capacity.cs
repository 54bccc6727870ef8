using Google.OrTools.Sat;
using Stillhook.Planning.Ordering;

namespace Stillhook.Solving;

internal sealed partial class OrderModel
{
    private readonly List<(int Kind, int Need, BoolVar[] Can)> carried = [];

    /// <summary>
    /// Hall's condition: for each need m of a kind, at least as many of its positions can carry m as it has loads of m or more. Only needs
    /// that some fuel in the tank could forbid take part.
    /// </summary>
    private void Capacities()
    {
        BoolVar[,]? inBand = bands.Count > 1 ? InBands() : null;
        for (int g = 0; g < members.Length; g++)
        {
            int route = RouteOf(g), least = bands.Min(b => grid.Capacity[route][b.Hour]);
            BoolVar[]? lighter = null;
            foreach (int need in members[g].Select(l => grid.Need[l]).Where(m => m + MostFuel(route) > least).Distinct().Order())
            {
                lighter = Carries(g, need, lighter);
                carried.Add((g, need, lighter));
                for (int k = 0; k < n && inBand is not null; k++)
                    HoldToHour(k, route, need, lighter[k], inBand);
            }
        }
        RefuelSoonAfter();
        if (carried.Count == 0)
            return;
        for (int k = 0; k < n; k++)
        {
            Model.Add(fuel[k] + Taken(k, grid.Tank) <= grid.Tank);
            if (inBand is not null)
                HourOff(k, inBand);
        }
    }

    /// <summary>
    /// A load hooked on with so little fuel that only c - 1 more can follow in the same tank has a refuelling within the next c positions. It follows from
    /// the fuel, but the solver's linear part sees it only when told.
    /// </summary>
    private void RefuelSoonAfter()
    {
        int most = bound.PerTank(grid.Tank);
        for (int c = 1; c <= most && c < n; c++)
        {
            BoolVar[][] late = [.. carried.Where(w => PerTank(w) <= c).GroupBy(w => w.Kind).Select(w => w.First().Can)];
            for (int k = 0; k + c < n && (late.Length > 0 || c == most); k++)
                Model.Add(LinearExpr.Sum(refuels[(k + 1)..(k + c + 1)]) >= (c == most ? LinearExpr.Constant(1) : LinearExpr.Sum(late.Select(w => w[k]))));
        }
    }

    private int PerTank((int Kind, int Need, BoolVar[] Can) carried) =>
        bound.PerTank(bands.Max(b => grid.Capacity[RouteOf(carried.Kind)][b.Hour]) - carried.Need);

    /// <summary>
    /// What the needs carried at a position take off a top amount of fuel, at the best hour of the day: with the heaviest need carried m of a kind, the top
    /// less what is left over m. Kinds exclude each other, so that their parts don't add up.
    /// </summary>
    private LinearExpr Taken(int k, int top)
    {
        List<LinearExpr> terms = [];
        foreach (IGrouping<int, (int Kind, int Need, BoolVar[] Can)> kind in carried.GroupBy(c => c.Kind))
        {
            int from = top, best = bands.Max(b => grid.Capacity[RouteOf(kind.Key)][b.Hour]);
            foreach ((_, int need, BoolVar[] can) in kind)
            {
                int allowed = Math.Min(from, best - need);
                terms.Add(can[k] * (from - allowed));
                from = allowed;
            }
        }
        return LinearExpr.Sum(terms);
    }

    /// <summary>What every route loses in an hour comes off as well, where the position carries a need that fuel could forbid.</summary>
    private void HourOff(int k, BoolVar[,] inBand)
    {
        int[] off = [.. bands.Select(b => grid.Capacity.Min(c => bands.Max(o => c[o.Hour]) - c[b.Hour]))];
        if (off.Max() == 0)
            return;
        // The top is over every amount that is left, so that nothing is cut at the tank before the hour's loss comes off.
        int top = carried.Max(c => bands.Max(b => grid.Capacity[RouteOf(c.Kind)][b.Hour]) - c.Need);
        top = Math.Max(top, grid.Tank);
        LinearExpr any = LinearExpr.Sum(carried.GroupBy(c => c.Kind).Select(c => c.First().Can[k]));
        Model.Add(fuel[k] + Taken(k, top) + LinearExpr.WeightedSum(Enumerable.Range(0, bands.Count).Select(b => inBand[k, b]), off)
            <= top + off.Max() - any * off.Max());
    }

    private int MostFuel(int route) => grid.Tank - grid.LegFuel[grid.Base, grid.PickUp[route]];

    private BoolVar[] Carries(int g, int need, BoolVar[]? lighter)
    {
        BoolVar[] can = new BoolVar[n];
        for (int k = 0; k < n; k++)
        {
            can[k] = Model.NewBoolVar($"w{k}_{g}_{need}");
            Model.AddImplication(can[k], lighter is null ? flies[k, g] : lighter[k]);
        }
        Model.Add(LinearExpr.Sum(can) >= members[g].Count(l => grid.Need[l] >= need));
        return can;
    }

    private void HoldToHour(int k, int route, int need, BoolVar can, BoolVar[,] inBand)
    {
        LinearExpr capacity = LinearExpr.WeightedSum(Enumerable.Range(0, bands.Count).Select(b => inBand[k, b]), bands.Select(b => grid.Capacity[route][b.Hour]));
        Model.Add(fuel[k] + need <= capacity).OnlyEnforceIf(can);
    }

    private BoolVar[,] InBands()
    {
        BoolVar[,] inBand = new BoolVar[n, bands.Count];
        for (int k = 0; k < n; k++)
        {
            for (int b = 0; b < bands.Count; b++)
            {
                inBand[k, b] = Model.NewBoolVar($"t{k}_{b}");
                Model.AddLinearConstraint(hookOn[k]!, bands[b].From, bands[b].To).OnlyEnforceIf(inBand[k, b]);
            }
            Model.AddExactlyOne(Enumerable.Range(0, bands.Count).Select(b => inBand[k, b]));
        }
        return inBand;
    }

    private void Hint()
    {
        for (int k = 0; k < n; k++)
        {
            LiftDecision decision = hint!.Lifts[k];
            int steps = (int)Math.Round(decision.UpliftBeforeKg * OrderGrid.PerKg / grid.Step);
            Model.AddHint(uplift[k], steps);
            if (pause[k] is BoolVar rest)
                Model.AddHint(rest, decision.BreakBefore ? 1 : 0);
            for (int g = 0; g < members.Length; g++)
                Model.AddHint(flies[k, g], kindOf[decision.Load] == g ? 1 : 0);
            HintLink(k, steps > 0 || decision.BreakBefore);
        }
        if (startSteps is not null)
            Model.AddHint(startSteps, (int)Math.Round(hint!.StartFuelKg * OrderGrid.PerKg / grid.Step));
    }

    private void HintLink(int k, bool stops)
    {
        if (k == 0)
            return;
        int left = grid.Delivery[grid.Route[hint!.Lifts[k - 1].Load]], reached = grid.PickUp[grid.Route[hint.Lifts[k].Load]];
        for (int d = 0; d < deliveries.Length; d++)
            for (int p = 0; p < pickUps.Length; p++)
                for (int s = 0; s < 2; s++)
                    Model.AddHint(link[k, d, p, s], deliveries[d] == left && pickUps[p] == reached && stops == (s == 1) ? 1 : 0);
    }

    /// <summary>The sequence found, loads matched to the positions of their kind; null where they can't be.</summary>
    public OrderSequence? Read(CpSolver solver)
    {
        int[] kinds = [.. Enumerable.Range(0, n).Select(k => Enumerable.Range(0, members.Length).First(g => solver.BooleanValue(flies[k, g])))];
        Queue<int>[] waiting = [.. members.Select(m => new Queue<int>(m))];
        LiftDecision[] lifts = new LiftDecision[n];
        for (int k = 0; k < n; k++)
        {
            double kg = OrderGrid.Kg((int)solver.Value(uplift[k]) * grid.Step);
            lifts[k] = new(waiting[kinds[k]].Dequeue(), kg, pause[k] is BoolVar rest && solver.BooleanValue(rest));
        }
        int start = startSteps is null ? grid.StartFuel!.Value : (int)solver.Value(startSteps) * grid.Step;
        OrderSequence any = new(OrderGrid.Kg(start), lifts);
        return Matched(any, kinds);
    }

    private OrderSequence? Matched(OrderSequence any, int[] kinds)
    {
        int[] allowed = [.. OrderSimulator.Trace(grid, any).Steps.OfType<LiftStep>().Select(l => OrderGrid.Down(l.AllowedKg, OrderGrid.PerKg))];
        LiftDecision[] lifts = [.. any.Lifts];
        for (int g = 0; g < members.Length; g++)
        {
            int[] positions = [.. Enumerable.Range(0, n).Where(k => kinds[k] == g)];
            if (OrderMatching.Match(grid.Need, members[g], [.. positions.Select(k => allowed[k])]) is not int[] matched)
                return null;
            for (int i = 0; i < positions.Length; i++)
                lifts[positions[i]] = lifts[positions[i]] with { Load = matched[i] };
        }
        return any with { Lifts = lifts };
    }
}
