using System.Data.Common;
using Npgsql;
using Stillhook.Store;
using Stillhook.Tests.Fuzzing;

namespace Stillhook.Tests.Store.Anomaly;

/// <summary>
/// On PostgreSQL the first, second, third ... command or commit meets a link that breaks, or a server that ends the connection (pg_terminate_backend), until the work goes
/// through without having met it. After each fault everything the database held is there byte for byte as an archive, and the caller is told once, in words.
/// </summary>
public sealed class PostgresAnomalyTests(PostgresServer server)
{
    // A plain run takes those that write most differently.
    public static TheoryData<string> Works => Damage.All ? [.. AnomalyWork.Done.Keys] : ["record imported", "debrief kept", "job edited", "lift corrected", "archive imported"];

    [Theory, MemberData(nameof(Works))]
    public void Work_NthCommandFails_NothingOfItIsKept(string work) => Each(work, point => new() { Interceptors = [new FailingCommands(point, LinkBroken)] });

    [Theory, MemberData(nameof(Works))]
    public void Work_NthCommitFails_NothingOfItIsKept(string work) => Each(work, point => new() { Interceptors = [new FailingCommits(point, _ => LinkBroken())] });

    [Theory, MemberData(nameof(Works))]
    public void Work_ServerEndsTheConnectionBeforeTheNthCommand_NothingOfItIsKept(string work) => Each(work, point => new() { Interceptors = [new KilledConnections(point, Kill)] });

    [Theory, MemberData(nameof(Works))]
    public void Work_ServerEndsTheConnectionBeforeTheNthCommit_NothingOfItIsKept(string work) => Each(work, point => new()
    {
        Interceptors = [new FailingCommits(point, connection =>
        {
            Kill(connection);
            return null;
        })],
    });

    private void Each(string work, Func<FaultPoint, StoreOptions> options)
    {
        string place = server.FreshStore();
        AnomalyWork.Fill(WorkStore.Open(place));
        byte[] before = AnomalyWork.All(WorkStore.Open(place));
        // What failed left nothing, so the same database serves for the next.
        for (int at = 1; ; at = Damage.All ? at + 1 : at + 1 + at / 2)
        {
            FaultPoint point = new(at);
            Exception? told = Record.Exception(() => AnomalyWork.Done[work](WorkStore.Open(place, options(point))));
            if (!point.Hit)
            {
                Assert.Null(told);
                Assert.NotEqual(before, AnomalyWork.All(WorkStore.Open(place)));
                Assert.InRange(at, 2, 5000);
                return;
            }
            StoreException said = Assert.IsType<StoreException>(told);
            Assert.Contains("database 'store", said.Message, StringComparison.Ordinal);
            Assert.DoesNotContain('\n', said.Message);
            Assert.Equal(before, AnomalyWork.All(WorkStore.Open(place)));
        }
    }

    private static NpgsqlException LinkBroken() => new("Exception while reading from stream", new IOException("Connection reset by peer"));

    /// <summary>Ends a connection on the server and waits until it is gone there.</summary>
    private static void Kill(DbConnection connection)
    {
        NpgsqlConnection killed = (NpgsqlConnection)connection;
        using NpgsqlConnection own = new(killed.ConnectionString);
        own.Open();
        using NpgsqlCommand end = new("SELECT pg_terminate_backend($1, 10000)", own) { Parameters = { new() { Value = killed.ProcessID } } };
        Assert.Equal(true, end.ExecuteScalar());
    }
}
