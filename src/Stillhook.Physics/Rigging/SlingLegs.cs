namespace Stillhook.Physics.Rigging;

/// <summary>Tension in the legs of a sling, as a share of the weight that hangs on it. Angles are from the horizontal, rad.</summary>
/// <remarks>
/// Plain statics of a load hanging still: swing, a snatch or a bank come on top and are what the rated load's own factor is for.
/// A leg is straight and weightless; all legs meet at one apex.
/// </remarks>
public static class SlingLegs
{
    /// <summary>Smallest angle of a leg that is worked, rad: 1°. Flatter than that the tension is over 28 times the weight in two legs and the result means nothing.</summary>
    public const double SmallestAngleRad = Math.PI / 180;

    /// <summary>Legs that are counted on to carry: all of one or two, two of three or more, all of them when a device evens them out.</summary>
    /// <remarks>A rigid load on three or more legs hangs on two whenever the others are a little longer. From memory; [EN-13414-1] itself counts three of three or four.</remarks>
    /// <param name="legs">Legs of the sling, 1 or more.</param>
    /// <param name="equalised">A device shares the load evenly.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one leg.</exception>
    public static int Carrying(int legs, bool equalised)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(legs, 1);
        return equalised ? legs : Math.Min(legs, 2);
    }

    /// <summary>Tension of one leg over the weight: T/W = 1/(n·sin θ); exact for equal legs about a centred load. A single leg hangs straight: 1.</summary>
    /// <param name="carryingLegs">n, legs that share the load: <see cref="Carrying"/>.</param>
    /// <param name="angleRad">θ, leg to the horizontal, 1° to 90°; not looked at for a single leg.</param>
    /// <exception cref="ArgumentOutOfRangeException">No leg, or an angle outside 1° to 90°.</exception>
    public static double TensionRatio(int carryingLegs, double angleRad)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(carryingLegs, 1);
        return carryingLegs == 1 ? 1 : 1 / (carryingLegs * Math.Sin(Checked(angleRad)));
    }

    /// <summary>Two equal legs under a load whose centre of gravity is off the middle: the load tilts until its centre of gravity is under the apex.</summary>
    /// <remarks>
    /// With the apex P, attachment points A₁, A₂ a span s apart, legs L and the centre of gravity G on the line A₁A₂, the force along PG splits as
    /// PG = (½ − ε)·PA₁ + (½ + ε)·PA₂ with ε = offset/s, so T/W = (½ ± ε)·L/|PG| = (½ ± ε)/√(sin²θ + 4ε²cos²θ). Exact. The tilt is
    /// atan(2ε/tan θ); it makes the nearer leg steeper and the other flatter by as much. A centre of gravity below that line tilts the load
    /// less and loads the two legs more alike, so this stands on the safe side of it.
    /// </remarks>
    /// <param name="spanM">s, between the two attachment points, above 0.</param>
    /// <param name="offsetM">Centre of gravity off the middle of the span, from 0 to less than half of the span.</param>
    /// <param name="angleRad">θ, leg to the horizontal as a centred load would hang, 1° to 90°.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these ranges: from half of the span on the other leg would have to push.</exception>
    public static TwoLegHang OffCentre(double spanM, double offsetM, double angleRad)
    {
        if (!(spanM > 0 && double.IsFinite(spanM)))
            throw new ArgumentOutOfRangeException(nameof(spanM), spanM, "Span is above 0 m.");
        if (!(offsetM >= 0 && offsetM < spanM / 2))
            throw new ArgumentOutOfRangeException(nameof(offsetM), offsetM, "Offset is from 0 m to less than half of the span.");
        (double sin, double cos) = Math.SinCos(Checked(angleRad));
        double share = offsetM / spanM;
        double legOverApexHeight = 1 / Math.Sqrt(sin * sin + 4 * share * share * cos * cos);
        double tilt = Math.Atan2(2 * share * cos, sin);
        return new((0.5 + share) * legOverApexHeight, (0.5 - share) * legOverApexHeight, angleRad + tilt, angleRad - tilt, tilt);
    }

    /// <summary>Largest tension of one of two equal legs over the weight, wherever between the attachment points the centre of gravity is: 1/sin 2θ below 45°, else 1.</summary>
    /// <remarks>The largest value of <see cref="OffCentre"/> over the offset; it stands at ε = ½·tan²θ, or at the end of the span. Exact.</remarks>
    /// <param name="angleRad">θ, leg to the horizontal as a centred load would hang, 1° to 90°.</param>
    /// <exception cref="ArgumentOutOfRangeException">An angle outside 1° to 90°.</exception>
    public static double WorstOffCentreRatio(double angleRad) => Checked(angleRad) < Math.PI / 4 ? 1 / Math.Sin(2 * angleRad) : 1;

    /// <summary>Angle to the horizontal of two equal legs under a centred load, rad: cos θ = s/(2L).</summary>
    /// <param name="spanM">s, between the attachment points, above 0.</param>
    /// <param name="legM">L, length of one leg, above half of the span.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these ranges.</exception>
    public static double AngleRad(double spanM, double legM)
    {
        if (!(spanM > 0 && double.IsFinite(spanM)))
            throw new ArgumentOutOfRangeException(nameof(spanM), spanM, "Span is above 0 m.");
        if (!(legM > spanM / 2 && double.IsFinite(legM)))
            throw new ArgumentOutOfRangeException(nameof(legM), legM, "A leg is longer than half of the span.");
        return Math.Acos(spanM / (2 * legM));
    }

    private static double Checked(double angleRad)
    {
        if (!(angleRad is >= SmallestAngleRad * (1 - 1e-12) and <= Math.PI / 2 * (1 + 1e-12)))
            throw new ArgumentOutOfRangeException(nameof(angleRad), angleRad, "Leg angle to the horizontal is from 1 to 90 degrees, in rad.");
        return angleRad;
    }
}

/// <summary>How a load hangs on two equal legs. Near: the leg on the side of the centre of gravity.</summary>
/// <param name="NearTensionRatio">Tension of the nearer leg over the weight; the larger of the two.</param>
/// <param name="FarTensionRatio">Tension of the other leg over the weight.</param>
/// <param name="NearAngleRad">Nearer leg to the horizontal as it hangs, rad; at most π/2.</param>
/// <param name="FarAngleRad">Other leg to the horizontal as it hangs, rad; the flatter one.</param>
/// <param name="TiltRad">Load out of level, low on the side of the centre of gravity, rad.</param>
public readonly record struct TwoLegHang(double NearTensionRatio, double FarTensionRatio, double NearAngleRad, double FarAngleRad, double TiltRad);
