using Microsoft.Data.Sqlite;
using Stillhook.Store;

namespace Stillhook.Tests.Store;

/// <summary>The store in a SQLite file.</summary>
public sealed class SqliteStoreTests : StoreTests, IDisposable
{
    private static readonly Lazy<byte[]> Empty = new(StoreFolder.EmptyStore);
    private readonly StoreFolder folder = new();

    public SqliteStoreTests() => File.WriteAllBytes(folder.Store, Empty.Value);

    internal override WorkStore Open(StoreOptions? options = null) => WorkStore.Open(folder.Store, options);

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Open_WritesSafely()
    {
        WorkStore store = Open();
        using SqliteConnection connection = new($"Data Source={folder.Store}");
        connection.Open();
        using SqliteCommand mode = connection.CreateCommand();
        mode.CommandText = "PRAGMA journal_mode";
        Assert.Equal("wal", mode.ExecuteScalar());
        (long Synchronous, long ForeignKeys, long Patience) own = store.Read(context =>
        {
            long Ask(string pragma)
            {
                using var command = Microsoft.EntityFrameworkCore.RelationalDatabaseFacadeExtensions.GetDbConnection(context.Database).CreateCommand();
                command.CommandText = pragma;
                return (long)command.ExecuteScalar()!;
            }
            return (Ask("PRAGMA synchronous"), Ask("PRAGMA foreign_keys"), Ask("PRAGMA busy_timeout"));
        });
        // Published: SQLite's documentation, synchronous FULL is 2.
        Assert.Equal((2, 1, 10_000), own);
    }
}

/// <summary>A folder for one test's store; in memory where the system offers that, since every write waits for the disk.</summary>
internal sealed class StoreFolder(bool inMemory = true) : IDisposable
{
    /// <summary>Bytes of a store with nothing in it: copying them is quicker than making its tables.</summary>
    public static byte[] EmptyStore()
    {
        using StoreFolder made = new();
        WorkStore.Open(made.Store);
        SqliteConnection.ClearAllPools();
        return System.IO.File.ReadAllBytes(made.Store);
    }

    public string Path { get; } = inMemory && Directory.Exists("/dev/shm")
        ? Directory.CreateDirectory(System.IO.Path.Combine("/dev/shm", "stillhook-store-" + System.IO.Path.GetRandomFileName())).FullName
        : Directory.CreateTempSubdirectory("stillhook-store").FullName;

    public string Store => File("work.db");

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(Path, recursive: true);
    }
}
