using Stillhook.Physics.Earth;

namespace Stillhook.Debriefing;

/// <summary>The smoothed motion of the belly hook, in a local frame, with its standard errors.</summary>
/// <remarks>
/// Knots stand at the times of the accepted fixes. Between two knots of one stretch the motion is the quintic Hermite polynomial through
/// position, velocity and acceleration at both: the optimal interpolation of the white-jerk model the smoother uses.
/// </remarks>
public sealed class Track
{
    /// <summary>Local frame of all coordinates.</summary>
    public required LocalFrame Frame { get; init; }

    /// <summary>Knot times, s since 1970 UTC, strictly ascending.</summary>
    public required double[] TimeS { get; init; }

    /// <summary>Position, m: east, north, and height of the hook above the frame's origin level.</summary>
    public required double[] East { get; init; }
    /// <summary>North, m.</summary>
    public required double[] North { get; init; }
    /// <summary>Height, m.</summary>
    public required double[] Up { get; init; }
    /// <summary>Velocity, m/s.</summary>
    public required double[] VelocityEast { get; init; }
    /// <summary>Velocity north, m/s.</summary>
    public required double[] VelocityNorth { get; init; }
    /// <summary>Velocity up, m/s.</summary>
    public required double[] VelocityUp { get; init; }
    /// <summary>Acceleration, m/s².</summary>
    public required double[] AccelerationEast { get; init; }
    /// <summary>Acceleration north, m/s².</summary>
    public required double[] AccelerationNorth { get; init; }
    /// <summary>Acceleration up, m/s².</summary>
    public required double[] AccelerationUp { get; init; }

    /// <summary>Standard errors at the knots: one horizontal component of position (m), velocity (m/s), acceleration (m/s²).</summary>
    public required float[] HorizontalErrorM { get; init; }
    /// <summary>Velocity, m/s.</summary>
    public required float[] HorizontalVelocityErrorMs { get; init; }
    /// <summary>Acceleration, m/s².</summary>
    public required float[] HorizontalAccelerationErrorMs2 { get; init; }
    /// <summary>Height, m.</summary>
    public required float[] HeightErrorM { get; init; }
    /// <summary>Climb, m/s.</summary>
    public required float[] ClimbErrorMs { get; init; }
    /// <summary>Vertical acceleration, m/s².</summary>
    public required float[] VerticalAccelerationErrorMs2 { get; init; }

    /// <summary>Index of the first knot of each stretch without a long gap, ascending, starting with 0.</summary>
    public required int[] StretchStarts { get; init; }

    /// <summary>Whether heights are usable.</summary>
    public required bool HasHeight { get; init; }

    /// <summary>The accepted, repaired fixes the knots were smoothed from, one a knot; null when the track was not made from fixes.</summary>
    public TrackFixes? Fixes { get; init; }

    /// <summary>Number of knots.</summary>
    public int Count => TimeS.Length;

    /// <summary>The same motion without the fixes that it was smoothed from, once nothing is to be estimated from them any more.</summary>
    public Track WithoutFixes() => new()
    {
        Frame = Frame, TimeS = TimeS, East = East, North = North, Up = Up, VelocityEast = VelocityEast, VelocityNorth = VelocityNorth, VelocityUp = VelocityUp,
        AccelerationEast = AccelerationEast, AccelerationNorth = AccelerationNorth, AccelerationUp = AccelerationUp,
        HorizontalErrorM = HorizontalErrorM, HorizontalVelocityErrorMs = HorizontalVelocityErrorMs, HorizontalAccelerationErrorMs2 = HorizontalAccelerationErrorMs2,
        HeightErrorM = HeightErrorM, ClimbErrorMs = ClimbErrorMs, VerticalAccelerationErrorMs2 = VerticalAccelerationErrorMs2, StretchStarts = StretchStarts, HasHeight = HasHeight,
    };

    /// <summary>Motion at a time inside the track; clamped to the first and last knot, and to the nearer side of a gap.</summary>
    public TrackPoint At(double timeS)
    {
        int hi = Array.BinarySearch(TimeS, timeS);
        if (hi >= 0)
            return Knot(hi);
        hi = ~hi;
        if (hi == 0)
            return Knot(0);
        if (hi == Count)
            return Knot(Count - 1);
        int lo = hi - 1;
        if (Array.BinarySearch(StretchStarts, hi) >= 0)
            return Knot(timeS - TimeS[lo] <= TimeS[hi] - timeS ? lo : hi);
        double h = TimeS[hi] - TimeS[lo], s = (timeS - TimeS[lo]) / h;
        (double pe, double ve, double ae) = Hermite(s, h, East, VelocityEast, AccelerationEast, lo);
        (double pn, double vn, double an) = Hermite(s, h, North, VelocityNorth, AccelerationNorth, lo);
        (double pu, double vu, double au) = Hermite(s, h, Up, VelocityUp, AccelerationUp, lo);
        return new(timeS, new(pe, pn, pu), new(ve, vn, vu), new(ae, an, au));
    }

    private TrackPoint Knot(int i) => new(TimeS[i],
        new(East[i], North[i], Up[i]),
        new(VelocityEast[i], VelocityNorth[i], VelocityUp[i]),
        new(AccelerationEast[i], AccelerationNorth[i], AccelerationUp[i]));

    private static (double P, double V, double A) Hermite(double s, double h, double[] p, double[] v, double[] a, int i)
    {
        double c0 = p[i], c1 = v[i] * h, c2 = a[i] * h * h / 2;
        double dp = p[i + 1] - c0 - c1 - c2;
        double dv = v[i + 1] * h - c1 - 2 * c2;
        double da = a[i + 1] * h * h - 2 * c2;
        double c3 = 10 * dp - 4 * dv + da / 2;
        double c4 = -15 * dp + 7 * dv - da;
        double c5 = 6 * dp - 3 * dv + da / 2;
        return (
            c0 + s * (c1 + s * (c2 + s * (c3 + s * (c4 + s * c5)))),
            (c1 + s * (2 * c2 + s * (3 * c3 + s * (4 * c4 + s * 5 * c5)))) / h,
            (2 * c2 + s * (6 * c3 + s * (12 * c4 + s * 20 * c5))) / (h * h));
    }
}

/// <summary>Motion at one time: position (m), velocity (m/s), acceleration (m/s²) in the track's frame.</summary>
public readonly record struct TrackPoint(double TimeS, Enu Position, Enu Velocity, Enu Acceleration);

/// <summary>What was measured at the knots of a track, before smoothing, in the track's frame. A missing value is NaN.</summary>
/// <param name="East">Position, m.</param>
/// <param name="North">Position, m.</param>
/// <param name="VelocityEast">From recorded speed and course, m/s; empty when the record has none.</param>
/// <param name="VelocityNorth">From recorded speed and course, m/s; empty when the record has none.</param>
/// <param name="PositionErrorM">Short-term standard error of one component of position, m (slow drift not counted).</param>
/// <param name="VelocityErrorMs">Standard error of one component of velocity, m/s.</param>
public sealed record TrackFixes(
    double[] East, double[] North, double[] VelocityEast, double[] VelocityNorth, double PositionErrorM, double VelocityErrorMs);
