namespace Stillhook.Store;

/// <summary>A record's bytes; closing it gives the connection back.</summary>
internal sealed class RecordStream(Stream bytes, IDisposable? owner) : Stream
{
    public override bool CanRead => true;
    public override bool CanSeek => true;
    public override bool CanWrite => false;
    public override long Length => bytes.Length;
    public override long Position { get => bytes.Position; set => bytes.Position = value; }
    public override int Read(byte[] buffer, int offset, int count) => bytes.Read(buffer, offset, count);
    public override int Read(Span<byte> buffer) => bytes.Read(buffer);
    public override long Seek(long offset, SeekOrigin origin) => bytes.Seek(offset, origin);
    public override void Flush() { }
    public override void SetLength(long value) => throw new NotSupportedException();
    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            bytes.Dispose();
            owner?.Dispose();
        }
        base.Dispose(disposing);
    }
}
