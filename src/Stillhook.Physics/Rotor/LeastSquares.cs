using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;

namespace Stillhook.Physics.Rotor;

/// <summary>Small nonlinear least squares by Levenberg and Marquardt, derivatives by differences.</summary>
internal static class LeastSquares
{
    /// <summary>Minimises Σr² from a start; changes the parameters in place and returns the sum.</summary>
    /// <param name="residuals">Residuals of the parameters, always as many.</param>
    /// <param name="parameters">Start, then result.</param>
    /// <param name="scales">Size of a usual step of each parameter.</param>
    public static double Minimise(Func<double[], double[]> residuals, double[] parameters, double[] scales)
    {
        int count = residuals(parameters).Length;
        Vector<double> zeros = Vector<double>.Build.Dense(count);
        IObjectiveModel model = ObjectiveFunction.NonlinearModel((p, _) => Vector<double>.Build.Dense(residuals(p.ToArray())), zeros, zeros, accuracyOrder: 2);
        NonlinearMinimizationResult result = new LevenbergMarquardtMinimizer(maximumIterations: -1).FindMinimum(model, Vector<double>.Build.DenseOfArray(parameters), scales: Vector<double>.Build.DenseOfArray(scales));
        result.MinimizingPoint.AsArray().CopyTo(parameters, 0);
        return residuals(parameters).Sum(r => r * r);
    }
}
