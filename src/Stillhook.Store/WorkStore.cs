using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Stillhook.Store;

/// <summary>
/// All that is kept: jobs, sites, aircraft, parts, flights, lifts, cards and what people wrote of a day; in one SQLite file, or in a PostgreSQL database.
/// Safe to use from several threads and by several programs: each call opens its own connection and writes in one transaction.
/// </summary>
/// <remarks>Every member throws <see cref="StoreException"/> where the file or the database refuses; nothing is half done then.</remarks>
public sealed class WorkStore
{
    private WorkStore(Database database, StoreOptions options)
    {
        Database = database;
        Options = options;
        Flights = new(this);
        Lifts = new(this);
        Jobs = new(this);
        Sites = new(this);
        Aircraft = new(this);
        Parts = new(this);
        Days = new(this);
    }

    /// <summary>Flights: records and what was worked out from them.</summary>
    public FlightStore Flights { get; }

    /// <summary>Lifts with people's corrections.</summary>
    public LiftStore Lifts { get; }

    /// <summary>Jobs with their revisions and the cards issued for them.</summary>
    public JobStore Jobs { get; }

    /// <summary>Site library, shared by the jobs.</summary>
    public SiteLibrary Sites { get; }

    /// <summary>Aircraft library.</summary>
    public AircraftLibrary Aircraft { get; }

    /// <summary>Line and rigging parts with their log.</summary>
    public PartLog Parts { get; }

    /// <summary>What people wrote of a day, and the day as a whole.</summary>
    public DayStore Days { get; }

    /// <summary>Whether anybody has an account.</summary>
    public bool HasAccounts() => Read(context => context.Accounts.Any());

    /// <summary>Folder of the store's file, for what else is kept beside it; on PostgreSQL a folder of the program's own on this machine.</summary>
    public string Folder => Database.Folder;

    internal Database Database { get; }

    internal StoreOptions Options { get; }

    /// <summary>Opens the store, making it when it isn't there and bringing an older one up to date.</summary>
    /// <param name="place">A file, made with its folder when missing; or a PostgreSQL connection string such as <c>Host=server;Database=stillhook;Username=crew</c>.</param>
    /// <param name="options">What the store needs from the program; none for plain keeping.</param>
    public static WorkStore Open(string place, StoreOptions? options = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(place);
        options ??= new();
        Database database = PostgresDatabase.IsConnection(place) ? new PostgresDatabase(place, options) : new SqliteDatabase(place, options);
        WorkStore store = new(database, options);
        store.Guarded(() =>
        {
            database.Prepare();
            BringUpToDate.Run(database);
        });
        return store;
    }

    /// <summary>Reads; nothing is changed.</summary>
    internal T Read<T>(Func<StillhookContext, T> what) => Guarded(() =>
    {
        using StillhookContext context = Database.Context();
        // One transaction, so that several queries see the same moment.
        using IDbContextTransaction transaction = Database.BeginReading(context);
        T result = what(context);
        transaction.Commit();
        return result;
    });

    /// <summary>Writes all or nothing, one writer at a time.</summary>
    internal T Write<T>(Func<StillhookContext, T> what) => Guarded(() =>
    {
        using StillhookContext context = Database.Context();
        using IDbContextTransaction transaction = Database.BeginWriting(context);
        T result = what(context);
        context.SaveChanges();
        transaction.Commit();
        return result;
    });

    internal void Write(Action<StillhookContext> what) => Write(context =>
    {
        what(context);
        return 0;
    });

    internal void Guarded(Action what) => Guarded(() =>
    {
        what();
        return 0;
    });

    /// <summary>Says what the database refused in words that help.</summary>
    internal T Guarded<T>(Func<T> what)
    {
        try
        {
            return what();
        }
        catch (Exception e) when (Database.Explain(e) is { } explained)
        {
            throw explained;
        }
    }
}
