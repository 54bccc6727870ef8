using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Terrain;

public class EsriAsciiTests
{
    private const string Heights = "1 2 3\n4 5 6\n";

    // Closed form: any order and case, corner and centre mixed, heights over any lines, byte-order mark and carriage returns.
    [Fact]
    public void Read_HeaderInAnyOrderAndCase_SameGrid()
    {
        ElevationGrid grid = SharedTerrain.ReadText("\uFEFFCELLSIZE 10\r\nnodata_VALUE -9\r\nYLLCENTER 2000\r\nXllCorner 1000\r\nNROWS 2\r\nnCols 3\r\n1 2\r\n3 4 -9\r\n\r\n6\r\n").Grid!;
        Assert.Equal((1005, 2000, 2010, 3, 2), (grid.WestCentre, grid.SouthCentre, grid.NorthCentre, grid.Columns, grid.Rows));
        Assert.Equal([1, 2, 3, 4, null, 6], new[] { grid.CellM(0, 0), grid.CellM(0, 1), grid.CellM(0, 2), grid.CellM(1, 0), grid.CellM(1, 1), grid.CellM(1, 2) });
        Assert.Equal(GridCoordinates.ProjectedMetres, grid.Coordinates);
    }

    // Closed form: no cell of 0.5 m is 0.5° wide when the grid would then reach beyond the pole.
    [Theory]
    [InlineData("xllcorner -71 yllcorner 44 cellsize 0.01", GridCoordinates.Degrees)]
    [InlineData("xllcorner -71 yllcorner 44 cellsize 1.01", GridCoordinates.ProjectedMetres)]
    [InlineData("xllcorner 361 yllcorner 44 cellsize 0.01", GridCoordinates.ProjectedMetres)]
    [InlineData("xllcorner 7 yllcorner -91 cellsize 0.01", GridCoordinates.ProjectedMetres)]
    [InlineData("xllcorner 0 yllcorner 89 cellsize 0.9", GridCoordinates.ProjectedMetres)]
    public void Read_CornerAndCellSize_DecideWhetherDegrees(string place, GridCoordinates expected) =>
        Assert.Equal(expected, SharedTerrain.ReadText($"ncols 3 nrows 2 {place}\n{Heights}").Grid!.Coordinates);

    [Fact]
    public void Read_ContentUnderAnotherName_IsReadByContent() => Assert.NotNull(SharedTerrain.Read(SharedTerrain.Bytes("srtmgl3_colorado.asc"), "N44W072.hgt").Grid);

    [Fact]
    public void Read_NanAmongHeights_IsAVoidWithAWarning()
    {
        var file = SharedTerrain.ReadText("ncols 3 nrows 2 xllcorner 0 yllcorner 0 cellsize 10\nNaN 2 3\n4 nan 6\n");
        Assert.Equal(2, file.Grid!.Voids);
        Assert.Null(file.Grid.CellM(0, 0));
        Assert.Equal(2, Assert.Single(file.Findings, f => f.Code == "not-a-number" && f.Severity == Severity.Warning).Count);
    }

    // An undeclared mark for voids would otherwise be ground 10 km below the sea.
    [Fact]
    public void Read_UndeclaredVoidMark_IsUnknownNotLow()
    {
        var file = SharedTerrain.ReadText("ncols 3 nrows 2 xllcorner 0 yllcorner 0 cellsize 10\n-9999 2 3\n4 5 6e9\n");
        Assert.Equal((2, 2.0, 5.0), (file.Grid!.Voids, file.Grid.LowestM, file.Grid.HighestM));
        Assert.Equal(2, Assert.Single(file.Findings, f => f.Code == "height-implausible").Count);
    }

    // "6" could be the beginning of "61".
    [Fact]
    public void Read_NoLineEndAfterLastHeight_LastCellIsUnknown()
    {
        var file = SharedTerrain.ReadText("ncols 3 nrows 2 xllcorner 0 yllcorner 0 cellsize 10\n1 2 3\n4 5 6");
        Assert.Null(file.Grid!.CellM(1, 2));
        Assert.Equal(5, file.Grid.CellM(1, 1));
        Assert.Contains(file.Findings, f => f.Code == "last-line-open");
    }

    [Theory]
    [InlineData("ncols 3 nrows 2 xllcorner 0 yllcorner 0 cellsize 10\n1 2 3\n4 5\n", "esri-count", null)]
    [InlineData("ncols 3 nrows 2 xllcorner 0 yllcorner 0 cellsize 10\n1 2 3\n4 5 6\n7\n", "esri-count", 4)]
    [InlineData("ncols 3 nrows 2 xllcorner 0 yllcorner 0 cellsize 10\n1 2 3\n4 five 6\n", "esri-number", 3)]
    [InlineData("ncols 3 nrows 2 xllcorner 0 yllcorner 0 cellsize 10\n1,5 2 3\n4 5 6\n", "esri-number", 2)]
    [InlineData("ncols 3\nnrows 2\nxllcorner 0\nyllcorner nan\ncellsize 10\n1 2 3\n4 5 6\n", "esri-header", 4)]
    [InlineData("ncols 3\nnrows two\nxllcorner 0\nyllcorner 0\ncellsize 10\n1 2 3\n4 5 6\n", "esri-header", 2)]
    [InlineData("ncols 3\nncols 3\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 10\n1 2 3\n4 5 6\n", "esri-header", 2)]
    [InlineData("ncols 3\nzone 13\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 10\n1 2 3\n4 5 6\n", "esri-header", 2)]
    [InlineData("ncols 3 nrows 2 xllcorner 0 xllcenter 0 yllcorner 0 cellsize 10\n1 2 3\n4 5 6\n", "esri-header", null)]
    [InlineData("ncols 3 nrows 2 yllcorner 0 cellsize 10\n1 2 3\n4 5 6\n", "esri-header", null)]
    [InlineData("ncols 3 nrows 2 xllcorner 0 yllcorner 0\n1 2 3\n4 5 6\n", "esri-header", null)]
    [InlineData("nrows 2 xllcorner 0 yllcorner 0 cellsize 10\n1 2 3\n4 5 6\n", "esri-header", null)]
    [InlineData("ncols 0 nrows 2 xllcorner 0 yllcorner 0 cellsize 10\n1 2 3\n4 5 6\n", "esri-header", null)]
    [InlineData("ncols -3 nrows 2 xllcorner 0 yllcorner 0 cellsize 10\n1 2 3\n4 5 6\n", "esri-header", null)]
    [InlineData("ncols 2.5 nrows 2 xllcorner 0 yllcorner 0 cellsize 10\n1 2 3\n4 5 6\n", "esri-header", null)]
    [InlineData("ncols 300000000 nrows 300000000 xllcorner 0 yllcorner 0 cellsize 10\n1 2 3\n4 5 6\n", "esri-count", null)]
    [InlineData("ncols 3 nrows 2 xllcorner 0 yllcorner 0 cellsize 0\n1 2 3\n4 5 6\n", "cell-size", null)]
    [InlineData("ncols 3 nrows 2 xllcorner 1e308 yllcorner 0 cellsize 1e308\n1 2 3\n4 5 6\n", "position-impossible", null)]
    [InlineData("ncols 3 nrows 2 xllcorner 0 yllcorner 0 cellsize 10 NODATA_value 5\n5 5 5\n5 5 5\n", "no-heights", null)]
    [InlineData("1 2 3\n4 5 6\n", "esri-header", null)]
    public void Read_SpoiledGrid_IsRefusedWithLine(string text, string code, int? line) =>
        Assert.Equal(line, SharedTerrain.AssertRefused(SharedTerrain.ReadText(text), code).Line);
}
