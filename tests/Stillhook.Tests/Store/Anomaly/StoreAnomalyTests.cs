using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Stillhook.Store;

namespace Stillhook.Tests.Store.Anomaly;

/// <summary>
/// The first, second, third ... command, commit, page, read or write fails, until the work goes through without having met the fault. After each fault the store is
/// checked whole: SQLite's own check, foreign keys, and everything it held before byte for byte as an archive. The caller is told once, in words.
/// </summary>
public sealed class StoreAnomalyTests : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    public static TheoryData<string> Works => [.. AnomalyWork.Done.Keys];

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
        int pages = AnomalyWork.Before.Value.Length / 4096, faults = 0;
        for (int more = 0; ; more = AnomalyWork.Next(more))
        {
            byte[] before = Fresh();
            try
            {
                AnomalyWork.Done[work](WorkStore.Open(folder.Store, new() { MostPages = pages + more }));
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
    public void Import_NthReadFails_NothingOfItIsKept() => EachStream(point => Archive.Import(WorkStore.Open(folder.Store), new FailingStream(point, AnomalyWork.Other.Value)), writes: true);

    // The record's own stream belongs to the caller, so its fault comes back as it is.
    [Fact]
    public void Add_NthReadOfTheRecordFails_NothingOfItIsKept()
    {
        for (int at = 1; ; at = AnomalyWork.Next(at))
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

    private void EachStream(Action<FaultPoint> work, bool writes)
    {
        for (int at = 1; ; at = AnomalyWork.Next(at))
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
        for (int at = 1; ; at = AnomalyWork.Next(at))
        {
            byte[] before = Fresh();
            (FaultPoint point, StoreOptions options) = fault(at);
            Exception? told = Record.Exception(() => AnomalyWork.Done[work](WorkStore.Open(folder.Store, options)));
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
        File.WriteAllBytes(folder.Store, AnomalyWork.Before.Value);
        return Kept.Value;
    }

    private static readonly Lazy<byte[]> Kept = new(() =>
    {
        using StoreFolder made = new();
        File.WriteAllBytes(made.Store, AnomalyWork.Before.Value);
        return AnomalyWork.All(WorkStore.Open(made.Store));
    });

    private byte[] Whole() => AnomalyWork.Whole(folder.Store);
}
