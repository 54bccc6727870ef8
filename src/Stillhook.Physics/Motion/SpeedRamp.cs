namespace Stillhook.Physics.Motion;

/// <summary>A smooth slow-down from a steady speed to rest: V(t) = V₀·(1 − F(t)).</summary>
/// <remarks>
/// F is the integral of a box of width T_b convolved with four boxes of width W/4, a cubic B-spline kernel [DEBOOR]:
/// <para>F⁽ʲ⁾(t) = Σ cᵢ·max(t − sᵢ, 0)⁵⁻ʲ / ((5 − j)!·T_b·(W/4)⁴), ten corners sᵢ with signs cᵢ = ±(1, −4, 6, −4, 1); the way takes the power 6 over 6!.</para>
/// Every derivative is closed form; F⁗ is continuous, so that a hook driven through the flat map has a continuous acceleration.
/// The ramp lasts T_b + W and covers V₀·(T_b + W)/2 exactly; its mean deceleration is V₀/(T_b + W), its greatest V₀/T_b when T_b ≥ W.
/// Time runs from the first loss of speed, s. Truncated powers lose about 1e-11 of the way to rounding over a minute.
/// </remarks>
public sealed class SpeedRamp : StopProfile
{
    private static readonly double[] Binomial = [1, -4, 6, -4, 1];
    private readonly double[] corner = new double[10];
    private readonly double scale;

    /// <summary>A ramp of a unit speed: multiply by the speed brought in.</summary>
    /// <param name="boxS">T_b, s: how long the deceleration stays at its height. Above 0.</param>
    /// <param name="softS">W, s: how long it builds up and dies away. Above 0.</param>
    public SpeedRamp(double boxS, double softS)
    {
        if (!(boxS > 0 && double.IsFinite(boxS)))
            throw new ArgumentOutOfRangeException(nameof(boxS), boxS, "The box lasts longer than 0 s.");
        if (!(softS > 0 && double.IsFinite(softS)))
            throw new ArgumentOutOfRangeException(nameof(softS), softS, "The soft ends last longer than 0 s.");
        (BoxS, SoftS) = (boxS, softS);
        double quarter = softS / 4;
        scale = 1 / (boxS * quarter * quarter * quarter * quarter);
        for (int k = 0; k < 5; k++)
            (corner[k], corner[k + 5]) = (k * quarter, boxS + k * quarter);
    }

    /// <summary>T_b, s.</summary>
    public double BoxS { get; }

    /// <summary>W, s.</summary>
    public double SoftS { get; }

    /// <inheritdoc/>
    public override double DurationS => BoxS + SoftS;

    /// <inheritdoc/>
    public override double Way(double timeS) => timeS <= 0 ? timeS : timeS >= DurationS ? DurationS / 2 : timeS - Sum(timeS, 6);

    /// <inheritdoc/>
    public override double Speed(double timeS) => timeS <= 0 ? 1 : timeS >= DurationS ? 0 : 1 - Sum(timeS, 5);

    /// <inheritdoc/>
    public override double SpeedRate(double timeS) => SpeedDerivative(timeS, 1);

    /// <summary>The j-th derivative of the speed by time, 1/sʲ; j from 1 to 4: acceleration, jerk, snap and the next.</summary>
    public double SpeedDerivative(double timeS, int order)
    {
        if (order is < 1 or > 4)
            throw new ArgumentOutOfRangeException(nameof(order), order, "Derivatives are known from the first to the fourth.");
        return timeS <= 0 || timeS >= DurationS ? 0 : -Sum(timeS, 5 - order);
    }

    /// <inheritdoc/>
    public override (double Way, double Speed, double SpeedRate) At(double timeS)
    {
        if (timeS <= 0 || timeS >= DurationS)
            return (Way(timeS), Speed(timeS), SpeedRate(timeS));
        double fourth = 0, fifth = 0, sixth = 0;
        for (int i = 0; i < corner.Length; i++)
        {
            double after = timeS - corner[i];
            if (after <= 0)
                continue;
            double sign = i < 5 ? Binomial[i] : -Binomial[i - 5], power = Power(after, 4);
            fourth += sign * power;
            fifth += sign * (power * after);
            sixth += sign * (power * after * after);
        }
        return (timeS - sixth * scale / Factorial(6), 1 - fifth * scale / Factorial(5), -(fourth * scale / Factorial(4)));
    }

    private double Sum(double timeS, int power)
    {
        double sum = 0;
        for (int i = 0; i < corner.Length; i++)
        {
            double after = timeS - corner[i];
            if (after > 0)
                sum += (i < 5 ? Binomial[i] : -Binomial[i - 5]) * Power(after, power);
        }
        return sum * scale / Factorial(power);
    }

    private static double Power(double x, int n)
    {
        double result = x;
        for (int i = 1; i < n; i++)
            result *= x;
        return result;
    }

    private static double Factorial(int n) => n switch { 1 => 1, 2 => 2, 3 => 6, 4 => 24, 5 => 120, _ => 720 };
}
