using Microsoft.Data.Sqlite;
using Stillhook.Store;
using Stillhook.Tests.Fuzzing;

namespace Stillhook.Tests.Store.Anomaly;

/// <summary>
/// What a loss of power can leave of a SQLite store: its log cut, its end as zeros, its sectors written in any order, and the file half overwritten from a log that is whole.
/// The store that is opened from it is whole and holds all of the work or nothing of it. A stand-in made of copies: the disk is taken to keep what SQLite waited for.
/// </summary>
public sealed class TornWriteTests : IDisposable
{
    private const int Sector = 512;
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    // A plain run takes those that write most differently.
    public static TheoryData<string> Works => Damage.All ? [.. AnomalyWork.Done.Keys] : ["record imported", "debrief kept", "job edited", "archive imported"];

    [Theory, MemberData(nameof(Works))]
    public void Log_CutZeroedOrReordered_IsAllOrNothing(string work)
    {
        (byte[] log, byte[] before, byte[] after) = Written(work);
        Assert.Equal(before, Opened(AnomalyWork.Before.Value, []));
        Assert.Equal(after, Opened(AnomalyWork.Before.Value, log));
        Random random = new(5);
        int nothing = 0;
        foreach (int cut in Cuts(log.Length))
        {
            byte[] zeroed = [.. log[..cut], .. new byte[log.Length - cut]], reordered = [.. zeroed];
            for (int at = (cut + Sector - 1) / Sector * Sector; at < log.Length; at += Sector)
                if (random.Next(2) == 0)
                    log.AsSpan(at, Math.Min(Sector, log.Length - at)).CopyTo(reordered.AsSpan(at));
            foreach (byte[] left in (byte[][])[log[..cut], zeroed, reordered])
            {
                byte[] found = Opened(AnomalyWork.Before.Value, left);
                bool whole = found.SequenceEqual(after);
                Assert.True(whole || found.SequenceEqual(before), $"{work}: a log cut at {cut} of {log.Length} gives neither all nor nothing");
                Assert.True(!whole || left.Length == log.Length && left.AsSpan().SequenceEqual(log), $"{work}: a log cut at {cut} of {log.Length} is taken for whole");
                nothing += whole ? 0 : 1;
            }
        }
        Assert.True(nothing > 20, $"{nothing} cuts are too few to tell");
    }

    [Theory, MemberData(nameof(Works))]
    public void File_HalfOverwrittenFromAWholeLog_IsAll(string work)
    {
        (byte[] log, _, byte[] after) = Written(work);
        Place(AnomalyWork.Before.Value, log);
        WorkStore.Open(folder.Store);
        SqliteConnection.ClearAllPools(); // the last to close writes the log into the file
        byte[] target = File.ReadAllBytes(folder.Store);
        Assert.NotEqual(AnomalyWork.Before.Value, target);
        Random random = new(6);
        for (int i = 0; i < Damage.Times(8, 25); i++)
        {
            // As long as it was, as long as it will be, or between; each sector old, new, or new at its beginning only.
            byte[] torn = new byte[random.Next(AnomalyWork.Before.Value.Length, Math.Max(AnomalyWork.Before.Value.Length, target.Length) + 1) / 4096 * 4096];
            AnomalyWork.Before.Value.AsSpan(0, Math.Min(torn.Length, AnomalyWork.Before.Value.Length)).CopyTo(torn);
            for (int at = 0; at < Math.Min(torn.Length, target.Length); at += Sector)
                target.AsSpan(at, random.Next(3) switch { 0 => 0, 1 => Sector, _ => random.Next(Sector) }).CopyTo(torn.AsSpan(at));
            Assert.Equal(after, Opened(torn, log));
        }
    }

    /// <summary>The log that a piece of work leaves when nobody has written it into the file yet, and what the store holds without and with it.</summary>
    private (byte[] Log, byte[] Before, byte[] After) Written(string work)
    {
        Place(AnomalyWork.Before.Value, []);
        byte[] log;
        using (SqliteConnection holds = new($"Data Source={folder.Store};Pooling=False"))
        {
            holds.Open();
            using SqliteCommand reads = holds.CreateCommand();
            reads.CommandText = "SELECT count(*) FROM flight";
            reads.ExecuteScalar();
            AnomalyWork.Done[work](WorkStore.Open(folder.Store));
            SqliteConnection.ClearAllPools();
            log = File.ReadAllBytes(folder.Store + "-wal");
        }
        Assert.True(log.Length > 4096, $"{work} left a log of {log.Length} bytes");
        return (log, Opened(AnomalyWork.Before.Value, []), Opened(AnomalyWork.Before.Value, log));
    }

    private byte[] Opened(byte[] file, byte[] log)
    {
        Place(file, log);
        return AnomalyWork.Whole(folder.Store);
    }

    private void Place(byte[] file, byte[] log)
    {
        SqliteConnection.ClearAllPools();
        foreach (string old in Directory.EnumerateFiles(folder.Path))
            File.Delete(old);
        File.WriteAllBytes(folder.Store, file);
        if (log.Length > 0)
            File.WriteAllBytes(folder.Store + "-wal", log);
    }

    /// <summary>Moments in the writing of a log: its head and last page closely, the rest evenly.</summary>
    private static IEnumerable<int> Cuts(int length)
    {
        if (Damage.All)
            return Enumerable.Range(0, length / 128).Select(i => i * 128);
        return [.. new[] { 1, 31, 32, 33, 56, length - 4097, length - 4096, length - 513, length - 1 }, .. Enumerable.Range(1, 12).Select(i => (int)((long)length * i / 13))];
    }
}
