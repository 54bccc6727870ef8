using System.Globalization;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace Stillhook.Store;

/// <summary>Bounds on what an archive may unpack to.</summary>
public sealed record ArchiveLimits
{
    /// <summary>All entries together, bytes.</summary>
    public long MostBytes { get; init; } = 8L << 30;

    /// <summary>One document, bytes.</summary>
    public long MostDocumentBytes { get; init; } = 256L << 20;

    /// <summary>Number of entries.</summary>
    public int MostEntries { get; init; } = 500_000;
}

/// <summary>Reads a zip with a manifest, whatever the order of its entries. Nothing is believed before its digest is right, and nothing is unpacked further than the manifest says.</summary>
internal sealed class ArchiveReader : IDisposable
{
    public const string ManifestName = "manifest.json";

    private const long MostManifestBytes = 128 << 20;

    private readonly ZipArchive zip;
    private readonly ArchiveLimits limits;
    private readonly Dictionary<string, ZipArchiveEntry> found;
    private readonly Dictionary<string, ArchiveEntry> said;

    public ArchiveReader(Stream from, ArchiveLimits limits)
    {
        this.limits = limits;
        zip = Opened(from);
        try
        {
            found = Found();
            if (!found.Remove(ManifestName, out ZipArchiveEntry? manifest))
                throw Bad($"There is no {ManifestName}: this is no archive or backup of this program.");
            Manifest = Read(ManifestName, manifest, Math.Min(limits.MostDocumentBytes, MostManifestBytes), ArchiveJson.Default.ArchiveManifest);
            said = Said();
        }
        catch
        {
            zip.Dispose();
            throw;
        }
    }

    public ArchiveManifest Manifest { get; }

    /// <summary>Names of all entries but the manifest, in order.</summary>
    public IEnumerable<string> Names => said.Keys.Order(StringComparer.Ordinal);

    /// <summary>A fault of an archive.</summary>
    public static StoreException Bad(string message, Exception? inner = null) => new(StoreFault.BadArchive, message + " Nothing was changed.", inner);

    /// <summary>Refuses another kind of file and a newer version.</summary>
    public void Want(string format, int version)
    {
        if (Manifest.Format != format)
            throw Bad($"{ManifestName}: format '{Manifest.Format}' found, '{format}' wanted.");
        if (Manifest.Version > version)
            throw new StoreException(StoreFault.NewerProgram, string.Create(CultureInfo.InvariantCulture, $"{ManifestName}: written as version {Manifest.Version}, this program reads up to {version}. Install a newer version of the program; nothing was changed."));
    }

    /// <summary>Unpacks every entry once without keeping it, so that a wrong one is found before anything is changed.</summary>
    public void CheckAll()
    {
        foreach (string name in Names)
            CopyTo(name, Stream.Null);
    }

    public bool Has(string name) => said.ContainsKey(name);

    /// <summary>An entry that was said to hold this digest.</summary>
    public ArchiveEntry Entry(string name) => said.GetValueOrDefault(name) ?? throw Bad($"{name} is missing.");

    public T Document<T>(string name)
    {
        ArchiveEntry entry = Entry(name);
        if (entry.Bytes > limits.MostDocumentBytes)
            throw Bad(string.Create(CultureInfo.InvariantCulture, $"{name} has {entry.Bytes:N0} bytes; a document has at most {limits.MostDocumentBytes:N0}."));
        using MemoryStream content = new();
        CopyTo(name, content);
        return Parse(name, content.GetBuffer().AsSpan(0, (int)content.Length), (JsonTypeInfo<T>)ArchiveJson.Default.GetTypeInfo(typeof(T))!);
    }

    public byte[] Bytes(string name)
    {
        using MemoryStream content = new();
        CopyTo(name, content);
        return content.ToArray();
    }

    /// <summary>Unpacks an entry, and refuses it when size or digest are not what the manifest says.</summary>
    public void CopyTo(string name, Stream to)
    {
        ArchiveEntry entry = Entry(name);
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        long bytes = Pieces(name, found[name], entry.Bytes, (buffer, count) =>
        {
            hash.AppendData(buffer, 0, count);
            to.Write(buffer, 0, count);
        });
        if (bytes != entry.Bytes)
            throw Bad(string.Create(CultureInfo.InvariantCulture, $"{name} holds {bytes:N0} bytes, the manifest says {entry.Bytes:N0}."));
        if (Convert.ToHexStringLower(hash.GetHashAndReset()) != entry.Sha256)
            throw Bad($"{name}: the digest is wrong; the file was changed or damaged.");
    }

