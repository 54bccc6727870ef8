using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace Stillhook.Store;

/// <summary>Writes the entries of a zip with their digests, and the manifest at the end. The same contents give the same bytes.</summary>
internal sealed class ArchiveWriter(Stream to, string format, int version) : IDisposable
{
    private static readonly DateTimeOffset NoTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero); // the zip format's first moment

    private readonly ZipArchive zip = new(to, ZipArchiveMode.Create, leaveOpen: true);
    private readonly List<ArchiveEntry> entries = [];

    public void Document<T>(string name, T document) => Bytes(name, JsonSerializer.SerializeToUtf8Bytes(document, (JsonTypeInfo<T>)ArchiveJson.Default.GetTypeInfo(typeof(T))!));

    public void Bytes(string name, byte[] bytes)
    {
        using MemoryStream content = new(bytes);
        Copy(name, content);
    }

    public void Copy(string name, Stream content)
    {
        (long bytes, string digest) = Put(name, content);
        entries.Add(new(name, bytes, digest));
    }

    /// <summary>Writes the manifest; nothing can be added afterwards.</summary>
    public void Finish()
    {
        ArchiveManifest manifest = new(format, version, entries);
        using MemoryStream content = new(JsonSerializer.SerializeToUtf8Bytes(manifest, ArchiveJson.Default.ArchiveManifest));
        Put(ArchiveReader.ManifestName, content);
    }

    public void Dispose() => zip.Dispose();

    private (long Bytes, string Digest) Put(string name, Stream content)
    {
        ZipArchiveEntry entry = zip.CreateEntry(name, CompressionLevel.Fastest);
        entry.LastWriteTime = NoTime;
        using Stream into = entry.Open();
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] buffer = new byte[1 << 16];
        long bytes = 0;
        for (int read; (read = content.Read(buffer, 0, buffer.Length)) > 0; bytes += read)
        {
            hash.AppendData(buffer, 0, read);
            into.Write(buffer, 0, read);
        }
        return (bytes, Convert.ToHexStringLower(hash.GetHashAndReset()));
    }
}
