using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Stillhook.Store;

/// <summary>What differs between the databases.</summary>
internal abstract class Database
{
    /// <summary>Folder for what is kept beside the store.</summary>
    public abstract string Folder { get; }

    /// <summary>Folder for bytes that wait for their digest.</summary>
    public abstract string WaitingFolder { get; }

    /// <summary>A context with a connection of its own.</summary>
    public abstract StillhookContext Context();

    /// <summary>Makes what has to be there before the tables are: the folder, the write-ahead log.</summary>
    public abstract void Prepare();

    /// <summary>A transaction in which every query sees the same moment.</summary>
    public abstract IDbContextTransaction BeginReading(StillhookContext context);

    /// <summary>A transaction that is the only one writing.</summary>
    public abstract IDbContextTransaction BeginWriting(StillhookContext context);

    /// <summary>Query that counts the tables with the history of migrations: 0 or 1.</summary>
    public abstract string CountHistories { get; }

    /// <summary>Whether the tables found are none of ours; asked only when there is no history of migrations.</summary>
    public abstract bool HoldsSomethingElse(StillhookContext context);

    /// <summary>Writes a record's bytes; called inside a writing transaction.</summary>
    public abstract void WriteRecord(StillhookContext context, long flightId, Stream content, long bytes);

    /// <summary>The record's bytes, seekable; null when there are none. Disposing the stream disposes its owner.</summary>
    public abstract Stream? OpenRecord(StillhookContext context, long flightId, IDisposable? owner);

    /// <summary>What an exception of the database or the file system means to people; null when it is something else.</summary>
    public StoreException? Explain(Exception e)
    {
        for (Exception? at = e; at is not null; at = at.InnerException)
        {
            if (at is StoreException)
                return at == e ? null : (StoreException)at;
            if (ExplainOwn(at, e) is { } own)
                return own;
        }
        return null;
    }

    /// <summary>A fault of this kind of database.</summary>
    protected abstract StoreException? ExplainOwn(Exception found, Exception whole);

    /// <summary>A fault of the file system, in words.</summary>
    public static StoreException? ExplainFile(Exception found, Exception whole, string place) => found switch
    {
        UnauthorizedAccessException => new(StoreFault.ReadOnly, $"{place} can't be written: {found.Message} Choose another place or have the permissions changed.", whole),
        IOException { HResult: unchecked((int)0x80070070) or unchecked((int)0x80070027) or 28 } => Full(place, whole),
        DirectoryNotFoundException or IOException => new(StoreFault.Unreachable, $"{place} can't be used: {found.Message}", whole),
        _ => null,
    };

    /// <summary>No room left.</summary>
    protected static StoreException Full(string place, Exception whole) =>
        new(StoreFault.DiskFull, $"{place}: the disk is full. Nothing of this was kept; what was there before is as it was. Make room and try again.", whole);
}
