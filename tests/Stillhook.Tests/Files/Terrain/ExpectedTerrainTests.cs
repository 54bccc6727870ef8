using System.Globalization;
using System.Text.Json;
using Stillhook.Physics.Earth;

namespace Stillhook.Tests.Files.Terrain;

/// <summary>Real record: the kept terrain files against an independent reader (tests/data/terrain/EXPECTED.json).</summary>
public class ExpectedTerrainTests
{
    public static TheoryData<string> Names => [.. Expected().EnumerateObject().Select(file => file.Name)];

    // Real record: tolerances are half of the last digit of the expected values (heights print 3 decimals, the mean 4, places 7 in degrees and 3 in metres).
    [Theory]
    [MemberData(nameof(Names))]
    public void Read_KeptFile_HasSizeHeightsAndVoids(string name)
    {
        JsonElement expected = Expected().GetProperty(name);
        ElevationGrid grid = SharedTerrain.Grid(name);
        Assert.Equal(expected.GetProperty("rows").GetInt32(), grid.Rows);
        Assert.Equal(expected.GetProperty("cols").GetInt32(), grid.Columns);
        Assert.Equal(expected.GetProperty("nodata_cells").GetInt64(), grid.Voids);
        Assert.Equal(expected.GetProperty("min_m").GetDouble(), grid.LowestM!.Value, 0.0006);
        Assert.Equal(expected.GetProperty("max_m").GetDouble(), grid.HighestM!.Value, 0.0006);
        Assert.Equal(expected.GetProperty("mean_m").GetDouble(), Mean(grid), 0.0001);
    }

    // Real record: the corners as stored (in the one file whose corners are its NODATA value they are unknown) and the highest cell by row, column and place.
    [Theory]
    [MemberData(nameof(Names))]
    public void Read_KeptFile_HasCornersAndHighestCellInPlace(string name)
    {
        JsonElement expected = Expected().GetProperty(name), highest = expected.GetProperty("highest");
        ElevationGrid grid = SharedTerrain.Grid(name);
        double?[] corners = [grid.CellM(0, 0), grid.CellM(0, grid.Columns - 1), grid.CellM(grid.Rows - 1, 0), grid.CellM(grid.Rows - 1, grid.Columns - 1)];
        double?[] stored = [.. expected.GetProperty("corners_nw_ne_sw_se").EnumerateArray().Select(corner => name.StartsWith("west_bijou", StringComparison.Ordinal) ? (double?)null : corner.GetDouble())];
        Assert.Equal(stored, corners);

        int row = highest.GetProperty("row").GetInt32(), column = highest.GetProperty("col").GetInt32();
        Assert.Equal(grid.HighestM, grid.CellM(row, column));
        (string x, string y) = highest.TryGetProperty("lon", out _) ? ("lon", "lat") : ("x", "y");
        double tolerance = grid.Coordinates == GridCoordinates.Degrees ? 0.6e-7 : 0.6e-3;
        // The GeoTIFF says a pixel is a point (GTRasterType 2), so its tie is a centre [GEOTIFF]; the independent reader took it for a corner, half a cell to the south-east.
        double asArea = name.EndsWith(".tif", StringComparison.Ordinal) ? 0.5 : 0;
        Assert.Equal(highest.GetProperty(x).GetDouble(), grid.WestCentre + (column + asArea) * grid.StepX, tolerance);
        Assert.Equal(highest.GetProperty(y).GetDouble(), grid.NorthCentre - (row + asArea) * grid.StepY, tolerance);
        Assert.Equal(grid.HighestM, grid.HeightM(grid.WestCentre + column * grid.StepX, grid.NorthCentre - row * grid.StepY));
    }

