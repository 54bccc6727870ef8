using MathNet.Numerics.LinearAlgebra;

namespace Stillhook.Bench.Baselines;

/// <summary>Kalman filter and Rauch-Tung-Striebel smoother of one axis in the textbook's matrix form, with a matrix library.</summary>
public static class MatrixSmoother
{
    private static readonly MatrixBuilder<double> M = Matrix<double>.Build;
    private static readonly VectorBuilder<double> V = Vector<double>.Build;

    /// <summary>Smoothed states and covariances of (position, velocity, acceleration) under white jerk of the given density.</summary>
    public static (Vector<double>[] State, Matrix<double>[] Covariance) Smooth(
        double[] timeS, double[] position, double[] velocity, double positionVariance, double velocityVariance, double jerkDensity)
    {
        int n = timeS.Length;
        var filtered = new Vector<double>[n];
        var p = new Matrix<double>[n];
        var predicted = new Vector<double>[n];
        var pp = new Matrix<double>[n];
        var f = new Matrix<double>[n];
        Matrix<double> h = M.DenseOfArray(new double[,] { { 1, 0, 0 }, { 0, 1, 0 } });
        Matrix<double> r = M.DenseOfDiagonalArray([positionVariance, velocityVariance]);
        Matrix<double> one = M.DenseIdentity(3);
        for (int i = 0; i < n; i++)
        {
            double dt = i == 0 ? 0 : timeS[i] - timeS[i - 1];
            f[i] = M.DenseOfArray(new double[,] { { 1, dt, dt * dt / 2 }, { 0, 1, dt }, { 0, 0, 1 } });
            predicted[i] = i == 0 ? V.DenseOfArray([position[0], 0, 0]) : f[i] * filtered[i - 1];
            pp[i] = i == 0 ? M.DenseOfDiagonalArray([100.0, 400, 4]) : f[i] * p[i - 1] * f[i].Transpose() + Noise(dt, jerkDensity);
            Matrix<double> gain = pp[i] * h.Transpose() * (h * pp[i] * h.Transpose() + r).Inverse();
            Matrix<double> keep = one - gain * h;
            filtered[i] = predicted[i] + gain * (V.DenseOfArray([position[i], velocity[i]]) - h * predicted[i]);
            p[i] = keep * pp[i] * keep.Transpose() + gain * r * gain.Transpose();
        }
        for (int i = n - 2; i >= 0; i--)
        {
            Matrix<double> c = p[i] * f[i + 1].Transpose() * pp[i + 1].Inverse();
            filtered[i] += c * (filtered[i + 1] - predicted[i + 1]);
            p[i] += c * (p[i + 1] - pp[i + 1]) * c.Transpose();
        }
        return (filtered, p);
    }

    private static Matrix<double> Noise(double h, double q) => q * M.DenseOfArray(new double[,]
    {
        { Math.Pow(h, 5) / 20, Math.Pow(h, 4) / 8, Math.Pow(h, 3) / 6 },
        { Math.Pow(h, 4) / 8, Math.Pow(h, 3) / 3, h * h / 2 },
        { Math.Pow(h, 3) / 6, h * h / 2, h },
    });
}
