using System.Globalization;
using System.Runtime.CompilerServices;

namespace Stillhook.App.Serving;

/// <summary>That something happened; the page then asks for what it shows.</summary>
/// <param name="Id">Counts up from 1; 0 for a sign of life.</param>
/// <param name="What">One word: light, delivery, link, ground, mark, trouble, life.</param>
public readonly record struct LiveEvent(long Id, string What);

/// <summary>Numbers what happens, keeps the last of it, and hands it to whoever listens.</summary>
public sealed class LiveEvents
{
    private const int Kept = 1000;
    private readonly Lock gate = new();
    private readonly Queue<LiveEvent> last = new();
    private TaskCompletionSource happened = New();
    private TaskCompletionSource alive = New();
    private long id;

    /// <summary>Id of the newest event.</summary>
    public long NewestId
    {
        get
        {
            lock (gate)
                return id;
        }
    }

    /// <summary>Something happened.</summary>
    public void Publish(string what)
    {
        TaskCompletionSource before;
        lock (gate)
        {
            last.Enqueue(new(++id, what));
            if (last.Count > Kept)
                last.Dequeue();
            (before, happened) = (happened, New());
        }
        before.SetResult();
    }

    /// <summary>Nothing happened, but the program lives.</summary>
    public void Beat()
    {
        TaskCompletionSource before;
        lock (gate)
            (before, alive) = (alive, New());
        before.SetResult();
    }

    /// <summary>Events after an id, as they come; what came meanwhile is told first. An id that is not kept any more, or of an earlier start, gives one event: all.</summary>
    /// <param name="afterId">The last id that the listener has; null for one that begins.</param>
    /// <param name="cancellation">Ends it.</param>
    public async IAsyncEnumerable<LiveEvent> After(long? afterId, [EnumeratorCancellation] CancellationToken cancellation)
    {
        long told;
        lock (gate)
            told = afterId is { } known && known <= id && (last.Count == 0 || known >= last.Peek().Id - 1) ? known : -1;
        if (told < 0)
        {
            told = NewestId;
            yield return new(told, "all");
        }
        while (!cancellation.IsCancellationRequested)
        {
            LiveEvent[] news;
            Task waiting, life;
            lock (gate)
                (news, waiting, life) = ([.. last.Where(e => e.Id > told)], happened.Task, alive.Task);
            foreach (LiveEvent e in news)
            {
                told = e.Id;
                yield return e;
            }
            if (news.Length > 0)
                continue;
            Task first = await Task.WhenAny(waiting, life).WaitAsync(cancellation);
            if (first == life && !waiting.IsCompleted)
                yield return new(0, "life");
        }
    }

    /// <summary>Reads an id as a browser sends it back.</summary>
    public static long? IdFrom(string? text) => long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out long known) ? known : null;

    private static TaskCompletionSource New() => new(TaskCreationOptions.RunContinuationsAsynchronously);
}
