using System.IO.Compression;
using Stillhook.Recording;

namespace Stillhook.Files.Records;

/// <summary>A packed input grows beyond what a record does.</summary>
internal sealed class ExpansionLimitException(string message) : Exception(message);

/// <summary>Opens gzip and zip so that the record inside is read like a plain one, never further than the limits.</summary>
internal static class RecordUnpacker
{
    public static FlightRecord Open(Stream stream, string name, RecordReadOptions options, FindingLog findings, Func<HeadStream, string, FlightRecord> read)
    {
        var outer = new HeadStream(stream);
        if (outer.Head is [0x1f, 0x8b, ..]) return OpenGzip(outer, name, options, read);
        return outer.Head.StartsWith("PK\u0003\u0004"u8) ? OpenZip(outer, name, options, findings, read) : read(outer, name);
    }

    private static FlightRecord OpenGzip(HeadStream outer, string name, RecordReadOptions options, Func<HeadStream, string, FlightRecord> read)
    {
        var packed = new CountedStream(outer);
        using var gzip = new GZipStream(packed, CompressionMode.Decompress);
        var limited = new LimitedStream(gzip, () => packed.BytesRead, options);
        string inner = name.EndsWith(".gz", StringComparison.OrdinalIgnoreCase) ? name[..^3] : name;
        return read(new HeadStream(limited), inner);
    }

    private static FlightRecord OpenZip(HeadStream outer, string name, RecordReadOptions options, FindingLog findings, Func<HeadStream, string, FlightRecord> read)
    {
        using var whole = new MemoryStream();
        outer.CopyTo(whole); // the list of entries stands at the end
        using var zip = new ZipArchive(whole, ZipArchiveMode.Read);
        List<ZipArchiveEntry> files = [.. zip.Entries.Where(e => e.Name.Length > 0)];
        if (files.Count == 0) return read(new HeadStream(Stream.Null), name);
        ZipArchiveEntry chosen = files.Find(e => Kind(e, options) is not (ContentKind.Empty or ContentKind.Unknown or ContentKind.ULog)) ?? files[0];
        if (files.Count > 1)
            findings.Warn("several-in-archive", null, $"The archive holds {files.Count} files.", $"Only '{FindingLog.Shown(chosen.FullName)}' was read; give the others one by one.", files.Count);
        using Stream entry = chosen.Open();
        return read(new HeadStream(new LimitedStream(entry, () => chosen.CompressedLength, options)), chosen.Name);
    }

    private static ContentKind Kind(ZipArchiveEntry entry, RecordReadOptions options)
    {
        using Stream stream = entry.Open();
        return ContentDetector.Detect(new HeadStream(new LimitedStream(stream, () => entry.CompressedLength, options)).Head);
    }

    /// <summary>Ends the reading when a packed input expands beyond its limits.</summary>
    private sealed class LimitedStream(Stream inner, Func<long> packedBytes, RecordReadOptions options) : Stream
    {
        private const long HarmlessBytes = 64 << 20; // below this a high ratio does no harm

        private long _expanded;

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => _expanded; set => throw new NotSupportedException(); }

        public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

        public override int Read(Span<byte> buffer)
        {
            int count = inner.Read(buffer);
            _expanded += count;
            if (_expanded > options.LargestExpandedBytes)
                throw new ExpansionLimitException($"The packed file grows beyond {options.LargestExpandedBytes >> 20} MB.");
            if (_expanded > HarmlessBytes && _expanded / options.LargestExpansion > packedBytes())
                throw new ExpansionLimitException($"The packed file grows to more than {options.LargestExpansion} times its size, which no flight record does.");
            return count;
        }

        public override void Flush() { }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
