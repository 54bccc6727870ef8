using System.Collections.Concurrent;
using System.Globalization;
using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>How a journal is kept. The times are common practice, no source.</summary>
internal sealed record LiveJournalOptions
{
    /// <summary>A flight goes on in its folder when its last byte is younger than this; otherwise a new folder is begun.</summary>
    public TimeSpan SameFlightWithin { get; init; } = TimeSpan.FromMinutes(30);

    /// <summary>How often what arrived is brought onto the disk itself, so that a loss of power takes no more than this.</summary>
    public TimeSpan FlushEvery { get; init; } = TimeSpan.FromSeconds(0.5);

    /// <summary>How long to wait after a failed write before the disk is tried again.</summary>
    public TimeSpan RetryAfter { get; init; } = TimeSpan.FromSeconds(2);
}

/// <summary>Keeps every byte that arrives, before anything is made of it: a folder a flight, in it a raw file and an index for each source.</summary>
/// <remarks>
/// The raw file holds exactly what arrived and can be read as a record. A killed process loses nothing that was appended; after a loss of power what was
/// appended in the last second may be missing. A write that fails never throws: it is said, what arrives meanwhile is not kept, and the disk is tried again.
/// </remarks>
internal sealed class LiveJournal : IDisposable
{
    private const double ClockSetBackS = 60; // a last byte that lies this far ahead is still of this flight; common practice, no source

    private readonly Lock _gate = new();
    private readonly IReadOnlyList<LiveSourceSetting> _sources;
    private readonly string[] _fileNames;
    private readonly JournalFiles?[] _files;
    private readonly TimeProvider _clock;
    private readonly LiveJournalOptions _options;
    private readonly Action<Finding> _found;
    private readonly ConcurrentQueue<Finding> _toSay = new();
    private readonly FileStream _held;
    private readonly ITimer _flushing;
    private readonly long[] _notKept; // bytes of each source since the disk failed
    private long _sequence, _failedAt;
    private bool _failing, _disposed;

    private LiveJournal(string folder, FileStream held, IReadOnlyList<LiveSourceSetting> sources, TimeProvider clock, LiveJournalOptions options, Action<Finding> found)
    {
        (Folder, _held, _sources, _clock, _options, _found) = (folder, held, sources, clock, options, found);
        _fileNames = JournalNames.Of(folder, sources);
        _files = new JournalFiles?[sources.Count];
        _notKept = new long[sources.Count];
        _flushing = clock.CreateTimer(_ => Flush(), null, options.FlushEvery, options.FlushEvery);
    }

    /// <summary>Folder of the flight.</summary>
    public string Folder { get; }

    /// <summary>True when a flight of a run before goes on.</summary>
    public bool Resumed { get; private set; }

    /// <summary>True while the disk can't be written.</summary>
    public bool Failing => _failing;

    /// <summary>Opens the flight that goes on, or begins one.</summary>
    /// <param name="root">Folder of all flights.</param>
    /// <param name="sources">The sources that will be kept.</param>
    /// <param name="clock">The clock of arrival.</param>
    /// <param name="options">How it is kept.</param>
    /// <param name="found">Told when the disk fails and when it works again.</param>
    /// <exception cref="IOException">The folder can't be made or written.</exception>
    /// <exception cref="UnauthorizedAccessException">This user may not write there.</exception>
    public static LiveJournal Open(string root, IReadOnlyList<LiveSourceSetting> sources, TimeProvider clock, LiveJournalOptions? options = null, Action<Finding>? found = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(root);
        ArgumentNullException.ThrowIfNull(sources);
        ArgumentNullException.ThrowIfNull(clock);
        options ??= new LiveJournalOptions();
        Directory.CreateDirectory(root);
        double now = ArrivalTime.Now(clock);
        foreach (string folder in Directory.EnumerateDirectories(root).OrderDescending(StringComparer.Ordinal).Take(3))
        {
            double age = now - JournalNames.LastArrivalS(folder);
            if (!(age > -ClockSetBackS && age < options.SameFlightWithin.TotalSeconds) || Hold(folder) is not { } held) continue;
            var going = new LiveJournal(folder, held, sources, clock, options, found ?? (_ => { })) { Resumed = true };
            going.GoOn(now);
            going.Say();
            return going;
        }

        string anew = Begin(root, clock.GetUtcNow(), out FileStream hold);
        var journal = new LiveJournal(anew, hold, sources, clock, options, found ?? (_ => { }));
        lock (journal._gate) journal.TryAll();
        journal.Say();
        return journal;
    }

    /// <summary>What the journal of a flight kept, in order of arrival. A journal that is being written can be read.</summary>
    public static IEnumerable<JournalChunk> Read(string folder) => JournalReading.Read(folder);

    /// <summary>Appends what arrived from a source; false when it could not be kept.</summary>
    public bool Append(int source, ReadOnlySpan<byte> bytes, double arrivedS) => Write(source, bytes, arrivedS, JournalMark.Bytes);

    /// <summary>Notes that a link was lost or is back.</summary>
    public void MarkLink(int source, bool up, double atS) => Write(source, default, atS, up ? JournalMark.Back : JournalMark.Lost);

