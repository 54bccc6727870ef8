using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using Stillhook.Physics.Motion;

namespace Stillhook.Tests.Physics.Motion;

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

    // Closed form: all states conditioned on all measurements in one dense solve by another library.
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

    // Closed form: a velocity known to 1e150 m/s says nothing; a variance that alternates keeps the covariance from being carried over.
    [Fact]
    public void Smooth_SettledCovariance_EqualsWorkingEveryStep()
    {
        const int n = 2000;
        Random random = new(5);
        double[] z = [.. Enumerable.Range(0, n).Select(i => 3 * Math.Sin(i * 0.1) + 0.3 * random.NextDouble())];
        double[] t = [.. Enumerable.Range(0, n).Select(i => 1.7e9 + i * 0.1)];
        double[] nothing = [.. Enumerable.Range(0, n).Select(i => i % 2 == 0 ? 1e300 : 2e300)];
        (AxisColumns Axis, MotionCovariance[] Covariances) Run(double[] rv)
        {
            AxisColumns axis = new([.. z], new double[n], new double[n]);
            MotionSmoother smoother = new();
            smoother.Smooth(new(t, Filled(n, 0.04), rv), 0, n, [axis], [0], MotionCovariance.FromDeviations(10, 10, 3), new(0.08), Errors(n));
            return (axis, smoother.Covariances.ToArray());
        }

        var settled = Run([]);
        var worked = Run(nothing);
        Assert.Equal(settled.Covariances[1000], settled.Covariances[1001]); // carried over
        for (int i = 0; i < n; i++)
        {
            Assert.Equal(worked.Axis.Position[i], settled.Axis.Position[i], 1e-9);
            Assert.Equal(worked.Axis.Velocity[i], settled.Axis.Velocity[i], 1e-9);
            Assert.Equal(worked.Axis.Acceleration[i], settled.Axis.Acceleration[i], 1e-9);
            Assert.Equal(worked.Covariances[i].AA, settled.Covariances[i].AA, 1e-9);
        }
    }

    // Closed form: motion with constant acceleration is in the model's own family; an open prior leaves it as it is.
    [Fact]
    public void Smooth_ConstantAcceleration_IsReturned()
    {
        const int n = 200;
        double[] t = [.. Enumerable.Range(0, n).Select(i => 0.2 * i)];
        AxisColumns axis = new([.. t.Select(x => 5 - 3 * x + 0.4 * x * x)], new double[n], new double[n]);
        new MotionSmoother().Smooth(new(t, Filled(n, 0.09), []), 0, n, [axis], [5], MotionCovariance.FromDeviations(100, 1e4, 1e4), new(0.08), Errors(n));
        for (int i = 0; i < n; i++)
        {
            Assert.Equal(5 - 3 * t[i] + 0.4 * t[i] * t[i], axis.Position[i], 1e-6);
            Assert.Equal(-3 + 0.8 * t[i], axis.Velocity[i], 1e-6);
            Assert.Equal(0.8, axis.Acceleration[i], 1e-6);
        }
    }

    // Simulated truth: white-jerk motion with white noise, the smoother's own model. 90 % of normal errors lie within 1.645 sigma;
    // the mean normalised innovation is 1. Neighbouring errors hang together, so 3 points of tolerance for 20 flights of 2000 fixes.
    [Fact]
    public void Smooth_OwnModel_CoversTruthAndInnovationsAreConsistent()
    {
        Random random = new(7);
        const int n = 2000;
        const double h = 0.5, q = 0.08, sp = 0.3, sv = 0.1;
        long inP = 0, inV = 0, inA = 0, all = 0;
        double sum = 0;
        long count = 0;
        for (int flight = 0; flight < 20; flight++)
        {
            (double[] p, double[] v, double[] a) = WhiteJerkMotion(random, n, h, q);
            AxisColumns axis = new([.. p.Select(x => x + sp * Normal(random))], [.. v.Select(x => x + sv * Normal(random))], new double[n]);
            ErrorColumns e = Errors(n);
            double[] rv = [.. Enumerable.Range(0, n).Select(i => i % 3 == 0 ? double.PositiveInfinity : sv * sv)];
            InnovationCheck check = new MotionSmoother().Smooth(new([.. Enumerable.Range(0, n).Select(i => h * i)], Filled(n, sp * sp), rv),
                0, n, [axis], [0], MotionCovariance.FromDeviations(1, 1, 1), new(q), e);
            sum += check.Sum;
            count += check.Count;
            for (int i = 0; i < n; i++, all++)
            {
                inP += Math.Abs(axis.Position[i] - p[i]) < 1.645 * e.Position[i] ? 1 : 0;
                inV += Math.Abs(axis.Velocity[i] - v[i]) < 1.645 * e.Velocity[i] ? 1 : 0;
                inA += Math.Abs(axis.Acceleration[i] - a[i]) < 1.645 * e.Acceleration[i] ? 1 : 0;
            }
        }
        Assert.Equal(0.90, (double)inP / all, 0.03);
        Assert.Equal(0.90, (double)inV / all, 0.03);
        Assert.Equal(0.90, (double)inA / all, 0.03);
        // Standard deviation of the mean of about 66,000 squared normals: √(2/66000) = 0.0055.
        Assert.Equal(1, sum / count, 0.02);
    }

    // Closed form: a knot at which nothing was measured is the model's own optimal interpolation.
    [Fact]
    public void Smooth_UnmeasuredKnot_ChangesNothingElse()
    {
        Random random = new(3);
        double[] t = [0, 1, 2, 2.4, 3, 4], z = [.. t.Select(_ => 4 * random.NextDouble())];
        double[] open = [0.1, 0.1, 0.1, double.PositiveInfinity, 0.1, 0.1];
        AxisColumns with = new([.. z], new double[6], new double[6]), without = new([z[0], z[1], z[2], z[4], z[5]], new double[5], new double[5]);
        MotionCovariance prior = MotionCovariance.FromDeviations(10, 10, 10);
        new MotionSmoother().Smooth(new(t, open, []), 0, 6, [with], [0], prior, new(1), Errors(6));
        new MotionSmoother().Smooth(new([0, 1, 2, 3, 4], Filled(5, 0.1), []), 0, 5, [without], [0], prior, new(1), Errors(5));
        int[] same = [0, 1, 2, 4, 5];
        for (int k = 0; k < 5; k++)
            Assert.Equal(without.Acceleration[k], with.Acceleration[same[k]], 1e-9);
        Stillhook.Physics.Earth.LocalFrame frame = new(46, 9, 0);
        double[] zero = new double[5];
        Stillhook.Debriefing.Track track = new()
        {
            Frame = frame, TimeS = [0, 1, 2, 3, 4], StretchStarts = [0], HasHeight = false,
            East = without.Position, VelocityEast = without.Velocity, AccelerationEast = without.Acceleration,
            North = zero, VelocityNorth = zero, AccelerationNorth = zero, Up = zero, VelocityUp = zero, AccelerationUp = zero,
            HorizontalErrorM = [], HorizontalVelocityErrorMs = [], HorizontalAccelerationErrorMs2 = [], HeightErrorM = [], ClimbErrorMs = [], VerticalAccelerationErrorMs2 = [],
        };
        Stillhook.Debriefing.TrackPoint between = track.At(2.4);
        Assert.Equal(with.Position[3], between.Position.East, 1e-9);
        Assert.Equal(with.Velocity[3], between.Velocity.East, 1e-9);
        Assert.Equal(with.Acceleration[3], between.Acceleration.East, 1e-9);
    }

    // Closed form: a covariance has no negative eigenvalue, also after a nearly open prior, tiny and huge steps.
    [Fact]
    public void Smooth_HardSteps_CovarianceStaysPositive() => Problems.Sample(problem =>
    {
        int n = problem.Time.Length;
        double[] t = [.. problem.Time.Select((x, i) => i % 2 == 0 ? x * 100 : x * 100 + 0.001)];
        Array.Sort(t);
        MotionSmoother smoother = new();
        smoother.Smooth(new(t, problem.Rp, problem.Rv), 0, n, [new([.. problem.Z], [.. problem.Zv], new double[n])], [0],
            MotionCovariance.FromDeviations(1e4, 1e3, 1e2), new(problem.Q), Errors(n));
        foreach (MotionCovariance c in smoother.Covariances)
        {
            Matrix<double> scaled = Matrix<double>.Build.DenseOfArray(new[,]
            {
                { 1, c.PV / Math.Sqrt(c.PP * c.VV), c.PA / Math.Sqrt(c.PP * c.AA) },
                { c.PV / Math.Sqrt(c.PP * c.VV), 1, c.VA / Math.Sqrt(c.VV * c.AA) },
                { c.PA / Math.Sqrt(c.PP * c.AA), c.VA / Math.Sqrt(c.VV * c.AA), 1 },
            });
            Assert.True(c.PP > 0 && c.VV > 0 && c.AA > 0);
            Assert.True(scaled.Evd(Symmetricity.Symmetric).EigenValues.Real().Minimum() > -1e-6);
        }
    }, iter: 300);

    private static (double[] P, double[] V, double[] A) WhiteJerkMotion(Random random, int n, double h, double q)
    {
        double[] p = new double[n], v = new double[n], a = new double[n];
        // Cholesky factor of the noise over a step.
        Matrix<double> l = (q * NoiseShape(h)).Cholesky().Factor;
        (p[0], v[0], a[0]) = (Normal(random), Normal(random), Normal(random));
        for (int i = 1; i < n; i++)
        {
            Vector<double> w = l * Vector<double>.Build.Dense(3, _ => Normal(random));
            p[i] = p[i - 1] + h * v[i - 1] + h * h / 2 * a[i - 1] + w[0];
            v[i] = v[i - 1] + h * a[i - 1] + w[1];
            a[i] = a[i - 1] + w[2];
        }
        return (p, v, a);
    }

    private static double Normal(Random r) => Math.Sqrt(-2 * Math.Log(1 - r.NextDouble())) * Math.Cos(2 * Math.PI * r.NextDouble());

    /// <summary>All states at once as one Gaussian vector, conditioned on all measurements: x = m + K·Hᵀ·(H·K·Hᵀ + R)⁻¹·(z − H·m).</summary>
    private static (Vector<double> X, Matrix<double> Covariance) Dense(Problem problem, MotionCovariance prior, double priorPosition)
    {
        int n = problem.Time.Length;
        Matrix<double> k = Matrix<double>.Build.Dense(3 * n, 3 * n), p = Matrix<double>.Build.DenseDiagonal(3, 3, 0);
        p[0, 0] = prior.PP;
        p[1, 1] = prior.VV;
        p[2, 2] = prior.AA;
        for (int i = 0; i < n; i++)
        {
            if (i > 0)
            {
                Matrix<double> f = Transition(problem.Time[i] - problem.Time[i - 1]);
                p = f * p * f.Transpose() + problem.Q * NoiseShape(problem.Time[i] - problem.Time[i - 1]);
            }
            for (int j = i; j < n; j++)
            {
                Matrix<double> block = Transition(problem.Time[j] - problem.Time[i]) * p;
                k.SetSubMatrix(3 * j, 3 * i, block);
                k.SetSubMatrix(3 * i, 3 * j, block.Transpose());
            }
        }
        List<(int State, double Z, double R)> measured = [];
        for (int i = 0; i < n; i++)
        {
            if (double.IsFinite(problem.Rp[i]))
                measured.Add((3 * i, problem.Z[i] - priorPosition, problem.Rp[i]));
            if (double.IsFinite(problem.Rv[i]))
                measured.Add((3 * i + 1, problem.Zv[i], problem.Rv[i]));
        }
        Vector<double> mean = Vector<double>.Build.Dense(3 * n, s => s % 3 == 0 ? priorPosition : 0);
        if (measured.Count == 0)
            return (mean, k);
        Matrix<double> kh = Matrix<double>.Build.Dense(3 * n, measured.Count, (r, c) => k[r, measured[c].State]);
        Matrix<double> s = Matrix<double>.Build.Dense(measured.Count, measured.Count, (r, c) => k[measured[r].State, measured[c].State] + (r == c ? measured[r].R : 0));
        var solver = s.Cholesky();
        Vector<double> z = Vector<double>.Build.Dense(measured.Count, r => measured[r].Z);
        return (mean + kh * solver.Solve(z), k - kh * solver.Solve(kh.Transpose()));
    }

    private static Matrix<double> Transition(double h) => Matrix<double>.Build.DenseOfArray(new[,] { { 1, h, h * h / 2 }, { 0, 1, h }, { 0, 0, 1 } });

    private static Matrix<double> NoiseShape(double h) => Matrix<double>.Build.DenseOfArray(new[,]
    {
        { Math.Pow(h, 5) / 20, Math.Pow(h, 4) / 8, Math.Pow(h, 3) / 6 },
        { Math.Pow(h, 4) / 8, Math.Pow(h, 3) / 3, h * h / 2 },
        { Math.Pow(h, 3) / 6, h * h / 2, h },
    });
}
