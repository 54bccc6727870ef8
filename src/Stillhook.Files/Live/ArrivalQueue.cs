using System.Buffers;

namespace Stillhook.Files.Live;

/// <summary>What happened to a source.</summary>
internal enum ArrivalKind
{
    Bytes, Up, Down,

    /// <summary>Bytes were left to the journal alone; what follows does not join what was before.</summary>
    Gap,
}

/// <summary>Bytes that arrived or a change of a link, in a rented buffer.</summary>
internal readonly record struct Arrival(int Source, ArrivalKind Kind, double AtS, byte[] Buffer, int Length, string Why);

/// <summary>Arrivals on their way to the one thread that decodes them.</summary>
internal sealed class ArrivalQueue
{
    private const long MostBytes = 32 << 20; // bytes, hours of positions and loads; common practice, no source

    private readonly object _gate = new();
    private readonly Queue<Arrival> _queue = new();
    private long _bytes;
    private bool _ended;

    /// <summary>Adds bytes; false when so much waits already that they are left to the journal alone.</summary>
    public bool Add(int source, ReadOnlySpan<byte> bytes, double atS)
    {
        lock (_gate)
        {
            if (_bytes + bytes.Length > MostBytes) return false;
            byte[] buffer = ArrayPool<byte>.Shared.Rent(bytes.Length);
            bytes.CopyTo(buffer);
            _bytes += bytes.Length;
            _queue.Enqueue(new Arrival(source, ArrivalKind.Bytes, atS, buffer, bytes.Length, ""));
            Monitor.Pulse(_gate);
            return true;
        }
    }

    public void Add(int source, ArrivalKind kind, string why, double atS)
    {
        lock (_gate)
        {
            _queue.Enqueue(new Arrival(source, kind, atS, [], 0, why));
            Monitor.Pulse(_gate);
        }
    }

    /// <summary>The next arrival; false when none came within the time or no more will come.</summary>
    public bool Take(TimeSpan wait, out Arrival arrival)
    {
        lock (_gate)
        {
            if (_queue.Count == 0 && !_ended && wait > TimeSpan.Zero) Monitor.Wait(_gate, wait);
            if (!_queue.TryDequeue(out arrival)) return false;
            _bytes -= arrival.Length;
            return true;
        }
    }

    /// <summary>True when no more will come and all was taken.</summary>
    public bool Done
    {
        get
        {
            lock (_gate) return _ended && _queue.Count == 0;
        }
    }

    public void End()
    {
        lock (_gate)
        {
            _ended = true;
            Monitor.PulseAll(_gate);
        }
    }
}
