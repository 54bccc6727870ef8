using CsCheck;
using Stillhook.Physics.Earth;

namespace Stillhook.Tests.Physics.Earth;

public class ElevationGridTests
{
    // A plane 100 + 2·x/10 − 3·y/10 on cells of 10 m, centres from (0, 0), 11 columns and 6 rows.
    private static ElevationGrid Plane(params (int Row, int Column)[] voids) => Grid(GridCoordinates.ProjectedMetres, 0, 0, 10, 11, 6, (column, south) => 100 + 2 * column - 3 * south, voids);

    private static ElevationGrid Grid(GridCoordinates coordinates, double west, double south, double step, int columns, int rows, Func<int, int, double> height, params (int Row, int Column)[] voids)
    {
        float[] heights = new float[columns * rows];
        for (int i = 0; i < heights.Length; i++) heights[i] = (float)height(i % columns, rows - 1 - i / columns);
        foreach ((int row, int column) in voids) heights[row * columns + column] = float.NaN;
        return new ElevationGrid(coordinates, west, south, step, step, columns, rows, heights);
    }

    // Closed form: bilinear interpolation gives a plane back.
    [Fact]
    public void HeightM_Plane_IsThePlane() =>
        (from x in Gen.Double[0, 100] from y in Gen.Double[0, 50] select (x, y)).Sample(p => Assert.Equal(100 + 0.2 * p.x - 0.3 * p.y, Plane().HeightM(p.x, p.y)!.Value, 1e-4));

    // Closed form: z = x·y is bilinear itself: 0.25 · 0.75 of a cell.
    [Fact]
    public void HeightM_Saddle_IsTheProduct() =>
        Assert.Equal(0.1875, Grid(GridCoordinates.ProjectedMetres, 0, 0, 1, 2, 2, (x, y) => x * y).HeightM(0.25, 0.75)!.Value, 1e-12);

    [Theory]
    [InlineData(-0.1, 25), InlineData(100.1, 25), InlineData(50, -0.1), InlineData(50, 50.1)]
    public void HeightM_OutsideTheCentres_IsUnknown(double x, double y) => Assert.Null(Plane().HeightM(x, y));

    [Theory]
    [InlineData(0, 0), InlineData(100, 0), InlineData(0, 50), InlineData(100, 50)]
    public void HeightM_CornerCentres_AreKnown(double x, double y) => Assert.Equal(100 + 0.2 * x - 0.3 * y, Plane().HeightM(x, y)!.Value, 1e-4);

    // The void is the cell at (50, 30): row 2 from the north.
    [Fact]
    public void HeightM_NextToAVoid_IsUnknown()
    {
        ElevationGrid grid = Plane((2, 5));
        Assert.Equal(1, grid.Voids);
        Assert.Null(grid.CellM(2, 5));
        foreach ((double x, double y) in new[] { (50.0, 30.0), (41, 21), (59, 21), (41, 39), (59, 39), (45, 30), (50, 35) }) Assert.Null(grid.HeightM(x, y));
        foreach ((double x, double y) in new[] { (40.0, 30.0), (60, 30), (50, 40), (50, 20), (39, 29), (61, 39), (40, 35) }) Assert.NotNull(grid.HeightM(x, y));
    }

    // Closed form: on a plane the highest within r is the height plus slope times r, √(0.2² + 0.3²) = 0.36056; the circle is sampled every quarter cell or finer.
    [Theory]
    [InlineData(50, 25, 20), InlineData(50, 25, 3), InlineData(47.3, 22.2, 0.5)]
    public void HighestNearM_Plane_IsSlopeTimesRadius(double x, double y, double radius)
    {
        double at = 100 + 0.2 * x - 0.3 * y, highest = Plane().HighestNearM(x, y, radius)!.Value;
        Assert.InRange(highest, at + 0.98 * 0.36056 * radius, at + 0.36057 * radius + 1e-4);
    }

    [Fact]
    public void HighestNearM_RadiusZero_IsTheHeightThere() => Assert.Equal(Plane().HeightM(33, 17), Plane().HighestNearM(33, 17, 0));

    // Closed form: one summit of 500 m at (50, 30) on flat ground of 0; it comes in when the radius reaches its foot, and whole when it reaches its centre.
    [Fact]
    public void HighestNearM_Summit_CountsOnceInReach()
    {
        ElevationGrid grid = Grid(GridCoordinates.ProjectedMetres, 0, 0, 10, 11, 6, (x, y) => x == 5 && y == 3 ? 500 : 0);
        Assert.Equal(0, grid.HighestNearM(30, 30, 9.9));
        Assert.Equal(250, grid.HighestNearM(30, 30, 15)!.Value, 0.001);
        Assert.Equal(500, grid.HighestNearM(30, 30, 20));
    }

