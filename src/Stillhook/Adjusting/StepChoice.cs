namespace Stillhook.Adjusting;

/// <summary>Chooses whole trade steps: every way of changing at most two knobs is tried, so rounding comes first and not last.</summary>
/// <remarks>Cost: Σ (expected miss / tolerance)² + c Σ steps².</remarks>
internal static class StepChoice
{
    /// <summary>All changes of at most two knobs, in whole steps within what one load may move; no change comes first.</summary>
    public static readonly int[][] Moves = [.. All().OrderBy(m => m.Sum(Math.Abs))];

    /// <summary>The cheapest permitted change.</summary>
    /// <param name="estimate">What is known of the pilot.</param>
    /// <param name="flown">Knobs to change from, in steps from the plan.</param>
    /// <param name="settings">Tolerances and cost of change.</param>
    /// <param name="permitted">Whether a change may be made.</param>
    public static int[] Best(OffsetEstimate estimate, double[] flown, AdjustSettings settings, Func<int[], bool> permitted)
    {
        int[] best = Moves[0];
        double least = Cost(estimate, flown, best, settings);
        foreach (int[] move in Moves)
        {
            double cost = Cost(estimate, flown, move, settings);
            if (cost < least - 1e-9 && permitted(move))
                (best, least) = (move, cost);
        }
        return best;
    }

    /// <summary>What the approach is expected to miss by after a change, with the price of the change.</summary>
    public static double Cost(OffsetEstimate estimate, double[] flown, int[] move, AdjustSettings settings)
    {
        Span<double> steps = stackalloc double[4];
        double cost = 0;
        for (int k = 0; k < 4; k++)
        {
            steps[k] = flown[k] + move[k];
            cost += settings.StepCost * move[k] * move[k];
        }
        for (int i = 0; i < 3; i++)
        {
            double miss = estimate.Expected(i, steps) / settings.Tolerance[i];
            cost += miss * miss;
        }
        return cost;
    }

    private static IEnumerable<int[]> All()
    {
        int[] most = TradeStep.Most;
        for (int a = -most[0]; a <= most[0]; a++)
            for (int b = -most[1]; b <= most[1]; b++)
                for (int c = -most[2]; c <= most[2]; c++)
                    for (int d = -most[3]; d <= most[3]; d++)
                    {
                        int[] move = [a, b, c, d];
                        if (move.Count(s => s != 0) <= 2)
                            yield return move;
                    }
    }
}
