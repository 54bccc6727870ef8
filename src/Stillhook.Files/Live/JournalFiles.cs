using Microsoft.Win32.SafeHandles;

namespace Stillhook.Files.Live;

/// <summary>The two files of one source: its bytes exactly as they arrived, and the index.</summary>
internal sealed class JournalFiles : IDisposable
{
    private readonly SafeFileHandle _raw, _index;
    private readonly byte[] _entry = new byte[JournalIndex.EntryLength];
    private long _rawLength, _indexLength;
    private int _dirty;

    private JournalFiles(SafeFileHandle raw, SafeFileHandle index) => (_raw, _index) = (raw, index);

    /// <summary>Length of the raw file.</summary>
    public long Length => _rawLength;

    /// <summary>True while something was appended that was not brought onto the disk itself yet.</summary>
    public bool Unflushed => Volatile.Read(ref _dirty) != 0;

    /// <summary>Opens or begins the files; nothing of the raw file is dropped, of the index only a torn end.</summary>
    public static JournalFiles Open(string rawPath, string indexPath, string name, string text)
    {
        SafeFileHandle raw = File.OpenHandle(rawPath, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.Read | FileShare.Delete);
        SafeFileHandle? index = null;
        try
        {
            index = File.OpenHandle(indexPath, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.Read | FileShare.Delete);
            var files = new JournalFiles(raw, index);
            files.Begin(name, text);
            return files;
        }
        catch
        {
            raw.Dispose();
            index?.Dispose();
            throw;
        }
    }

    private void Begin(string name, string text)
    {
        _rawLength = RandomAccess.GetLength(_raw);
        byte[] known = new byte[RandomAccess.GetLength(_index)];
        int count = 0;
        while (count < known.Length && RandomAccess.Read(_index, known.AsSpan(count), count) is > 0 and var read) count += read;
        if (JournalIndex.ReadHead(known) is { } head)
        {
            _ = JournalIndex.Read(known.AsSpan(head.Length), out long good);
            _indexLength = head.Length + good;
            RandomAccess.SetLength(_index, _indexLength);
            return;
        }

        byte[] begin = JournalIndex.Head(name, text);
        RandomAccess.SetLength(_index, 0);
        RandomAccess.Write(_index, begin, 0);
        _indexLength = begin.Length;
        _dirty = 1;
    }

    /// <summary>Appends what arrived, the bytes first.</summary>
    public void Append(ReadOnlySpan<byte> bytes, long sequence, double arrivedS, JournalMark mark)
    {
        if (bytes.Length > 0) RandomAccess.Write(_raw, bytes, _rawLength);
        JournalIndex.Write(new JournalEntry(sequence, _rawLength, arrivedS, bytes.Length, mark), _entry);
        _rawLength += bytes.Length;
        RandomAccess.Write(_index, _entry, _indexLength);
        _indexLength += _entry.Length;
        Volatile.Write(ref _dirty, 1);
    }

    /// <summary>The last bytes of the raw file.</summary>
    public byte[] End(int length)
    {
        byte[] end = new byte[Math.Min(length, _rawLength)];
        int count = RandomAccess.Read(_raw, end, _rawLength - end.Length);
        return end[..count];
    }

    /// <summary>Brings what was appended onto the disk itself; may run beside an append.</summary>
    public void FlushToDisk()
    {
        if (Interlocked.Exchange(ref _dirty, 0) == 0) return;
        RandomAccess.FlushToDisk(_raw);
        RandomAccess.FlushToDisk(_index);
    }

    public void Dispose()
    {
        _raw.Dispose();
        _index.Dispose();
    }
}
