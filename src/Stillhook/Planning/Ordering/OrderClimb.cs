namespace Stillhook.Planning.Ordering;

/// <summary>Improves an order by small changes: two loads exchanged, a load moved, two groups exchanged.</summary>
internal sealed class OrderClimb
{
    private const int Memory = 60; // changes ago that a new order is measured against
    private const int Tries = 2500;
    private const long MostWork = 2_400_000; // loads looked at; about 40 ms on an idle core

    private readonly OrderGrid grid;
    private readonly OrderDecoder decoder;
    private readonly OrderStarts starts;
    private readonly int[] loads;
    private readonly int[] place;
    private readonly int bound, blockCount;
    private uint state = 2463534242; // xorshift, fixed seed

    public OrderClimb(OrderGrid grid, OrderDecoder decoder, IReadOnlyList<int> loads)
    {
        (this.grid, this.decoder, this.loads) = (grid, decoder, [.. loads]);
        starts = new(grid, this.loads);
        place = new int[grid.Loads];
        blockCount = this.loads.Select(l => grid.Block[l]).Distinct().Count();
        bound = new OrderBound(grid, loads).Finish;
    }

    /// <summary>The best order found.</summary>
    /// <param name="effort">Share of the usual number of tries.</param>
    public int[] Best(double effort)
    {
        int[]? best = null;
        OrderDecoder.Score bestScore = default;
        foreach (int[] start in starts.All())
            if (decoder.Evaluate(start) is var score && (best is null || score.CompareTo(bestScore) < 0))
                (best, bestScore) = (start, score);
        return best is null ? [] : Climb(best, bestScore, (int)(Tries * effort));
    }

    private int[] Climb(int[] order, OrderDecoder.Score score, int tries)
    {
        int n = order.Length;
        int[] best = [.. order], trial = new int[n];
        OrderDecoder.Score bestScore = score;
        OrderDecoder.Score[] memory = new OrderDecoder.Score[Memory];
        Array.Fill(memory, score);
        long mostWork = decoder.Work + MostWork * tries / Tries;
        for (int t = 0; t < tries && n > 1 && decoder.Work < mostWork && !(bestScore.Loads == n && bestScore.Finish <= bound); t++)
        {
            order.CopyTo(trial, 0);
            Change(trial, score.Loads);
            if (!Valid(trial))
                continue;
            OrderDecoder.Score found = decoder.Evaluate(trial);
            if (found.CompareTo(memory[t % Memory]) <= 0 || found.CompareTo(score) <= 0)
            {
                score = found;
                (order, trial) = (trial, order);
            }
            memory[t % Memory] = score;
            if (found.CompareTo(bestScore) < 0)
            {
                bestScore = found;
                order.CopyTo(best, 0);
            }
        }
        return best;
    }

    private void Change(int[] order, int flown)
    {
        int n = order.Length, kind = Next(8);
        if (kind == 0 && grid.Block[order[0]] >= 0)
            ExchangeBlocks(order);
        else if (flown < n && kind <= 3)
            Move(order, flown, Next(n)); // the load that stopped the day
        else if (kind <= 4)
            Move(order, Next(n), Next(n));
        else
            Exchange(order, Next(n), Next(n));
    }

    private static void Exchange(int[] order, int a, int b) => (order[a], order[b]) = (order[b], order[a]);

    private static void Move(int[] order, int from, int to)
    {
        int load = order[from];
        if (from < to)
            Array.Copy(order, from + 1, order, from, to - from);
        else
            Array.Copy(order, to, order, to + 1, from - to);
        order[to] = load;
    }

    private void ExchangeBlocks(int[] order)
    {
        int[] blocks = [.. order.Select(l => grid.Block[l]).Distinct()];
        int a = Next(blocks.Length), b = Next(blocks.Length);
        (blocks[a], blocks[b]) = (blocks[b], blocks[a]);
        int[] changed = [.. blocks.SelectMany(k => order.Where(l => grid.Block[l] == k))];
        changed.CopyTo(order, 0);
    }

    private bool Valid(int[] order)
    {
        for (int i = 0; i < order.Length; i++)
            place[order[i]] = i;
        foreach (int load in loads)
            foreach (int before in grid.Before[load])
                if (place[before] > place[load])
                    return false;
        if (grid.Block[order[0]] < 0)
            return true;
        int runs = 1;
        for (int i = 1; i < order.Length; i++)
            runs += grid.Block[order[i]] != grid.Block[order[i - 1]] ? 1 : 0;
        return runs == blockCount;
    }

    private int Next(int below)
    {
        state ^= state << 13;
        state ^= state >> 17;
        state ^= state << 5;
        return (int)(state % (uint)below);
    }
}
