using Stillhook.Files.Records;
using Stillhook.Recording;

namespace Stillhook.Files.Terrain;

/// <summary>Reads ground heights: SRTM tiles (.hgt), Esri ASCII grids and uncompressed GeoTIFF.</summary>
/// <remarks>The format is told by content first, then by name. Bad content never throws: a file that can't be used whole gives no grid and one error.</remarks>
public static class TerrainReader
{
    /// <summary>Larger files are refused.</summary>
    public const int LargestBytes = 400_000_000;

    private const string Export = "Export it as an SRTM tile (.hgt), an Esri ASCII grid or an uncompressed GeoTIFF.";

    /// <summary>Reads a terrain file from a stream, which is left open.</summary>
    /// <param name="stream">Read forward only, from where it stands.</param>
    /// <param name="fileName">Name, with or without folders; an SRTM tile has its place in it.</param>
    public static TerrainFile Read(Stream stream, string fileName)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(fileName);
        var findings = new FindingLog();
        try
        {
            byte[] content = Load(stream);
            return new TerrainFile(ReadContent(content, fileName[(fileName.LastIndexOfAny(['/', '\\']) + 1)..]).Build(findings), findings.Findings);
        }
        catch (TerrainRefusedException refused)
        {
            return new TerrainFile(null, [.. findings.Findings, refused.Finding]);
        }
        catch (IOException)
        {
            return new TerrainFile(null, [new Finding(Severity.Error, "file-unreadable", null, 1, "The file can't be read to its end.", "Check that the card or disk is sound, or copy it first.")]);
        }
    }

    private static RawGrid ReadContent(byte[] content, string name)
    {
        string extension = Path.GetExtension(name).ToLowerInvariant();
        if (content.Length == 0)
            throw new TerrainRefusedException("empty", null, "The file is empty.", "Download or copy it again.");
        if (TiffDirectory.IsTiff(content) || extension is ".tif" or ".tiff") return GeoTiffReader.Read(content);
        if (content.AsSpan().StartsWith<byte>([0x1f, 0x8b]) || content.AsSpan().StartsWith("PK\x03\x04"u8))
            throw new TerrainRefusedException("packed", null, "The file is packed (gzip or zip).", "Unpack it and give the file inside.");
        if (EsriAsciiReader.IsEsri(content)) return EsriAsciiReader.Read(content);
        if (HgtReader.SideOf(content.Length) is not null || extension == ".hgt") return HgtReader.Read(content, name);
        if (extension == ".asc") return EsriAsciiReader.Read(content);
        throw new TerrainRefusedException("format-unknown", null, "The content is no known terrain format.", Export);
    }

    private static byte[] Load(Stream stream)
    {
        if (stream.CanSeek && stream.Length - stream.Position > LargestBytes) throw TooLarge();
        using var content = new MemoryStream(stream.CanSeek ? (int)Math.Max(0, stream.Length - stream.Position) : 0);
        byte[] part = new byte[1 << 16];
        for (int read; (read = stream.Read(part)) > 0;)
        {
            if (content.Length + read > LargestBytes) throw TooLarge();
            content.Write(part, 0, read);
        }

        return content.Length == content.Capacity ? content.GetBuffer() : content.ToArray();
    }

    private static TerrainRefusedException TooLarge() =>
        new("too-large", null, "The file is larger than 400 MB.", "Cut out the area of the job, with a few kilometres around it.");
}
