using Microsoft.Data.Sqlite;
using Stillhook.Store;

namespace Stillhook.Tests.Store;

/// <summary>The store in a SQLite file.</summary>
public sealed class SqliteStoreTests : StoreTests, IDisposable
{
    private readonly StoreFolder folder = new();

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

/// <summary>A folder for one test's store.</summary>
internal sealed class StoreFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("stillhook-store").FullName;

    public string Store => File("work.db");

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(Path, recursive: true);
    }
}
