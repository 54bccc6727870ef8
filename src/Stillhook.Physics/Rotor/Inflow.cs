namespace Stillhook.Physics.Rotor;

/// <summary>Induced velocity of a rotor by momentum theory, m/s, positive down through the disc.</summary>
/// <remarks>
/// [LEISHMAN] chapter 2 and [GLAUERT]; v_h is the induced velocity in hover out of ground effect. Uniform inflow: the real, uneven one costs more, which the
/// induced power factor κ of <see cref="RotorPower"/> takes in. All forms are written so that nothing cancels at high speed.
/// Between hover and a descent of 2·v_h on the spot no momentum theory holds (vortex ring, turbulent wake): see <see cref="VortexRing"/>.
/// </remarks>
public static class Inflow
{
    private static readonly double SteepestDescent = 2 * Math.Sqrt(2);

    /// <summary>Hover: v_h = √(T/(2ρA)).</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value not above 0.</exception>
    public static double HoverMs(double thrustN, double densityKgM3, double discAreaM2) =>
        Math.Sqrt(Permitted.Above0(thrustN) / (2 * Permitted.Above0(densityKgM3) * Permitted.Above0(discAreaM2)));

    /// <summary>Vertical flight, branch that holds hover and climb: v = −V/2 + √(V²/4 + v_h²). V is the climb speed.</summary>
    /// <remarks>Exact for climbs. Negative V continues the branch into descent, where it is a comparison only: a real rotor there takes more power than it says.</remarks>
    public static double HoverBranchMs(double climbMs, double hoverInducedMs)
    {
        double vh = Permitted.Above0(hoverInducedMs), half = Permitted.Finite(climbMs) / 2, root = double.Hypot(half, vh);
        return half > 0 ? vh * vh / (half + root) : root - half;
    }

    /// <summary>Vertical descent in the windmill state: v = −V/2 − √(V²/4 − v_h²), for V ≤ −2·v_h.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Descent slower than 2·v_h.</exception>
    public static double WindmillBranchMs(double climbMs, double hoverInducedMs)
    {
        double vh = Permitted.Above0(hoverInducedMs), half = -Permitted.Finite(climbMs) / 2;
        if (!(half >= vh))
            throw new ArgumentOutOfRangeException(nameof(climbMs), climbMs, "Permitted: at most -2 times the hover induced velocity.");
        return vh * vh / (half + Math.Sqrt((half - vh) * (half + vh)));
    }

    /// <summary>Vertical flight outside the vortex ring: the hover branch in climb, the windmill branch from −2·v_h down.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Descent between 0 and 2·v_h, where momentum theory doesn't hold.</exception>
    public static double AxialMs(double climbMs, double hoverInducedMs) =>
        climbMs >= 0 ? HoverBranchMs(climbMs, hoverInducedMs)
        : climbMs <= -2 * hoverInducedMs ? WindmillBranchMs(climbMs, hoverInducedMs)
        : throw new ArgumentOutOfRangeException(nameof(climbMs), climbMs, "Permitted: 0 or above, or at most -2 times the hover induced velocity.");

    /// <summary>Air across a level disc (Glauert's closed form): v² = −V²/2 + √(V⁴/4 + v_h⁴).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Speed below 0 or v_h not above 0.</exception>
    public static double LevelMs(double airspeedMs, double hoverInducedMs)
    {
        double half = Permitted.From0(airspeedMs) * airspeedMs / 2, vh2 = Permitted.Above0(hoverInducedMs) * hoverInducedMs;
        return vh2 / Math.Sqrt(half + double.Hypot(half, vh2));
    }

    /// <summary>Air across and through the disc (Glauert): v·√(V_x² + (V_z + v)²) = v_h², the quartic of a tilted disc with V_x = V·cos α, V_z = V·sin α.</summary>
    /// <remarks>
    /// The root is single unless the air comes up through the disc steeper than V_z = −2√2·V_x (70.5°); steeper is refused. Newton inside a bracket, to 1e-13 of v_h.
    /// Source of the quartic: [NAPLES-7].
    /// </remarks>
    /// <param name="acrossMs">V_x, speed of the air along the disc, 0 or above.</param>
    /// <param name="throughMs">V_z, speed of the air down through the disc without the rotor's own: climb, or a disc tilted forward, positive.</param>
    /// <param name="hoverInducedMs">v_h.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range, or steeper than 70.5° from below.</exception>
    public static double TiltedMs(double acrossMs, double throughMs, double hoverInducedMs)
    {
        double vh = Permitted.Above0(hoverInducedMs), x = Permitted.From0(acrossMs) / vh, z = Permitted.Finite(throughMs) / vh;
        if (z < -SteepestDescent * x)
            throw new ArgumentOutOfRangeException(nameof(throughMs), throughMs, "Permitted: not below -2.83 times the speed across the disc.");
        double low = 0, high = z > 0 ? 1 : HoverBranchMs(z, 1), v = Math.Min(high, LevelMs(x, 1));
        for (int i = 0; i < 100; i++)
        {
            double w = z + v, q = x * x + w * w, f = v * v * q - 1;
            if (f > 0)
                high = v;
            else
                low = v;
            double next = v - f / (2 * v * (q + v * w));
            if (!(next > low && next < high))
                next = (low + high) / 2;
            if (Math.Abs(next - v) < 1e-14 * v)
                break;
            v = next;
        }
        return v * vh;
    }
}
