using Stillhook.Reporting;

namespace Stillhook.Store;

internal sealed class FlightRow
{
    public long Id { get; set; }
    public required string Name { get; set; }
    public required string Digest { get; set; }
    public required long Bytes { get; set; }
    public required DateTimeOffset ImportedAt { get; set; }
    public string? TakenInBy { get; set; }
    public string? JobText { get; set; }
    public string? TypedJson { get; set; }
    public string? SummaryJson { get; set; }
}

internal sealed class RecordRow
{
    public long FlightId { get; set; }
    public required byte[] Content { get; set; }
}

/// <summary>What was worked out from a flight's record as a whole.</summary>
internal sealed class FlightWorkRow
{
    public long FlightId { get; set; }
    public Guid? JobKey { get; set; }
    public string? Pilot { get; set; }
    public string? Aircraft { get; set; }
    public double FromS { get; set; }
    public double ToS { get; set; }
    public required string AirborneJson { get; set; }
}

/// <summary>Frame of a smoothed track; its columns stand in <see cref="TrackColumnRow"/>.</summary>
internal sealed class TrackRow
{
    public long FlightId { get; set; }
    public double LatitudeDeg { get; set; }
    public double LongitudeDeg { get; set; }
    public double HeightM { get; set; }
    public bool HasHeight { get; set; }
}

/// <summary>One column of a track, little-endian.</summary>
internal sealed class TrackColumnRow
{
    public long FlightId { get; set; }
    public required string Name { get; set; }
    public required byte[] Data { get; set; }
}

internal sealed class ExceedanceRow
{
    public long Id { get; set; }
    public long FlightId { get; set; }
    public LimitKind Kind { get; set; }
    public double Limit { get; set; }
    public double Peak { get; set; }
    public double AtS { get; set; }
    public double DurationS { get; set; }
}

internal sealed class HoverPointRow
{
    public long Id { get; set; }
    public long FlightId { get; set; }
    public double AtS { get; set; }
    public required string Aircraft { get; set; }
    public string? Pilot { get; set; }
    public double DensityAltitudeM { get; set; }
    public double GrossKg { get; set; }
    public double? TorquePercent { get; set; }
    public double? PowerKw { get; set; }
    public double? LoadKg { get; set; }
    public double? FuelKg { get; set; }
    public FuelFrom? FuelFrom { get; set; }
}
