using System.IO.Compression;
using System.Text;
using Stillhook.Files.Terrain;
using Stillhook.Physics.Earth;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Terrain;

/// <summary>The kept terrain files, and texts as files.</summary>
internal static class SharedTerrain
{
    public static byte[] Bytes(string name)
    {
        string path = Repository.File("tests/data/terrain/" + name);
        if (File.Exists(path)) return File.ReadAllBytes(path);
        using var packed = new GZipStream(File.OpenRead(path + ".gz"), CompressionMode.Decompress);
        using var plain = new MemoryStream();
        packed.CopyTo(plain);
        return plain.ToArray();
    }

    public static TerrainFile Read(string name) => Read(Bytes(name), name);

    public static TerrainFile Read(byte[] content, string name) => TerrainReader.Read(new MemoryStream(content), name);

    public static TerrainFile ReadText(string text, string name = "grid.asc") => Read(Encoding.UTF8.GetBytes(text), name);

    public static ElevationGrid Grid(string name) => Read(name).Grid ?? throw new InvalidOperationException(name);

    /// <summary>The file gives no grid, and its one error has this code and says how to mend it.</summary>
    public static Finding AssertRefused(TerrainFile file, string code)
    {
        Assert.Null(file.Grid);
        Finding error = Assert.Single(file.Findings, finding => finding.Severity == Severity.Error);
        Assert.Equal(code, error.Code);
        Assert.NotEmpty(error.What);
        Assert.NotEmpty(error.Done);
        return error;
    }
}
