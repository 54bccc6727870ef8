using System.Data;
using System.Data.Common;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;
using NpgsqlTypes;

namespace Stillhook.Store;

/// <summary>A PostgreSQL database. Writers take turns by one advisory lock, so that they behave as on SQLite.</summary>
internal sealed class PostgresDatabase : Database
{
    private const long WritersLock = 0x5374696C6C686F6B; // 'Stillhok'
    private const long MostRecordBytes = 1_000_000_000; // PostgreSQL's bound on one value is 1 GiB

    private readonly DbContextOptions<PostgresContext> options;
    private readonly StoreOptions store;
    private readonly string place;

    public PostgresDatabase(string connectionString, StoreOptions store)
    {
        this.store = store;
        NpgsqlConnectionStringBuilder connection = Parsed(connectionString);
        place = string.Create(CultureInfo.InvariantCulture, $"database '{connection.Database}' on {connection.Host}:{connection.Port}"); // never the password
        options = new DbContextOptionsBuilder<PostgresContext>().UseNpgsql(connection.ToString()).AddInterceptors(store.Interceptors).Options;
    }

    public override string Folder { get; } = Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "Stillhook");

    public override string CountHistories => "SELECT count(*) FROM pg_class WHERE oid = to_regclass('\"__EFMigrationsHistory\"')";

    public override string WaitingFolder => Path.GetTempPath();

    /// <summary>Whether a place is a connection string and no file.</summary>
    public static bool IsConnection(string place) =>
        place.Split(';').Any(p => p.Split('=') is [{ } key, _, ..] && key.Trim().Equals("host", StringComparison.OrdinalIgnoreCase));

    public override StillhookContext Context() => new PostgresContext(options);

    public override void Prepare()
    {
    }

    public override IDbContextTransaction BeginReading(StillhookContext context) => context.Database.BeginTransaction(IsolationLevel.RepeatableRead);

    public override IDbContextTransaction BeginWriting(StillhookContext context)
    {
        IDbContextTransaction transaction = context.Database.BeginTransaction();
        try
        {
            using DbCommand wait = context.Database.GetDbConnection().CreateCommand();
            wait.Transaction = transaction.GetDbTransaction();
            wait.CommandText = string.Create(CultureInfo.InvariantCulture,
                $"SET LOCAL lock_timeout = {(int)store.Patience.TotalMilliseconds}; SELECT pg_advisory_xact_lock({WritersLock}); SET LOCAL synchronous_commit = on;");
            wait.ExecuteNonQuery();
            return transaction;
        }
        catch
        {
            transaction.Dispose();
            throw;
        }
    }

    public override bool HoldsSomethingElse(StillhookContext context) => false; // a database may be shared; a table of the same name is refused when ours is made

    public override void WriteRecord(StillhookContext context, long flightId, Stream content, long bytes)
    {
        if (bytes > MostRecordBytes)
            throw new StoreException(StoreFault.Failed, string.Create(CultureInfo.InvariantCulture, $"The record has {bytes:N0} bytes; at most {MostRecordBytes:N0} can be kept. Cut it into days."));
        using NpgsqlCommand insert = ((NpgsqlConnection)context.Database.GetDbConnection()).CreateCommand();
        insert.Transaction = (NpgsqlTransaction)context.Database.CurrentTransaction!.GetDbTransaction();
        insert.CommandText = "INSERT INTO record (\"FlightId\", \"Content\") VALUES ($1, $2)";
        insert.Parameters.Add(new() { Value = flightId });
        insert.Parameters.Add(new() { Value = content, NpgsqlDbType = NpgsqlDbType.Bytea });
        insert.ExecuteNonQuery();
    }

    public override Stream? OpenRecord(StillhookContext context, long flightId, IDisposable? owner)
    {
        context.Database.OpenConnection();
        using NpgsqlCommand select = ((NpgsqlConnection)context.Database.GetDbConnection()).CreateCommand();
        select.Transaction = (NpgsqlTransaction?)context.Database.CurrentTransaction?.GetDbTransaction();
        select.CommandText = "SELECT \"Content\" FROM record WHERE \"FlightId\" = $1";
        select.Parameters.Add(new() { Value = flightId });
        using NpgsqlDataReader reader = select.ExecuteReader(CommandBehavior.SequentialAccess);
        if (!reader.Read())
            return null;
        // Readers go back and forth in a record, the connection's stream can't.
        FileStream waiting = Remnants.Waiting(WaitingFolder);
        try
        {
            using Stream content = reader.GetStream(0);
            content.CopyTo(waiting);
            waiting.Position = 0;
            return new RecordStream(waiting, owner);
        }
        catch
        {
            waiting.Dispose();
            throw;
        }
    }

    protected override StoreException? ExplainOwn(Exception found, Exception whole) => found switch
    {
        PostgresException p => Explain(p, whole),
        NpgsqlException => new(StoreFault.Unreachable, $"The {place} doesn't answer: {found.Message} Check the connection string, the network and that the server runs.", whole),
        TimeoutException => new(StoreFault.Unreachable, $"The {place} doesn't answer in time.", whole),
        _ => ExplainFile(found, whole, WaitingFolder),
    };

    private StoreException Explain(PostgresException p, Exception whole) => p.SqlState switch
    {
        PostgresErrorCodes.DiskFull => Full($"The {place}", whole),
        PostgresErrorCodes.LockNotAvailable => new(StoreFault.Busy, $"The {place}: another program has kept it locked for {store.Patience.TotalSeconds.ToString("0.#", CultureInfo.InvariantCulture)} s. Nothing of this was kept; try again.", whole),
        PostgresErrorCodes.TooManyConnections => new(StoreFault.Busy, $"The {place} takes no more connections now. Nothing of this was kept; try again.", whole),
        PostgresErrorCodes.ReadOnlySqlTransaction or PostgresErrorCodes.InsufficientPrivilege => new(StoreFault.ReadOnly, $"The {place} can't be written by this user: {p.MessageText}", whole),
        PostgresErrorCodes.DuplicateTable => new(StoreFault.NotAStore, $"The {place} holds tables of another program: {p.MessageText} Choose an empty database; nothing was changed.", whole),
        PostgresErrorCodes.InvalidCatalogName or PostgresErrorCodes.InvalidPassword or PostgresErrorCodes.InvalidAuthorizationSpecification =>
            new(StoreFault.Unreachable, $"The {place} can't be opened: {p.MessageText}. Check the connection string.", whole),
        _ => new(StoreFault.Failed, $"The {place}: {p.MessageText}. Nothing of this was kept.", whole),
    };

    private static NpgsqlConnectionStringBuilder Parsed(string connectionString)
    {
        try
        {
            return new(connectionString);
        }
        catch (Exception e) when (e is ArgumentException or FormatException)
        {
            throw new StoreException(StoreFault.Unreachable, $"The connection string can't be read: {e.Message} Write it like Host=server;Database=stillhook;Username=crew.", e);
        }
    }
}
