namespace Stillhook.Tests.Approaching;

/// <summary>Least value of a function of one to three bounded parameters: a coarse grid, then a simplex downhill from its best points.</summary>
/// <remarks>
/// Nelder and Mead's simplex with the usual factors 1, 2, ½, ½, in parameters scaled to the box (from memory). Not a number counts as infinite, so a
/// function may so refuse a point. Outside the box the value of the nearest point inside is taken, raised with the distance. Deterministic.
/// Finds the bottom of the best valleys that the grid sees; a valley narrower than the grid can be missed.
/// </remarks>
internal static class FamilySearch
{
    private const int Starts = 3, MostSteps = 400;
    private const double Smallest = 1e-9; // of the box

    /// <summary>Where the least value was found, and the value; infinite when every point was refused.</summary>
    /// <exception cref="ArgumentException">Not one to three parameters, or a low bound not under its high one.</exception>
    internal static (double[] At, double Value) Minimise(Func<double[], double> f, double[] low, double[] high)
    {
        if (low.Length is < 1 or > 3 || low.Length != high.Length || low.Zip(high).Any(p => !(p.First < p.Second)))
            throw new ArgumentException("One to three parameters, each low bound under its high one.", nameof(low));
        double[] InBox(double[] u) => [.. u.Select((x, i) => low[i] + (high[i] - low[i]) * Math.Clamp(x, 0, 1))];
        Corner At(double[] u)
        {
            double value = f(InBox(u)), outside = u.Sum(x => Math.Abs(x - Math.Clamp(x, 0, 1)));
            return new(u, double.IsNaN(value) ? double.PositiveInfinity : value + outside * (1 + Math.Abs(value)));
        }
        int perSide = low.Length switch { 1 => 41, 2 => 15, _ => 9 };
        Corner best = Grid(low.Length, perSide).Select(At).OrderBy(c => c.Value).Take(Starts).ToArray()
            .Select(start => Downhill(At, Downhill(At, start, 1.0 / perSide), 0.1 / perSide)).MinBy(c => c.Value)!;
        double[] at = InBox(best.U);
        return (at, double.IsFinite(best.Value) ? f(at) : double.PositiveInfinity);
    }

    private sealed record Corner(double[] U, double Value);

    private static IEnumerable<double[]> Grid(int parameters, int perSide)
    {
        for (int n = 0; n < (int)Math.Pow(perSide, parameters); n++)
        {
            var u = new double[parameters];
            for (int i = 0, rest = n; i < parameters; i++, rest /= perSide)
                u[i] = rest % perSide / (perSide - 1.0);
            yield return u;
        }
    }

    private static Corner Downhill(Func<double[], Corner> at, Corner start, double size)
    {
        Corner[] simplex = [start, .. start.U.Select((_, i) => at([.. start.U.Select((x, k) => k == i ? x + (x > 0.5 ? -size : size) : x)]))];
        for (int step = 0; step < MostSteps; step++)
        {
            Array.Sort(simplex, (a, b) => a.Value.CompareTo(b.Value));
            if (simplex.Skip(1).All(c => Apart(c, simplex[0]) < Smallest))
                break;
            Move(at, simplex);
        }
        return simplex.MinBy(c => c.Value)!;
    }

    private static void Move(Func<double[], Corner> at, Corner[] simplex)
    {
        Corner worst = simplex[^1];
        double[] centre = [.. worst.U.Select((_, i) => simplex.SkipLast(1).Average(c => c.U[i]))];
        Corner Along(double t) => at([.. centre.Select((x, i) => x + t * (x - worst.U[i]))]);
        Corner turned = Along(1);
        if (turned.Value < simplex[0].Value)
            simplex[^1] = Along(2) is var longer && longer.Value < turned.Value ? longer : turned;
        else if (turned.Value < simplex[^2].Value)
            simplex[^1] = turned;
        else if (Along(turned.Value < worst.Value ? 0.5 : -0.5) is var shorter && shorter.Value < Math.Min(turned.Value, worst.Value))
            simplex[^1] = shorter;
        else
            for (int k = 1; k < simplex.Length; k++)
                simplex[k] = at([.. simplex[k].U.Select((x, i) => (x + simplex[0].U[i]) / 2)]);
    }

    private static double Apart(Corner a, Corner b) => a.U.Zip(b.U).Max(p => Math.Abs(p.First - p.Second));
}
