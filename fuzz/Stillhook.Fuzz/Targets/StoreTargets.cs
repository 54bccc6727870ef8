using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stillhook.Store;

namespace Stillhook.Fuzz.Targets;

/// <summary>Archives: the zip itself, and documents whose digests are right.</summary>
public static class StoreTargets
{
    private static readonly Lazy<byte[]> s_empty = new(EmptyStore);

    public static FuzzTarget Zip { get; } = new("archive", bytes =>
    {
        try
        {
            using ArchiveReader reader = new(new MemoryStream(bytes), new() { MostBytes = 4 << 20 });
            reader.Want(Archive.Format, Archive.Version);
            reader.CheckAll();
        }
        catch (StoreException e) when (e.Fault is StoreFault.BadArchive or StoreFault.NewerProgram)
        {
            Rules.Must(e.Message.Length > 0, $"no words");
        }
    }, ["PK\u0003\u0004", "PK\u0001\u0002", "PK\u0005\u0006", "manifest.json", "../", "jobs.json", "\"entries\"", "\"bytes\""], 8192);

    /// <summary>The input is entries, each a line '== NAME' and its text; they are packed with the digests they need and imported into an empty store.</summary>
    public static FuzzTarget Contents { get; } = new("archive-contents", bytes =>
    {
        using FuzzFolder folder = new();
        string file = Path.Combine(folder.Path, "a.db");
        File.WriteAllBytes(file, s_empty.Value);
        WorkStore store = WorkStore.Open(file);
        try
        {
            Archive.Import(store, new MemoryStream(Packed(bytes)));
            store.Jobs.List();
            store.Days.Read(new(new(2026, 6, 1)));
            foreach (Flight flight in store.Flights.List()) _ = (store.Lifts.OfFlight(flight.Id), store.Flights.Track(flight.Id), store.Flights.HoversOf(flight.Id), store.Flights.Airborne(flight.Id));
            using MemoryStream again = new();
            Archive.ExportAll(store, again);
        }
        catch (StoreException e) when (e.Fault is StoreFault.BadArchive or StoreFault.NewerProgram)
        {
            Rules.Must(store.Jobs.List().Count == 0 && store.Flights.List().Count == 0 && store.Sites.List().Count == 0, $"refused, and something of it was kept");
        }
        finally
        {
            SqliteConnection.ClearAllPools();
        }
    }, ["\n== jobs.json\n", "\n== sites.json\n", "\n== days.json\n", "null", "[]", "{}", "\"key\"", "\"00000000-0000-0000-0000-000000000001\"", "\"2026-06-01\"", "1e308", "-1", "true", "\"kind\"", "\"json\"", "\"corrections\"", "\"lift\"", "\"number\""], 16_384);

    /// <summary>Entries as text of the kind that <see cref="Contents"/> takes.</summary>
    public static byte[] Unpacked(byte[] archive)
    {
        MemoryStream text = new();
        using ZipArchive zip = new(new MemoryStream(archive));
        foreach (ZipArchiveEntry entry in zip.Entries.Where(e => e.FullName != ArchiveReader.ManifestName))
        {
            text.Write(Encoding.UTF8.GetBytes($"\n== {entry.FullName}\n"));
            using Stream content = entry.Open();
            content.CopyTo(text);
        }
        return text.ToArray();
    }

    private static byte[] Packed(byte[] bytes)
    {
        Dictionary<string, byte[]> entries = new(StringComparer.Ordinal);
        foreach (string part in Encoding.Latin1.GetString(bytes).Split("\n== ").Skip(1))
        {
            int end = part.IndexOf('\n', StringComparison.Ordinal);
            if (end > 0) entries.TryAdd(part[..end], Encoding.Latin1.GetBytes(part[(end + 1)..]));
        }
        object manifest = new
        {
            format = Archive.Format, version = Archive.Version,
            entries = entries.Select(e => new { name = e.Key, bytes = e.Value.Length, sha256 = Convert.ToHexStringLower(SHA256.HashData(e.Value)) }),
        };
        MemoryStream packed = new();
        using (ZipArchive zip = new(packed, ZipArchiveMode.Create, leaveOpen: true))
            foreach ((string name, byte[] content) in entries.Append(new(ArchiveReader.ManifestName, JsonSerializer.SerializeToUtf8Bytes(manifest))))
            {
                using Stream into = zip.CreateEntry(name, CompressionLevel.NoCompression).Open();
                into.Write(content);
            }
        return packed.ToArray();
    }

    private static byte[] EmptyStore()
    {
        using FuzzFolder folder = new();
        string file = Path.Combine(folder.Path, "empty.db");
        WorkStore.Open(file);
        SqliteConnection.ClearAllPools();
        return File.ReadAllBytes(file);
    }
}
