using System.Security.Cryptography;
using Stillhook.Store;
using Stillhook.Tests.Fuzzing;

namespace Stillhook.Tests.Store.Anomaly;

/// <summary>
/// Backup and restore in a process whose files may not grow past a bound (setrlimit), which goes up until the work goes through: every write meets its end once, of the copy, of the
/// pack and of the store that is restored. What was there before stays as it was, nothing half done is left, and the caller is told once, in words.
/// </summary>
public sealed class BackupAnomalyTests : IDisposable
{
    // Small enough to meet each page in the full run.
    private static readonly string Step = Damage.All ? "2048" : "30000";

    private readonly StoreFolder folder = new(inMemory: false);

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Backup_FilesMayNotGrow_TheOldOneStays()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "setrlimit of Linux is needed.");
        string file = folder.File("old.backup");
        (string place, WorkStore store) = Filled();
        Backup.Write(store, file);
        string old = Digest(file);
        byte[] before = AnomalyWork.All(store);
        store.Sites.Save("later", 46, 8, "{}", "Anna", SampleWork.Now);
        byte[] after = AnomalyWork.All(store);
        string[][] steps = Steps("limited-backup", place, file);
        foreach (string[] step in steps[..^1])
        {
            Assert.Equal(old, step[2]);
            Assert.Equal("old.backup", step[3]);
        }
        Assert.NotEqual(old, Digest(file));
        Assert.Equal(after, AnomalyWork.All(store));
        Assert.Equal(after, AnomalyWork.All(Backup.Restore(file, folder.File("again.db"))));
        Assert.NotEqual(before, after);
    }

    [Fact]
    public void Restore_FilesMayNotGrow_NothingIsThere()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "setrlimit of Linux is needed.");
        string file = folder.File("kept.backup"), place = folder.File("restored.db");
        (_, WorkStore store) = Filled();
        Backup.Write(store, file);
        string old = Digest(file);
        string[][] steps = Steps("limited-restore", place, file);
        foreach (string[] step in steps[..^1])
        {
            Assert.Equal(old, step[2]);
            Assert.Equal("kept.backup", step[3]);
        }
        Assert.Equal(old, Digest(file));
        Assert.Equal(AnomalyWork.All(store), AnomalyWork.All(WorkStore.Open(place)));
    }

    /// <summary>A store of its own folder with some hundred thousand bytes in it.</summary>
    private (string Place, WorkStore Store) Filled()
    {
        string place = Path.Combine(Directory.CreateDirectory(folder.File("store")).FullName, "work.db");
        WorkStore store = WorkStore.Open(place);
        AnomalyWork.Fill(store);
        byte[] record = new byte[150_000];
        new Random(4).NextBytes(record);
        store.Flights.Add("large", new MemoryStream(record), SampleWork.Now);
        return (place, store);
    }

    /// <summary>What the process said of each bound: bound, fault, digest of the backup, files in its folder. The last one went through.</summary>
    private static string[][] Steps(string what, string place, string file)
    {
        (int code, string said) = StoreChild.Run(asNobody: false, what, place, file, Step);
        string[][] steps = [.. said.TrimEnd('\n').Split('\n').Select(l => l.Split('\t'))];
        Assert.True(code == 0 && steps.All(s => s.Length == 4), said);
        Assert.True(steps.Length > 5, $"{steps.Length} bounds are too few to tell");
        Assert.All(steps[..^1], s => Assert.NotEmpty(s[1]));
        Assert.Empty(steps[^1][1]);
        return steps;
    }

    private static string Digest(string file) => Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(file)));
}
