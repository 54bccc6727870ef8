using MathNet.Numerics.LinearAlgebra;

namespace Stillhook.Physics.Rotor;

/// <summary>What the fit leaves over at the chart's points, interpolated: a factor on the power required, fading to 1 away from them.</summary>
/// <remarks>
/// Logarithm of the factor = Σ w_i·φ(d_i), φ = (1 − d)⁴(4d + 1) for d under 1 [WENDLAND-1995], d the distance in pressure altitude and temperature over the reach.
/// φ is positive definite in the plane, so the weights exist for any points that are not the same, on a grid or not.
/// </remarks>
internal sealed class ChartCorrection
{
    private const double ReachM = 6000, ReachK = 60, Nugget = 1e-6;
    private readonly double[] _x, _y, _weight;

    /// <param name="points">Chart points, no two the same.</param>
    /// <param name="lnFactor">Logarithm of the factor at each.</param>
    public ChartCorrection(IReadOnlyList<HoverChartPoint> points, IReadOnlyList<double> lnFactor)
    {
        _x = [.. points.Select(p => p.PressureAltitudeM / ReachM)];
        _y = [.. points.Select(p => p.TemperatureK / ReachK)];
        int n = points.Count;
        Matrix<double> kernel = Matrix<double>.Build.Dense(n, n, (i, j) => Kernel(_x[i] - _x[j], _y[i] - _y[j]) + (i == j ? Nugget : 0));
        _weight = n == 0 ? [] : kernel.Cholesky().Solve(Vector<double>.Build.DenseOfEnumerable(lnFactor)).ToArray();
    }

    public double Factor(in AirState air)
    {
        double x = air.PressureAltitudeM / ReachM, y = air.TemperatureK / ReachK, sum = 0;
        for (int i = 0; i < _weight.Length; i++)
            sum += _weight[i] * Kernel(x - _x[i], y - _y[i]);
        return Math.Exp(sum);
    }

    private static double Kernel(double dx, double dy)
    {
        double d2 = dx * dx + dy * dy;
        if (d2 >= 1)
            return 0;
        double d = Math.Sqrt(d2), r = (1 - d) * (1 - d);
        return r * r * (4 * d + 1);
    }
}
