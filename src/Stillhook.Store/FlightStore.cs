using System.Data.Common;
using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Stillhook.Store;

/// <summary>Flights kept in one SQLite file. Safe to use from several threads: each call opens its own connection.</summary>
public sealed class FlightStore
{
    private readonly DbContextOptions<StillhookContext> options;
    private readonly string path;

    private FlightStore(string path)
    {
        this.path = path;
        SqliteConnectionStringBuilder connection = new() { DataSource = path, ForeignKeys = true, DefaultTimeout = 10 };
        options = new DbContextOptionsBuilder<StillhookContext>()
            .UseSqlite(connection.ToString())
            .AddInterceptors(new SafeWrites())
            .Options;
    }

    /// <summary>Opens the store, making the file and its folder when they aren't there and bringing an older file up to date.</summary>
    public static FlightStore Open(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        string full = Path.GetFullPath(path);
        Directory.CreateDirectory(Path.GetDirectoryName(full)!);
        FlightStore store = new(full);
        using StillhookContext context = store.Context();
        context.Database.Migrate();
        return store;
    }

    /// <summary>Folder the store's file lies in.</summary>
    public string Folder => Path.GetDirectoryName(path)!;

    /// <summary>Takes a record in, byte for byte. The same bytes are kept once, whatever their name.</summary>
    /// <param name="name">Name for people: the file's name.</param>
    /// <param name="content">The record's bytes, read to the end in pieces; never held in memory as a whole.</param>
    /// <param name="importedAt">Now, as the caller's clock says.</param>
    /// <param name="jobText">Text of the job file that goes with it, if any.</param>
    public AddedFlight Add(string name, Stream content, DateTimeOffset importedAt, string? jobText = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        ArgumentNullException.ThrowIfNull(content);
        // The digest has to be known before a row is made, so the bytes wait in a file beside the store.
        using FileStream waiting = new(Path.Combine(Folder, Path.GetRandomFileName()), FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 1 << 16, FileOptions.DeleteOnClose);
        string digest = CopyWithDigest(content, waiting);
        using StillhookContext context = Context();
        using var transaction = context.Database.BeginTransaction();
        if (context.Flights.FirstOrDefault(f => f.Digest == digest) is { } there)
            return new(ToFlight(there), AlreadyThere: true);
        FlightRow row = new() { Name = name, Digest = digest, Bytes = waiting.Length, ImportedAt = importedAt.ToUniversalTime(), JobText = jobText };
        context.Flights.Add(row);
        context.SaveChanges();
        WriteContent((SqliteConnection)context.Database.GetDbConnection(), row.Id, waiting);
        transaction.Commit();
        return new(ToFlight(row), AlreadyThere: false);
    }

    /// <summary>All flights, the newest import first.</summary>
    public IReadOnlyList<Flight> List()
    {
        using StillhookContext context = Context();
        return [.. context.Flights.AsNoTracking().OrderByDescending(f => f.ImportedAt).ThenByDescending(f => f.Id).AsEnumerable().Select(ToFlight)];
    }

    /// <summary>One flight, or null.</summary>
    public Flight? Find(long id)
    {
        using StillhookContext context = Context();
        return context.Flights.AsNoTracking().FirstOrDefault(f => f.Id == id) is { } row ? ToFlight(row) : null;
    }

    /// <summary>The record's bytes as they came, to be read once and disposed; null when there is no such flight.</summary>
    public Stream? OpenRecord(long id)
    {
        StillhookContext context = Context();
        context.Database.OpenConnection();
        SqliteConnection connection = (SqliteConnection)context.Database.GetDbConnection();
        if (!context.Records.Any(r => r.FlightId == id))
        {
            context.Dispose();
            return null;
        }
        return new RecordStream(new SqliteBlob(connection, "record", "Content", id, readOnly: true), context);
    }

    /// <summary>Keeps the crew's figures as typed.</summary>
    public void SaveTyped(long id, IReadOnlyDictionary<string, string> typed)
    {
        string json = JsonSerializer.Serialize(typed);
        using StillhookContext context = Context();
        context.Flights.Where(f => f.Id == id).ExecuteUpdate(set => set.SetProperty(f => f.TypedJson, json));
    }

    /// <summary>Keeps a debrief in short.</summary>
    public void SaveSummary(long id, FlightSummary summary)
    {
        string json = JsonSerializer.Serialize(summary);
        using StillhookContext context = Context();
        context.Flights.Where(f => f.Id == id).ExecuteUpdate(set => set.SetProperty(f => f.SummaryJson, json));
    }

    /// <summary>Removes a flight and its record for good; false when there was none.</summary>
    public bool Remove(long id)
    {
        using StillhookContext context = Context();
        return context.Flights.Where(f => f.Id == id).ExecuteDelete() > 0;
    }

    private StillhookContext Context() => new(options);

    private static string CopyWithDigest(Stream from, FileStream to)
    {
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] buffer = new byte[1 << 16];
        for (int read; (read = from.Read(buffer, 0, buffer.Length)) > 0;)
        {
            hash.AppendData(buffer, 0, read);
            to.Write(buffer, 0, read);
        }
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    private static void WriteContent(SqliteConnection connection, long id, FileStream content)
    {
        using SqliteCommand insert = connection.CreateCommand();
        insert.CommandText = "INSERT INTO record (FlightId, Content) VALUES ($id, zeroblob($bytes))";
        insert.Parameters.AddWithValue("$id", id);
        insert.Parameters.AddWithValue("$bytes", content.Length);
        insert.ExecuteNonQuery();
        content.Position = 0;
        using SqliteBlob blob = new(connection, "record", "Content", id);
        content.CopyTo(blob);
    }

    private static Flight ToFlight(FlightRow row) => new()
    {
        Id = row.Id,
        Name = row.Name,
        Digest = row.Digest,
        Bytes = row.Bytes,
        ImportedAt = row.ImportedAt,
        JobText = row.JobText,
        Typed = row.TypedJson is null ? new Dictionary<string, string>() : JsonSerializer.Deserialize<Dictionary<string, string>>(row.TypedJson)!,
        Summary = row.SummaryJson is null ? null : JsonSerializer.Deserialize<FlightSummary>(row.SummaryJson),
    };

    /// <summary>Every connection keeps what was written even when the power goes: write-ahead log, full synchronisation, and a wait instead of 'busy'.</summary>
    private sealed class SafeWrites : DbConnectionInterceptor
    {
        public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
        {
            using DbCommand pragma = connection.CreateCommand();
            pragma.CommandText = "PRAGMA journal_mode=wal; PRAGMA synchronous=full; PRAGMA busy_timeout=10000; PRAGMA foreign_keys=on;";
            pragma.ExecuteNonQuery();
        }
    }

    /// <summary>A record's bytes; closing it gives the connection back.</summary>
    private sealed class RecordStream(SqliteBlob blob, StillhookContext context) : Stream
    {
        public override bool CanRead => true;
        public override bool CanSeek => true;
        public override bool CanWrite => false;
        public override long Length => blob.Length;
        public override long Position { get => blob.Position; set => blob.Position = value; }
        public override int Read(byte[] buffer, int offset, int count) => blob.Read(buffer, offset, count);
        public override int Read(Span<byte> buffer) => blob.Read(buffer);
        public override long Seek(long offset, SeekOrigin origin) => blob.Seek(offset, origin);
        public override void Flush() { }
        public override void SetLength(long value) => throw new NotSupportedException();
        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        protected override void Dispose(bool disposing)
        {
            if (disposing)
            {
                blob.Dispose();
                context.Dispose();
            }
            base.Dispose(disposing);
        }
    }
}
