using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using Microsoft.Data.Sqlite;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.Tests.Store;

/// <summary>
/// A program that takes records in or writes backups is killed (SIGKILL) at random moments: what it said was kept is there, nothing is there in halves, and the next one goes on.
/// Each kill costs a start of the program, so the plain run makes 6; STILLHOOK_KILLS=200 makes 200.
/// </summary>
public sealed class StoreKillTests : IDisposable
{
    private static readonly int Kills = int.TryParse(Environment.GetEnvironmentVariable("STILLHOOK_KILLS"), NumberStyles.None, CultureInfo.InvariantCulture, out int kills) ? kills : 6;

    private readonly StoreFolder folder = new(inMemory: false);

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task ImportAndBackup_KilledAtRandomMoments_NothingAcknowledgedIsLost()
    {
        int imports = Kills * 2 / 3, backups = Kills - imports;
        CancellationToken cancellation = TestContext.Current.CancellationToken;
        await Task.WhenAll(Task.Run(() => KillImports(imports), cancellation), Task.Run(() => KillBackups(backups), cancellation));
    }

    private void KillImports(int times)
    {
        Random random = new(1);
        string place = folder.File("import.db");
        HashSet<string> kept = [];
        for (int kill = 0; kill < times; kill++)
        {
            // Some die while the tables are made, most in the middle of the work; each starts a little before where the one before was.
            foreach (string line in KilledAfter(random, kill % 6 == 0, "import", place, Math.Max(0, kept.Count - 3).ToString(CultureInfo.InvariantCulture)))
                if (line.Split(' ') is ["Added" or "AlreadyThere", string name, string digest])
                {
                    Assert.Equal(digest, Convert.ToHexStringLower(SHA256.HashData(StoreChildWork.Record(int.Parse(name, CultureInfo.InvariantCulture)))));
                    kept.Add(digest);
                }
            CheckImported(place, kept);
        }
        Assert.NotEmpty(kept);
    }

    private static void CheckImported(string place, HashSet<string> kept)
    {
        Whole(place);
        WorkStore store = WorkStore.Open(place);
        IReadOnlyList<Flight> flights = store.Flights.List();
        Assert.Subset(flights.Select(f => f.Digest).ToHashSet(), kept);
        foreach (Flight flight in flights.OrderByDescending(f => f.Id).Take(12)) // the last ones are those a kill can have hit
        {
            int number = int.Parse(flight.Name, CultureInfo.InvariantCulture);
            using MemoryStream record = new();
            using (Stream bytes = store.Flights.OpenRecord(flight.Id)!)
                bytes.CopyTo(record);
            Assert.Equal(StoreChildWork.Record(number), record.ToArray());
            Assert.Equal(StoreChildWork.Of(number).Lifts.Select(l => SampleWork.Whole(l with { FlightId = flight.Id })), store.Lifts.OfFlight(flight.Id).Select(l => SampleWork.Whole(l.Lift)));
        }
        SqliteConnection.ClearAllPools();
    }

    private void KillBackups(int times)
    {
        Random random = new(2);
        string place = folder.File("backed-up.db"), file = folder.File("backups/backup.zip");
        WorkStore store = WorkStore.Open(place);
        for (int i = 0; i < 8; i++)
            store.Flights.Add($"{i}", new MemoryStream(StoreChildWork.Record(i)), SampleWork.Now, null, StoreChildWork.Of(i));
        bool any = false;
        for (int kill = 0; kill < times; kill++)
        {
            bool said = KilledAfter(random, false, "backup", place, file).Exists(l => l.Length == 64);
            Whole(place);
            any |= said;
            Assert.True(File.Exists(file) || !any);
            if (File.Exists(file))
                Backup.Check(file);
        }
        if (!any)
            return;
        // Closed form: the eight flights of the store that was backed up.
        Assert.Equal(8, Backup.Restore(file, folder.File("restored.db")).Flights.List().Count);
    }

    /// <summary>Starts the program, kills it, and gives the whole lines it had said.</summary>
    private static List<string> KilledAfter(Random random, bool early, params string[] arguments)
    {
        bool backups = arguments[0] == "backup";
        using Process child = StoreChild.Start(arguments);
        ConcurrentQueue<string> said = new();
        using SemaphoreSlim lines = new(0);
        Thread reading = new(() =>
        {
            while (child.StandardOutput.ReadLine() is { } line)
            {
                said.Enqueue(line);
                lines.Release();
            }
        });
        reading.Start();
        if (early)
            Thread.Sleep(random.Next(200, 900));
        else
        {
            // Counted in what it said, so that it is in the middle of its work however slow the machine is.
            for (int waitedFor = random.Next(1, backups ? 3 : 7); waitedFor > 0; waitedFor--)
                Assert.True(lines.Wait(TimeSpan.FromSeconds(120)), "the child said nothing for two minutes");
            Thread.Sleep(random.Next(0, 60));
        }
        child.Kill();
        child.WaitForExit();
        reading.Join();
        return [.. said];
    }

    private static void Whole(string place)
    {
        if (!File.Exists(place))
            return;
        using SqliteConnection connection = new($"Data Source={place};Pooling=False");
        connection.Open();
        using SqliteCommand check = connection.CreateCommand();
        check.CommandText = "PRAGMA integrity_check";
        Assert.Equal("ok", check.ExecuteScalar());
    }
}
