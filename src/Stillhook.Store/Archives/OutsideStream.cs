namespace Stillhook.Store;

/// <summary>An archive's own stream. What fails on it is told of the archive and never taken for a fault of the store, whose file is another one.</summary>
internal sealed class OutsideStream(Stream archive) : Stream
{
    public override bool CanRead => archive.CanRead;

    public override bool CanSeek => archive.CanSeek;

    public override bool CanWrite => archive.CanWrite;

    public override long Length => archive.Length;

    public override long Position { get => archive.Position; set => archive.Position = value; }

    public override int Read(byte[] buffer, int offset, int count) => Told("read", () => archive.Read(buffer, offset, count));

    public override void Write(byte[] buffer, int offset, int count) => Told("written", () =>
    {
        archive.Write(buffer, offset, count);
        return 0;
    });

    public override void Flush() => Told("written", () =>
    {
        archive.Flush();
        return 0;
    });

    public override long Seek(long offset, SeekOrigin origin) => archive.Seek(offset, origin);

    public override void SetLength(long value) => archive.SetLength(value);

    private static T Told<T>(string what, Func<T> how)
    {
        try
        {
            return how();
        }
        // The second is what .NET makes of EFBIG: the file may not grow any more there.
        catch (Exception e) when (e is IOException or ArgumentOutOfRangeException { ParamName: "value" })
        {
            StoreFault fault = Database.ExplainFile(e, e, "") is { Fault: StoreFault.DiskFull } ? StoreFault.DiskFull : StoreFault.Unreachable;
            throw new StoreException(fault, $"The archive can't be {what}: {(e is IOException ? e.Message.TrimEnd('.') : "it would be larger than a file may be there")}. The store is as it was; check the disk that the archive is on and try again.", e);
        }
    }
}
