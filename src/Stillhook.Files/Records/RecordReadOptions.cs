using Stillhook.Files.Records.Csv;

namespace Stillhook.Files.Records;

/// <summary>What a person may say about a record before it is read. Everything has a default that suits a plain file.</summary>
public sealed record RecordReadOptions
{
    /// <summary>For CSV: heading → what the column holds. It goes before what the heading's own words say; headings not listed are still matched by their words.</summary>
    public IReadOnlyDictionary<string, CsvColumn> Columns { get; init; } = new Dictionary<string, CsvColumn>();

    /// <summary>UTC instant that seconds-from-start and times without a date count from; null when not known.</summary>
    public DateTimeOffset? StartUtc { get; init; }

    /// <summary>Largest size that a packed record may grow to, bytes.</summary>
    public long LargestExpandedBytes { get; init; } = 4L << 30;

    /// <summary>Largest ratio of expanded to packed size; plain records stay under 50 (own measurement), deflate can reach 1,032.</summary>
    public int LargestExpansion { get; init; } = 250;
}
