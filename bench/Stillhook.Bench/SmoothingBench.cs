using System.Diagnostics;
using System.Globalization;
using MathNet.Numerics.LinearAlgebra;
using Stillhook.Physics.Motion;

namespace Stillhook.Bench;

/// <summary>Eight hours at 10 Hz, three axes, smoothed with covariance: ours against the same written with matrices of another library, in one run.</summary>
public static class SmoothingBench
{
    private const int Fixes = 288_000;
    private const double Step = 0.1, Sp = 0.3, Sv = 0.1, Q = 0.08;

    /// <summary>Measures both and returns the lines to print.</summary>
    /// <param name="matrixFixes">Fixes the matrix version is run on; its time is scaled to all of them.</param>
    public static IReadOnlyList<string> Run(int matrixFixes = Fixes)
    {
        double[] t = new double[Fixes], east = Wander(1), north = Wander(2), up = Wander(3);
        for (int i = 0; i < Fixes; i++)
            t[i] = 1.75e9 + i * Step;
        double ours = Best(5, () => Ours(t, east, north, up, alternate: false));
        double everyStep = Best(3, () => Ours(t, east, north, up, alternate: true));
        double matrix = Best(1, () =>
        {
            foreach (double[] z in new[] { east, north, up })
                Matrices(z.AsSpan(0, matrixFixes));
        }) * Fixes / matrixFixes;
        long before = GC.GetAllocatedBytesForCurrentThread();
        Ours(t, east, north, up, alternate: false);
        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        return
        [
            string.Create(CultureInfo.InvariantCulture, $"smoothing, even steps:      {ours * 1000:0.0} ms, {matrix / ours:0}x the matrix version's speed"),
            string.Create(CultureInfo.InvariantCulture, $"smoothing, every step new:  {everyStep * 1000:0.0} ms, {matrix / everyStep:0}x"),
            string.Create(CultureInfo.InvariantCulture, $"matrix version:             {matrix * 1000:0} ms (measured on {matrixFixes} fixes)"),
            string.Create(CultureInfo.InvariantCulture, $"allocated by ours, columns of the result included: {allocated / 1e6:0.0} MB"),
        ];
    }

    private static double Best(int times, Action action)
    {
        double best = double.PositiveInfinity;
        for (int i = 0; i < times; i++)
        {
            long start = Stopwatch.GetTimestamp();
            action();
            best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalSeconds);
        }
        return best;
    }

    private static double[] Wander(int seed)
    {
        Random random = new(seed);
        double[] z = new double[Fixes];
        for (int i = 0; i < Fixes; i++)
            z[i] = 200 * Math.Sin(i * Step / 40 + seed) + Sp * (random.NextDouble() - 0.5) * Math.Sqrt(12);
        return z;
    }

    /// <summary>Three axes, east and north sharing one covariance. Noise that changes with each fix forces the covariance to be worked every step.</summary>
    private static void Ours(double[] t, double[] east, double[] north, double[] up, bool alternate)
    {
        double[] rp = new double[Fixes];
        for (int i = 0; i < Fixes; i++)
            rp[i] = Sp * Sp * (alternate && i % 2 == 0 ? 1.1 : 1);
        MotionSmoother smoother = new();
        ErrorColumns errors = new(new float[Fixes], new float[Fixes], new float[Fixes]), vertical = new(new float[Fixes], new float[Fixes], new float[Fixes]);
        smoother.Smooth(new(t, rp, []), 0, Fixes, [Columns(east), Columns(north)], [0, 0], Prior, new(Q), errors);
        smoother.Smooth(new(t, rp, []), 0, Fixes, [Columns(up)], [0], Prior, new(Q), vertical);
    }

    private static MotionCovariance Prior => MotionCovariance.FromDeviations(300, 60, 3);

    private static AxisColumns Columns(double[] z) => new([.. z], new double[Fixes], new double[Fixes]);

    /// <summary>The same filter and smoother as a textbook writes them, one axis.</summary>
    private static void Matrices(ReadOnlySpan<double> z)
    {
        int n = z.Length;
        double h = Step;
        MatrixBuilder<double> m = Matrix<double>.Build;
        Matrix<double> f = m.DenseOfArray(new[,] { { 1, h, h * h / 2 }, { 0, 1, h }, { 0, 0, 1 } }), one = m.DenseIdentity(3);
        Matrix<double> q = Q * m.DenseOfArray(new[,]
        {
            { Math.Pow(h, 5) / 20, Math.Pow(h, 4) / 8, Math.Pow(h, 3) / 6 },
            { Math.Pow(h, 4) / 8, Math.Pow(h, 3) / 3, h * h / 2 },
            { Math.Pow(h, 3) / 6, h * h / 2, h },
        });
        Matrix<double> observe = m.DenseOfArray(new[,] { { 1.0, 0, 0 } }), r = m.Dense(1, 1, Sp * Sp);
        Matrix<double>[] covariance = new Matrix<double>[n];
        Vector<double>[] state = new Vector<double>[n];
        Vector<double> x = Vector<double>.Build.Dense(3);
        Matrix<double> p = m.DenseOfDiagonalArray([Prior.PP, Prior.VV, Prior.AA]);
        for (int k = 0; k < n; k++)
        {
            if (k > 0)
                (x, p) = (f * x, f * p * f.Transpose() + q);
            Matrix<double> s = observe * p * observe.Transpose() + r;
            Matrix<double> gain = p * observe.Transpose() * s.Inverse();
            x += gain * (Vector<double>.Build.Dense(1, z[k]) - observe * x);
            Matrix<double> keep = one - gain * observe;
            p = keep * p * keep.Transpose() + gain * r * gain.Transpose();
            (state[k], covariance[k]) = (x, p);
        }
        for (int k = n - 2; k >= 0; k--)
        {
            Matrix<double> predicted = f * covariance[k] * f.Transpose() + q;
            Matrix<double> c = covariance[k] * f.Transpose() * predicted.Inverse();
            state[k] += c * (state[k + 1] - f * state[k]);
            covariance[k] += c * (covariance[k + 1] - predicted) * c.Transpose();
        }
    }
}
