namespace Stillhook.Files.Records;

/// <summary>The open record formats that are read and written.</summary>
public enum RecordFormat
{
    /// <summary>GPX 1.0 and 1.1 (written as 1.1).</summary>
    Gpx,

    /// <summary>IGC flight recorder format.</summary>
    Igc,

    /// <summary>NMEA 0183 sentences.</summary>
    Nmea,

    /// <summary>A table of values with headings.</summary>
    Csv,
}
