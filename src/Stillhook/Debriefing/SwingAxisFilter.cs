namespace Stillhook.Debriefing;

/// <summary>
/// Kalman filter and smoother of hook and load along one horizontal axis: the hook's position, velocity and acceleration together with
/// the load's offset from the plumb line, on an even grid of time.
/// </summary>
/// <remarks>
/// State: p, v, a hook (m, m/s, m/s²; white jerk); r, s load offset from below the hook and its rate (m, m/s); d relative error of the
/// restoring rate λ; e relative error of the drag; w wind (m/s); u load to aircraft mass ratio; b bias of the measured thrust tilt (m/s²).
/// Load: s' = −λ(1+d)·r − κ(1+e)·(v + s − w) − a, with λ(t) (line force over mass and length) and κ(t) (drag over mass and air speed) taken
/// from the last pass, so that the spherical pendulum is followed exactly when passes agree. The smoother is the modified
/// Bryson-Frazier form, which needs no inverse of a matrix: [BIERMAN-1977] chapter X.
/// </remarks>
internal sealed class SwingAxisFilter
{
    internal const int P = 0, V = 1, A = 2, R = 3, S = 4, D = 5, E = 6, W = 7, U = 8, B = 9;
    private const int Driven = 8; // states that reach r and s: rows of the transition have this many columns

    private readonly int n, nodes;
    private readonly double h;
    private readonly double[] predicted, covariance, rowR, rowS, constant;
    private readonly List<Update> updates = [];
    private readonly double[] gains, designs;
    private int updateCount;

    private readonly record struct Update(int Node, double Innovation, double Variance);

    internal SwingAxisFilter(int nodes, double stepS, bool withTilt, int maximumUpdates)
    {
        (n, this.nodes, h) = (withTilt ? 10 : 8, nodes, stepS);
        predicted = new double[nodes * n];
        covariance = new double[nodes * n * n];
        rowR = new double[nodes * Driven];
        rowS = new double[nodes * Driven];
        constant = new double[nodes * 2];
        gains = new double[maximumUpdates * n];
        designs = new double[maximumUpdates * n];
        x = new double[n];
        cov = new double[n * n];
        lambda = new double[n];
        information = new double[n * n];
        Mean = new double[nodes * n];
        Variance = new double[nodes * n];
    }

    private readonly double[] x, cov, lambda, information;

    /// <summary>Smoothed state, node by node.</summary>
    internal double[] Mean { get; }

    /// <summary>Smoothed variances of offset and rate, node by node; of the parameters at the last node.</summary>
    internal double[] Variance { get; }

    /// <summary>Number of states.</summary>
    internal int StateCount => n;

    internal void Start(ReadOnlySpan<double> mean, ReadOnlySpan<double> standardErrors)
    {
        updates.Clear();
        updateCount = 0;
        Array.Clear(cov);
        for (int i = 0; i < n; i++)
        {
            x[i] = mean[i];
            cov[i * n + i] = standardErrors[i] * standardErrors[i];
        }
        Keep(0);
    }

    /// <summary>Moves from node k−1 to k. The reference is the last pass's motion at the middle of the step.</summary>
    internal void Step(int k, in StepModel m)
    {
        BuildTransition(k, m);
        ApplyTransition(k, x.AsSpan());
        x[R] += constant[2 * k];
        x[S] += constant[2 * k + 1];
        for (int row = 0; row < n; row++)
            ApplyTransition(k, cov.AsSpan(row * n, n));
        Transpose(cov);
        for (int row = 0; row < n; row++)
            ApplyTransition(k, cov.AsSpan(row * n, n));
        AddNoise(m);
        Keep(k);
    }

    /// <summary>Takes a measurement at node k: value = design · state + noise. Returns the squared innovation over its variance.</summary>
    internal double Measure(int k, double value, ReadOnlySpan<double> design, double variance)
    {
        Span<double> ph = stackalloc double[10];
        double expected = 0, s = variance;
        design = design[..n];
        for (int i = 0; i < n; i++)
        {
            ph[i] = Dot(cov.AsSpan(i * n, n), design);
            expected += design[i] * x[i];
        }
        for (int i = 0; i < n; i++)
            s += design[i] * ph[i];
        double innovation = value - expected;
        if (innovation * innovation > 9 * s) // an outlier counts as much less as it is farther out
            s = innovation * innovation / 9;
        Span<double> gain = gains.AsSpan(updateCount * n, n);
        for (int i = 0; i < n; i++)
        {
            gain[i] = ph[i] / s;
            x[i] += gain[i] * innovation;
        }
        for (int i = 0; i < n; i++)
        {
            Span<double> row = cov.AsSpan(i * n, n);
            double g = gain[i];
            for (int j = 0; j < row.Length; j++)
                row[j] -= g * ph[j];
        }
        design.CopyTo(designs.AsSpan(updateCount * n, n));
        updates.Add(new(k, innovation, s));
        updateCount++;
        return innovation * innovation / s;
    }

