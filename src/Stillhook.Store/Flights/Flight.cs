namespace Stillhook.Store;

/// <summary>A flight that is kept: the record as it came, what the crew said of it, and what was last worked out from it.</summary>
public sealed record Flight
{
    /// <summary>Number in the store, from 1.</summary>
    public required long Id { get; init; }

    /// <summary>Name for people: the record's file name.</summary>
    public required string Name { get; init; }

    /// <summary>SHA-256 of the record's bytes, lower-case hexadecimal.</summary>
    public required string Digest { get; init; }

    /// <summary>Size of the record, bytes.</summary>
    public required long Bytes { get; init; }

    /// <summary>When it was taken in, UTC.</summary>
    public required DateTimeOffset ImportedAt { get; init; }

    /// <summary>Key of the account that took it in for itself; null when nobody did, as at the terminal.</summary>
    public string? TakenInBy { get; init; }

    /// <summary>Text of the job file that came with it; null when there was none.</summary>
    public string? JobText { get; init; }

    /// <summary>The crew's figures as typed on the page, key to text with its unit; empty when nothing was typed.</summary>
    public IReadOnlyDictionary<string, string> Typed { get; init; } = new Dictionary<string, string>();

    /// <summary>The last debrief in short; null when it was never worked out.</summary>
    public FlightSummary? Summary { get; init; }
}

/// <summary>Whose a flight is.</summary>
/// <param name="TakenInBy">Key of the account that took it in for itself; null when nobody did.</param>
/// <param name="Pilot">Who flew, by the job as it stood when the record was taken in; null when not told.</param>
public readonly record struct FlightOwner(string? TakenInBy, string? Pilot);

/// <summary>A debrief in short, kept so that the list of flights needs no recomputing.</summary>
/// <param name="ProgramVersion">Version of the program that worked it out.</param>
/// <param name="FirstFixS">Time of the first fix, s since 1970 UTC; null when the record has no time.</param>
/// <param name="Deliveries">Deliveries measured.</param>
/// <param name="NextLine">The next approach in one line, or why there is none.</param>
public sealed record FlightSummary(string ProgramVersion, double? FirstFixS, int Deliveries, string NextLine);

/// <summary>What came of taking a record in.</summary>
/// <param name="Flight">The flight in the store.</param>
/// <param name="AlreadyThere">The same bytes had been taken in before; nothing was added.</param>
public sealed record AddedFlight(Flight Flight, bool AlreadyThere);
