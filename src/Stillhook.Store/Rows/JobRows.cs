using Stillhook.Planning;

namespace Stillhook.Store;

internal sealed class JobRow
{
    public Guid Key { get; set; }
    public required string Name { get; set; }
    public DateOnly? Day { get; set; }
    public string? TimeZone { get; set; }
    public string? Aircraft { get; set; }
}

internal sealed class JobRevisionRow
{
    public Guid JobKey { get; set; }
    public int Number { get; set; }
    public required string Text { get; set; }
    public required string By { get; set; }
    public DateTimeOffset At { get; set; }
}

internal sealed class JobSiteRow
{
    public Guid JobKey { get; set; }
    public Guid SiteKey { get; set; }
}

internal sealed class SiteRow
{
    public Guid Key { get; set; }
    public required string Name { get; set; }
    public double LatitudeDeg { get; set; }
    public double LongitudeDeg { get; set; }
    public required string Text { get; set; }
    public required string By { get; set; }
    public DateTimeOffset At { get; set; }
}

internal sealed class AircraftRow
{
    public required string Name { get; set; }
    public required string Text { get; set; }
    public required string By { get; set; }
    public DateTimeOffset At { get; set; }
}

internal sealed class PartRow
{
    public required string Name { get; set; }
    public PartKind Kind { get; set; }
}

internal sealed class PartEntryRow
{
    public long Id { get; set; }
    public Guid Key { get; set; }
    public required string PartName { get; set; }
    public PartEntryKind Kind { get; set; }
    public DateTimeOffset At { get; set; }
    public required string By { get; set; }
    public long Cycles { get; set; }
    public double HoursInUse { get; set; }

    /// <summary>The flight by its record's digest, which outlives the flight here and is the same in every store: it is never counted twice.</summary>
    public string? FlightDigest { get; set; }
    public DateOnly? NextDue { get; set; }
    public string? Note { get; set; }
}

internal sealed class CardRow
{
    public Guid Key { get; set; }
    public Guid JobKey { get; set; }
    public required string Name { get; set; }
    public required string MediaType { get; set; }
    public required string Digest { get; set; }
    public DateTimeOffset IssuedAt { get; set; }
}

internal sealed class CardContentRow
{
    public Guid CardKey { get; set; }
    public required byte[] Content { get; set; }
}

/// <summary>Something a person wrote of a day: tally, time mark, event, fuel, duty. A withdrawn one stays, with who, when and why.</summary>
internal sealed class DayEntryRow
{
    public long Id { get; set; }
    public Guid Key { get; set; }
    public DateOnly Day { get; set; }
    public string? Aircraft { get; set; }
    public required string Kind { get; set; }
    public required string Json { get; set; }
    public required string By { get; set; }
    public DateTimeOffset At { get; set; }
    public string? WithdrawnBy { get; set; }
    public DateTimeOffset? WithdrawnAt { get; set; }
    public string? WithdrawnWhy { get; set; }
}
