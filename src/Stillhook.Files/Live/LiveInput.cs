using System.Buffers;
using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>Live sources, their journal and their decoders put together: what arrives is kept, decoded and given to one sink, in order of arrival, on one thread.</summary>
public sealed class LiveInput : IAsyncDisposable
{
    private static readonly TimeSpan s_idle = TimeSpan.FromMilliseconds(250); // how late silence may be seen; common practice, no source

    private readonly IReadOnlyList<LiveSourceSetting> _settings;
    private readonly LiveFindings _findings;
    private readonly LiveIntakes _shared;
    private readonly SourceIntake[] _intakes;
    private readonly ILiveSource[] _sources;
    private readonly ISampleSink _sink;
    private readonly UtcOffset _offset = new();
    private readonly CancellationTokenSource _stopping = new();
    private readonly TaskCompletionSource _decoded = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly IEnumerable<JournalChunk> _before;
    private Task _running = Task.CompletedTask;
    private readonly Lazy<Task> _stop;

    private LiveInput(IReadOnlyList<LiveSourceSetting> settings, ISampleSink sink, LiveInputOptions options)
    {
        _settings = settings;
        _stop = new Lazy<Task>(Stop);
        Clock = settings.Any(s => s.Kind == LiveSourceKind.Replay) ? new ReplayClock(options.Clock) : options.Clock;
        _findings = new LiveFindings(Clock, options.Found);
        _sink = new GuardedSink(sink, _findings.Add);
        LiveJournal? journal = OpenJournal(options);
        _before = journal is { Resumed: true } ? LiveJournal.Read(journal.Folder) : [];
        _shared = new LiveIntakes(Clock, journal, _findings.Add);
        _intakes = [.. settings.Select((s, i) => new SourceIntake(i, s, new SourceFeed(s, _offset, _sink, f => _findings.Add(s.Name, f)), _shared))];
        _sources = [.. settings.Select((s, i) => Source(s, new BackOff(options.Seed is { } seed ? new Random(unchecked(seed + i)) : new Random()), i))];
    }

    /// <summary>The clock of arrival; while a record is replayed it shows the record's time.</summary>
    public TimeProvider Clock { get; }

    /// <summary>Folder of this flight's journal; null when nothing is kept.</summary>
    public string? JournalFolder => _shared.Journal?.Folder;

    /// <summary>True when a flight of a run before goes on: the sink was first given what that run had kept.</summary>
    public bool Resumed => _shared.Journal?.Resumed ?? false;

    /// <summary>True while what arrives can't be kept.</summary>
    public bool RecordingFails => _shared.Journal?.Failing ?? false;

    /// <summary>Everything people should know, once for each source and kind, with its count.</summary>
    public IReadOnlyList<LiveFinding> Findings => _findings.All;

    /// <summary>Ends when every source has ended (only replays do) or after <see cref="DisposeAsync"/>, with everything given to the sink.</summary>
    public Task Ended => _decoded.Task;

    /// <summary>Begins to take in.</summary>
    /// <param name="sources">The sources, each with a name of its own.</param>
    /// <param name="sink">Given what arrives, on one thread.</param>
    /// <param name="options">Clock, journal and who is told findings.</param>
    /// <param name="cancellation">Stops it, as <see cref="DisposeAsync"/> does.</param>
    /// <exception cref="IOException">The folder of the journal can't be made.</exception>
    /// <exception cref="UnauthorizedAccessException">This user may not write there.</exception>
    public static LiveInput Start(IReadOnlyList<LiveSourceSetting> sources, ISampleSink sink, LiveInputOptions? options = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(sources);
        ArgumentNullException.ThrowIfNull(sink);
        if (sources.Count == 0) throw new ArgumentOutOfRangeException(nameof(sources), 0, "At least one source.");
        if (sources.DistinctBy(s => s.Name).Count() < sources.Count) throw new ArgumentException("Each source has a name of its own.", nameof(sources));
        var input = new LiveInput(sources, sink, options ?? new LiveInputOptions());
        input.Run(cancellation);
        return input;
    }

    /// <summary>Feeds what a journal kept through the same decoders into a sink.</summary>
    /// <param name="folder">Folder of one flight.</param>
    /// <param name="sink">Given what arrived, in order of arrival.</param>
    /// <param name="found">Told what the decoders find.</param>
    public static void Rebuild(string folder, ISampleSink sink, Action<LiveFinding>? found = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        ArgumentNullException.ThrowIfNull(sink);
        var findings = new LiveFindings(TimeProvider.System, found);
        var offset = new UtcOffset();
        var feeds = new Dictionary<string, SourceFeed>();
        Feed(LiveJournal.Read(folder), feeds, s => new SourceFeed(s, offset, sink, f => findings.Add(s.Name, f)));
        foreach (SourceFeed feed in feeds.Values) feed.Decoder.End();
    }

    /// <summary>How each source is doing now, in the order they were given.</summary>
    public IReadOnlyList<SourceState> States()
    {
        double now = _shared.NowS;
        return [.. _intakes.Select(i => i.State(now))];
    }

    /// <summary>Stops receiving, gives the sink what is still waiting, and closes the journal.</summary>
    public ValueTask DisposeAsync() => new(_stop.Value);

    private void Run(CancellationToken cancellation)
    {
        CancellationTokenRegistration asked = cancellation.Register(() => _ = _stop.Value);
        _running = Task.WhenAll(_sources.Select((s, i) => Task.Run(() => Receive(s, _intakes[i]))));
        _running.ContinueWith(_ => _shared.Queue.End(), TaskScheduler.Default);
        var thread = new Thread(() => Decode(asked)) { IsBackground = true, Name = "live input" };
        thread.Start();
    }

