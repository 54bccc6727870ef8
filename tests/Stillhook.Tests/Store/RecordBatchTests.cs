using Stillhook.Store;

namespace Stillhook.Tests.Store;

public sealed class RecordBatchTests : IDisposable
{
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    // Closed form: twelve of the fourteen records can be read.
    [Fact]
    public void TakeIn_ManyRecords_AllKeptWithTheirWorkAndTheSecondRunDoesNothing()
    {
        WorkStore store = WorkStore.Open(folder.Store);
        List<RecordSource> sources = [.. Enumerable.Range(0, 12).Select(i => new RecordSource($"{i}", () => new MemoryStream(StoreChildWork.Record(i))))];
        sources.Add(new("broken", () => throw new IOException("the card was pulled out")));
        sources.Add(new("unreadable", () => StoreTests.Content("nonsense")));
        List<BatchStep> told = [];
        int worked = 0;
        FlightWork? Work(RecordSource source, Stream content)
        {
            if (source.Name == "unreadable")
                throw new FormatException("no record");
            Interlocked.Increment(ref worked);
            return StoreChildWork.Of(int.Parse(source.Name, System.Globalization.CultureInfo.InvariantCulture));
        }
        IReadOnlyList<BatchStep> steps = RecordBatch.TakeIn(store, sources, Work, TimeProvider.System, told.Add, TestContext.Current.CancellationToken);
        Assert.Equal(Enumerable.Range(1, 14), told.Select(s => s.Done));
        Assert.Equal(sources.Select(s => s.Name), steps.Select(s => s.Source.Name));
        Assert.Equal(12, steps.Count(s => s.Outcome == BatchOutcome.Added));
        Assert.Equal(["broken: the card was pulled out", "unreadable: no record"], steps.Where(s => s.Outcome == BatchOutcome.Refused).Select(s => s.Reason));
        Assert.Equal(12 * StoreChildWork.Lifts, store.Flights.List().Sum(f => store.Lifts.OfFlight(f.Id).Count));

        steps = RecordBatch.TakeIn(store, sources, Work, TimeProvider.System, null, TestContext.Current.CancellationToken);
        Assert.Equal(12, steps.Count(s => s.Outcome == BatchOutcome.AlreadyThere));
        Assert.Equal(12, worked);
    }

    [Fact]
    public void TakeIn_DiskFull_StopsWithTheReasonAndKeepsWhatWasTold()
    {
        WorkStore.Open(folder.Store);
        WorkStore tight = WorkStore.Open(folder.Store, new() { MostPages = 120 });
        List<string> told = [];
        List<RecordSource> sources = [.. Enumerable.Range(0, 40).Select(i => new RecordSource($"{i}", () => new MemoryStream(StoreChildWork.Record(i))))];
        StoreException e = Assert.Throws<StoreException>(() => RecordBatch.TakeIn(tight, sources, (s, _) => null, TimeProvider.System, step => told.Add(step.Flight!.Digest), TestContext.Current.CancellationToken));
        Assert.Equal(StoreFault.DiskFull, e.Fault);
        Assert.NotEmpty(told);
        Assert.Subset(WorkStore.Open(folder.Store).Flights.List().Select(f => f.Digest).ToHashSet(), told.ToHashSet());
    }

    // Common practice, no source: after the third is done no more than those already begun, fewer than ten of forty.
    [Fact]
    public void TakeIn_Cancelled_KeepsWhatIsDone()
    {
        WorkStore store = WorkStore.Open(folder.Store);
        using CancellationTokenSource stop = new();
        List<RecordSource> sources = [.. Enumerable.Range(0, 40).Select(i => new RecordSource($"{i}", () => new MemoryStream(StoreChildWork.Record(i))))];
        int done = 0;
        Assert.ThrowsAny<OperationCanceledException>(() => RecordBatch.TakeIn(store, sources, (_, _) => null, TimeProvider.System, step =>
        {
            done = step.Done;
            if (step.Done == 3)
                stop.Cancel();
        }, stop.Token));
        Assert.Equal(done, store.Flights.List().Count);
        Assert.InRange(done, 3, 10);
    }
}
