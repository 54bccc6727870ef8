namespace Stillhook.Tests.Approaching;

public class ClampedSplineTests
{
    private static double At(ClampedSpline spline, double[] coefficients, double u, int order) =>
        spline.Basis(u, order).Zip(coefficients, (basis, coefficient) => basis * coefficient).Sum();

    // Closed form: coefficients at their places give the line f(u) = u; all 1 give 1.
    [Theory]
    [InlineData(12, 6)]
    [InlineData(40, 7)]
    public void Basis_PlacesAndOnes_GiveTheStraightLineAndOne(int n, int degree)
    {
        var spline = new ClampedSpline(n, degree);
        double[] line = [.. Enumerable.Range(0, n).Select(spline.Place)], ones = [.. Enumerable.Repeat(1.0, n)];
        foreach (double u in new[] { 0, 0.013, 0.5, 0.77, 1 })
        {
            Assert.Equal(u, At(spline, line, u, 0), 1e-12);
            Assert.Equal(1, At(spline, line, u, 1), 1e-11);
            Assert.Equal(0, At(spline, line, u, 2), 1e-9);
            Assert.Equal(1, At(spline, ones, u, 0), 1e-12);
        }
    }

    // Closed form: the second derivative's coefficients all 2 give f = u²; the second derivative linear, 6u, gives f = u³.
    [Fact]
    public void Twice_ConstantAndLinearBend_GiveThePowers()
    {
        var spline = new ClampedSpline(20, 7);
        double[] square = spline.Twice([.. Enumerable.Repeat(2.0, 18)]);
        var lower = new ClampedSpline(18, 5);
        double[] cube = spline.Twice([.. Enumerable.Range(0, 18).Select(i => 6 * lower.Place(i))]);
        foreach (double u in new[] { 0, 0.21, 0.5, 0.99, 1 })
        {
            Assert.Equal(u * u, At(spline, square, u, 0), 1e-12);
            Assert.Equal(2 * u, At(spline, square, u, 1), 1e-11);
            Assert.Equal(u * u * u, At(spline, cube, u, 0), 1e-12);
            Assert.Equal(6, At(spline, cube, u, 3), 1e-8);
            Assert.Equal(0, At(spline, cube, u, 4), 1e-5);
        }
    }

    // Closed form: w·(A q) = (Aᵀ w)·q for any w and q.
    [Fact]
    public void TwiceTransposed_AnyWeights_IsTheTranspose()
    {
        var spline = new ClampedSpline(16, 6);
        double[] w = [.. Enumerable.Range(0, 16).Select(i => Math.Sin(3.1 * i))], q = [.. Enumerable.Range(0, 14).Select(i => Math.Cos(1.7 * i * i))];
        Assert.Equal(spline.Twice(q).Zip(w, (a, b) => a * b).Sum(), spline.TwiceTransposed(w).Zip(q, (a, b) => a * b).Sum(), 1e-13);
    }

    // Closed form: each derivative against the difference of the one below it, over 1e-6.
    [Fact]
    public void Basis_Derivatives_MatchDifferences()
    {
        var spline = new ClampedSpline(24, 7);
        double[] c = [.. Enumerable.Range(0, 24).Select(i => Math.Sin(0.9 * i))];
        for (int order = 0; order < 4; order++)
        {
            double slope = (At(spline, c, 0.4321 + 5e-7, order) - At(spline, c, 0.4321 - 5e-7, order)) / 1e-6, exact = At(spline, c, 0.4321, order + 1);
            Assert.Equal(exact, slope, 1e-5 * Math.Max(1, Math.Abs(exact)));
        }
    }
}
