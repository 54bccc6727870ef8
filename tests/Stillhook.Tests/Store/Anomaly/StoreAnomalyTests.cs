using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Stillhook.Debriefing;
using Stillhook.Reporting;
using Stillhook.Store;
using Stillhook.Tests.Fuzzing;

namespace Stillhook.Tests.Store.Anomaly;

/// <summary>
/// The first, second, third ... command, commit, page, read or write fails, until the work goes through without having met the fault. After each fault the store is
/// checked whole: SQLite's own check, foreign keys, and everything it held before byte for byte as an archive. The caller is told once, in words.
/// </summary>
public sealed class StoreAnomalyTests : IDisposable
{
    private static readonly Lazy<byte[]> Before = new(Filled);
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    public static TheoryData<string> Works => [.. Done.Keys];

    private static readonly Lazy<byte[]> Other = new(() =>
    {
        using StoreFolder made = new();
        WorkStore store = WorkStore.Open(made.Store);
        RandomWork.Fill(store, new Random(3));
        return All(store);
    });

    // Each piece of work writes in one call; what it is given is as in the other tests.
    private static readonly Dictionary<string, Action<WorkStore>> Done = new()
    {
        ["record imported"] = s => s.Flights.Add("new", new MemoryStream(new byte[30_000]), SampleWork.Now, "{}", SampleWork.Flight(SampleWork.MorningS + 9000)),
        ["debrief kept"] = s => s.Flights.SaveWork(1, SampleWork.Flight(SampleWork.MorningS + 7, lifts: 4)),
        ["hovers kept"] = s => s.Flights.SaveHovers(1, [SampleWork.Flight().Hovers[0]]),
        ["flight removed"] = s => s.Flights.Remove(1),
        ["job saved"] = s => s.Jobs.Save(new("New", "{ }", new(2026, 6, 2), "UTC") { Sites = [s.Sites.List()[0].Key] }, "Anna", SampleWork.Now),
        ["job revised"] = s => s.Jobs.Save(new("Beton", "{ \"job\": \"Beton\" }"), "Anna", SampleWork.Now, s.Jobs.List()[0].Key),
        ["job edited"] = s => s.Jobs.Amend(s.Jobs.List()[0].Key, null, _ => new("Beton", "other"), "Anna", SampleWork.Now),
        ["card issued"] = s => s.Jobs.IssueCard(s.Jobs.List()[0].Key, "pilot.pdf", "application/pdf", new byte[20_000], SampleWork.Now),
        ["day saved"] = s => s.Days.Add(new(new(2026, 6, 1)), new EventMark(SampleWork.MorningS, EventKind.Damage, "again"), "Anna", SampleWork.Now),
        ["lift corrected"] = s =>
        {
            KeptLift lift = s.Lifts.Find(1, 1)!.Lift;
            s.Lifts.Correct(lift, lift with { LoadKg = 500, Family = "timber" }, "Beat", SampleWork.Now);
        },
        ["lift added"] = s => s.Lifts.AddByHand(new() { Number = 1, LoadKg = 500 }, new(2026, 6, 1), null, "Beat", SampleWork.Now),
        ["part used"] = s => s.Parts.CountUse("L-30", 1, 3, 1, "Anna", SampleWork.Now),
        ["site saved"] = s => s.Sites.Save("New", 46, 8, "{}", "Anna", SampleWork.Now),
        ["aircraft saved"] = s => s.Aircraft.Save("HB-NEW", "{}", "Anna", SampleWork.Now),
        ["archive imported"] = s => Archive.Import(s, new MemoryStream(Other.Value)),
    };

    [Theory, MemberData(nameof(Works))]
    public void Work_NthCommandFails_NothingOfItIsKept(string work) => Each(work, at =>
    {
        FaultPoint point = new(at);
        return (point, new() { Interceptors = (IInterceptor[])[new FailingCommands(point)] });
    });

    [Theory, MemberData(nameof(Works))]
    public void Work_NthCommitFails_NothingOfItIsKept(string work) => Each(work, at =>
    {
        FaultPoint point = new(at);
        return (point, new() { Interceptors = (IInterceptor[])[new FailingCommits(point)] });
    });

    // The bound on pages makes SQLite itself say that the disk is full, at the n-th page that the work needs.
    [Theory, MemberData(nameof(Works))]
    public void Work_NoRoomForTheNthPage_NothingOfItIsKept(string work)
    {
        int pages = Before.Value.Length / 4096, faults = 0;
        for (int more = 0; ; more = Next(more))
        {
            byte[] before = Fresh();
            try
            {
                Done[work](WorkStore.Open(folder.Store, new() { MostPages = pages + more }));
            }
            catch (StoreException e)
            {
                Assert.Equal(StoreFault.DiskFull, e.Fault);
                Assert.Equal(before, Whole());
                faults++;
                continue;
            }
            Assert.NotEqual(before, Whole());
            break;
        }
        Assert.InRange(faults, 0, 200);
    }

