using Stillhook.Store;

namespace Stillhook.Tests.Store;

/// <summary>The store in a PostgreSQL database.</summary>
public sealed class PostgresStoreTests(PostgresServer server) : StoreTests
{
    private readonly string connection = server.FreshStore();

    internal override WorkStore Open(StoreOptions? options = null) => WorkStore.Open(connection, options);
}
