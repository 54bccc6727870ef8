namespace Stillhook.Adjusting;

/// <summary>A pilot's own offset from what the model says, learnt from delivery to delivery by a Kalman filter per outcome.</summary>
/// <remarks>
/// y = J (p − p₀) + b + scatter. Before each delivery the variance of b grows by the drift and by what a wrong J may have made of the change
/// of p since the last one: P ← P + (d σ)² + Σⱼ (s Jᵢⱼ Δpⱼ)². Then K = P/(P + σ²), b ← b + K·innovation, P ← (1 − K) P.
/// Innovations are clipped at 2.5 of their own sigma, so that one wild delivery can't carry the offset away.
/// Until three deliveries are known one of them may be the wild one: where one lies over three sigma from those before, the offset is taken half way
/// between, as uncertain as half their distance, so that the next ones decide; conditions can't have moved from what was never known.
/// </remarks>
internal sealed class OffsetEstimate(AdjustSettings settings, double[,] slopes)
{
    private const double Clip = 2.5, Moved = 3;
    private const int OwnScatterFrom = 8, KnownFrom = 3;

    private readonly double[] _offset = new double[3];
    private readonly double[] _variance = [.. Three.Select(i => Square(settings.OffsetBefore[i]))];
    private readonly double[] _lastInnovation = new double[3];
    private readonly List<double>[] _innovations = [[], [], []];
    private readonly int[] _known = new int[3];
    private double[]? _lastSteps;

    private static readonly int[] Three = [0, 1, 2];

    /// <summary>Two innovations in a row were over three sigma on the same side, with three deliveries or more known before them.</summary>
    public bool ConditionsMoved { get; private set; }

    /// <summary>Takes in one delivery.</summary>
    /// <param name="steps">Knobs flown less plan, in trade steps.</param>
    /// <param name="outcome">Outcome against target; NaN where not measured.</param>
    public void Learn(double[] steps, ReadOnlySpan<double> outcome)
    {
        ConditionsMoved = false;
        for (int i = 0; i < 3; i++)
        {
            double scatter = Scatter(i);
            _variance[i] += Square(settings.Drift * scatter) + ModelVariance(i, steps);
            if (!double.IsNaN(outcome[i]))
                Update(i, outcome[i] - Expected(i, steps), scatter);
        }
        _lastSteps = steps;
        if (ConditionsMoved)
            Restart();
    }

    /// <summary>Expected outcome with given knobs, in trade steps from the plan.</summary>
    public double Expected(int outcome, ReadOnlySpan<double> steps)
    {
        double sum = _offset[outcome];
        for (int k = 0; k < 4; k++)
            sum += slopes[outcome, k] * steps[k];
        return sum;
    }

    private void Update(int i, double innovation, double scatter)
    {
        double sigma = Math.Sqrt(_variance[i] + Square(scatter));
        double relative = innovation / sigma;
        if (_known[i] < KnownFrom && Math.Abs(relative) > Moved)
        {
            (_offset[i], _variance[i], _known[i]) = (_offset[i] + innovation / 2, Square(innovation / 2), 1);
            _innovations[i].Add(innovation / 2);
            return;
        }
        if (_known[i]++ >= KnownFrom)
        {
            ConditionsMoved |= Math.Abs(relative) > Moved && Math.Abs(_lastInnovation[i]) > Moved && relative * _lastInnovation[i] > 0;
            _lastInnovation[i] = relative;
        }
        double gain = _variance[i] / Square(sigma);
        _innovations[i].Add(innovation * Math.Sqrt(1 - gain));
        _offset[i] += gain * Math.Clamp(innovation, -Clip * sigma, Clip * sigma);
        _variance[i] *= 1 - gain;
    }

    // The innovation has variance P + σ²; times √(1 − K) it has σ². The median of squares (0.455 σ² for a normal law) ignores the wild ones.
    private double Scatter(int i)
    {
        if (_innovations[i].Count < OwnScatterFrom)
            return settings.Scatter[i];
        double[] squares = [.. _innovations[i].Select(Square).Order()];
        double own = Math.Sqrt(squares[squares.Length / 2] / 0.455);
        return Math.Clamp(own, 0.7 * settings.Scatter[i], 3 * settings.Scatter[i]);
    }

    private double ModelVariance(int i, double[] steps)
    {
        double sum = 0;
        for (int k = 0; k < 4 && _lastSteps is not null; k++)
            sum += Square(settings.SensitivityError * slopes[i, k] * (steps[k] - _lastSteps[k]));
        return sum;
    }

    private void Restart()
    {
        for (int i = 0; i < 3; i++)
            (_variance[i], _lastInnovation[i], _known[i]) = (Square(settings.OffsetBefore[i]), 0, 0);
    }

    private static double Square(double x) => x * x;
}
