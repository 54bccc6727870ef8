using Stillhook.Files.Records.Csv;
using Stillhook.Files.Records.Gpx;
using Stillhook.Files.Records.Igc;
using Stillhook.Files.Records.Nmea;
using Stillhook.Recording;

namespace Stillhook.Files.Records;

/// <summary>Writes a flight record in an open format so that <see cref="RecordReader"/> reads it back.</summary>
/// <remarks>
/// Times are written to the millisecond. GPX, IGC and NMEA carry the further channels at the fixes: the newest value since the fix before
/// (an opened hook counts as open for that fix). CSV keeps every channel at its own times.
/// </remarks>
public static class RecordWriter
{
    /// <summary>Writes the record; the stream is left open.</summary>
    /// <returns>What the format could not hold, each once with its count; empty when everything was written.</returns>
    public static IReadOnlyList<Finding> Write(FlightRecord record, RecordFormat format, Stream stream)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(stream);
        var findings = new FindingLog();
        using var text = new InvariantWriter(stream, format is RecordFormat.Igc or RecordFormat.Nmea ? "\r\n" : "\n");
        switch (format)
        {
            case RecordFormat.Gpx: GpxWriter.Write(record, text, findings); break;
            case RecordFormat.Igc: IgcWriter.Write(record, text, findings); break;
            case RecordFormat.Nmea: NmeaWriter.Write(record, text, findings); break;
            case RecordFormat.Csv: CsvWriter.Write(record, text, findings); break;
            default: throw new ArgumentOutOfRangeException(nameof(format), format, "One of the four formats.");
        }

        return findings.Findings;
    }
}
