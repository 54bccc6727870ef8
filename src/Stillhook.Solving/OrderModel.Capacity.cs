using Google.OrTools.Sat;
using Stillhook.Planning.Ordering;

namespace Stillhook.Solving;

internal sealed partial class OrderModel
{
    /// <summary>
    /// Hall's condition: for each need m of a kind, at least as many of its positions can carry m as it has loads of m or more. Only needs
    /// that some fuel in the tank could forbid take part.
    /// </summary>
    private void Capacities()
    {
        BoolVar[,]? inBand = bands.Count > 1 ? InBands() : null;
        List<BoolVar>[] held = [.. Enumerable.Range(0, n).Select(_ => new List<BoolVar>())];
        List<LinearExpr>[] drops = [.. Enumerable.Range(0, n).Select(_ => new List<LinearExpr>())];
        for (int g = 0; g < members.Length; g++)
        {
            int route = RouteOf(g), most = grid.Tank;
            int least = bands.Min(b => grid.Capacity[route][b.Hour]), best = bands.Max(b => grid.Capacity[route][b.Hour]);
            BoolVar[]? lighter = null;
            foreach (int need in members[g].Select(l => grid.Need[l]).Where(m => m + MostFuel(route) > least).Distinct().Order())
            {
                BoolVar[] can = Carries(g, need, lighter);
                for (int k = 0; k < n && lighter is null; k++)
                    held[k].Add(can[k]);
                lighter = can;
                int allowed = Math.Min(most, best - need);
                for (int k = 0; k < n; k++)
                {
                    drops[k].Add(lighter[k] * (most - allowed));
                    if (inBand is not null)
                        HoldToHour(k, route, need, lighter[k], inBand);
                }
                most = allowed;
            }
        }
        // One row for each position: each need that it must carry takes its part off the fuel. Kinds exclude each other, so their parts don't add up.
        for (int k = 0; k < n; k++)
            if (drops[k].Count > 0)
            {
                Model.Add(fuel[k] + LinearExpr.Sum(drops[k]) <= grid.Tank);
                if (inBand is not null)
                    HourOff(k, LinearExpr.Sum(drops[k]), held[k], inBand);
            }
    }

    /// <summary>What every route loses in an hour comes off as well, where the position carries a load that the fuel could forbid.</summary>
    private void HourOff(int k, LinearExpr drops, List<BoolVar> held, BoolVar[,] inBand)
    {
        int[] off = [.. bands.Select(b => grid.Capacity.Min(c => bands.Max(o => c[o.Hour]) - c[b.Hour]))];
        if (off.Max() > 0)
            Model.Add(fuel[k] + drops + LinearExpr.WeightedSum(Enumerable.Range(0, bands.Count).Select(b => inBand[k, b]), off)
                + LinearExpr.Sum(held) * off.Max() <= grid.Tank + off.Max());
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
