using System.Runtime.CompilerServices;

namespace Stillhook.Physics.Load;

/// <summary>How the pilot's hand wanders about the way he means to fly: x″ + 1.4ωx′ + ω²x = n, with n a first-order random force; its numbers for one step length.</summary>
/// <remarks>
/// Within a step the acceleration is linear, so place, speed and acceleration of the hook fit each other exactly (linear-acceleration rule, Newmark's with
/// β = 1/6 [NEWMARK]). The force keeps (2τ − h)/(2τ + h) of itself from step to step. The kicks are evenly spread, not normal; what the filter makes
/// of them is close to normal. Spread at the steps and start are those of this very recursion (its own Lyapunov equation), so the asked standard
/// deviation is met at every step length; for short steps it goes over into σ²(α + c)/(ck(α² + cα + k)), c = 1.4ω, k = ω², α = 1/τ.
/// </remarks>
internal sealed class WanderFilter
{
    private const double KickSpread = 3.4641016151377544; // √12: an evenly spread number of width 1 has variance 1/12

    private WanderFilter(double omegaRadS, double correlationS, double stepS)
    {
        double c = 1.4 * omegaRadS, k = omegaRadS * omegaRadS;
        (Damping, Stiffness) = (c, k);
        Keep = KeepOf(correlationS, stepS);
        (Step, HalfStep) = (stepS, stepS / 2);
        (ThirdSquare, SixthSquare) = (stepS * stepS / 3, stepS * stepS / 6);
        Share = 1 / (1 + c * HalfStep + k * SixthSquare);
        (DampingShare, StiffnessShare) = (c * Share, k * Share);

        double[,] spread = StationarySpread();
        double scale = 1 / Math.Sqrt(spread[0, 0]);
        Kick = scale * KickOf(Keep);
        Start = Root(spread, scale);
    }

    public double Damping { get; }

    public double Stiffness { get; }

    public double Keep { get; }

    public double Step { get; }

    public double HalfStep { get; }

    public double ThirdSquare { get; }

    public double SixthSquare { get; }

    public double Share { get; }

    public double DampingShare { get; }

    public double StiffnessShare { get; }

    /// <summary>Of the force per evenly spread number, for a wander of 1 m.</summary>
    public double Kick { get; }

    /// <summary>Lower triangle that makes place, speed and force of the stationary wander of 1 m out of three independent unit numbers.</summary>
    public double[,] Start { get; }

    /// <summary>The slow wander: where he is, within some ten seconds.</summary>
    public static WanderFilter Slow(double stepS) => new(0.19, 4, stepS);

    /// <summary>The fast one: control activity.</summary>
    public static WanderFilter Fast(double stepS) => new(0.7, 0.5, stepS);

    /// <summary>What a first-order noise keeps of itself over a step.</summary>
    public static double KeepOf(double correlationS, double stepS) => (2 * correlationS - stepS) / (2 * correlationS + stepS);

    /// <summary>Kick per evenly spread number of a first-order noise of standard deviation 1.</summary>
    public static double KickOf(double keep) => KickSpread * Math.Sqrt(1 - keep * keep);

    /// <summary>P = A·P·Aᵀ + B·Bᵀ by doubling, for place, speed and a force of standard deviation 1.</summary>
    private double[,] StationarySpread()
    {
        double[,] a = new double[3, 3], p = new double[3, 3];
        for (int j = 0; j < 3; j++)
            Put(a, j, Next(j == 0 ? 1 : 0, j == 1 ? 1 : 0, j == 2 ? 1 : 0, j == 2 ? Keep : 0));
        (double x, double v, double n) = Next(0, 0, 0, Math.Sqrt(1 - Keep * Keep));
        double[] b = [x, v, n];
        for (int i = 0; i < 3; i++)
            for (int j = 0; j < 3; j++)
                p[i, j] = b[i] * b[j];
        for (int doubling = 0; doubling < 16; doubling++)
        {
            double[,] carried = Product(Product(a, p), Turned(a));
            for (int i = 0; i < 3; i++)
                for (int j = 0; j < 3; j++)
                    p[i, j] += carried[i, j];
            a = Product(a, a);
        }
        return p;
    }

    /// <summary>One step with the force going from one value to another; the same rule as <see cref="EightWanders.Step"/>.</summary>
    private (double X, double V, double N) Next(double x, double v, double force, double forceNext)
    {
        double a = force - Damping * v - Stiffness * x;
        double speed = v + HalfStep * a, place = x + Step * v + ThirdSquare * a;
        a = Share * forceNext - DampingShare * speed - StiffnessShare * place;
        return (place + SixthSquare * a, speed + HalfStep * a, forceNext);
    }

    private static void Put(double[,] a, int column, (double X, double V, double N) y) => (a[0, column], a[1, column], a[2, column]) = (y.X, y.V, y.N);

    private static double[,] Product(double[,] a, double[,] b)
    {
        double[,] c = new double[3, 3];
        for (int i = 0; i < 3; i++)
            for (int j = 0; j < 3; j++)
                c[i, j] = a[i, 0] * b[0, j] + a[i, 1] * b[1, j] + a[i, 2] * b[2, j];
        return c;
    }

    private static double[,] Turned(double[,] a) => new[,] { { a[0, 0], a[1, 0], a[2, 0] }, { a[0, 1], a[1, 1], a[2, 1] }, { a[0, 2], a[1, 2], a[2, 2] } };

    /// <summary>Cholesky's root of the spread, scaled.</summary>
    private static double[,] Root(double[,] p, double scale)
    {
        double[,] l = new double[3, 3];
        for (int i = 0; i < 3; i++)
            for (int j = 0; j <= i; j++)
            {
                double rest = p[i, j];
                for (int k = 0; k < j; k++)
                    rest -= l[i, k] * l[j, k];
                l[i, j] = i == j ? Math.Sqrt(rest) : rest / l[j, j];
            }
        for (int i = 0; i < 3; i++)
            for (int j = 0; j <= i; j++)
                l[i, j] *= scale;
        return l;
    }
}
