using MathNet.Numerics;
using Stillhook.Physics.Line;

namespace Stillhook.Tests.Physics.Line;

public class SwingTests
{
    private const double G = 9.80665, Degree = Math.PI / 180;

    // Closed form: 2π·√(30/9.80665), worked apart from the code.
    [Fact]
    public void Period_ThirtyMetres_MatchesClosedForm() => Assert.Equal(10.98956, Swing.PeriodS(30), 1e-5);

    // Closed form: the complete elliptic integral by 200-point trapezoid quadrature in the test (converges faster than any power); the printed values were worked apart.
    [Theory]
    [InlineData(5, 1.0004762)]
    [InlineData(30, 1.0174088)]
    [InlineData(60, 1.0731820)]
    [InlineData(90, 1.1803406)]
    public void PeriodRatio_LargeSwing_MatchesQuadrature(double deg, double printed)
    {
        double k = Math.Sin(deg * Degree / 2), sum = 0;
        for (int i = 0; i < 200; i++)
            sum += 1 / Math.Sqrt(1 - k * k * Math.Pow(Math.Sin((i + 0.5) * Math.PI / 200), 2)) / 200;
        Assert.Equal(sum, Swing.PeriodRatio(deg * Degree), 1e-13);
        Assert.Equal(printed, Swing.PeriodRatio(deg * Degree), 6e-8);
    }

    // Closed form: T₀·√cos 20° and the circle's speed from g·tan α = v²/(L·sin α), worked apart.
    [Fact]
    public void Conical_TwentyDegrees_MatchesForceBalance()
    {
        double a = 20 * Degree;
        Assert.Equal(10.6530, Swing.ConicalPeriodS(30, a), 1e-4);
        Assert.Equal(Math.Sqrt(G * Math.Tan(a) * 30 * Math.Sin(a)), Swing.ConicalSpeedMs(30, a), 1e-9);
        Assert.Equal(1.06418, Swing.SteadyTensionRatio(a), 1e-5);
    }

    // Closed form: 3 − 2·cos 30° = 3 − √3.
    [Fact]
    public void LargestTension_ThirtyDegrees_MatchesClosedForm() => Assert.Equal(3 - Math.Sqrt(3), Swing.LargestTensionRatio(30 * Degree), 1e-12);

    // Closed form: atan 0.1; energy of 2 kt at the bottom raises the load by v²/2g = L(1 − cos α), and v/ω = 1.7996 m for the small swing.
    [Fact]
    public void LeanAndInstantStop_MatchClosedForm()
    {
        Assert.Equal(5.7106, Swing.LeanRad(0.1 * G) / Degree, 1e-4);
        double v = 2 * 0.514444, a = Swing.AfterInstantStopRad(v, 30);
        Assert.Equal(v * v / (2 * G), 30 * (1 - Math.Cos(a)), 1e-9);
        Assert.Equal(3.4374, a / Degree, 2e-4);
        Assert.Equal(1.7996, v / Swing.FrequencyRadS(30), 1e-4);
    }

    // Closed form: eigenvalues of M⁻¹K written out in the test: M = [[m₁ + m₂, m₂], [m₂, m₂]], K = g·diag((m₁ + m₂)/L₁, m₂/L₂) in displacements of each part.
    [Theory]
    [InlineData(30, 4, 20, 800, 0.537741, 10.6598)]
    [InlineData(30, 4, 50, 200, 0.542846, 3.687556)]
    [InlineData(30, 4, 50, 50, 0.552442, 2.291705)]
    [InlineData(20, 3, 25, 500, 0.654755, 8.860859)]
    public void DoublePendulum_SolvesItsEigenproblem(double l1, double l2, double m1, double m2, double slow, double fast)
    {
        (double w1, double w2) = DoublePendulum.Frequencies(l1, l2, m1, m2);
        Assert.Equal(slow, w1, 1e-6);
        Assert.Equal(fast, w2, fast > 10 ? 6e-5 : 1e-6);
        foreach (double w in new[] { w1, w2 })
        {
            double x = w * w, d = (G * (m1 + m2) / l1 - x * (m1 + m2)) * (G * m2 / l2 - x * m2) - x * x * m2 * m2;
            Assert.Equal(0, d / (x * x * m1 * m2), 1e-7);
        }
    }

    // Closed form: box of 2.44 x 1.83 m, k² = (2.44² + 1.83²)/12 = 0.7752083; determinant of K − ω²M written out in the test.
    [Fact]
    public void RigidLoad_Box_SolvesItsEigenproblem()
    {
        double k2 = (2.44 * 2.44 + 1.83 * 1.83) / 12;
        (double slow, double fast) = DoublePendulum.RigidLoad(30, 3, Math.Sqrt(k2));
        Assert.Equal(0.544939, slow, 1e-6);
        Assert.Equal(6.463440, fast, 1e-5);
        foreach (double x in new[] { slow * slow, fast * fast })
            Assert.Equal(0, ((G * 30 - x * 900) * (G * 3 - x * (9 + k2)) - x * x * 90 * 90) / (x * x * 900), 1e-7);
    }

    // Closed form: the Bessel determinant with the library's J and Y vanishes at the frequency found by integration.
    [Theory]
    [InlineData(0.6, 100, 1, 0.579609)]
    [InlineData(0.6, 500, 1, 0.573426)]
    [InlineData(0.6, 18, 1, 0.604001)]
    [InlineData(0.6, 100, 2, 4.4918)]
    public void LineMass_Exact_SolvesTheBesselEquation(double mu, double m, int mode, double printed)
    {
        double w = LineMass.ExactFrequencyRadS(30, mu, m, mode);
        Assert.Equal(printed, w, mode == 1 ? 1e-6 : 6e-5);
        double Determinant(double x)
        {
            double tip = 2 * x * Math.Sqrt(m / mu / G), top = 2 * x * Math.Sqrt((m / mu + 30) / G);
            // g·y_u = −ω²y with dJ₀/du = −J₁·ω/√(g·u): ω·J₀ = √(g/u)·J₁·... both sides over ω.
            double a = x * SpecialFunctions.BesselJ(0, tip) - Math.Sqrt(G * mu / m) * SpecialFunctions.BesselJ(1, tip);
            double b = x * SpecialFunctions.BesselY(0, tip) - Math.Sqrt(G * mu / m) * SpecialFunctions.BesselY(1, tip);
            return SpecialFunctions.BesselJ(0, top) * b - SpecialFunctions.BesselY(0, top) * a;
        }
        Assert.True(Determinant(w * (1 - 1e-6)) * Determinant(w * (1 + 1e-6)) < 0);
    }

    // Closed form: (m + μL/2)/(m + μL/3) worked apart.
    [Fact]
    public void LineMass_Rod_MatchesClosedForm() => Assert.Equal(0.579776, LineMass.RodFrequencyRadS(30, 0.6, 100), 1e-6);

    [Theory]
    [InlineData(0)]
    [InlineData(-3)]
    [InlineData(double.NaN)]
    public void Frequency_NoLength_IsRefused(double length) => Assert.Throws<ArgumentOutOfRangeException>(() => Swing.FrequencyRadS(length));
}
