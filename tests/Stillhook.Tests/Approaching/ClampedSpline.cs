namespace Stillhook.Tests.Approaching;

/// <summary>Basis of a B-spline on [0, 1] with evenly spaced knots and ends clamped (end knots repeated degree + 1 times).</summary>
/// <remarks>Cox-de Boor recursion and the usual derivative rule, from memory; the tests hold it against straight lines and powers.</remarks>
internal sealed class ClampedSpline
{
    private readonly double[] _knots;

    public ClampedSpline(int coefficients, int degree)
    {
        if (degree < 5 || coefficients < 2 * degree)
            throw new ArgumentOutOfRangeException(nameof(coefficients), coefficients, "Degree is 5 or more, coefficients at least twice the degree.");
        (Coefficients, Degree) = (coefficients, degree);
        int spans = coefficients - degree;
        _knots = [.. Enumerable.Range(-degree, coefficients + degree + 1).Select(i => Math.Clamp((double)i / spans, 0, 1))];
    }

    public int Coefficients { get; }

    public int Degree { get; }

    /// <summary>The coefficient's own place on [0, 1]; coefficients equal to their places give the straight line f(u) = u.</summary>
    public double Place(int coefficient) => _knots.AsSpan(coefficient + 1, Degree).ToArray().Average();

    /// <summary>Values of all basis functions' derivatives of an order at u: f⁽ᵏ⁾(u) = Σ cᵢ·result[i].</summary>
    public double[] Basis(double u, int order)
    {
        double[] basis = SpanOf(u);
        for (int degree = 1; degree <= Degree; degree++)
            basis = degree <= Degree - order ? Raised(basis, degree, u) : Differentiated(basis, degree);
        return basis;
    }

    /// <summary>Coefficients of the spline that starts at 0 with slope 0 and whose second derivative has the given coefficients (two fewer, degree two lower).</summary>
    public double[] Twice(double[] second) => Once(Once(second, Degree - 1), Degree);

    /// <summary>The same turned about: Σ w·Twice(q) = Σ TwiceTransposed(w)·q.</summary>
    public double[] TwiceTransposed(double[] weights) => OnceTransposed(OnceTransposed(weights, Degree), Degree - 1);

    private double[] Once(double[] slope, int degree)
    {
        var value = new double[slope.Length + 1];
        for (int i = 0; i < slope.Length; i++)
            value[i + 1] = value[i] + slope[i] * Width(i, degree);
        return value;
    }

    private double[] OnceTransposed(double[] weights, int degree)
    {
        var turned = new double[weights.Length - 1];
        double behind = 0;
        for (int i = turned.Length - 1; i >= 0; i--)
        {
            behind += weights[i + 1];
            turned[i] = behind * Width(i, degree);
        }
        return turned;
    }

    // A spline of a lower degree has the same knots, with one fewer at each end.
    private double Width(int i, int degree) => (_knots[i + 1 + Degree] - _knots[i + 1 + Degree - degree]) / degree;

    private double[] SpanOf(double u)
    {
        int span = Math.Min((int)(u * (Coefficients - Degree)), Coefficients - Degree - 1) + Degree;
        var basis = new double[_knots.Length - 1];
        basis[span] = 1;
        return basis;
    }

    private double[] Raised(double[] lower, int degree, double u)
    {
        var basis = new double[lower.Length - 1];
        for (int i = 0; i < basis.Length; i++)
            basis[i] = Share(u - _knots[i], _knots[i + degree] - _knots[i]) * lower[i]
                + Share(_knots[i + degree + 1] - u, _knots[i + degree + 1] - _knots[i + 1]) * lower[i + 1];
        return basis;
    }

    private double[] Differentiated(double[] lower, int degree)
    {
        var basis = new double[lower.Length - 1];
        for (int i = 0; i < basis.Length; i++)
            basis[i] = Share(degree, _knots[i + degree] - _knots[i]) * lower[i]
                - Share(degree, _knots[i + degree + 1] - _knots[i + 1]) * lower[i + 1];
        return basis;
    }

    private static double Share(double part, double width) => width > 0 ? part / width : 0;
}
