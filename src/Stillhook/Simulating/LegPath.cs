using Stillhook.Physics.Earth;

namespace Stillhook.Simulating;

/// <summary>A smooth way over the ground: a cubic Bézier curve measured by its length. The height plays no part.</summary>
internal sealed class LegPath
{
    private const int Pieces = 400;
    private readonly Enu p0, p1, p2, p3;
    private readonly double[] length = new double[Pieces + 1];

    /// <summary>From one place to another, leaving and arriving along given directions (unit vectors).</summary>
    public LegPath(Enu from, Enu leaving, Enu to, Enu arriving, double leavingReachM, double arrivingReachM)
    {
        (p0, p1, p2, p3) = (from, from + leavingReachM * leaving, to - arrivingReachM * arriving, to);
        for (int i = 1; i <= Pieces; i++)
            length[i] = length[i - 1] + Speed((i - 0.5) / Pieces) / Pieces;
    }

    /// <summary>Whole length, m.</summary>
    public double LengthM => length[Pieces];

    /// <summary>Place after a way along the path; straight on beyond its end.</summary>
    public Enu At(double wayM)
    {
        if (wayM >= LengthM)
            return p3 + ((wayM - LengthM) / Speed(1)) * Tangent(1);
        if (wayM <= 0)
            return p0;
        int i = Array.BinarySearch(length, wayM);
        i = i >= 0 ? Math.Min(i, Pieces - 1) : ~i - 1;
        double u = (i + (wayM - length[i]) / (length[i + 1] - length[i])) / Pieces;
        double v = 1 - u;
        return v * v * v * p0 + 3 * v * v * u * p1 + 3 * v * u * u * p2 + u * u * u * p3;
    }

    private Enu Tangent(double u)
    {
        double v = 1 - u;
        return 3 * v * v * (p1 - p0) + 6 * v * u * (p2 - p1) + 3 * u * u * (p3 - p2);
    }

    private double Speed(double u) => Tangent(u).Horizontal;
}
