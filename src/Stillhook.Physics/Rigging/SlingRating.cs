namespace Stillhook.Physics.Rigging;

/// <summary>Rated load of a whole sling over that of one straight leg, as the European sling standards print it.</summary>
/// <remarks>
/// [EN-13414-1] table 4 for wire rope, the same factors in [EN-1492] for textile. They are a band's worst angle, rounded down; with the legs
/// steeper than 45° the statics of <see cref="SlingLegs"/> would permit more than the tag does.
/// </remarks>
public static class SlingRating
{
    /// <summary>Mode factor: one leg 1; two legs 1.4 to 45° from the vertical, 1.0 to 60°; three or four legs 2.1 and 1.5. No value flatter than that.</summary>
    /// <param name="legs">Legs of the sling, 1 to 4.</param>
    /// <param name="angleRad">Leg to the horizontal, above 0 to π/2 rad.</param>
    /// <returns>The factor, or null where the standards give none: flatter than 30° to the horizontal, more than four legs.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No leg, or an angle outside its range.</exception>
    public static double? ModeFactor(int legs, double angleRad)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(legs, 1);
        if (!(angleRad is > 0 and <= Math.PI / 2 * (1 + 1e-12)))
            throw new ArgumentOutOfRangeException(nameof(angleRad), angleRad, "Leg angle to the horizontal is above 0 and at most pi/2.");
        const double slack = 1e-9; // 45° and 30° belong to their own bands though written as π/4 and π/6.
        bool steep = angleRad >= Math.PI / 4 - slack;
        return legs switch
        {
            1 => 1,
            > 4 => null,
            _ when angleRad < Math.PI / 6 - slack => null,
            2 => steep ? 1.4 : 1.0,
            _ => steep ? 2.1 : 1.5,
        };
    }
}
