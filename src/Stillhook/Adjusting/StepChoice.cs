namespace Stillhook.Adjusting;

/// <summary>Chooses whole trade steps: every way of changing at most two knobs is tried, so rounding comes first and not last.</summary>
/// <remarks>Cost: Σ (expected miss / tolerance)² + c Σ steps².</remarks>
internal sealed class StepChoice
{
    /// <summary>All changes of at most two knobs, in whole steps within what one load may move; no change comes first.</summary>
    public static readonly int[][] Moves = [.. All().OrderBy(m => m.Sum(Math.Abs))];

    private readonly AdjustSettings _settings;
    private readonly double[,] _slopes;
    private readonly (double Stop, double Arrival, double Decel, double Price)[] _effects;

    /// <summary>Works out what each change does, in tolerances.</summary>
    public StepChoice(AdjustSettings settings, double[,] slopes)
    {
        (_settings, _slopes) = (settings, slopes);
        _effects = [.. Moves.Select(m => (Effect(0, m), Effect(1, m), Effect(2, m), Price(m)))];
    }

    /// <summary>The cheapest permitted change.</summary>
    /// <param name="miss">Expected miss of the present brief, in tolerances.</param>
    /// <param name="permitted">Whether a change may be made.</param>
    public int[] Best(ReadOnlySpan<double> miss, Func<int[], bool> permitted)
    {
        int best = 0;
        double least = double.PositiveInfinity;
        for (int m = 0; m < Moves.Length; m++)
        {
            double stop = miss[0] + _effects[m].Stop, arrival = miss[1] + _effects[m].Arrival, decel = miss[2] + _effects[m].Decel;
            double cost = stop * stop + arrival * arrival + decel * decel + _effects[m].Price;
            if (cost < least - 1e-9 && (m == 0 || permitted(Moves[m])))
                (best, least) = (m, cost);
        }
        return Moves[best];
    }

    /// <summary>What is left of the expected miss after a change, with the price of the change.</summary>
    public double Cost(ReadOnlySpan<double> miss, int[] move)
    {
        double cost = Price(move);
        for (int i = 0; i < 3; i++)
            cost += (miss[i] + Effect(i, move)) * (miss[i] + Effect(i, move));
        return cost;
    }

    private double Price(int[] move) => _settings.StepCost * move.Sum(s => s * s);

    private double Effect(int outcome, int[] move)
    {
        double sum = 0;
        for (int k = 0; k < 4; k++)
            sum += _slopes[outcome, k] * move[k];
        return sum / _settings.Tolerance[outcome];
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
