namespace Stillhook.Physics.Motion;

/// <summary>A constant tau-dot stop with soft ends: the gap over the closing speed shrinks at a constant rate c, as people stop by eye [PADFIELD-TAU].</summary>
/// <remarks>
/// Bare: V = V₀(1 − t/T)^(1/c − 1), way c·V₀·T (<see cref="TauStop"/>); c = 0.5 is an even slow-down, under 0.5 it dies away at the spot, over 0.5 it rises at the end. Its corners would make a slung load
/// swing: it is convolved with the four boxes of width W/4 of <see cref="SpeedRamp"/>, which leaves the middle as it is but W/2 later and adds W/2 of time at each end; whole way V₀(c·T + W/2).
/// The convolution is by Gauss-Legendre quadrature of 8 points on each quarter of the kernel, split at the corners of the bare stop; error under 1e-6 of the speed (tested against <see cref="SpeedRamp"/> at c = 0.5).
/// </remarks>
public sealed class TauRamp : StopProfile
{
    // Abscissas and weights of Gauss-Legendre quadrature with 8 points on −1..1, Abramowitz and Stegun table 25.4.
    private static readonly double[] Abscissas = [0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975363];
    private static readonly double[] Weights = [0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763];

    private readonly double stopS, rate, quarterS;

    /// <summary>A stop of unit speed.</summary>
    /// <param name="stopS">T, s: time of the bare stop. Above 0.</param>
    /// <param name="tauRate">c, 0.25 to 0.75.</param>
    /// <param name="softS">W, s. Above 0.</param>
    public TauRamp(double stopS, double tauRate, double softS)
    {
        if (!(stopS > 0 && double.IsFinite(stopS)))
            throw new ArgumentOutOfRangeException(nameof(stopS), stopS, "The stop lasts longer than 0 s.");
        if (!(tauRate is >= 0.25 and <= 0.75))
            throw new ArgumentOutOfRangeException(nameof(tauRate), tauRate, "Permitted: 0.25 to 0.75.");
        if (!(softS > 0 && double.IsFinite(softS)))
            throw new ArgumentOutOfRangeException(nameof(softS), softS, "The soft ends last longer than 0 s.");
        (this.stopS, rate, quarterS) = (stopS, tauRate, softS / 4);
    }

    /// <inheritdoc/>
    public override double DurationS => stopS + 4 * quarterS;

    /// <inheritdoc/>
    public override double Way(double timeS) => timeS <= 0 ? timeS : timeS >= DurationS ? rate * stopS + 2 * quarterS : Convolved(timeS, BareWay) + 2 * quarterS;

    /// <inheritdoc/>
    public override double Speed(double timeS) => timeS <= 0 ? 1 : timeS >= DurationS ? 0 : Convolved(timeS, BareSpeed);

    /// <inheritdoc/>
    public override double SpeedRate(double timeS) => timeS <= 0 || timeS >= DurationS ? 0 : Convolved(timeS, BareRate);

    private double BareSpeed(double t) => t <= 0 ? 1 : t >= stopS ? 0 : Math.Pow(1 - t / stopS, 1 / rate - 1);

    private double BareWay(double t) => t <= 0 ? t : t >= stopS ? rate * stopS : rate * stopS * (1 - Math.Pow(1 - t / stopS, 1 / rate));

    private double BareRate(double t) => t <= 0 || t >= stopS ? 0 : (1 - 1 / rate) / stopS * Math.Pow(1 - t / stopS, 1 / rate - 2);

    /// <summary>∫ kernel(u)·f(t − u) du over 0..W, in pieces between the kernel's and the bare stop's corners.</summary>
    private double Convolved(double timeS, Func<double, double> bare)
    {
        Span<double> corners = [0, quarterS, 2 * quarterS, 3 * quarterS, 4 * quarterS, Math.Clamp(timeS, 0, 4 * quarterS), Math.Clamp(timeS - stopS, 0, 4 * quarterS)];
        corners.Sort();
        double sum = 0;
        for (int i = 1; i < corners.Length; i++)
        {
            double half = (corners[i] - corners[i - 1]) / 2, middle = (corners[i] + corners[i - 1]) / 2;
            if (half <= 0)
                continue;
            for (int k = 0; k < Abscissas.Length; k++)
            {
                double a = middle - half * Abscissas[k], b = middle + half * Abscissas[k];
                sum += half * Weights[k] * (Kernel(a) * bare(timeS - a) + Kernel(b) * bare(timeS - b));
            }
        }
        return sum;
    }

    /// <summary>Cubic B-spline on four quarters, area 1.</summary>
    private double Kernel(double u)
    {
        double x = Math.Abs(u / quarterS - 2);
        return (x >= 2 ? 0 : x >= 1 ? (2 - x) * (2 - x) * (2 - x) / 6 : 2.0 / 3 - x * x + x * x * x / 2) / quarterS;
    }
}
