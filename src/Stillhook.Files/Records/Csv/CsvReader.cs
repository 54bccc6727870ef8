using System.Text;
using Stillhook.Recording;

namespace Stillhook.Files.Records.Csv;

/// <summary>Reads a table of values: columns are known by their headings or by a mapping, rows without a position feed the channels only.</summary>
internal sealed class CsvReader : IRecordTarget
{
    private const int HeadingRows = 20; // some recorders write lines of their own before the headings

    private readonly RecordReadOptions _options;
    private readonly FindingLog _findings;
    private readonly CsvRows _rows;
    private readonly ByteLines _lines;
    private readonly RecordBuilder _record;
    private readonly CsvTable _table;
    private long _withoutPosition, _withoutPositionLine;

    private CsvReader(Stream stream, RecordReadOptions options, FindingLog findings, IProgress<long>? progress)
    {
        _options = options;
        _findings = findings;
        _lines = new ByteLines(stream, progress);
        _rows = new CsvRows(_lines);
        _table = new CsvTable(options, findings, _rows);
        _record = new RecordBuilder(findings, () => _rows.Line);
    }

    public static FlightRecord Read(Stream stream, string name, RecordReadOptions options, FindingLog findings, IProgress<long>? progress)
    {
        var reader = new CsvReader(stream, options, findings, progress);
        if (reader.FindHeadings()) reader.TakeRows();
        return reader._record.Build(name, "CSV", reader._table.Relative && options.StartUtc is null);
    }

    private bool FindHeadings()
    {
        string first = "";
        for (int row = 0; row < HeadingRows && _rows.Next(); row++)
        {
            _rows.FindDelimiter();
            _rows.Split();
            if (first.Length == 0) first = Encoding.UTF8.GetString(_rows.Text[..Math.Min(_rows.Text.Length, 80)]);
            _table.TakeHeadings();
            if (!_table.HasPosition) continue;
            _table.NoteUnused();
            return true;
        }

        _findings.Error("position-columns-missing", 1, $"No row has headings for both latitude and longitude; the table begins '{first}'.",
            "Expected headings such as time_utc, lat_deg, lon_deg, alt_m, or a mapping of columns.");
        return false;
    }

    private void TakeRows()
    {
        while (_rows.Next())
        {
            _rows.Split();
            if (_rows.QuoteUnclosed && !_findings.CountedAgain("quote-unclosed"))
                _findings.Warn("quote-unclosed", _rows.Line, "A quoted field is never closed.", "The row was left out together with what follows it up to the next quote.");
            if (_rows.Count != _table.Count)
                WordCount();
            else
                TakeRow();
        }

        if (!_lines.Complete && _table.Count > 0 && _lines.Number > _table.HeadingLine)
            _findings.Note("last-line-open", _lines.Number, "The last row has no line end: the file may have been cut in it.", "The row was read as it stands; its last value may be short.");
        if (_withoutPosition > 0)
            _findings.Note("rows-without-position", _withoutPositionLine, "Rows without a position: channels at other rates.", "Their values feed the channels.", _withoutPosition);
        if (_table.DayFirstUnknown)
            _findings.Warn("date-order-assumed", null, "Dates such as 03/04/2024 don't say which number is the day.", "Taken as day, month, year; write dates as 2024-04-03 to be sure.");
        if (_table.Relative && _options.StartUtc is null)
            _findings.Warn("date-missing", _table.HeadingLine, "Times count from the start of the record and no date is given.", "Kept as seconds from 1970-01-01; give the start time to get the true day.");
    }

    private void WordCount()
    {
        ReadOnlySpan<byte> text = _rows.Text;
        if (text[0] is (byte)'$' or (byte)'<')
        {
            if (!_findings.CountedAgain("two-formats-in-one"))
                _findings.Warn("two-formats-in-one", _rows.Line, "Lines of another record format stand in this table.", "They were left out; put them in a file of their own.");
            return;
        }

        if (!_findings.CountedAgain("row-column-count"))
            _findings.Warn("row-column-count", _rows.Line, $"{_rows.Count} columns, the headings on line {_table.HeadingLine} have {_table.Count}.", "The row was left out.");
    }

    private void TakeRow()
    {
        if (!_table.TakeRow(this) && _withoutPosition++ == 0) _withoutPositionLine = _rows.Line;
    }

    public void Fix(in FixSample fix, double clockS) => _record.AddFix(fix);

    public void Spare(double timeS, double clockS, double latitudeDeg, double longitudeDeg) => throw new NotSupportedException("Tables have no spare positions.");

    public void Channel(ChannelKind kind, double timeS, double clockS, double value) => _record.AddChannel(kind, timeS, value);
}