    /// <summary>Backward pass: fills <see cref="Mean"/> and <see cref="Variance"/>.</summary>
    /// <param name="withErrors">False fills the means only, at a third of the work.</param>
    internal void Smooth(bool withErrors)
    {
        Array.Clear(lambda);
        Array.Clear(information);
        int u = updateCount - 1;
        for (int k = nodes - 1; k >= 0; k--)
        {
            while (u >= 0 && updates[u].Node == k)
                BackThroughUpdate(u--, withErrors);
            SmoothNode(k, withErrors);
            if (k > 0)
                BackThroughStep(k, withErrors);
        }
    }

    private void Keep(int k)
    {
        x.CopyTo(predicted.AsSpan(k * n, n));
        cov.CopyTo(covariance.AsSpan(k * n * n, n * n));
    }

    private void BuildTransition(int k, in StepModel m)
    {
        Span<double> r = rowR.AsSpan(k * Driven, Driven), s = rowS.AsSpan(k * Driven, Driven);
        double lambda = m.Lambda * (1 + m.LambdaError), drag = m.DragRate * (1 + m.DragError);
        double restoreByD = -m.Lambda * m.Offset, dragByE = -m.DragRate * m.AirSpeed;
        // The column of each state through x(h) = Σ hʲ Aʲ x / j!, to fourth order: with h·√λ ≤ 0.13 the rest is under 1e-6.
        for (int column = 0; column < Driven; column++)
        {
            double v = column == V ? 1 : 0, a = column == A ? 1 : 0, dr = column == R ? 1 : 0, ds = column == S ? 1 : 0;
            double forced = column switch { D => restoreByD, E => dragByE, W => drag, _ => 0 };
            (r[column], s[column]) = (dr, ds);
            double factor = 1;
            for (int order = 1; order <= 4; order++)
            {
                factor *= h / order;
                (double v1, double r1, double s1) = (a, ds, -lambda * dr - drag * (v + ds) - a + forced);
                r[column] += factor * r1;
                s[column] += factor * s1;
                (v, a, dr, ds, forced) = (v1, 0, r1, s1, 0);
            }
        }
        // What the linearisation of λ(1+d)·r and κ(1+e)·(v+s−w) leaves over.
        double c = m.Lambda * m.LambdaError * m.Offset + m.DragRate * m.DragError * m.AirSpeed;
        constant[2 * k] = c * h * h / 2;
        constant[2 * k + 1] = c * h;
    }

    private void ApplyTransition(int k, Span<double> y)
    {
        double r = 0, s = 0;
        ReadOnlySpan<double> toR = rowR.AsSpan(k * Driven, Driven), toS = rowS.AsSpan(k * Driven, Driven);
        for (int j = 1; j < Driven; j++)
        {
            r += toR[j] * y[j];
            s += toS[j] * y[j];
        }
        y[P] += h * (y[V] + h / 2 * y[A]);
        y[V] += h * y[A];
        y[R] = r;
        y[S] = s;
    }

    private void ApplyTransposed(int k, Span<double> y)
    {
        double p = y[P], v = y[V], r = y[R], s = y[S];
        ReadOnlySpan<double> toR = rowR.AsSpan(k * Driven, Driven), toS = rowS.AsSpan(k * Driven, Driven);
        y[R] = 0;
        y[S] = 0;
        y[V] += h * p;
        y[A] += h * h / 2 * p + h * v;
        for (int j = 1; j < Driven; j++)
            y[j] += toR[j] * r + toS[j] * s;
    }

    private void AddNoise(in StepModel m)
    {
        Span<double> jerk = stackalloc double[5] { h * h * h / 6, h * h / 2, h, -h * h * h / 6, -h * h / 2 };
        double q = m.JerkDensity / h;
        for (int i = 0; i < 5; i++)
            for (int j = 0; j < 5; j++)
                cov[i * n + j] += q * jerk[i] * jerk[j];
        cov[R * n + R] += m.LoadDensity * h * h * h / 3;
        cov[R * n + S] += m.LoadDensity * h * h / 2;
        cov[S * n + R] += m.LoadDensity * h * h / 2;
        cov[S * n + S] += m.LoadDensity * h;
        cov[W * n + W] += m.WindDensity * h;
        if (n > B)
            cov[B * n + B] += m.BiasDensity * h;
    }

