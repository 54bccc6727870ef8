using System.Diagnostics;
using Stillhook.Files.Terrain;
using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Terrain;

/// <summary>Good files spoiled, and files that are something else: a finding, no exception, soon.</summary>
public class SpoiledTerrainTests
{
    [Theory]
    [InlineData("d_N44W072_crop.asc")]
    [InlineData("west_bijou_gully.asc")]
    [InlineData("esri_4x3_no_nodata_line.asc")]
    [InlineData("whitebox_DEM.tif")]
    public void Read_CutAtEveryHundredthByte_IsRefused(string name)
    {
        byte[] whole = SharedTerrain.Bytes(name);
        for (int length = 0; length < whole.Length; length += name.EndsWith(".tif", StringComparison.Ordinal) ? 500 : 100)
        {
            TerrainFile file = SharedTerrain.Read(whole[..length], name);
            Assert.Null(file.Grid);
            Assert.Single(file.Findings, finding => finding.Severity == Severity.Error);
        }
    }

    // Every cut of a small GeoTIFF, whose directory stands at the end.
    [Theory]
    [InlineData(false), InlineData(true)]
    public void Read_SmallTiffCutAnywhere_IsRefused(bool big)
    {
        byte[] whole = TiffWriter.Plain(big, 32, 3).Bytes();
        Assert.NotNull(SharedTerrain.Read(whole, "a.tif").Grid);
        for (int length = 0; length < whole.Length; length++) Assert.Null(SharedTerrain.Read(whole[..length], "a.tif").Grid);
    }

    // A cut within the last height can't be told from a whole file without a line end: then that height is unknown.
    [Fact]
    public void Read_EsriCutInTheLastHeight_IsRefusedOrUnknownThere()
    {
        byte[] whole = SharedTerrain.Bytes("d_N44W072_crop.asc");
        for (int cut = 1; cut < 4; cut++)
        {
            TerrainFile file = SharedTerrain.Read(whole[..^cut], "crop.asc");
            Assert.Null(file.Grid!.CellM(120, 120));
            Assert.Contains(file.Findings, finding => finding.Code == "last-line-open");
        }

        SharedTerrain.AssertRefused(SharedTerrain.Read(whole[..^4], "crop.asc"), "esri-count");
    }

    // One byte changed at a time: never an exception, and whatever grid comes out has its heights within the possible.
    [Fact]
    public void Read_BytesChanged_NeverThrows()
    {
        byte[][] files = [TiffWriter.Plain(false, 16, 2).Bytes(), TiffWriter.Plain(true, 32, 3).Bytes(), SharedTerrain.Bytes("esri_4x3_no_nodata_line.asc")];
        int read = 0;
        foreach (byte[] good in files)
            for (int at = 0; at < good.Length; at++)
                foreach (byte value in (byte[])[0, 1, 9, (byte)'n', 0x7f, 0x80, 0xff])
                {
                    byte[] spoiled = [.. good];
                    spoiled[at] = value;
                    TerrainFile file = SharedTerrain.Read(spoiled, "ground.tif.asc");
                    Assert.True(file.Grid is not null || file.Findings.Count > 0);
                    if (file.Grid is ElevationGrid grid) Assert.InRange(grid.HighestM!.Value, -500, 9000);
                    read += file.Grid is null ? 0 : 1;
                }

        Assert.InRange(read, 100, 10_000);
    }

    [Fact]
    public void Read_CutTile_SaysTheSizeExpected()
    {
        Finding finding = SharedTerrain.AssertRefused(SharedTerrain.Read(new byte[2884800], "N44W072.hgt"), "hgt-size");
        Assert.Contains("2884802", finding.What, StringComparison.Ordinal);
        Assert.Contains("2884800", finding.What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("tile.hgt"), InlineData("N4W072.hgt"), InlineData("N91E000.hgt"), InlineData("N44W181.hgt"), InlineData("N44W0721.hgt")]
    public void Read_TileWithoutPlaceInName_IsRefused(string name) => SharedTerrain.AssertRefused(SharedTerrain.Read(new byte[2 * 1201 * 1201], name), "hgt-name");

    // Closed form: the name is the centre of the south-west cell; a tile ends one degree further.
    [Theory]
    [InlineData("N44W072.hgt", 44, -72), InlineData("s34e018.SRTMGL3.hgt", -34, 18), InlineData("some/folder/S01W001.hgt", -1, -1), InlineData("c:\\tiles\\n00_e179_3arc_v2", 0, 179)]
    public void Read_TileNames_GiveTheCorner(string name, int south, int west)
    {
        ElevationGrid grid = SharedTerrain.Read(new byte[2 * 1201 * 1201], name).Grid!;
        Assert.Equal((south, west), (grid.SouthCentre, grid.WestCentre));
        Assert.Equal((south + 1.0, west + 1.0), (grid.NorthCentre, grid.EastCentre));
    }

    // Closed form: the tile of 1 arc second; first and last cell, big-endian, and the void mark.
    [Fact]
    public void Read_OneArcSecondTile_IsBigEndianFromTheNorthWest()
    {
        byte[] tile = new byte[2 * 3601 * 3601];
        (tile[0], tile[1], tile[2], tile[^2], tile[^1]) = (0x01, 0x02, 0x80, 0xff, 0xfe);
        ElevationGrid grid = SharedTerrain.Read(tile, "N46E007.hgt").Grid!;
        Assert.Equal((258.0, null, -2.0), (grid.CellM(0, 0), grid.CellM(0, 1), grid.CellM(3600, 3600)));
        Assert.Equal(258, grid.HeightM(7, 47));
        Assert.Equal(-2, grid.HeightM(8, 46));
        Assert.Equal(1, grid.Voids);
    }

    [Fact]
    public void Read_SomethingElse_IsRefusedByName()
    {
        SharedTerrain.AssertRefused(SharedTerrain.Read([], "a.tif"), "empty");
        SharedTerrain.AssertRefused(SharedTerrain.Read([.. "II\x2b\0"u8, .. new byte[20]], "a.tif"), "tiff-big");
        SharedTerrain.AssertRefused(SharedTerrain.Read([.. "hello"u8], "a.tif"), "tiff-header");
        SharedTerrain.AssertRefused(SharedTerrain.Read([0x1f, 0x8b, 8, 0, 0], "N44W072.hgt.gz"), "packed");
        SharedTerrain.AssertRefused(SharedTerrain.Read([.. "hello"u8], "a.txt"), "format-unknown");
        SharedTerrain.AssertRefused(TerrainReader.Read(new BrokenStream(), "a.tif"), "file-unreadable");
    }

    [Fact]
    public void Read_LargerThanTheLimit_IsRefusedUnread()
    {
        var clock = Stopwatch.StartNew();
        SharedTerrain.AssertRefused(TerrainReader.Read(new EndlessStream(), "a.tif"), "too-large");
        Assert.InRange(clock.Elapsed.TotalSeconds, 0, 1);
    }

    private sealed class EndlessStream : MemoryStream
    {
        public override long Length => 400_000_001;

        public override int Read(Span<byte> buffer) => throw new InvalidOperationException("It was not to be read.");
    }

    private sealed class BrokenStream : MemoryStream
    {
        public override int Read(Span<byte> buffer) => throw new IOException();
    }
}
