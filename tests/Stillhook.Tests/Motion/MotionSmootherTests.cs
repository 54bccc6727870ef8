using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using Stillhook.Physics.Motion;

namespace Stillhook.Tests.Motion;

public class MotionSmootherTests
{
    private static ErrorColumns Errors(int n) => new(new float[n], new float[n], new float[n]);

    private static double[] Filled(int n, double v)
    {
        double[] a = new double[n];
        Array.Fill(a, v);
        return a;
    }

    // Closed form: batch least squares of the four-value random walk (prior 0 with variance 10, q = r = 1), worked apart from the code.
    [Fact]
    public void Smooth_FourValueRandomWalk_MatchesBatchLeastSquares()
    {
        AxisColumns axis = new([1, 2, 4, 3], new double[4], new double[4]);
        MotionSmoother smoother = new();
        smoother.Smooth(new([0, 1, 2, 3], Filled(4, 1), []), 0, 4, [axis], [0], new(10, 0, 0, 0, 0, 0), new(0, Velocity: 1), Errors(4));
        double[] expected = [1.524664, 2.201794, 3.080717, 3.040359], variance = [0.582960, 0.470852, 0.475336, 0.618834];
        for (int i = 0; i < 4; i++)
        {
            Assert.Equal(expected[i], axis.Position[i], 1e-6);
            Assert.Equal(variance[i], smoother.Covariances[i].PP, 1e-6);
        }
    }

    // Closed form: steady random walk with q = r = 1 has smoothed variance 1/√5; the filtered variance is the gain, (√5 − 1)/2.
    [Fact]
    public void Smooth_LongRandomWalk_SettlesAtClosedForm()
    {
        const int n = 400;
        AxisColumns axis = new(new double[n], new double[n], new double[n]);
        MotionSmoother smoother = new();
        smoother.Smooth(new([.. Enumerable.Range(0, n).Select(i => (double)i)], Filled(n, 1), []), 0, n, [axis], [0],
            new(10, 0, 0, 0, 0, 0), new(0, Velocity: 1), Errors(n));
        Assert.Equal(1 / Math.Sqrt(5), smoother.Covariances[n / 2].PP, 1e-12);
        Assert.Equal((Math.Sqrt(5) - 1) / 2, smoother.Covariances[n - 1].PP, 1e-12);
    }

    /// <summary>A random short problem: steps, which values are measured, their noise.</summary>
    private sealed record Problem(double[] Time, double[] Z, double[] Zv, double[] Rp, double[] Rv, double Q);

    private static readonly Gen<Problem> Problems =
        from n in Gen.Int[1, 9]
        from even in Gen.Bool
        from steps in Gen.Double[0.05, 4].Array[n]
        from z in Gen.Double[-50, 50].Array[n]
        from zv in Gen.Double[-20, 20].Array[n]
        from rp in Gen.Frequency((4, Gen.Double[0.01, 4]), (1, Gen.Const(double.PositiveInfinity))).Array[n]
        from rv in Gen.Frequency((3, Gen.Double[0.01, 1]), (1, Gen.Const(double.PositiveInfinity))).Array[n]
        from q in Gen.Double[0.01, 5]
        select new Problem(Times(steps, even), z, zv, rp, rv, q);

    private static double[] Times(double[] steps, bool even)
    {
        double t = 0;
        return [.. steps.Select(s => t += Math.Round(even ? steps[0] : s, 3))];
    }

    // Closed form: dense solve of the joint normal equations of all states, by another library.
    [Fact]
    public void Smooth_RandomShortProblems_EqualDenseLeastSquares() => Problems.Sample(problem =>
    {
        int n = problem.Time.Length;
        MotionCovariance prior = MotionCovariance.FromDeviations(30, 10, 3);
        AxisColumns axis = new([.. problem.Z], [.. problem.Zv], new double[n]);
        MotionSmoother smoother = new();
        smoother.Smooth(new(problem.Time, problem.Rp, problem.Rv), 0, n, [axis], [5], prior, new(problem.Q), Errors(n));
        (Vector<double> x, Matrix<double> cov) = Dense(problem, prior, 5);
        for (int i = 0; i < n; i++)
        {
            Assert.Equal(x[3 * i], axis.Position[i], 1e-6);
            Assert.Equal(x[3 * i + 1], axis.Velocity[i], 1e-6);
            Assert.Equal(x[3 * i + 2], axis.Acceleration[i], 1e-6);
            MotionCovariance c = smoother.Covariances[i];
            Assert.Equal(cov[3 * i, 3 * i], c.PP, 1e-6 * (1 + c.PP));
            Assert.Equal(cov[3 * i, 3 * i + 1], c.PV, 1e-6 * (1 + c.PP));
            Assert.Equal(cov[3 * i + 1, 3 * i + 1], c.VV, 1e-6 * (1 + c.VV));
            Assert.Equal(cov[3 * i + 2, 3 * i + 2], c.AA, 1e-6 * (1 + c.AA));
        }
    }, iter: 300);

    private static (Vector<double> X, Matrix<double> Covariance) Dense(Problem problem, MotionCovariance prior, double priorPosition)
    {
        int n = problem.Time.Length;
        Matrix<double> information = Matrix<double>.Build.Dense(3 * n, 3 * n);
        Vector<double> y = Vector<double>.Build.Dense(3 * n);
        information[0, 0] = 1 / prior.PP;
        information[1, 1] = 1 / prior.VV;
        information[2, 2] = 1 / prior.AA;
        y[0] = priorPosition / prior.PP;
        for (int i = 0; i < n; i++)
        {
            if (double.IsFinite(problem.Rp[i]))
            {
                information[3 * i, 3 * i] += 1 / problem.Rp[i];
                y[3 * i] += problem.Z[i] / problem.Rp[i];
            }
            if (double.IsFinite(problem.Rv[i]))
            {
                information[3 * i + 1, 3 * i + 1] += 1 / problem.Rv[i];
                y[3 * i + 1] += problem.Zv[i] / problem.Rv[i];
            }
            if (i == 0)
                continue;
            double h = problem.Time[i] - problem.Time[i - 1], q = problem.Q;
            Matrix<double> f = Matrix<double>.Build.DenseOfArray(new[,] { { 1, h, h * h / 2 }, { 0, 1, h }, { 0, 0, 1 } });
            Matrix<double> noise = q * Matrix<double>.Build.DenseOfArray(new[,]
            {
                { Math.Pow(h, 5) / 20, Math.Pow(h, 4) / 8, Math.Pow(h, 3) / 6 },
                { Math.Pow(h, 4) / 8, Math.Pow(h, 3) / 3, h * h / 2 },
                { Math.Pow(h, 3) / 6, h * h / 2, h },
            });
            Matrix<double> g = Matrix<double>.Build.Dense(3, 3 * n);
            g.SetSubMatrix(0, 3 * (i - 1), -f);
            g.SetSubMatrix(0, 3 * i, Matrix<double>.Build.DenseIdentity(3));
            information += g.TransposeThisAndMultiply(noise.Inverse() * g);
        }
        Matrix<double> covariance = information.Inverse();
        return (information.Cholesky().Solve(y), covariance);
    }
}
