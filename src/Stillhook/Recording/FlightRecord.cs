namespace Stillhook.Recording;

/// <summary>What a recorder wrote: position fixes in columns, further channels at their own times, and every irregularity met while reading.</summary>
/// <remarks>
/// Nothing is filtered here: order, repeats and gaps are as recorded. Columns have one entry a fix; a missing value is NaN.
/// Time is seconds since 1970-01-01T00:00:00 UTC (a double resolves 0.3 µs there); NaN when the recorder gave none.
/// </remarks>
public sealed record FlightRecord
{
    /// <summary>Name for people, such as the file's name without its folder.</summary>
    public required string Name { get; init; }

    /// <summary>GPX, IGC, NMEA 0183 or CSV, or 'simulated'.</summary>
    public required string Format { get; init; }

    /// <summary>Time of each fix, s since 1970 UTC, NaN if none.</summary>
    public required double[] TimeS { get; init; }

    /// <summary>Geodetic latitude, degrees, north positive.</summary>
    public required double[] LatitudeDeg { get; init; }

    /// <summary>Longitude, degrees, east positive, −180..180.</summary>
    public required double[] LongitudeDeg { get; init; }

    /// <summary>Satellite (or file's only) altitude, m, above what the recorder refers to. Only differences are used.</summary>
    public required double[] AltitudeM { get; init; }

    /// <summary>Pressure altitude or barometric altitude, m; empty when the record has none.</summary>
    public double[] PressureAltitudeM { get; init; } = [];

    /// <summary>Speed over ground, m/s; empty when the record has none.</summary>
    public double[] GroundSpeedMs { get; init; } = [];

    /// <summary>True course over ground, degrees clockwise from north; empty when the record has none.</summary>
    public double[] CourseDeg { get; init; } = [];

    /// <summary>Vertical speed, m/s, up positive; empty when the record has none.</summary>
    public double[] ClimbMs { get; init; } = [];

    /// <summary>Index of the first fix of each recorded segment, ascending, starting with 0 (empty when there is no fix).</summary>
    public int[] SegmentStarts { get; init; } = [];

    /// <summary>Channels other than position, at their own rates.</summary>
    public IReadOnlyList<Channel> Channels { get; init; } = [];

    /// <summary>Marked points that are not part of the track (GPX way points).</summary>
    public int WaypointCount { get; init; }

    /// <summary>Every irregularity, grouped by kind.</summary>
    public IReadOnlyList<Finding> Findings { get; init; } = [];

    /// <summary>Number of fixes.</summary>
    public int Count => TimeS.Length;

    /// <summary>The channel of a kind, or null.</summary>
    public Channel? Find(ChannelKind kind) => Channels.FirstOrDefault(c => c.Kind == kind);
}

/// <summary>What a channel measures; the unit is fixed by the kind.</summary>
public enum ChannelKind
{
    /// <summary>Load on the hook, kg (force divided by standard gravity).</summary>
    LoadKg,

    /// <summary>Torque, percent of the limit.</summary>
    TorquePercent,

    /// <summary>Power, kW.</summary>
    PowerKw,

    /// <summary>Roll, degrees, right positive.</summary>
    RollDeg,

    /// <summary>Pitch, degrees, nose up positive.</summary>
    PitchDeg,

    /// <summary>Heading, degrees clockwise from true north.</summary>
    HeadingDeg,

    /// <summary>Hook open (1) or closed (0); a rise is a release.</summary>
    HookOpen,
}

/// <summary>Values of one kind at their own times (s since 1970 UTC), as recorded, not sorted.</summary>
public sealed record Channel(ChannelKind Kind, double[] TimeS, double[] Value);
