namespace Stillhook.Fuzz.Targets;

/// <summary>One reader under trial: whatever bytes it is given, it must keep its rules; a broken one is an exception.</summary>
/// <param name="Name">Also the name of its folder in the corpus.</param>
/// <param name="Run">Reads and checks.</param>
/// <param name="Words">Words of the format, strewn in by the mutator.</param>
/// <param name="Longest">Longest input tried, bytes.</param>
public sealed record FuzzTarget(string Name, Action<byte[]> Run, IReadOnlyList<string> Words, int Longest = 4096)
{
    /// <summary>Every reader.</summary>
    public static IReadOnlyList<FuzzTarget> All { get; } =
    [
        RecordTargets.Gpx, RecordTargets.GpxXml, RecordTargets.Igc, RecordTargets.Nmea, RecordTargets.Csv, RecordTargets.Packed, RecordTargets.Debrief,
        JobTargets.JobFile, JobTargets.Pasted, JobTargets.Quantity, JobTargets.CrewSheet,
        TerrainTargets.Esri, TerrainTargets.GeoTiff, TerrainTargets.Tile,
        LiveTargets.Link, LiveTargets.Journal, LiveTargets.SourceText,
        StoreTargets.Zip, StoreTargets.Contents,
    ];

    public static FuzzTarget Named(string name) =>
        All.FirstOrDefault(t => t.Name == name) ?? throw new ArgumentException($"There is no target '{name}'; there are {string.Join(", ", All.Select(t => t.Name))}.", nameof(name));
}

/// <summary>A rule of a reader was broken.</summary>
public sealed class BrokenRuleException(string message) : Exception(message);
