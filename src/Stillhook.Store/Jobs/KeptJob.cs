namespace Stillhook.Store;

/// <summary>A job as kept: its latest text, and what it is found by.</summary>
public sealed record KeptJob
{
    /// <summary>Its key, the same in every store it is taken to.</summary>
    public required Guid Key { get; init; }

    /// <summary>Name for people.</summary>
    public required string Name { get; init; }

    /// <summary>Day of the work in the sites' time zone; null when none is set.</summary>
    public DateOnly? Day { get; init; }

    /// <summary>IANA name of the sites' time zone; null when not told.</summary>
    public string? TimeZone { get; init; }

    /// <summary>Aircraft's name; null when not told.</summary>
    public string? Aircraft { get; init; }

    /// <summary>Latest text of the job file, as it came.</summary>
    public required string Text { get; init; }

    /// <summary>How often it was saved.</summary>
    public required int Revision { get; init; }

    /// <summary>Sites of the library that it uses.</summary>
    public IReadOnlyList<Guid> Sites { get; init; } = [];
}

/// <summary>A job to be saved.</summary>
/// <param name="Name">Name for people.</param>
/// <param name="Text">Text of the job file as it came.</param>
/// <param name="Day">Day of the work.</param>
/// <param name="TimeZone">IANA name of the sites' time zone.</param>
/// <param name="Aircraft">Aircraft's name.</param>
public sealed record JobEntry(string Name, string Text, DateOnly? Day = null, string? TimeZone = null, string? Aircraft = null)
{
    /// <summary>Sites of the library that it uses.</summary>
    public IReadOnlyList<Guid> Sites { get; init; } = [];
}

/// <summary>A text of a job as it was saved once.</summary>
/// <param name="Number">1, 2, 3 ...</param>
/// <param name="Text">As it came.</param>
/// <param name="By">Who saved it.</param>
/// <param name="At">When.</param>
public sealed record JobRevision(int Number, string Text, string By, DateTimeOffset At);

/// <summary>A card as it was issued.</summary>
/// <param name="Key">Its key.</param>
/// <param name="Job">Job it was made for.</param>
/// <param name="Name">Name for people, such as the file's name.</param>
/// <param name="MediaType">Such as application/pdf.</param>
/// <param name="Digest">SHA-256 of its bytes, lower-case hexadecimal.</param>
/// <param name="IssuedAt">When.</param>
public sealed record IssuedCard(Guid Key, Guid Job, string Name, string MediaType, string Digest, DateTimeOffset IssuedAt);
