using System.Data;
using System.Data.Common;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.EntityFrameworkCore.Storage;

namespace Stillhook.Store;

/// <summary>One SQLite file: write-ahead log, full synchronisation, foreign keys.</summary>
internal sealed class SqliteDatabase : Database
{
    private const long MostRecordBytes = 1_000_000_000; // SQLite's own bound on one value

    private readonly DbContextOptions<SqliteContext> options;
    private readonly StoreOptions store;

    public SqliteDatabase(string path, StoreOptions store)
    {
        File = Path.GetFullPath(path);
        this.store = store;
        SqliteConnectionStringBuilder connection = new() { DataSource = File, ForeignKeys = true, DefaultTimeout = Math.Max(1, (int)Math.Ceiling(store.Patience.TotalSeconds)) };
        options = new DbContextOptionsBuilder<SqliteContext>()
            .UseSqlite(connection.ToString())
            .AddInterceptors([new SafeWrites(store), .. store.Interceptors])
            .Options;
    }

    /// <summary>The store's file.</summary>
    public string File { get; }

    public override string Folder => Path.GetDirectoryName(File)!;

    public override string CountHistories => "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = '__EFMigrationsHistory'";

    public override string WaitingFolder => Folder;

    public override StillhookContext Context() => new SqliteContext(options);

    public override void Prepare()
    {
        Directory.CreateDirectory(WaitingFolder);
        using StillhookContext context = Context();
        context.Database.OpenConnection();
        Remnants.Clear(WaitingFolder);
        // The mode stays with the file. A switch doesn't wait for other programs by itself, so it is tried again.
        DateTime end = DateTime.UtcNow + store.Patience;
        while (true)
        {
            try
            {
                using DbCommand pragma = context.Database.GetDbConnection().CreateCommand();
                pragma.CommandText = "PRAGMA journal_mode=wal";
                if (pragma.ExecuteScalar() is string mode && mode != "wal")
                    throw new StoreException(StoreFault.Unreachable, $"{File}: this file system can't keep a write-ahead log (mode '{mode}'). Choose a place on a local disk.");
                return;
            }
            catch (SqliteException e) when (e.SqliteErrorCode is 5 or 6 && DateTime.UtcNow < end)
            {
                Thread.Sleep(20);
            }
        }
    }

    public override IDbContextTransaction BeginReading(StillhookContext context)
    {
        context.Database.OpenConnection();
        // Deferred: takes no lock, and sees the moment of its first read.
        return context.Database.UseTransaction(((SqliteConnection)context.Database.GetDbConnection()).BeginTransaction(deferred: true))!;
    }

    public override IDbContextTransaction BeginWriting(StillhookContext context) => context.Database.BeginTransaction(); // takes the writer's lock at once

    public override bool HoldsSomethingElse(StillhookContext context)
    {
        context.Database.OpenConnection();
        using DbCommand count = context.Database.GetDbConnection().CreateCommand();
        count.Transaction = context.Database.CurrentTransaction?.GetDbTransaction();
        count.CommandText = "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name NOT LIKE '\\_\\_EF%' ESCAPE '\\' AND name NOT LIKE 'sqlite%'";
        return Convert.ToInt64(count.ExecuteScalar(), CultureInfo.InvariantCulture) > 0;
    }

    public override void WriteRecord(StillhookContext context, long flightId, Stream content, long bytes)
    {
        if (bytes > MostRecordBytes)
            throw new StoreException(StoreFault.Failed, string.Create(CultureInfo.InvariantCulture, $"The record has {bytes:N0} bytes; at most {MostRecordBytes:N0} can be kept. Cut it into days."));
        SqliteConnection connection = (SqliteConnection)context.Database.GetDbConnection();
        using SqliteCommand insert = connection.CreateCommand();
        insert.Transaction = (SqliteTransaction)context.Database.CurrentTransaction!.GetDbTransaction();
        insert.CommandText = "INSERT INTO record (FlightId, Content) VALUES ($id, zeroblob($bytes))";
        insert.Parameters.AddWithValue("$id", flightId);
        insert.Parameters.AddWithValue("$bytes", bytes);
        insert.ExecuteNonQuery();
        using SqliteBlob blob = new(connection, "record", "Content", flightId);
        content.CopyTo(blob);
    }

    public override Stream? OpenRecord(StillhookContext context, long flightId, IDisposable? owner)
    {
        context.Database.OpenConnection();
        return context.Records.Any(r => r.FlightId == flightId)
            ? new RecordStream(new SqliteBlob((SqliteConnection)context.Database.GetDbConnection(), "record", "Content", flightId, readOnly: true), owner)
            : null;
    }

    protected override StoreException? ExplainOwn(Exception found, Exception whole) => found is not SqliteException sqlite
        ? ExplainFile(found, whole, File)
        : sqlite.SqliteErrorCode switch
        {
            3 or 8 or 23 => new(StoreFault.ReadOnly, $"{File} can't be written (or its folder can't): choose another place or have the permissions changed.", whole),
            5 or 6 => new(StoreFault.Busy, $"{File}: another program has kept it locked for {store.Patience.TotalSeconds.ToString("0.#", CultureInfo.InvariantCulture)} s. Nothing of this was kept; close the other program or try again.", whole),
            11 => new(StoreFault.Damaged, $"{File} is damaged. Set it aside and restore the last backup.", whole),
            13 => Full(File, whole),
            14 => new(StoreFault.Unreachable, $"{File} can't be opened: check that the folder is there and can be read and written.", whole),
            26 => new(StoreFault.NotAStore, $"{File} is not a store of this program. Choose another place; nothing was changed.", whole),
            _ => new(StoreFault.Failed, $"{File}: {sqlite.Message} Nothing of this was kept.", whole),
        };

    /// <summary>Every connection keeps what was written even when the power goes, and waits instead of giving up at once.</summary>
    private sealed class SafeWrites(StoreOptions store) : DbConnectionInterceptor
    {
        // Set every time: a pooled connection keeps what it was last told.
        private const long NoLimit = 4_294_967_294;

        private readonly string pragmas = string.Create(CultureInfo.InvariantCulture,
            $"PRAGMA busy_timeout={(int)store.Patience.TotalMilliseconds}; PRAGMA synchronous=full; PRAGMA foreign_keys=on; PRAGMA max_page_count={(store.MostPages > 0 ? store.MostPages : NoLimit)};");

        public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
        {
            using DbCommand pragma = connection.CreateCommand();
            pragma.CommandText = pragmas;
            pragma.ExecuteNonQuery();
        }
    }
}
