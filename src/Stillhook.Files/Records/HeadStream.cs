using System.Text;

namespace Stillhook.Files.Records;

/// <summary>A stream whose head can be looked at before it is read forward.</summary>
internal sealed class HeadStream : Stream
{
    private const int HeadLength = 1 << 16;
    private readonly Stream _inner;
    private readonly byte[] _head = new byte[HeadLength];
    private readonly int _length;
    private int _position;

    public HeadStream(Stream inner)
    {
        _inner = inner;
        _length = inner.ReadAtLeast(_head, HeadLength, throwOnEndOfStream: false);
    }

    public ReadOnlySpan<byte> Head => _head.AsSpan(0, _length);

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

    /// <summary>Passes over a UTF-8 byte order mark at the start.</summary>
    public void SkipUtf8Mark()
    {
        if (_position == 0 && Head.StartsWith(Encoding.UTF8.Preamble)) _position = 3;
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        if (_position >= _length) return _inner.Read(buffer);
        int count = Math.Min(buffer.Length, _length - _position);
        _head.AsSpan(_position, count).CopyTo(buffer);
        _position += count;
        return count;
    }

    public override void Flush() { }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
