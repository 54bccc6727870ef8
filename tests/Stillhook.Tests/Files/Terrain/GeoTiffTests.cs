using Stillhook.Files.Terrain;
using Stillhook.Physics.Earth;

namespace Stillhook.Tests.Files.Terrain;

public class GeoTiffTests
{
    public static TheoryData<bool, int, int> Kinds => new()
    {
        { false, 16, 1 }, { true, 16, 1 }, { false, 16, 2 }, { true, 16, 2 }, { false, 32, 1 }, { true, 32, 1 }, { false, 32, 2 }, { true, 32, 2 }, { false, 32, 3 }, { true, 32, 3 },
    };

    // Closed form: the file was written with these numbers by the tests' own writer.
    [Theory]
    [MemberData(nameof(Kinds))]
    public void Read_EachSampleKindAndByteOrder_SameGrid(bool big, int bits, int format)
    {
        ElevationGrid grid = Read(TiffWriter.Plain(big, bits, format)).Grid!;
        Assert.Equal((1005, 1990, 1970, 10, 20), (grid.WestCentre, grid.NorthCentre, grid.SouthCentre, grid.StepX, grid.StepY));
        Assert.Equal([1, 2, 3, 4, 5, 6], Enumerable.Range(0, 6).Select(i => grid.CellM(i / 3, i % 3)!.Value));
        Assert.Equal(GridCoordinates.ProjectedMetres, grid.Coordinates);
    }

    [Theory]
    [InlineData(16, 2), InlineData(32, 2), InlineData(32, 3)]
    public void Read_NegativeHeightsAndNodata_KeptAndUnknown(int bits, int format)
    {
        TiffWriter plain = TiffWriter.Plain(true, bits, format);
        double[] heights = [-4, -32768, 3, 4, 5, 6];
        heights.CopyTo(plain.Samples, 0);
        ElevationGrid grid = Read(plain).Grid!;
        Assert.Equal(-4, grid.CellM(0, 0));
        Assert.Null(grid.CellM(0, 1));
        Assert.Equal(1, grid.Voids);
    }

    // Closed form: a point pixel's tie is its centre; a tie at cell (2, 1) moves the grid by two and one cells.
    [Fact]
    public void Read_PixelIsPointAndTieInside_MovesTheCentres()
    {
        ElevationGrid grid = Read(TiffWriter.Plain(false, 32, 3).Short(34735, 1, 1, 0, 2, 1024, 0, 1, 1, 1025, 0, 1, 2).Double(33922, 2, 1, 0, 1000, 2000, 0)).Grid!;
        Assert.Equal((980, 2020), (grid.WestCentre, grid.NorthCentre));
    }

    [Fact]
    public void Read_GeographicModel_IsDegreesWhateverTheNumbers()
    {
        TiffWriter file = TiffWriter.Plain(false, 16, 2).Short(34735, 1, 1, 0, 1, 1024, 0, 1, 2).Double(33550, 2, 2, 0).Double(33922, 0, 0, 0, 10, 40, 0);
        Assert.Equal(GridCoordinates.Degrees, Read(file).Grid!.Coordinates);
        SharedTerrain.AssertRefused(Read(file.Double(33922, 0, 0, 0, 10, 4000, 0)), "position-impossible");
    }

    // Closed form: a matrix without rotation is scale and tie in one.
    [Fact]
    public void Read_MatrixWithoutRotation_SamePlace()
    {
        ElevationGrid grid = Read(Matrix(0)).Grid!;
        Assert.Equal((1005, 1990, 10, 20), (grid.WestCentre, grid.NorthCentre, grid.StepX, grid.StepY));
        SharedTerrain.AssertRefused(Read(Matrix(0.5)), "tiff-rotated");
    }

    [Fact]
    public void Read_ProjectionCode_IsNamed() =>
        Assert.Contains(Read(TiffWriter.Plain(false, 16, 2).Short(34735, 1, 1, 0, 2, 1024, 0, 1, 1, 3072, 0, 1, 32618)).Findings, f => f.Code == "coordinates-projected" && f.What.Contains("EPSG 32618", StringComparison.Ordinal));

    [Fact]
    public void Read_WhatIsNotRead_IsRefusedByName()
    {
        Refused("tiff-compressed", file => file.Short(259, 5));
        Refused("tiff-tiled", file => file.Short(322, 64));
        Refused("tiff-samples", file => file.Short(277, 3));
        Refused("tiff-orientation", file => file.Short(274, 4));
        Refused("tiff-sample", file => file.Short(258, 8));
        Refused("tiff-sample", file => file.Short(339, 6));
        Refused("tiff-place", file => file.Without(33550));
        Refused("tiff-place", file => file.Without(33922));
        Refused("tiff-scaled", file => file.Ascii(42112, "<GDALMetadata><Item name=\"SCALE\" sample=\"0\" role=\"scale\">0.1</Item></GDALMetadata>"));
        Refused("tiff-unit", file => file.Short(34735, 1, 1, 0, 2, 1024, 0, 1, 1, 4099, 0, 1, 9002));
        Refused("tiff-unit", file => file.Short(34735, 1, 1, 0, 2, 1024, 0, 1, 1, 3076, 0, 1, 9003));
        Refused("tiff-model", file => file.Short(34735, 1, 1, 0, 1, 1024, 0, 1, 3));
        Refused("tiff-nodata", file => file.Ascii(42113, "none"));
        Refused("tiff-size", file => file.Short(256, 0));
        Refused("tiff-cut", file => file.Short(256, 30000));
        Refused("tiff-strips", file => file.Short(257, 3));
        Refused("tiff-strips", file => file.Short(279, 5, 6));
        Refused("tiff-cut", file => file.Short(273, 8, 60000));
        Refused("tiff-tag", file => file.Double(273, double.NaN, 8));
        Refused("tiff-tag", file => file.Ascii(256, "3"));
        Refused("cell-size", file => file.Double(33550, 10, -20, 0));
        Refused("cell-size", file => file.Double(33550, double.NaN, 20, 0));
        Refused("position-impossible", file => file.Double(33922, 0, 0, 0, double.PositiveInfinity, 2000, 0));
    }

    private static TiffWriter Matrix(double turn) =>
        TiffWriter.Plain(false, 16, 2).Without(33550).Without(33922).Double(34264, 10, turn, 0, 1000, turn, -20, 0, 2000, 0, 0, 0, 0, 0, 0, 0, 1);

    private static void Refused(string code, Func<TiffWriter, TiffWriter> spoil) => SharedTerrain.AssertRefused(Read(spoil(TiffWriter.Plain(false, 16, 2))), code);

    private static TerrainFile Read(TiffWriter file) => SharedTerrain.Read(file.Bytes(), "ground.tif");
}