    /// <summary>True while something was appended that was not brought onto the disk itself yet.</summary>
    internal bool Unflushed
    {
        get
        {
            lock (_gate) return _files.Any(f => f is { Unflushed: true });
        }
    }

    /// <summary>How much of a source is kept, and its last bytes.</summary>
    internal (long Length, byte[] End) Kept(int source, int endLength)
    {
        lock (_gate) return _files[source] is { } files ? (files.Length, files.End(endLength)) : (0, []);
    }

    /// <summary>Brings everything onto the disk itself.</summary>
    public void Flush()
    {
        JournalFiles?[] files;
        lock (_gate)
        {
            if (_disposed) return;
            files = [.. _files];
        }

        foreach (JournalFiles? file in files)
        {
            try
            {
                file?.FlushToDisk();
            }
            catch (ObjectDisposedException)
            {
                // closed by a failed write in between
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                lock (_gate) Fail(e);
            }
        }

        Say();
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _flushing.Dispose();
        Flush();
        lock (_gate)
        {
            if (_disposed) return;
            _disposed = true;
            foreach (JournalFiles? file in _files) file?.Dispose();
        }

        _held.Dispose();
    }

    // Whoever is told may ask this journal or its input something, so no lock is held meanwhile.
    private void Say()
    {
        while (_toSay.TryDequeue(out Finding? finding)) _found(finding);
    }

    private bool Write(int source, ReadOnlySpan<byte> bytes, double arrivedS, JournalMark mark)
    {
        bool written = TryWrite(source, bytes, arrivedS, mark);
        Say();
        return written;
    }

    private bool TryWrite(int source, ReadOnlySpan<byte> bytes, double arrivedS, JournalMark mark)
    {
        lock (_gate)
        {
            if (_disposed) return false;
            if (_failing && _clock.GetElapsedTime(_failedAt) < _options.RetryAfter || _files[source] is null && !TryAll())
            {
                _notKept[source] += bytes.Length;
                return false;
            }

            try
            {
                if (_failing) MarkGaps(arrivedS);
                _files[source]!.Append(bytes, _sequence++, arrivedS, mark);
                if (_failing) WordAgain();
                return true;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                _notKept[source] += bytes.Length;
                Fail(e);
                return false;
            }
        }
    }

    // What comes next does not join what was kept before: half a number would be a wrong number.
    private void MarkGaps(double arrivedS)
    {
        for (int i = 0; i < _files.Length; i++)
            if (_notKept[i] > 0) _files[i]!.Append(default, _sequence++, arrivedS, JournalMark.Gap);
    }

    private void Fail(Exception e)
    {
        _failedAt = _clock.GetTimestamp();
        CloseFiles();
        if (_failing) return;
        _failing = true;
        _toSay.Enqueue(new Finding(Severity.Error, "recording-failed", null, 1, $"What arrives can't be written to {Folder}: {e.Message.TrimEnd('.')}.",
            "Following goes on, but nothing is kept: make room on the disk or plug it in. It is tried again by itself."));
    }

    /// <summary>Closes the files; the next write opens them again.</summary>
    internal void CloseFiles()
    {
        for (int i = 0; i < _files.Length; i++)
        {
            _files[i]?.Dispose();
            _files[i] = null;
        }
    }

    private void WordAgain()
    {
        _failing = false;
        _toSay.Enqueue(new Finding(Severity.Warning, "recording-again", null, 1, $"Recording to {Folder} goes on.", string.Create(CultureInfo.InvariantCulture, $"{_notKept.Sum()} bytes that came meanwhile were not kept.")));
        Array.Clear(_notKept);
    }

    private bool TryAll()
    {
        try
        {
            Directory.CreateDirectory(Folder);
            for (int i = 0; i < _files.Length; i++)
            {
                string path = Path.Combine(Folder, _fileNames[i]);
                _files[i] ??= JournalFiles.Open(path + JournalNames.Raw, path + JournalNames.Index, _sources[i].Name, _sources[i].Text);
            }

            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            Fail(e);
            return false;
        }
    }

    // The sequence goes on behind everything that is there, and what was cut off is marked as a lost link.
    private void GoOn(double now)
    {
        _sequence = JournalNames.LastSequence(Folder) + 1;
        lock (_gate)
        {
            if (!TryAll()) return;
            for (int i = 0; i < _files.Length; i++)
                if (_files[i]!.Length > 0) _files[i]!.Append(default, _sequence++, now, JournalMark.Lost);
        }
    }

    private static string Begin(string root, DateTimeOffset now, out FileStream held)
    {
        string name = now.UtcDateTime.ToString("yyyy-MM-dd'T'HH-mm-ss'Z'", CultureInfo.InvariantCulture);
        for (int number = 1; ; number++)
        {
            string folder = Path.Combine(root, number == 1 ? name : string.Create(CultureInfo.InvariantCulture, $"{name}-{number}"));
            if (Directory.Exists(folder)) continue;
            Directory.CreateDirectory(folder);
            if (Hold(folder) is not { } hold) continue;
            held = hold;
            return folder;
        }
    }

    // Held by one process; the system lets go of it however that ends.
    private static FileStream? Hold(string folder)
    {
        try
        {
            return new FileStream(Path.Combine(folder, "held"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException)
        {
            return null;
        }
    }
}
