using System.Text.Json.Serialization;
using Stillhook.Planning;
using Stillhook.Reporting;

namespace Stillhook.Store;

/// <summary>What an archive holds: every other entry with its size and digest. Written last, read first.</summary>
internal sealed record ArchiveManifest(string Format, int Version, IReadOnlyList<ArchiveEntry> Entries);

internal sealed record ArchiveEntry(string Name, long Bytes, string Sha256);

internal sealed record ArchivedJob(Guid Key, string Name, DateOnly? Day, string? TimeZone, string? Aircraft, IReadOnlyList<Guid> Sites, IReadOnlyList<JobRevision> Revisions, IReadOnlyList<IssuedCard> Cards);

internal sealed record ArchivedPart(string Name, PartKind Kind, IReadOnlyList<ArchivedPartEntry> Entries);

internal sealed record ArchivedPartEntry(Guid Key, PartEntry Entry);

internal sealed record ArchivedDayEntry(Guid Key, DateOnly Day, string? Aircraft, string Kind, string Json, string By, DateTimeOffset At, string? WithdrawnBy, DateTimeOffset? WithdrawnAt, string? WithdrawnWhy);

internal sealed record ArchivedCorrection(Guid Key, string Member, string Old, string New, string NewJson, string By, DateTimeOffset At, string? Why);

internal sealed record ArchivedLift(Guid Key, KeptLift Lift, bool NotFoundAgain, DateOnly? Day, string? Aircraft, IReadOnlyList<ArchivedCorrection> Corrections);

internal sealed record ArchivedFlight(string Digest, string Name, long Bytes, DateTimeOffset ImportedAt, string? JobText, string? TypedJson, string? SummaryJson, ArchivedWork? Work, IReadOnlyList<ArchivedLift> Lifts);

internal sealed record ArchivedWork(Guid? Job, string? Pilot, string? Aircraft, Stretch Recorded, IReadOnlyList<Stretch> Airborne, IReadOnlyList<HoverPoint> Hovers, IReadOnlyList<Exceedance> Exceedances, ArchivedTrack? Track);

/// <summary>Frame of a track, and its columns in the order in which they stand in the entry with the numbers.</summary>
internal sealed record ArchivedTrack(double LatitudeDeg, double LongitudeDeg, double HeightM, bool HasHeight, IReadOnlyList<ArchivedColumn> Columns);

internal sealed record ArchivedColumn(string Name, int Bytes);

/// <summary>The documents of an archive, readable by people and other programs; a missing or empty member is an error that names its entry.</summary>
[JsonSourceGenerationOptions(UseStringEnumConverter = true, WriteIndented = true, PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true)]
[JsonSerializable(typeof(ArchiveManifest))]
[JsonSerializable(typeof(IReadOnlyList<ArchivedJob>))]
[JsonSerializable(typeof(IReadOnlyList<KeptSite>))]
[JsonSerializable(typeof(IReadOnlyList<KeptAircraft>))]
[JsonSerializable(typeof(IReadOnlyList<ArchivedPart>))]
[JsonSerializable(typeof(IReadOnlyList<ArchivedDayEntry>))]
[JsonSerializable(typeof(IReadOnlyList<ArchivedLift>))]
[JsonSerializable(typeof(ArchivedFlight))]
internal sealed partial class ArchiveJson : JsonSerializerContext;
