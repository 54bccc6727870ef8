namespace Stillhook.Physics.Earth;

/// <summary>Distances on the ground, m, in a local east-north frame; heights are left out.</summary>
public static class GroundDistance
{
    /// <summary>From a point to the nearest point of a straight segment.</summary>
    public static double ToSegmentM(in Enu point, in Enu from, in Enu to)
    {
        double east = to.East - from.East, north = to.North - from.North, squared = east * east + north * north;
        double share = squared > 0 ? Math.Clamp(((point.East - from.East) * east + (point.North - from.North) * north) / squared, 0, 1) : 0;
        double dEast = point.East - from.East - share * east, dNorth = point.North - from.North - share * north;
        return Math.Sqrt(dEast * dEast + dNorth * dNorth);
    }

    /// <summary>Whether two straight segments cross or touch, seen from above.</summary>
    public static bool Cross(in Enu a, in Enu b, in Enu c, in Enu d) =>
        Side(a, b, c) * Side(a, b, d) <= 0 && Side(c, d, a) * Side(c, d, b) <= 0 && (Side(a, b, c) != 0 || Side(a, b, d) != 0 || ToSegmentM(a, c, d) == 0 || ToSegmentM(b, c, d) == 0 || ToSegmentM(c, a, b) == 0);

    // Which side of the line from-to a point is on: sign of the cross product.
    private static double Side(in Enu from, in Enu to, in Enu point) =>
        Math.Sign((to.East - from.East) * (point.North - from.North) - (to.North - from.North) * (point.East - from.East));
}
