namespace Stillhook.Files.Live;

/// <summary>How live input is taken in.</summary>
public sealed record LiveInputOptions
{
    /// <summary>The clock of arrival, and of waiting.</summary>
    public TimeProvider Clock { get; init; } = TimeProvider.System;

    /// <summary>Folder of the journals; null when nothing is to be kept, such as for a replay.</summary>
    public string? JournalRoot { get; init; }

    /// <summary>Told each finding as it is met, from any thread; one that goes on and on is told when it begins.</summary>
    public Action<LiveFinding>? Found { get; init; }

    /// <summary>Makes the waits between tries the same each time; null for waits that differ.</summary>
    public int? Seed { get; init; }
}