    [Theory]
    [InlineData(20, 25, 20.1), InlineData(80, 25, 20.1), InlineData(50, 25, 25.1), InlineData(120, 25, 1)]
    public void HighestNearM_ReachesOutside_IsUnknown(double x, double y, double radius) => Assert.Null(Plane().HighestNearM(x, y, radius));

    [Fact]
    public void HighestNearM_VoidInReach_IsUnknown()
    {
        ElevationGrid grid = Plane((2, 5));
        Assert.Null(grid.HighestNearM(30, 25, 20.7));
        Assert.Null(grid.HighestNearM(50, 30, 1));
        Assert.NotNull(grid.HighestNearM(20, 25, 15));
    }

    // Closed form: against a brute search of all centres, the answer is never lower, and never above the highest of the cells touched.
    [Fact]
    public void HighestNearM_RandomGround_IsBetweenCentresWithinAndCellsTouched() =>
        (from seed in Gen.Int[0, 1000] from x in Gen.Double[60, 140] from y in Gen.Double[60, 140] from r in Gen.Double[0.1, 55] select (seed, x, y, r)).Sample(p =>
        {
            var random = new Random(p.seed);
            ElevationGrid grid = Grid(GridCoordinates.ProjectedMetres, 0, 0, 10, 21, 21, (_, _) => random.Next(0, 1000));
            double highest = grid.HighestNearM(p.x, p.y, p.r)!.Value, within = 0, touched = 0;
            for (int row = 0; row < 21; row++)
                for (int column = 0; column < 21; column++)
                {
                    double away = Math.Sqrt(Math.Pow(column * 10 - p.x, 2) + Math.Pow(200 - row * 10 - p.y, 2));
                    if (away <= p.r) within = Math.Max(within, grid.CellM(row, column)!.Value);
                    if (away <= p.r + 14.2) touched = Math.Max(touched, grid.CellM(row, column)!.Value);
                }

            Assert.InRange(highest, Math.Max(within, grid.HeightM(p.x, p.y)!.Value), touched);
        });

    // Closed form: at 60° a degree of longitude is 55 800 m and one of latitude 111 412 m [WGS84 radii]; a summit 0.005° east is 279 m off, one 0.005° north 557 m.
    [Theory]
    [InlineData(0.005, 0, 279.0)]
    [InlineData(0, 0.005, 557.06)]
    public void HighestNearM_Degrees_MetresByTheLocalScale(double east, double north, double awayM)
    {
        int column = 20 + (int)Math.Round(east / 0.001), south = 20 + (int)Math.Round(north / 0.001);
        ElevationGrid grid = Grid(GridCoordinates.Degrees, 10, 60, 0.001, 41, 41, (x, y) => x == column && y == south ? 1000 : 0);
        Assert.Equal(1000, grid.HighestNearM(10.02, 60.02, awayM + 0.5));
        Assert.InRange(grid.HighestNearM(10.02, 60.02, awayM - 1)!.Value, 900, 999);
    }

    [Fact]
    public void ElevationGrid_RefusesTheImpossible()
    {
        float[] four = [1, 2, 3, 4];
        Assert.Throws<ArgumentException>(() => new ElevationGrid(GridCoordinates.Degrees, 0, 0, 1, 1, 2, 3, four));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ElevationGrid(GridCoordinates.Degrees, 0, 0, 1, 1, 1, 4, four));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ElevationGrid(GridCoordinates.Degrees, 0, 0, 1, 1, 4, 1, four));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ElevationGrid(GridCoordinates.Degrees, 0, 0, 0, 1, 2, 2, four));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ElevationGrid(GridCoordinates.Degrees, 0, 0, 1, double.NaN, 2, 2, four));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ElevationGrid(GridCoordinates.Degrees, 0, 89.5, 1, 1, 2, 2, four));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ElevationGrid(GridCoordinates.Degrees, double.NaN, 0, 1, 1, 2, 2, four));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ElevationGrid(GridCoordinates.Degrees, 0, 0, 1, 1, 2, 2, [1, float.PositiveInfinity, 3, 4]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Plane().HeightM(double.NaN, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Plane().HighestNearM(0, 0, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Plane().CellM(6, 0));
    }
}