    public void Dispose() => zip.Dispose();

    private static ZipArchive Opened(Stream from)
    {
        try
        {
            return new(from, ZipArchiveMode.Read, leaveOpen: true);
        }
        catch (InvalidDataException e)
        {
            throw Bad($"This is no zip file, or its end is missing: {e.Message}", e);
        }
    }

    private Dictionary<string, ZipArchiveEntry> Found()
    {
        Dictionary<string, ZipArchiveEntry> entries = new(StringComparer.Ordinal);
        try
        {
            if (zip.Entries.Count > limits.MostEntries)
                throw Bad(string.Create(CultureInfo.InvariantCulture, $"There are {zip.Entries.Count:N0} entries; at most {limits.MostEntries:N0} are read."));
            foreach (ZipArchiveEntry entry in zip.Entries)
            {
                if (!IsPlain(entry.FullName))
                    throw Bad($"Entry '{entry.FullName}' has a name that leads elsewhere; it is not from this program.");
                if (!entries.TryAdd(entry.FullName, entry))
                    throw Bad($"Entry '{entry.FullName}' is there twice.");
            }
        }
        catch (InvalidDataException e)
        {
            throw Bad($"The list of entries is damaged: {e.Message}", e);
        }
        return entries;
    }

    private Dictionary<string, ArchiveEntry> Said()
    {
        Dictionary<string, ArchiveEntry> entries = new(StringComparer.Ordinal);
        long left = limits.MostBytes;
        foreach (ArchiveEntry entry in Manifest.Entries)
        {
            if (!entries.TryAdd(entry.Name, entry))
                throw Bad($"{ManifestName}: '{entry.Name}' is there twice.");
            if (!found.ContainsKey(entry.Name))
                throw Bad($"{entry.Name} is missing.");
            if (entry.Bytes < 0 || entry.Bytes > left)
                throw Bad(string.Create(CultureInfo.InvariantCulture, $"{entry.Name}: unpacked, the archive is over {limits.MostBytes:N0} bytes."));
            left -= entry.Bytes;
        }
        if (found.Keys.FirstOrDefault(n => !entries.ContainsKey(n)) is { } extra)
            throw Bad($"Entry '{extra}' is not in {ManifestName}; it was added by somebody else.");
        return entries;
    }

    /// <summary>Letters, digits, dots, hyphens and single slashes: nothing that a file system could take for another place.</summary>
    private static bool IsPlain(string name) =>
        name.Length is > 0 and <= 200 && name.Split('/').All(part => part.Length > 0 && part[0] != '.' && part.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-'));

    private static T Read<T>(string name, ZipArchiveEntry entry, long most, JsonTypeInfo<T> type)
    {
        using MemoryStream content = new();
        Pieces(name, entry, most, (buffer, count) => content.Write(buffer, 0, count));
        return Parse(name, content.GetBuffer().AsSpan(0, (int)content.Length), type);
    }

    private static T Parse<T>(string name, ReadOnlySpan<byte> json, JsonTypeInfo<T> type)
    {
        try
        {
            return JsonSerializer.Deserialize(json, type) ?? throw Bad($"{name} is empty.");
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or FormatException)
        {
            throw Bad($"{name}: {e.Message}", e);
        }
    }

    /// <summary>Unpacks in pieces and stops where more comes than was said.</summary>
    private static long Pieces(string name, ZipArchiveEntry entry, long most, Action<byte[], int> piece)
    {
        byte[] buffer = new byte[1 << 16];
        long bytes = 0;
        using Stream content = OpenEntry(name, entry);
        while (true)
        {
            int read = ReadPiece(name, content, buffer);
            if (read == 0)
                return bytes;
            bytes += read;
            if (bytes > most)
                throw Bad(string.Create(CultureInfo.InvariantCulture, $"{name} unpacks to more than the {most:N0} bytes allowed for it."));
            piece(buffer, read);
        }
    }

    private static Stream OpenEntry(string name, ZipArchiveEntry entry)
    {
        try
        {
            return entry.Open();
        }
        catch (InvalidDataException e)
        {
            throw Bad($"{name} can't be unpacked: {e.Message}", e);
        }
    }

    private static int ReadPiece(string name, Stream content, byte[] buffer)
    {
        try
        {
            return content.Read(buffer, 0, buffer.Length);
        }
        catch (Exception e) when (e is InvalidDataException or EndOfStreamException)
        {
            throw Bad($"{name} can't be unpacked: {e.Message}", e);
        }
    }
}
