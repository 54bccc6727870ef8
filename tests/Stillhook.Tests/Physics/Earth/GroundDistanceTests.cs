using Stillhook.Physics.Earth;

namespace Stillhook.Tests.Physics.Earth;

public sealed class GroundDistanceTests
{
    private static Enu At(double east, double north, double up = 0) => new(east, north, up);

    // Closed form: drawn on squared paper; heights far apart must not matter.
    [Theory]
    [InlineData(0, -1, 0, 1, true)] // through the middle
    [InlineData(0, 0, 0, 1, true)] // one end on the other segment
    [InlineData(2, 0, 5, 3, true)] // end on end
    [InlineData(0, 1, 3, 1, false)] // beside it
    [InlineData(3, -1, 3, 1, false)] // across its line, beyond its end
    [InlineData(-1, 0, 1, 0, true)] // within it, on the same line
    [InlineData(-5, 0, 5, 0, true)] // around it, on the same line
    [InlineData(1, 0, 5, 0, true)] // over its end, on the same line
    [InlineData(2, 0, 5, 0, true)] // from its end onward, on the same line
    [InlineData(3, 0, 5, 0, false)] // on the same line, apart
    public void Cross_SegmentAndOneFromMinusTwoToTwo_IsAsDrawn(double fromEast, double fromNorth, double toEast, double toNorth, bool expected)
    {
        Enu a = At(-2, 0, 100), b = At(2, 0, -50), c = At(fromEast, fromNorth), d = At(toEast, toNorth);
        Assert.Equal(expected, GroundDistance.Cross(a, b, c, d));
        Assert.Equal(expected, GroundDistance.Cross(d, c, b, a));
    }

    // Closed form: the triangle of 3, 4 and 5, and a segment without length.
    [Fact]
    public void ToSegment_BesideBeyondAndOnAPoint_IsTheNearest()
    {
        Assert.Equal(2, GroundDistance.ToSegmentM(At(1, 2, 70), At(-4, 0), At(4, 0, 9)), 1e-12);
        Assert.Equal(5, GroundDistance.ToSegmentM(At(7, 4), At(-4, 0), At(4, 0)), 1e-12);
        Assert.Equal(5, GroundDistance.ToSegmentM(At(3, 4), At(0, 0), At(0, 0)), 1e-12);
    }
}
