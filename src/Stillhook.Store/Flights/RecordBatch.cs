using System.Runtime.ExceptionServices;

namespace Stillhook.Store;

/// <summary>A record to be taken in.</summary>
/// <param name="Name">Name for people: the file's name.</param>
/// <param name="Open">Opens its bytes from the start; asked for up to three times, one stream at a time.</param>
/// <param name="JobText">Text of the job file that goes with it; null when there is none.</param>
public sealed record RecordSource(string Name, Func<Stream> Open, string? JobText = null);

/// <summary>What came of one record of a batch.</summary>
public enum BatchOutcome
{
    /// <summary>Kept.</summary>
    Added,

    /// <summary>The same bytes were there with their work; nothing was done.</summary>
    AlreadyThere,

    /// <summary>It could not be read; the others go on.</summary>
    Refused,
}

/// <summary>One record of a batch is done: when this is told, it is kept for good.</summary>
/// <param name="Done">How many are done.</param>
/// <param name="Of">How many there are.</param>
/// <param name="Source">Which one.</param>
/// <param name="Outcome">What came of it.</param>
/// <param name="Flight">The flight; null when refused.</param>
/// <param name="Reason">Why it was refused.</param>
public sealed record BatchStep(int Done, int Of, RecordSource Source, BatchOutcome Outcome, Flight? Flight, string? Reason);

/// <summary>Takes many records in: the working out on every core, each flight in one transaction. Started again after a stop or a kill, it goes on where it was.</summary>
public static class RecordBatch
{
    /// <summary>Takes records in.</summary>
    /// <param name="store">Where to.</param>
    /// <param name="sources">The records.</param>
    /// <param name="work">Works a record out; called from several threads at once, and not for what is there already. Null keeps the bytes alone.</param>
    /// <param name="clock">For the times of import.</param>
    /// <param name="progress">Told after each record, one at a time.</param>
    /// <param name="cancellation">Stops between records; what is done is kept.</param>
    /// <returns>One step a record, in the order of the sources.</returns>
    /// <exception cref="StoreException">The store can take no more, such as a full disk; what was told to be done is kept.</exception>
    public static IReadOnlyList<BatchStep> TakeIn(WorkStore store, IReadOnlyList<RecordSource> sources, Func<RecordSource, Stream, FlightWork?> work, TimeProvider clock, Action<BatchStep>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(sources);
        ArgumentNullException.ThrowIfNull(work);
        ArgumentNullException.ThrowIfNull(clock);
        BatchStep[] steps = new BatchStep[sources.Count];
        Lock telling = new();
        int done = 0;
        ParallelOptions cores = new() { MaxDegreeOfParallelism = Environment.ProcessorCount, CancellationToken = cancellation };
        try
        {
            Parallel.For(0, sources.Count, cores, i =>
            {
                (BatchOutcome outcome, Flight? flight, string? reason) = One(store, sources[i], work, clock);
                lock (telling)
                {
                    steps[i] = new(++done, sources.Count, sources[i], outcome, flight, reason);
                    progress?.Invoke(steps[i]);
                }
            });
        }
        catch (AggregateException several)
        {
            // The store's own reason before what else went wrong at the same time.
            ExceptionDispatchInfo.Throw(several.InnerExceptions.OfType<StoreException>().FirstOrDefault() ?? several.InnerExceptions[0]);
        }
        return steps;
    }

    private static (BatchOutcome, Flight?, string?) One(WorkStore store, RecordSource source, Func<RecordSource, Stream, FlightWork?> work, TimeProvider clock)
    {
        try
        {
            if (WithWork(store, source) is { } there)
                return (BatchOutcome.AlreadyThere, there, null);
            FlightWork? found;
            using (Stream content = source.Open())
                found = work(source, content);
            using Stream bytes = source.Open();
            AddedFlight added = store.Flights.Add(source.Name, bytes, clock.GetUtcNow(), source.JobText, found);
            return (added.AlreadyThere && found is null ? BatchOutcome.AlreadyThere : BatchOutcome.Added, added.Flight, null);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidDataException or FormatException or ArgumentException)
        {
            return (BatchOutcome.Refused, null, $"{source.Name}: {e.Message}");
        }
    }

    private static Flight? WithWork(WorkStore store, RecordSource source)
    {
        using Stream content = source.Open();
        return store.Flights.FindByDigest(Remnants.CopyWithDigest(content, Stream.Null)) is { } flight && store.Flights.HasWork(flight.Id) ? flight : null;
    }
}
