namespace Stillhook.Store;

/// <summary>Why the store could not do what was asked.</summary>
public enum StoreFault
{
    /// <summary>It was written by a newer version of the program.</summary>
    NewerProgram,

    /// <summary>The file or its folder can't be written.</summary>
    ReadOnly,

    /// <summary>No room left.</summary>
    DiskFull,

    /// <summary>Another program kept it locked for too long.</summary>
    Busy,

    /// <summary>What is kept is damaged.</summary>
    Damaged,

    /// <summary>The file or database is something else.</summary>
    NotAStore,

    /// <summary>The file can't be opened, or the database doesn't answer or refuses the name and password.</summary>
    Unreachable,

    /// <summary>A backup or an archive can't be used; the message names the entry.</summary>
    BadArchive,

    /// <summary>Anything else that the database said.</summary>
    Failed,
}

/// <summary>The store could not do what was asked; what had been kept before is as it was. The message says what to do about it.</summary>
public sealed class StoreException : Exception
{
    /// <summary>A fault with its message.</summary>
    public StoreException(StoreFault fault, string message, Exception? inner = null)
        : base(message, inner) => Fault = fault;

    /// <summary>Which kind.</summary>
    public StoreFault Fault { get; }
}
