using Stillhook.Physics.Rotor;

namespace Stillhook.Physics.Motion;

/// <summary>Move from 0 to 1 between rest and rest along a polynomial s(x), x = time over the move's duration, 0..1.</summary>
/// <remarks>
/// The odd polynomial of lowest degree with its first 1, 2, 3 or 4 derivatives zero at both ends (closed form). The fifth-degree one is the
/// minimum-jerk move of [FLASH-HOGAN-1985]. For a distance D in a time T: speed D/T·s', acceleration D/T²·s'', jerk D/T³·s'''.
/// A load path needs degree 7 for a hook that starts and stops at rest on x + (L/g)·x'', degree 9 for a hook acceleration without steps.
/// </remarks>
public sealed class SmoothBlend
{
    /// <summary>3x² − 2x³: rest at the ends.</summary>
    public static SmoothBlend Cubic { get; } = new(0, 0, 3, -2);

    /// <summary>10x³ − 15x⁴ + 6x⁵: no acceleration at the ends; least jerk squared over the move.</summary>
    public static SmoothBlend Quintic { get; } = new(0, 0, 0, 10, -15, 6);

    /// <summary>35x⁴ − 84x⁵ + 70x⁶ − 20x⁷: no jerk at the ends.</summary>
    public static SmoothBlend Seventh { get; } = new(0, 0, 0, 0, 35, -84, 70, -20);

    /// <summary>126x⁵ − 420x⁶ + 540x⁷ − 315x⁸ + 70x⁹: no snap at the ends.</summary>
    public static SmoothBlend Ninth { get; } = new(0, 0, 0, 0, 0, 126, -420, 540, -315, 70);

    private const int HighestDerivative = 4;
    private readonly double[][] coefficients = new double[HighestDerivative + 1][];

    private SmoothBlend(params double[] powers)
    {
        coefficients[0] = powers;
        for (int d = 1; d <= HighestDerivative; d++)
            coefficients[d] = [.. coefficients[d - 1].Select((c, power) => c * power).Skip(1)];
    }

    /// <summary>The blend of degree 3, 5, 7 or 9.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Any other degree.</exception>
    public static SmoothBlend OfDegree(int degree) => degree switch
    {
        3 => Cubic,
        5 => Quintic,
        7 => Seventh,
        9 => Ninth,
        _ => throw new ArgumentOutOfRangeException(nameof(degree), degree, "Permitted: 3, 5, 7 or 9."),
    };

    /// <summary>3, 5, 7 or 9.</summary>
    public int Degree => coefficients[0].Length - 1;

    /// <summary>s(x) or one of its derivatives by x, by Horner's rule.</summary>
    /// <param name="x">0..1.</param>
    /// <param name="derivative">0 for s to 4 for s''''.</param>
    /// <exception cref="ArgumentOutOfRangeException">x or derivative outside.</exception>
    public double At(double x, int derivative = 0)
    {
        Permitted.Within(x, 0, 1);
        if (derivative is < 0 or > HighestDerivative)
            throw new ArgumentOutOfRangeException(nameof(derivative), derivative, "Permitted: 0 to 4.");
        double[] c = coefficients[derivative];
        double sum = 0;
        for (int power = c.Length - 1; power >= 0; power--)
            sum = sum * x + c[power];
        return sum;
    }
}
