using Stillhook.Physics.Rotor;

namespace Stillhook.Physics.Motion;

/// <summary>One part of a command: which share of it, how long after the start.</summary>
/// <param name="TimeS">After the start, s.</param>
/// <param name="Share">Of the whole command; the shares add up to 1.</param>
public readonly record struct ShaperStep(double TimeS, double Share);

/// <summary>A command split into a few delayed parts whose swings cancel.</summary>
/// <remarks>
/// Zero-vibration family of [SINGER-SEERING-1990], extra-insensitive shaper of [SINGHOSE-1994] (both from memory; the amplitudes follow from
/// the residual being zero, which is tested). Linear, one frequency; at large swings and on other line lengths the residual formula says what is left.
/// </remarks>
public sealed class InputShaper
{
    private readonly double frequencyRadS;

    /// <summary>The parts in order of time.</summary>
    public IReadOnlyList<ShaperStep> Steps { get; }

    private InputShaper(double frequencyRadS, double halfPeriodS, params double[] shares)
    {
        this.frequencyRadS = frequencyRadS;
        Steps = [.. shares.Select((share, i) => new ShaperStep(i * halfPeriodS, share))];
    }

    /// <summary>Two parts, [1, K]/(1 + K), half a damped period apart; K = exp(−ζπ/√(1 − ζ²)).</summary>
    /// <param name="frequencyRadS">Undamped frequency ω, rad/s; above 0.</param>
    /// <param name="dampingRatio">ζ, 0 to 0.99.</param>
    public static InputShaper ZeroVibration(double frequencyRadS, double dampingRatio = 0) => Binomial(frequencyRadS, dampingRatio, 1, 1);

    /// <summary>Three parts, [1, 2K, K²]/(1 + K)²: the residual also has no slope at the frequency.</summary>
    /// <inheritdoc cref="ZeroVibration"/>
    public static InputShaper ZeroVibrationDerivative(double frequencyRadS, double dampingRatio = 0) => Binomial(frequencyRadS, dampingRatio, 1, 2, 1);

    /// <summary>Four parts, [1, 3K, 3K², K³]/(1 + K)³: no slope and no curvature.</summary>
    /// <inheritdoc cref="ZeroVibration"/>
    public static InputShaper ZeroVibrationSecondDerivative(double frequencyRadS, double dampingRatio = 0) => Binomial(frequencyRadS, dampingRatio, 1, 3, 3, 1);

    /// <summary>Three parts, [(1 + v)/4, (1 − v)/2, (1 + v)/4], without damping: a residual v at the frequency itself buys a wider band.</summary>
    /// <param name="frequencyRadS">ω, rad/s; above 0.</param>
    /// <param name="allowedShare">v, residual allowed, 0 to 0.5.</param>
    public static InputShaper ExtraInsensitive(double frequencyRadS, double allowedShare = 0.05)
    {
        double v = Permitted.Within(allowedShare, 0, 0.5);
        return new(Permitted.Above0(frequencyRadS), Math.PI / frequencyRadS, (1 + v) / 4, (1 - v) / 2, (1 + v) / 4);
    }

    /// <summary>How much longer the command takes, s.</summary>
    public double DelayS => Steps[^1].TimeS;

    /// <summary>Swing left over, as a share of the swing the same command leaves unshaped: e^(−ζωt_n)·√(C² + S²), C, S = ΣAᵢ·e^(ζωtᵢ)·cos, sin(ω_d·tᵢ).</summary>
    /// <remarks>Undamped and off by a ratio r this is |cos(πr/2)| to the power 1, 2 or 3 for the zero-vibration family.</remarks>
    /// <param name="frequencyRatio">Real frequency over the one designed for, above 0.</param>
    /// <param name="dampingRatio">Real ζ, 0 to 0.99.</param>
    public double ResidualShare(double frequencyRatio, double dampingRatio = 0)
    {
        double w = frequencyRadS * Permitted.Above0(frequencyRatio), decay = w * Permitted.Within(dampingRatio, 0, 0.99);
        double damped = w * Math.Sqrt(1 - dampingRatio * dampingRatio), c = 0, s = 0;
        foreach (ShaperStep step in Steps)
        {
            double size = step.Share * Math.Exp(decay * (step.TimeS - DelayS));
            c += size * Math.Cos(damped * step.TimeS);
            s += size * Math.Sin(damped * step.TimeS);
        }
        return Math.Sqrt(c * c + s * s);
    }

    /// <summary>Width of the band of frequency ratios about 1 over which the undamped residual stays within a share; 0 when it is more at 1 itself.</summary>
    /// <param name="share">Above 0 and below 1.</param>
    public double BandWidth(double share)
    {
        if (!(share is > 0 and < 1))
            throw new ArgumentOutOfRangeException(nameof(share), share, "Permitted: between 0 and 1.");
        return ResidualShare(1) > share * (1 + 1e-9) ? 0 : Edge(share, 1) + Edge(share, -1);
    }

    private double Edge(double share, int side)
    {
        const double step = 1e-3, rounding = 1 + 1e-9;
        double inside = 0;
        while (inside + step < 1 && ResidualShare(1 + side * (inside + step)) <= share * rounding)
            inside += step;
        double outside = Math.Min(inside + step, 1 - 1e-12);
        for (int i = 0; i < 50; i++)
        {
            double middle = (inside + outside) / 2;
            if (ResidualShare(1 + side * middle) <= share * rounding)
                inside = middle;
            else
                outside = middle;
        }
        return inside;
    }

    private static InputShaper Binomial(double frequencyRadS, double dampingRatio, params double[] binomial)
    {
        Permitted.Above0(frequencyRadS);
        double root = Math.Sqrt(1 - Math.Pow(Permitted.Within(dampingRatio, 0, 0.99), 2)), k = Math.Exp(-dampingRatio * Math.PI / root);
        double whole = Math.Pow(1 + k, binomial.Length - 1);
        return new(frequencyRadS, Math.PI / (frequencyRadS * root), [.. binomial.Select((b, i) => b * Math.Pow(k, i) / whole)]);
    }
}