    private async Task Stop()
    {
        await _stopping.CancelAsync();
        await _running.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        await _decoded.Task.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        _shared.Journal?.Dispose();
        _stopping.Dispose();
    }

    private async Task Receive(ILiveSource source, SourceIntake intake)
    {
        try
        {
            await source.RunAsync(intake, _stopping.Token);
        }
        catch (OperationCanceledException)
        {
            // stopped
        }
        catch (Exception e)
        {
            intake.Down(e.Message);
            intake.Say(new Finding(Severity.Error, "source-failed", null, 1, $"The source ended: {e.GetType().Name}: {e.Message}", "Start it again."));
        }
    }

    private void Decode(CancellationTokenRegistration asked)
    {
        try
        {
            Dictionary<string, SourceFeed> feeds = _settings.Select((s, i) => (s.Name, _intakes[i].Feed)).ToDictionary(f => f.Name, f => f.Feed);
            FeedBefore(feeds);
            while (!_shared.Queue.Done)
            {
                if (_shared.Queue.Take(Wait(), out Arrival arrival)) Give(arrival);
                else foreach (SourceIntake intake in _intakes) intake.Feed.Tick(_shared.NowS);
            }

            foreach (SourceIntake intake in _intakes) intake.Feed.Decoder.End();
            _decoded.TrySetResult();
        }
        catch (Exception e)
        {
            _decoded.TrySetException(e);
        }
        finally
        {
            asked.Unregister();
        }
    }

    // A journal that can't be read to its end never keeps what arrives now from being followed.
    private void FeedBefore(Dictionary<string, SourceFeed> feeds)
    {
        try
        {
            Feed(_before, feeds, s => new SourceFeed(s, _offset, _sink, f => _findings.Add(s.Name, f)));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            _findings.Add("", new Finding(Severity.Error, "journal-unreadable", null, 1, $"What a run before kept in {JournalFolder} can't be read on: {e.Message.TrimEnd('.')}.",
                "Following goes on without the rest of it; check the disk."));
        }
    }

    private void Give(in Arrival arrival)
    {
        foreach (SourceIntake intake in _intakes) intake.Feed.Tick(arrival.AtS);
        SourceFeed feed = _intakes[arrival.Source].Feed;
        switch (arrival.Kind)
        {
            case ArrivalKind.Up: feed.Up(arrival.Why, arrival.AtS); break;
            case ArrivalKind.Gap: feed.Decoder.Cut(); break;
            case ArrivalKind.Down: feed.Down(arrival.Why, arrival.AtS); break;
            default:
                feed.Take(arrival.Buffer.AsSpan(0, arrival.Length), arrival.AtS);
                ArrayPool<byte>.Shared.Return(arrival.Buffer);
                break;
        }
    }

    // Until the first position that is being gathered is due.
    private TimeSpan Wait()
    {
        double due = _intakes.Select(i => i.Feed.Decoder.DueS).Where(d => !double.IsNaN(d)).DefaultIfEmpty(double.PositiveInfinity).Min() - _shared.NowS;
        return due < s_idle.TotalSeconds ? TimeSpan.FromSeconds(Math.Max(due, 0.001)) : s_idle;
    }

    private static void Feed(IEnumerable<JournalChunk> chunks, Dictionary<string, SourceFeed> feeds, Func<LiveSourceSetting, SourceFeed> other)
    {
        foreach (JournalChunk chunk in chunks)
        {
            if (!feeds.TryGetValue(chunk.Source, out SourceFeed? feed)) feeds[chunk.Source] = feed = other(Setting(chunk));
            foreach (SourceFeed each in feeds.Values) each.Tick(chunk.ArrivedS);
            if (chunk.LinkUp == true) feed.Up("the link is back", chunk.ArrivedS);
            else if (chunk.LinkUp == false) feed.Down("the link was lost", chunk.ArrivedS);
            else if (chunk.Bytes.IsEmpty) feed.Decoder.Cut();
            else feed.Take(chunk.Bytes.Span, chunk.ArrivedS);
        }
    }

    private static LiveSourceSetting Setting(JournalChunk chunk) =>
        (LiveSourceText.Parse(chunk.Text, new List<Finding>()) ?? new LiveSourceSetting { Text = chunk.Text, Name = chunk.Source, Kind = LiveSourceKind.File }) with { Name = chunk.Source };

    private LiveJournal? OpenJournal(LiveInputOptions options) =>
        options.JournalRoot is null ? null : LiveJournal.Open(options.JournalRoot, _settings, Clock, found: f => _findings.Add("", f));

    private ILiveSource Source(LiveSourceSetting setting, BackOff backOff, int number) => setting.Kind switch
    {
        LiveSourceKind.Udp => new UdpSource(setting, backOff, Clock),
        LiveSourceKind.TcpClient => new TcpClientSource(setting, backOff, Clock),
        LiveSourceKind.TcpServer => new TcpServerSource(setting, backOff, Clock),
        LiveSourceKind.Serial => new SerialSource(setting, backOff, Clock),
        LiveSourceKind.File => new GrowingFileSource(setting, backOff, Clock, Resumed ? _shared.Journal!.Kept(number, 64) : (0, [])),
        LiveSourceKind.Replay => new ReplaySource(setting, (ReplayClock)Clock),
        _ => throw new ArgumentOutOfRangeException(nameof(setting), setting.Kind, "One of the kinds of sources."),
    };
}
