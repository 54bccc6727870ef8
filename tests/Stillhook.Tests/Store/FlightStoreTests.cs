using System.Security.Cryptography;
using System.Text;
using Microsoft.Data.Sqlite;
using Stillhook.Store;

namespace Stillhook.Tests.Store;

public sealed class FlightStoreTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 6, 1, 18, 0, 0, TimeSpan.FromHours(2));
    private readonly string folder = Directory.CreateTempSubdirectory("store").FullName;

    private string StorePath => Path.Combine(folder, "flights.db");

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void Add_Record_ComesBackByteForByteAfterReopening()
    {
        byte[] bytes = RandomNumberGenerator.GetBytes(300_000);
        long id = FlightStore.Open(StorePath).Add("day.gpx", new MemoryStream(bytes), Now, "{}").Flight.Id;

        FlightStore again = FlightStore.Open(StorePath);
        using MemoryStream back = new();
        using (Stream record = again.OpenRecord(id)!)
            record.CopyTo(back);
        Assert.Equal(bytes, back.ToArray());
        Flight flight = Assert.Single(again.List());
        Assert.Equal(("day.gpx", 300_000L, "{}", Now), (flight.Name, flight.Bytes, flight.JobText, flight.ImportedAt));
        Assert.Equal(TimeSpan.Zero, flight.ImportedAt.Offset);
    }

    [Fact]
    public void Add_SameBytesUnderAnotherName_AreKeptOnce()
    {
        FlightStore store = FlightStore.Open(StorePath);
        AddedFlight first = store.Add("a.gpx", Content("abc"), Now), second = store.Add("b.gpx", Content("abc"), Now);
        Assert.False(first.AlreadyThere);
        Assert.True(second.AlreadyThere);
        Assert.Equal(first.Flight.Id, second.Flight.Id);
        Assert.Single(store.List());
        // Published: SHA-256 of 'abc', FIPS 180-4 example.
        Assert.Equal("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", first.Flight.Digest);
    }

    [Fact]
    public void Save_TypedAndSummary_ComeBack()
    {
        FlightStore store = FlightStore.Open(StorePath);
        long id = store.Add("a.gpx", Content("abc"), Now).Flight.Id;
        store.SaveTyped(id, new Dictionary<string, string> { ["line"] = "100 ft" });
        FlightSummary summary = new("0.1.0", 1.5e9, 23, "Same again.");
        store.SaveSummary(id, summary);
        Flight flight = store.Find(id)!;
        Assert.Equal("100 ft", flight.Typed["line"]);
        Assert.Equal(summary, flight.Summary);
    }

    [Fact]
    public void Remove_TakesTheRecordToo()
    {
        FlightStore store = FlightStore.Open(StorePath);
        long id = store.Add("a.gpx", Content("abc"), Now).Flight.Id;
        Assert.True(store.Remove(id));
        Assert.False(store.Remove(id));
        Assert.Null(store.Find(id));
        Assert.Null(store.OpenRecord(id));
    }

    [Fact]
    public void Open_WritesSafely()
    {
        FlightStore.Open(StorePath).Add("a.gpx", Content("abc"), Now);
        using SqliteConnection connection = new($"Data Source={StorePath}");
        connection.Open();
        using SqliteCommand mode = connection.CreateCommand();
        mode.CommandText = "PRAGMA journal_mode";
        Assert.Equal("wal", mode.ExecuteScalar());
    }

    [Fact]
    public void Add_FromManyThreads_KeepsAll()
    {
        FlightStore store = FlightStore.Open(StorePath);
        Parallel.For(0, 6, new() { MaxDegreeOfParallelism = 4 }, i => store.Add($"{i}.gpx", Content($"record {i}"), Now));
        Assert.Equal(6, store.List().Count);
    }

    private static MemoryStream Content(string text) => new(Encoding.UTF8.GetBytes(text));
}
