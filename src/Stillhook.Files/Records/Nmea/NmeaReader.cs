using Stillhook.Recording;

namespace Stillhook.Files.Records.Nmea;

/// <summary>Reads a file of NMEA 0183 sentences. GLL positions are used only when the file has no other.</summary>
internal sealed class NmeaReader : IRecordTarget
{
    private readonly ByteLines _lines;
    private readonly FindingLog _findings;
    private readonly RecordBuilder _record;
    private readonly List<(double Time, double Latitude, double Longitude)> _spare = []; // from GLL

    private NmeaReader(Stream stream, FindingLog findings, IProgress<long>? progress)
    {
        _lines = new ByteLines(stream, progress);
        _findings = findings;
        _record = new RecordBuilder(findings, () => _lines.Number);
    }

    public static FlightRecord Read(Stream stream, string name, FindingLog findings, IProgress<long>? progress)
    {
        var reader = new NmeaReader(stream, findings, progress);
        var decoder = new NmeaDecoder(reader, findings);
        while (reader._lines.Next(out ReadOnlySpan<byte> line)) decoder.Take(line, reader._lines.Number, reader._lines.Complete);
        decoder.Close();
        reader.UseSpare();
        return reader._record.Build(name, "NMEA 0183");
    }

    public void Fix(in FixSample fix, double clockS) => _record.AddFix(fix);

    public void Spare(double timeS, double clockS, double latitudeDeg, double longitudeDeg)
    {
        if (_spare.Count == 0 || !(_spare[^1].Time == timeS)) _spare.Add((timeS, latitudeDeg, longitudeDeg));
    }

    public void Channel(ChannelKind kind, double timeS, double clockS, double value) => _record.AddChannel(kind, timeS, value);

    private void UseSpare()
    {
        if (_record.Count > 0 || _spare.Count == 0) return;
        _findings.Note("positions-from-gll", null, "The file has positions in GLL sentences only.", "These were used; they have no altitude.", _spare.Count);
        foreach ((double time, double latitude, double longitude) in _spare) _record.AddFix(time, latitude, longitude, double.NaN);
    }
}
