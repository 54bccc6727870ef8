using Stillhook.Physics.Earth;

namespace Stillhook.Physics.Line;

/// <summary>Two swinging parts below one another: a line with a heavy remote hook and a bridle, or a line and a rigid load. Small swings, hook at rest.</summary>
/// <remarks>It matters for the load on a bridle of some length under a light load; the slow frequency hardly differs from a pendulum of the whole length.</remarks>
public static class DoublePendulum
{
    /// <summary>Both frequencies, rad/s: ω² = (g/2)·{s ∓ √(s² − 4(1 + R)/(L₁L₂))}, s = (1 + R)(1/L₁ + 1/L₂), R = m₂/m₁.</summary>
    /// <param name="upperM">L₁: hook to the upper mass.</param>
    /// <param name="lowerM">L₂: upper mass to lower mass.</param>
    /// <param name="upperKg">m₁: remote hook, swivel.</param>
    /// <param name="lowerKg">m₂: load.</param>
    public static (double SlowRadS, double FastRadS) Frequencies(double upperM, double lowerM, double upperKg, double lowerKg)
    {
        double ratio = 1 + lowerKg / upperKg, s = ratio * (1 / upperM + 1 / lowerM);
        return Roots(s, ratio / (upperM * lowerM));
    }

    /// <summary>Both frequencies of a rigid load whose middle hangs d under the line's end, rad/s.</summary>
    /// <remarks>Mass matrix [[L², Ld], [Ld, d² + k²]], stiffness g·diag(L, d): k²L·λ² − (d² + k² + Ld)·λ + d = 0 with λ = ω²/g, over k²L.</remarks>
    /// <param name="lineM">L: hook to the load's attachment.</param>
    /// <param name="belowM">d: attachment to the load's middle.</param>
    /// <param name="gyrationM">k: radius of gyration about the middle, across the swing.</param>
    public static (double SlowRadS, double FastRadS) RigidLoad(double lineM, double belowM, double gyrationM)
    {
        double k2 = gyrationM * gyrationM;
        return Roots((belowM * belowM + k2 + lineM * belowM) / (k2 * lineM), belowM / (k2 * lineM));
    }

    /// <summary>Roots of λ² − sλ + p = 0 as frequencies; the small one by the product, which keeps its digits.</summary>
    private static (double, double) Roots(double s, double p)
    {
        double large = (s + Math.Sqrt(s * s - 4 * p)) / 2;
        return (Math.Sqrt(Gravity.Standard * p / large), Math.Sqrt(Gravity.Standard * large));
    }
}
