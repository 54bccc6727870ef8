namespace Stillhook.Files.Live;

/// <summary>Reads a journal back in the order of arrival.</summary>
internal static class JournalReading
{
    private const int LargestChunk = 65_536;

    /// <summary>What the journal holds at the time of the call; what is appended later is not in it.</summary>
    public static IEnumerable<JournalChunk> Read(string folder)
    {
        var queue = new PriorityQueue<Source, (long Sequence, int Source)>();
        int number = 0;
        foreach (string index in JournalNames.Indexes(folder))
        {
            if (!File.Exists(RawOf(index))) continue; // an index alone holds nothing that arrived
            Source source = new(index, number++);
            if (source.Advance()) queue.Enqueue(source, (source.Sequence, source.Number));
            else source.Dispose();
        }

        return InOrder(queue);
    }

    private static IEnumerable<JournalChunk> InOrder(PriorityQueue<Source, (long Sequence, int Source)> queue)
    {
        while (queue.TryDequeue(out Source? source, out _))
        {
            foreach (JournalChunk chunk in source.Chunks()) yield return chunk;
            if (source.Advance()) queue.Enqueue(source, (source.Sequence, source.Number));
            else source.Dispose();
        }
    }

    private static string RawOf(string index) => Path.ChangeExtension(index, JournalNames.Raw);

    /// <summary>A file as it is now, also while another process writes it.</summary>
    public static byte[] Whole(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
        byte[] bytes = new byte[file.Length];
        int count = file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        return bytes[..count];
    }

    /// <summary>One source: its entries, and the bytes no entry tells of (a write that was cut) at the time of the entry before.</summary>
    private sealed class Source : IDisposable
    {
        private readonly string _name, _text;
        private readonly FileStream _raw;
        private readonly List<JournalEntry> _entries;
        private readonly long _rawLength;
        private int _next = -1;
        private long _at;
        private double _arrivedS = double.NaN;

        public Source(string index, int number)
        {
            Number = number;
            byte[] file = Whole(index);
            string raw = RawOf(index);
            _raw = new FileStream(raw, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            _rawLength = _raw.Length;
            (string Name, string Text, int Length)? head = JournalIndex.ReadHead(file);
            (_name, _text) = head is { } known ? (known.Name, known.Text) : (Path.GetFileNameWithoutExtension(index), "");
            _entries = head is { } begun ? JournalIndex.Read(file.AsSpan(begun.Length), out _) : [];
            _entries.Sort((a, b) => a.Sequence.CompareTo(b.Sequence));
            EndEachWhereTheNextBegins();
            _arrivedS = _entries.Count > 0 ? _entries[0].ArrivedS : (File.GetLastWriteTimeUtc(raw) - DateTime.UnixEpoch).TotalSeconds;
        }

        public int Number { get; }

        /// <summary>Sequence of the entry that comes next; what is left behind the last entry has the sequence of that entry.</summary>
        public long Sequence => _entries.Count == 0 ? 0 : _entries[Math.Min(_next, _entries.Count - 1)].Sequence;

        public bool Advance()
        {
            _next++;
            return _next < _entries.Count || _next == _entries.Count && _at < _rawLength;
        }

        public IEnumerable<JournalChunk> Chunks()
        {
            if (_next >= _entries.Count)
            {
                foreach (JournalChunk chunk in Bytes(_rawLength)) yield return chunk;
                yield break;
            }

            JournalEntry entry = _entries[_next];
            foreach (JournalChunk chunk in Bytes(entry.Offset)) yield return chunk;
            _arrivedS = entry.ArrivedS;
            bool? linkUp = entry.Mark switch { JournalMark.Lost => false, JournalMark.Back => true, _ => null };
            if (entry.Mark != JournalMark.Bytes) yield return new JournalChunk(_name, _text, entry.ArrivedS, default, linkUp);
            foreach (JournalChunk chunk in Bytes(entry.Offset + entry.Length)) yield return chunk;
        }

        public void Dispose() => _raw.Dispose();

        // A loss of power may leave an index that tells of more than the raw file had; what came after it has an entry of its own.
        private void EndEachWhereTheNextBegins()
        {
            long end = _rawLength;
            for (int i = _entries.Count - 1; i >= 0; i--)
            {
                long begin = Math.Min(_entries[i].Offset, end);
                _entries[i] = _entries[i] with { Offset = begin, Length = (int)Math.Min(_entries[i].Length, end - begin) };
                end = begin;
            }
        }

        private IEnumerable<JournalChunk> Bytes(long upTo)
        {
            while (_at < upTo)
            {
                byte[] bytes = new byte[Math.Min(upTo - _at, LargestChunk)];
                _raw.Position = _at;
                int count = _raw.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
                if (count == 0) yield break;
                _at += count;
                yield return new JournalChunk(_name, _text, _arrivedS, bytes.AsMemory(0, count), null);
            }
        }
    }
}