    [Fact]
    public void Export_NthWriteOrFlushFails_SaysItIsTheArchive() => EachStream(point => Archive.ExportAll(WorkStore.Open(folder.Store), new FailingStream(point)), writes: false);

    [Fact]
    public void Import_NthReadFails_NothingOfItIsKept() => EachStream(point => Archive.Import(WorkStore.Open(folder.Store), new FailingStream(point, Other.Value)), writes: true);

    // The record's own stream belongs to the caller, so its fault comes back as it is.
    [Fact]
    public void Add_NthReadOfTheRecordFails_NothingOfItIsKept()
    {
        for (int at = 1; ; at = Next(at))
        {
            FaultPoint point = new(at);
            byte[] before = Fresh();
            Exception? told = Record.Exception(() => WorkStore.Open(folder.Store).Flights.Add("new", new FailingStream(point, new byte[300_000]), SampleWork.Now));
            if (!point.Hit)
            {
                Assert.Null(told);
                Assert.InRange(at, 3, 50);
                return;
            }
            Assert.IsType<IOException>(told);
            Assert.Equal(before, Whole());
            Assert.Empty(Directory.EnumerateFiles(folder.Path, "*waiting*"));
        }
    }

    // Every one up to the 12th, then fewer and fewer; every one in the full run.
    private static int Next(int at) => Damage.All ? at + 1 : at + 1 + at / 12;

    private void EachStream(Action<FaultPoint> work, bool writes)
    {
        for (int at = 1; ; at = Next(at))
        {
            FaultPoint point = new(at);
            byte[] before = Fresh();
            Exception? told = Record.Exception(() => work(point));
            if (!point.Hit)
            {
                Assert.Null(told);
                Assert.Equal(writes, !before.SequenceEqual(Whole()));
                Assert.InRange(at, 3, 5000);
                return;
            }
            Assert.Contains("archive can't be", Assert.IsType<StoreException>(told).Message, StringComparison.Ordinal);
            Assert.Equal(before, Whole());
        }
    }

    private void Each(string work, Func<int, (FaultPoint Point, StoreOptions Options)> fault)
    {
        for (int at = 1; ; at = Next(at))
        {
            byte[] before = Fresh();
            (FaultPoint point, StoreOptions options) = fault(at);
            Exception? told = Record.Exception(() => Done[work](WorkStore.Open(folder.Store, options)));
            if (!point.Hit)
            {
                Assert.Null(told);
                Assert.NotEqual(before, Whole());
                Assert.InRange(at, 2, 5000);
                return;
            }
            StoreException said = Assert.IsType<StoreException>(told);
            Assert.Contains("work.db", said.Message, StringComparison.Ordinal);
            Assert.Equal(before, Whole());
        }
    }

    private byte[] Fresh()
    {
        SqliteConnection.ClearAllPools();
        foreach (string old in Directory.EnumerateFiles(folder.Path)) File.Delete(old);
        File.WriteAllBytes(folder.Store, Before.Value);
        return Kept.Value;
    }

    private static readonly Lazy<byte[]> Kept = new(() =>
    {
        using StoreFolder made = new();
        File.WriteAllBytes(made.Store, Before.Value);
        return All(WorkStore.Open(made.Store));
    });

    /// <summary>Everything in the store, after its own checks.</summary>
    private byte[] Whole()
    {
        using (SqliteConnection connection = new($"Data Source={folder.Store};Pooling=False"))
        {
            connection.Open();
            using SqliteCommand check = connection.CreateCommand();
            check.CommandText = "PRAGMA integrity_check";
            Assert.Equal("ok", check.ExecuteScalar());
            check.CommandText = "PRAGMA foreign_key_check";
            Assert.Null(check.ExecuteScalar());
        }
        return All(WorkStore.Open(folder.Store));
    }

    private static byte[] All(WorkStore store)
    {
        MemoryStream to = new();
        Archive.ExportAll(store, to);
        return to.ToArray();
    }

    private static byte[] Filled()
    {
        using StoreFolder made = new();
        WorkStore store = WorkStore.Open(made.Store);
        KeptSite site = store.Sites.Save("Hütte", 46.5, 8.1, "{}", "Anna", SampleWork.Now);
        Guid job = store.Jobs.Save(new("Beton", "{}", new(2026, 6, 1), "Europe/Zurich") { Sites = [site.Key] }, "Anna", SampleWork.Now).Key;
        store.Flights.Add("a", new MemoryStream(new byte[5000]), SampleWork.Now, null, SampleWork.Flight(job: job));
        store.Parts.TakeIntoUse("L-30", Stillhook.Planning.PartKind.Line, "Anna", SampleWork.Now);
        store.Days.Add(new(new(2026, 6, 1)), new EventMark(1, EventKind.Snag, null), "Anna", SampleWork.Now);
        SqliteConnection.ClearAllPools();
        return File.ReadAllBytes(made.Store);
    }
}
