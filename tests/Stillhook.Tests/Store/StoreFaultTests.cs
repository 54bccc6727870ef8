using System.Diagnostics;
using Microsoft.Data.Sqlite;
using Npgsql;
using Stillhook.Store;

namespace Stillhook.Tests.Store;

/// <summary>What happens when a store can't be used: a clear reason, and nothing lost.</summary>
public sealed class StoreFaultTests(PostgresServer server) : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    // Pinned: what the store of the first version, kept as a file, was filled with.
    [Fact]
    public void Open_StoreOfTheFirstVersion_KeepsItsFlights()
    {
        // tests/data/store/flights-0.1.0.db was written by version 0.1.0, whose only migration is 20261125123525_Flights.
        File.Copy(Repository.File("tests/data/store/flights-0.1.0.db"), folder.Store);
        WorkStore store = WorkStore.Open(folder.Store);
        IReadOnlyList<Flight> flights = store.Flights.List();
        Assert.Equal(["second.bin", "first.csv"], flights.Select(f => f.Name));
        Flight first = flights[1];
        Assert.Equal(("{ \"job\": \"Hut\" }", "100 ft", new FlightSummary("0.1.0", 1.5e9, 23, "Same again.")), (first.JobText, first.Typed["line"], first.Summary));
        using MemoryStream back = new();
        using (Stream record = store.Flights.OpenRecord(flights[0].Id)!)
            record.CopyTo(back);
        Assert.Equal(Enumerable.Range(0, 9000).Select(i => unchecked((byte)(i * 31))), back.ToArray());
        Assert.True(store.Flights.SaveWork(first.Id, SampleWork.Flight()));
        Assert.Equal(3, WorkStore.Open(folder.Store).Lifts.OfFlight(first.Id).Count);
    }

    [Fact]
    public void Open_StoreOfANewerVersion_IsRefusedUnchanged()
    {
        WorkStore.Open(folder.Store);
        Execute(folder.Store, "INSERT INTO __EFMigrationsHistory VALUES ('29991231000000_Later', '99.0')");
        byte[] before = Bytes(folder.Store);
        StoreException e = Assert.Throws<StoreException>(() => WorkStore.Open(folder.Store));
        Assert.Equal(StoreFault.NewerProgram, e.Fault);
        Assert.Contains("29991231000000_Later", e.Message, StringComparison.Ordinal);
        Assert.Equal(before, Bytes(folder.Store));
    }

    [Fact]
    public void Open_NewerPostgres_IsRefused()
    {
        string connection = server.FreshStore();
        using (NpgsqlConnection direct = new(connection))
        {
            direct.Open();
            using NpgsqlCommand later = new("INSERT INTO \"__EFMigrationsHistory\" VALUES ('29991231000000_Later', '99.0')", direct);
            later.ExecuteNonQuery();
        }
        Assert.Equal(StoreFault.NewerProgram, Assert.Throws<StoreException>(() => WorkStore.Open(connection)).Fault);
    }

    [Theory]
    [InlineData("This is a letter and no store. It is long enough to have a page of its own, or nearly so, and a heading that no database has.")]
    public void Open_AnotherFile_IsRefusedUnchanged(string text)
    {
        File.WriteAllText(folder.Store, text);
        Assert.Equal(StoreFault.NotAStore, Assert.Throws<StoreException>(() => WorkStore.Open(folder.Store)).Fault);
        Assert.Equal(text, File.ReadAllText(folder.Store));
    }

    [Fact]
    public void Open_AnotherProgramsTables_AreRefused()
    {
        Execute(folder.Store, "CREATE TABLE recipe (name TEXT)");
        Assert.Equal(StoreFault.NotAStore, Assert.Throws<StoreException>(() => WorkStore.Open(folder.Store)).Fault);
    }

    [Fact]
    public void Open_PostgresWithoutServerOrDatabase_SaysSoWithoutThePassword()
    {
        StoreException e = Assert.Throws<StoreException>(() => WorkStore.Open("Host=127.0.0.1;Port=1;Username=crew;Password=secret77;Database=work"));
        Assert.Equal(StoreFault.Unreachable, e.Fault);
        Assert.Contains("'work' on 127.0.0.1:1", e.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("secret77", e.ToString(), StringComparison.Ordinal);
        string missing = new NpgsqlConnectionStringBuilder(server.FreshDatabase()) { Database = "nothing_here" }.ToString();
        Assert.Equal(StoreFault.Unreachable, Assert.Throws<StoreException>(() => WorkStore.Open(missing)).Fault);
        Assert.Equal(StoreFault.Unreachable, Assert.Throws<StoreException>(() => WorkStore.Open("Host=127.0.0.1;No such key=1")).Fault);
    }

    [Fact]
    public void Open_FolderThatCantBeMade_SaysSo()
    {
        File.WriteAllText(folder.File("file"), "");
        StoreException e = Assert.Throws<StoreException>(() => WorkStore.Open(folder.File("file/inside/work.db")));
        Assert.Contains(e.Fault, new[] { StoreFault.Unreachable, StoreFault.ReadOnly });
        Assert.Contains("work.db", e.Message, StringComparison.Ordinal);
    }

    // Closed form: the three lifts of the flight that was there.
    [Fact]
    public void Add_DiskFull_SaysSoAndKeepsWhatWasThere()
    {
        WorkStore roomy = WorkStore.Open(folder.Store);
        long pages = (long)Execute(folder.Store, "PRAGMA page_count")!;
        WorkStore tight = WorkStore.Open(folder.Store, new() { MostPages = (int)pages + 40 });
        tight.Flights.Add("small", StoreTests.Content("abc"), SampleWork.Now, null, SampleWork.Flight());
        StoreException e = Assert.Throws<StoreException>(() => tight.Flights.Add("large", new MemoryStream(new byte[1_000_000]), SampleWork.Now, null, SampleWork.Flight()));
        Assert.Equal(StoreFault.DiskFull, e.Fault);
        Assert.Contains("Make room", e.Message, StringComparison.Ordinal);
        Assert.Equal("small", Assert.Single(roomy.Flights.List()).Name);
        Assert.Equal(3, roomy.Lifts.OfFlight(1).Count);
        Assert.Equal("ok", Execute(folder.Store, "PRAGMA integrity_check"));
        Assert.False(roomy.Flights.Add("large", new MemoryStream(new byte[1_000_000]), SampleWork.Now, null, SampleWork.Flight()).AlreadyThere);
    }

    [Fact]
    public void Write_AnotherProgramHoldsTheFile_BusyAndNothingLost()
    {
        WorkStore store = WorkStore.Open(folder.Store, new() { Patience = TimeSpan.FromSeconds(0.3) });
        long id = store.Flights.Add("a", StoreTests.Content("abc"), SampleWork.Now).Flight.Id;
        using (SqliteConnection other = new($"Data Source={folder.Store}"))
        {
            other.Open();
            using SqliteTransaction hold = other.BeginTransaction();
            StoreException e = Assert.Throws<StoreException>(() => store.Flights.SaveWork(id, SampleWork.Flight()));
            Assert.Equal(StoreFault.Busy, e.Fault);
            Assert.Equal("a", Assert.Single(store.Flights.List()).Name); // reading goes on meanwhile
        }
        Assert.True(store.Flights.SaveWork(id, SampleWork.Flight()));
    }

    [Fact]
    public void Write_AnotherProgramHoldsPostgres_BusyAndNothingLost()
    {
        string connection = server.FreshStore();
        WorkStore store = WorkStore.Open(connection, new() { Patience = TimeSpan.FromSeconds(0.3) }), other = WorkStore.Open(connection);
        other.Write(_ =>
        {
            StoreException refused = Assert.Throws<StoreException>(() => store.Flights.Add("a", StoreTests.Content("abc"), SampleWork.Now));
            Assert.True(refused.Fault == StoreFault.Busy, refused.ToString());
        });
        Assert.False(store.Flights.Add("a", StoreTests.Content("abc"), SampleWork.Now).AlreadyThere);
    }

    [Fact]
    public void Open_ServerTakesNoMoreConnections_Busy()
    {
        string connection = server.FreshDatabase();
        using (NpgsqlConnection own = new(connection))
        {
            own.Open();
            using NpgsqlCommand role = new("DROP ROLE IF EXISTS few; CREATE ROLE few LOGIN CONNECTION LIMIT 0", own);
            role.ExecuteNonQuery();
        }
        StoreException refused = Assert.Throws<StoreException>(() => WorkStore.Open(connection.Replace("Username=stillhook", "Username=few", StringComparison.Ordinal)));
        Assert.True(refused.Fault == StoreFault.Busy, refused.ToString());
    }

    // Closed form: a flight from each of the four that opened it.
    [Fact]
    public async Task Open_ManyAtOnce_TablesAreMadeOnce()
    {
        string connection = server.FreshDatabase();
        await Task.WhenAll(Enumerable.Range(0, 4).Select(i => Task.Run(() =>
        {
            WorkStore.Open(folder.Store).Flights.Add($"{i}", StoreTests.Content($"{i}"), SampleWork.Now);
            WorkStore.Open(connection).Flights.Add($"{i}", StoreTests.Content($"{i}"), SampleWork.Now);
        })));
        Assert.Equal(4, WorkStore.Open(folder.Store).Flights.List().Count);
        Assert.Equal(4, WorkStore.Open(connection).Flights.List().Count);
    }

    [Fact]
    public void Open_FolderThatCantBeWritten_SaysSo()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("Rights of files are set in another way on Windows.");
            return;
        }
        WorkStore.Open(folder.Store).Flights.Add("a", StoreTests.Content("abc"), SampleWork.Now);
        SqliteConnection.ClearAllPools();
        // Root writes everywhere, so the child goes by another user's rights.
        File.SetUnixFileMode(folder.Store, UnixFileMode.UserRead | UnixFileMode.GroupRead | UnixFileMode.OtherRead);
        File.SetUnixFileMode(folder.Path, UnixFileMode.UserRead | UnixFileMode.UserExecute | UnixFileMode.GroupRead | UnixFileMode.GroupExecute | UnixFileMode.OtherRead | UnixFileMode.OtherExecute);
        try
        {
            (int code, string said) = StoreChild.Run(asNobody: true, "open", folder.Store);
            Assert.Equal((2, "ReadOnly"), (code, said.Split('\n')[0].Trim()));
            Assert.Contains(folder.Store, said, StringComparison.Ordinal);
        }
        finally
        {
            File.SetUnixFileMode(folder.Path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
            File.SetUnixFileMode(folder.Store, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }
        Assert.Single(WorkStore.Open(folder.Store).Flights.List());
    }

    private static object? Execute(string file, string sql)
    {
        using SqliteConnection connection = new($"Data Source={file};Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Texts of this file only.
        command.CommandText = sql;
#pragma warning restore CA2100
        return command.ExecuteScalar();
    }

    private static byte[] Bytes(string file)
    {
        SqliteConnection.ClearAllPools();
        return File.ReadAllBytes(file);
    }
}
