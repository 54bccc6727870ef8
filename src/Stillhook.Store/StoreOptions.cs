using Microsoft.EntityFrameworkCore.Diagnostics;
using Stillhook.Planning;

namespace Stillhook.Store;

/// <summary>What the store needs from the program around it.</summary>
public sealed record StoreOptions
{
    /// <summary>From the text of a job file to the job; null where it can't be used. The store keeps texts and reads none itself.</summary>
    public Func<string, LiftRequest?> ReadJob { get; init; } = _ => null;

    /// <summary>How long to wait for another program that is writing.</summary>
    public TimeSpan Patience { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Most pages (4 KiB) of a SQLite file; 0 is no bound. Tests make a full disk of it.</summary>
    internal int MostPages { get; init; }

    /// <summary>Told every command and commit. Tests make failing ones of it.</summary>
    internal IReadOnlyList<IInterceptor> Interceptors { get; init; } = [];
}