    private void BackThroughUpdate(int u, bool withErrors)
    {
        ReadOnlySpan<double> g = gains.AsSpan(u * n, n), d = designs.AsSpan(u * n, n);
        Update update = updates[u];
        Span<double> lg = stackalloc double[10];
        double gain = 0, quadratic = 0;
        for (int i = 0; i < n; i++)
            gain += g[i] * lambda[i];
        for (int i = 0; i < n; i++)
            lambda[i] -= d[i] * (gain + update.Innovation / update.Variance);
        if (!withErrors)
            return;
        for (int i = 0; i < n; i++)
        {
            lg[i] = Dot(information.AsSpan(i * n, n), g);
            quadratic += g[i] * lg[i];
        }
        double weight = quadratic + 1 / update.Variance;
        for (int i = 0; i < n; i++)
        {
            Span<double> row = information.AsSpan(i * n, n);
            double di = d[i], li = lg[i];
            for (int j = 0; j < row.Length; j++)
                row[j] += di * d[j] * weight - di * lg[j] - li * d[j];
        }
    }

    private void BackThroughStep(int k, bool withErrors)
    {
        ApplyTransposed(k, lambda);
        if (!withErrors)
            return;
        for (int row = 0; row < n; row++)
            ApplyTransposed(k, information.AsSpan(row * n, n));
        Transpose(information);
        for (int row = 0; row < n; row++)
            ApplyTransposed(k, information.AsSpan(row * n, n));
    }

    private void SmoothNode(int k, bool withErrors)
    {
        ReadOnlySpan<double> pk = covariance.AsSpan(k * n * n, n * n), xk = predicted.AsSpan(k * n, n);
        Span<double> mean = Mean.AsSpan(k * n, n);
        for (int i = 0; i < n; i++)
        {
            ReadOnlySpan<double> row = pk.Slice(i * n, n);
            double m = xk[i];
            for (int l = 0; l < row.Length; l++)
                m -= row[l] * lambda[l];
            mean[i] = m;
        }
        if (!withErrors)
            return;
        // The diagonal of P − P Λ P, state by state; P is symmetric, so its rows serve as columns.
        int last = k == nodes - 1 ? n : D; // parameters don't change: the last node's error says it all
        for (int i = R; i < last; i++)
        {
            ReadOnlySpan<double> column = pk.Slice(i * n, n);
            double v = column[i];
            for (int l = 0; l < n; l++)
                v -= column[l] * Dot(information.AsSpan(l * n, n), column);
            Variance[k * n + i] = Math.Max(v, 0);
        }
    }

    private static double Dot(ReadOnlySpan<double> row, ReadOnlySpan<double> column)
    {
        double sum = 0;
        for (int j = 0; j < row.Length; j++)
            sum += row[j] * column[j];
        return sum;
    }

    private void Transpose(double[] matrix)
    {
        for (int i = 0; i < n; i++)
            for (int j = 0; j < i; j++)
                (matrix[i * n + j], matrix[j * n + i]) = (matrix[j * n + i], matrix[i * n + j]);
    }
}

/// <summary>One step of the model along one axis, around the last pass's motion.</summary>
internal struct StepModel
{
    /// <summary>Line force over load mass and length, 1/s².</summary>
    internal double Lambda;

    /// <summary>Relative error of <see cref="Lambda"/> taken in the last pass.</summary>
    internal double LambdaError;

    /// <summary>Load offset of the last pass, m.</summary>
    internal double Offset;

    /// <summary>Drag over mass and air speed, 1/s.</summary>
    internal double DragRate;

    /// <summary>Relative error of the drag taken in the last pass.</summary>
    internal double DragError;

    /// <summary>This axis' component of the load's air speed in the last pass, m/s.</summary>
    internal double AirSpeed;

    /// <summary>Spectral density of the hook's jerk, m²/s⁵.</summary>
    internal double JerkDensity;

    /// <summary>Spectral density of what shakes the load (gusts, model error), m²/s³.</summary>
    internal double LoadDensity;

    /// <summary>Spectral density of the wind's slow change, m²/s³.</summary>
    internal double WindDensity;

    /// <summary>Spectral density of the tilt bias's slow change, m²/s⁵.</summary>
    internal double BiasDensity;
}