    [Theory]
    [InlineData("N44W072.hgt", GridCoordinates.Degrees)]
    [InlineData("d_N44W072_crop.asc", GridCoordinates.Degrees)]
    [InlineData("srtmgl3_colorado.asc", GridCoordinates.Degrees)]
    [InlineData("esri_4x3_no_nodata_line.asc", GridCoordinates.ProjectedMetres)]
    [InlineData("west_bijou_gully.asc", GridCoordinates.ProjectedMetres)]
    [InlineData("whitebox_DEM.tif", GridCoordinates.ProjectedMetres)]
    public void Read_KeptFile_TellsDegreesFromMetres(string name, GridCoordinates coordinates) => Assert.Equal(coordinates, SharedTerrain.Grid(name).Coordinates);

    // Real record: the corners in the headings of the Esri grids, moved by half a cell; the tie of the GeoTIFF is a centre.
    [Fact]
    public void Read_KeptFile_CentresLieWhereTheHeadingSays()
    {
        foreach (JsonProperty file in Expected().EnumerateObject().Where(file => file.Value.TryGetProperty("header", out _)))
        {
            JsonElement header = file.Value.GetProperty("header");
            double cell = header.GetProperty("cellsize").GetDouble();
            ElevationGrid grid = SharedTerrain.Grid(file.Name);
            Assert.Equal(cell, grid.StepX);
            Assert.Equal(cell, grid.StepY);
            Assert.Equal(header.GetProperty("xllcorner").GetDouble() + cell / 2, grid.WestCentre, 1e-9);
            Assert.Equal(header.GetProperty("yllcorner").GetDouble() + cell / 2, grid.SouthCentre, 1e-9);
        }

        JsonElement tiff = Expected().GetProperty("whitebox_DEM.tif");
        double[] scale = [.. tiff.GetProperty("pixel_scale").EnumerateArray().Select(v => v.GetDouble())], tie = [.. tiff.GetProperty("tiepoint").EnumerateArray().Select(v => v.GetDouble())];
        ElevationGrid dem = SharedTerrain.Grid("whitebox_DEM.tif");
        Assert.Equal(tie[3], dem.WestCentre, 1e-6);
        Assert.Equal(tie[4], dem.NorthCentre, 1e-6);
        Assert.Equal((scale[0], scale[1]), (dem.StepX, dem.StepY));
    }

    // Real record: the crop is the same ground as the tile, by place. The heading's cell size has 9 digits, so places differ by up to 1e-9°: below 0.001 m of height.
    [Fact]
    public void HeightM_CropOfTheTile_EqualsTheTile()
    {
        ElevationGrid tile = SharedTerrain.Grid("N44W072.hgt"), crop = SharedTerrain.Grid("d_N44W072_crop.asc");
        for (int row = 0; row < crop.Rows; row++)
            for (int column = 0; column < crop.Columns; column++)
            {
                double x = crop.WestCentre + column * crop.StepX, y = crop.NorthCentre - row * crop.StepY;
                Assert.Equal(crop.CellM(row, column)!.Value, tile.HeightM(x, y)!.Value, 0.001);
            }

        Assert.Equal(tile.HeightM(-71.31234, 44.25678)!.Value, crop.HeightM(-71.31234, 44.25678)!.Value, 0.001);
    }

    // Real record: under a comma-decimal culture the same values come out.
    [Theory]
    [MemberData(nameof(Names))]
    public void Read_CommaDecimalCulture_SameGrid(string name)
    {
        ElevationGrid plain = SharedTerrain.Grid(name);
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo("de-DE");
            ElevationGrid comma = SharedTerrain.Grid(name);
            Assert.Equal((plain.WestCentre, plain.SouthCentre, plain.StepX, plain.LowestM, plain.HighestM, plain.Voids), (comma.WestCentre, comma.SouthCentre, comma.StepX, comma.LowestM, comma.HighestM, comma.Voids));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static double Mean(ElevationGrid grid)
    {
        double sum = 0;
        for (int row = 0; row < grid.Rows; row++)
            for (int column = 0; column < grid.Columns; column++)
                sum += grid.CellM(row, column) ?? 0;
        return sum / ((long)grid.Rows * grid.Columns - grid.Voids);
    }

    private static JsonElement Expected() => JsonDocument.Parse(File.ReadAllText(Repository.File("tests/data/terrain/EXPECTED.json"))).RootElement.GetProperty("files");
}
