namespace Stillhook.Planning.Ordering;

/// <summary>Orders to begin the search from; each keeps groups together and what must come before, before.</summary>
internal sealed class OrderStarts(OrderGrid grid, IReadOnlyList<int> loads)
{
    private const int MostBlocksTriedInEveryOrder = 4;

    /// <summary>As given; by rising need; and tank by tank, heavy loads late.</summary>
    public IEnumerable<int[]> All()
    {
        foreach (int[] blocks in BlockOrders())
        {
            foreach (IEnumerable<int> wish in new IEnumerable<int>[] { loads, loads.OrderBy(l => grid.Need[l]), TankByTank(blocks) })
                if (Arrange(wish, blocks) is int[] order)
                    yield return order;
        }
    }

    /// <summary>Loads in the wished order as far as groups and precedence permit; null when this order of groups doesn't.</summary>
    public int[]? Arrange(IEnumerable<int> wish, int[] blocks)
    {
        int[] wished = [.. wish];
        List<int> order = [];
        HashSet<int> waiting = [.. loads];
        foreach (int block in blocks)
        {
            List<int> left = [.. wished.Where(l => grid.Block[l] == block)];
            while (left.Count > 0)
            {
                int next = left.FindIndex(l => !grid.Before[l].Any(waiting.Contains));
                if (next < 0)
                    return null;
                order.Add(left[next]);
                waiting.Remove(left[next]);
                left.RemoveAt(next);
            }
        }
        return [.. order];
    }

    private IEnumerable<int[]> BlockOrders()
    {
        int[] blocks = [.. loads.Select(l => grid.Block[l]).Distinct()];
        if (blocks.Length <= MostBlocksTriedInEveryOrder)
            return Orders(blocks);
        return [blocks, [.. blocks.Reverse()], ByPrecedence(blocks)];
    }

    private int[] ByPrecedence(int[] blocks)
    {
        List<int> left = [.. blocks], order = [];
        while (left.Count > 0)
        {
            int next = left.FindIndex(b => !loads.Any(l => grid.Block[l] == b && grid.Before[l].Any(p => grid.Block[p] != b && left.Contains(grid.Block[p]))));
            order.Add(left[Math.Max(0, next)]);
            left.RemoveAt(Math.Max(0, next));
        }
        return [.. order];
    }

    private static IEnumerable<int[]> Orders(int[] items)
    {
        if (items.Length <= 1)
            return [items];
        return items.SelectMany(first => Orders([.. items.Where(i => i != first)]).Select(rest => (int[])[first, .. rest]));
    }

    /// <summary>Each tank is filled from its end, where there is least fuel, with the heaviest load that still fits there.</summary>
    private List<int> TankByTank(int[] blocks)
    {
        List<int> order = [], left = [.. loads];
        int tank = grid.StartFuel ?? grid.Tank;
        foreach (int block in blocks)
            while (left.Where(l => grid.Block[l] == block).ToList() is { Count: > 0 } ofBlock)
            {
                List<int> one = OneTank(ofBlock, left, tank);
                tank = grid.Tank;
                if (one.Count == 0)
                    one = ofBlock;
                order.AddRange(one);
                left.RemoveAll(one.Contains);
            }
        return order;
    }

    private List<int> OneTank(List<int> candidates, List<int> left, int tank)
    {
        List<int> order = [];
        List<int> ready = [.. candidates.Where(l => !grid.Before[l].Any(left.Contains)).OrderByDescending(l => grid.Need[l]).ThenByDescending(l => l)];
        int fuel = grid.Reserve, next = grid.Base;
        while (true)
        {
            int at = ready.FindIndex(l => HookOnFuel(l, next, fuel) is int hook && hook <= grid.Allowance(l, OrderGrid.Hour(grid.Start))
                && hook + grid.LegFuel[grid.Base, grid.PickUp[grid.Route[l]]] <= tank);
            if (at < 0)
                return order;
            fuel = HookOnFuel(ready[at], next, fuel);
            next = grid.PickUp[grid.Route[ready[at]]];
            order.Insert(0, ready[at]);
            ready.RemoveAt(at);
        }
    }

    private int HookOnFuel(int load, int next, int fuelThere) =>
        fuelThere + grid.LegFuel[grid.Delivery[grid.Route[load]], next] + grid.LoadedFuel[grid.Route[load]];
}
