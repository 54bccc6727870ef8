using Stillhook.Files.Terrain;
using Stillhook.Recording;

namespace Stillhook.Fuzz.Targets;

/// <summary>The readers of ground heights.</summary>
public static class TerrainTargets
{
    public static FuzzTarget Esri { get; } = new("esri", bytes => Read(bytes, "a.asc"),
        ["ncols 4\n", "nrows 3\n", "xllcorner 8.1\n", "yllcorner 46.5\n", "xllcenter ", "cellsize 0.01\n", "dx ", "dy ", "NODATA_value -9999\n", "1e308", "nan", "-", "\r\n", "99999999999"]);

    public static FuzzTarget GeoTiff { get; } = new("geotiff", bytes => Read(bytes, "a.tif"), ["II*\0", "MM\0*", "\u0000\u0001", "\u0083\u000e", "\u0084\u0082"]);

    public static FuzzTarget Tile { get; } = new("hgt", bytes => Read(bytes, "N46E008.hgt"), ["\u0080\0"]);

    private static void Read(byte[] bytes, string name)
    {
        TerrainFile file = TerrainReader.Read(new MemoryStream(bytes), name);
        Rules.Worded(file.Findings);
        Rules.Must(file.Grid is not null ^ file.Findings.Any(f => f.Severity == Severity.Error), $"grid and error do not exclude each other");
        if (file.Grid is not { HighestM: { } highest } grid) return;
        Rules.Must(highest is >= -500 and <= 9000, $"highest {highest} m");
        grid.HeightM((grid.WestCentre + grid.EastCentre) / 2, (grid.SouthCentre + grid.NorthCentre) / 2);
    }
}
