namespace Stillhook.Physics.Rotor;

/// <summary>How the ground helps a hovering rotor. No plan uses it: on a long line the rotor is a line length above the site.</summary>
/// <remarks>One rotor diameter up (z/R = 2) 1.6 % of thrust is left, 30 m up on a 5.5 m rotor 0.2 %; and grass, slopes, trees and wind take most of that.</remarks>
public static class GroundEffect
{
    /// <summary>Lowest rotor height over radius for which the thrust ratio is computed; below it the value at 0.5 is returned.</summary>
    public const double LowestHeightRatio = 0.5;

    /// <summary>Thrust over that out of ground effect at the same power, as [RM-3021] has it: 1/(1 − (R/4z)²).</summary>
    /// <param name="heightOverRadius">z/R, rotor plane to ground over radius; above 0.25, where the formula runs away.</param>
    /// <exception cref="ArgumentOutOfRangeException">At or below 0.25, or not a number.</exception>
    public static double CheesemanBennettThrustRatio(double heightOverRadius)
    {
        if (!(heightOverRadius > 0.25))
            throw new ArgumentOutOfRangeException(nameof(heightOverRadius), heightOverRadius, "Permitted: above 0.25.");
        return 1 / (1 - 1 / (16 * heightOverRadius * heightOverRadius));
    }

    /// <summary>The same, held at its value for z/R = 0.5 (1.333) below that, where it is not believed.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above 0.</exception>
    public static double ThrustRatio(double heightOverRadius) =>
        CheesemanBennettThrustRatio(Math.Max(LowestHeightRatio, Permitted.Above0(heightOverRadius)));

    /// <summary>Induced power over that out of ground effect at the same thrust: 1/(0.9926 + 0.0379·(2R/z)²), at most 1 [HAYDEN] (constants from memory).</summary>
    /// <param name="heightOverDiameter">z/2R, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above 0.</exception>
    public static double HaydenInducedPowerRatio(double heightOverDiameter) =>
        Math.Min(1, 1 / (0.9926 + 0.0379 / (Permitted.Above0(heightOverDiameter) * heightOverDiameter)));
}
