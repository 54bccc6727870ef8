using System.Text;
using Stillhook.Recording;

namespace Stillhook.Files.Records.Csv;

/// <summary>Reads a table of values: columns are known by their headings or by a mapping, rows without a position feed the channels only.</summary>
internal sealed class CsvReader
{
    private const int HeadingRows = 20; // some recorders write lines of their own before the headings
    private const double EpochSecondsFrom = 1e8; // 1973; smaller numbers count from the record's start
    private const double EpochMillisecondsFrom = 1e11;

    private readonly RecordReadOptions _options;
    private readonly FindingLog _findings;
    private readonly CsvRows _rows;
    private readonly ByteLines _lines;
    private readonly RecordBuilder _record;
    private readonly byte[] _number = new byte[64];
    private string[] _headings = [];
    private CsvColumn[] _columns = [];
    private int _latitude = -1, _longitude = -1;
    private long _headingLine, _withoutPosition, _withoutPositionLine;
    private bool _relative, _dayFirstUnknown;

    private CsvReader(Stream stream, RecordReadOptions options, FindingLog findings, IProgress<long>? progress)
    {
        _options = options;
        _findings = findings;
        _lines = new ByteLines(stream, progress);
        _rows = new CsvRows(_lines);
        _record = new RecordBuilder(findings, () => _rows.Line);
    }

    public static FlightRecord Read(Stream stream, string name, RecordReadOptions options, FindingLog findings, IProgress<long>? progress)
    {
        var reader = new CsvReader(stream, options, findings, progress);
        if (reader.FindHeadings()) reader.TakeRows();
        return reader._record.Build(name, "CSV", reader._relative && options.StartUtc is null);
    }

    private bool FindHeadings()
    {
        string first = "";
        for (int row = 0; row < HeadingRows && _rows.Next(); row++)
        {
            _rows.Delimiter = BestDelimiter(_rows.Text);
            _rows.Split();
            if (first.Length == 0) first = Encoding.UTF8.GetString(_rows.Text[..Math.Min(_rows.Text.Length, 80)]);
            if (!TakeHeadings()) continue;
            NoteUnused();
            return true;
        }

        _findings.Error("position-columns-missing", 1, $"No row has headings for both latitude and longitude; the table begins '{first}'.",
            "Expected headings such as time_utc, lat_deg, lon_deg, alt_m, or a mapping of columns.");
        return false;
    }

    private static byte BestDelimiter(ReadOnlySpan<byte> text)
    {
        byte best = (byte)',';
        int most = -1;
        foreach (byte candidate in ";\t|,"u8)
        {
            int count = text.Count(candidate);
            if (count <= most) continue;
            most = count;
            best = candidate;
        }

        return best;
    }

    private bool TakeHeadings()
    {
        var headings = new string[_rows.Count];
        var columns = new CsvColumn[_rows.Count];
        for (int i = 0; i < headings.Length; i++)
        {
            headings[i] = Encoding.UTF8.GetString(_rows.Cell(i)).Trim();
            columns[i] = _options.Columns.TryGetValue(headings[i], out CsvColumn given) ? given : CsvHeadings.Match(headings[i]) ?? default;
        }

        _latitude = Array.FindIndex(columns, c => c.Meaning == CsvMeaning.Latitude);
        _longitude = Array.FindIndex(columns, c => c.Meaning == CsvMeaning.Longitude);
        if (_latitude < 0 || _longitude < 0) return false;
        (_headings, _columns, _headingLine) = (headings, columns, _rows.Line);
        return true;
    }

    private void NoteUnused()
    {
        for (int i = 0; i < _columns.Length; i++)
        {
            CsvColumn column = _columns[i];
            bool second = column.Meaning != CsvMeaning.Ignored && Array.FindIndex(_columns, c => c.Meaning == column.Meaning) < i
                && column.Meaning is not (CsvMeaning.Time or CsvMeaning.Date);
            if (second) _columns[i] = default;
            if (_columns[i].Meaning == CsvMeaning.Ignored && !_options.Columns.ContainsKey(_headings[i]) && !_findings.CountedAgain("column-not-used"))
                _findings.Note("column-not-used", _headingLine, $"Headings that are not known or come twice, first '{_headings[i]}'.", "These columns were not used; name them in the mapping if they matter.");
            if (column.Scale == 0.3048 && !second && (column.Meaning is CsvMeaning.Altitude or CsvMeaning.PressureAltitude))
                _findings.Note("altitude-in-feet", _headingLine, "Altitude is in feet, as the heading says.", "Turned into metres.");
        }
    }

    private void TakeRows()
    {
        while (_rows.Next())
        {
            _rows.Split();
            if (_rows.QuoteUnclosed && !_findings.CountedAgain("quote-unclosed"))
                _findings.Warn("quote-unclosed", _rows.Line, "A quoted field is never closed.", "The row was left out together with what follows it up to the next quote.");
            if (_rows.Count != _headings.Length)
                WordCount();
            else
                TakeRow();
        }

        if (_withoutPosition > 0)
            _findings.Note("rows-without-position", _withoutPositionLine, "Rows without a position: channels at other rates.", "Their values feed the channels.", _withoutPosition);
        if (_dayFirstUnknown)
            _findings.Warn("date-order-assumed", null, "Dates such as 03/04/2024 don't say which number is the day.", "Taken as day, month, year; write dates as 2024-04-03 to be sure.");
        if (_relative && _options.StartUtc is null)
            _findings.Warn("date-missing", _headingLine, "Times count from the start of the record and no date is given.", "Kept as seconds from 1970-01-01; give the start time to get the true day.");
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
            _findings.Warn("row-column-count", _rows.Line, $"{_rows.Count} columns, the headings on line {_headingLine} have {_headings.Length}.", "The row was left out.");
    }

    private void TakeRow()
    {
        double time = RowTime();
        double latitude = Angle(_rows.Cell(_latitude)) * _columns[_latitude].Scale, longitude = Angle(_rows.Cell(_longitude)) * _columns[_longitude].Scale;
        bool fix = _rows.Cell(_latitude).Trim(" \t"u8).Length > 0 || _rows.Cell(_longitude).Trim(" \t"u8).Length > 0;
        var moves = new Moves();
        double altitude = double.NaN;
        for (int i = 0; i < _columns.Length; i++)
        {
            CsvColumn column = _columns[i];
            if (column.Meaning is CsvMeaning.Ignored or CsvMeaning.Time or CsvMeaning.Date or CsvMeaning.Latitude or CsvMeaning.Longitude) continue;
            ReadOnlySpan<byte> cell = _rows.Cell(i);
            if (cell.Length == 0) continue;
            double value = column.Meaning == CsvMeaning.Hook ? Hook(cell) : Number(cell) * column.Scale;
            if (double.IsNaN(value))
            {
                WordCell(cell, i);
                continue;
            }

            if (column.Meaning == CsvMeaning.Altitude) altitude = value;
            else if (ChannelOf(column.Meaning) is { } kind) _record.AddChannel(kind, time, value);
            else moves.Set(column.Meaning, value);
        }

        if (fix) TakeFix(time, latitude, longitude, altitude, moves);
        else if (_withoutPosition++ == 0) _withoutPositionLine = _rows.Line;
    }

    private void TakeFix(double time, double latitude, double longitude, double altitude, in Moves moves)
    {
        if (!_record.AddFix(time, latitude, longitude, altitude)) return;
        _record.SetPressureAltitude(moves.PressureAltitude);
        _record.SetGroundSpeed(moves.GroundSpeed);
        _record.SetCourse(moves.TrueCourse);
        _record.SetClimb(moves.Climb);
    }

    private void WordCell(ReadOnlySpan<byte> cell, int column)
    {
        cell = cell.Trim(" \t"u8);
        if (cell.Length == 0 || cell.SequenceEqual("-"u8) || _columns[column].Meaning == CsvMeaning.Hook) return;
        if (Ascii.EqualsIgnoreCase(cell, "nan"u8) || Ascii.EqualsIgnoreCase(cell, "null"u8) || Ascii.EqualsIgnoreCase(cell, "n/a"u8))
        {
            if (!_findings.CountedAgain("value-nan"))
                _findings.Note("value-nan", _rows.Line, $"Cells that say 'not a number', first under '{_headings[column]}'.", "Taken as empty.");
            return;
        }

        if (!_findings.CountedAgain("value-unreadable"))
            _findings.Warn("value-unreadable", _rows.Line, $"A cell under '{_headings[column]}' is no number.", "Taken as empty; expected a plain number.");
    }

    private double RowTime()
    {
        double day = double.NaN, clock = double.NaN;
        for (int i = 0; i < _columns.Length; i++)
        {
            CsvMeaning meaning = _columns[i].Meaning;
            if (meaning is not (CsvMeaning.Time or CsvMeaning.Date)) continue;
            ReadOnlySpan<byte> cell = _rows.Cell(i).Trim(" \t"u8);
            if (cell.Length == 0) continue;
            if (meaning == CsvMeaning.Date)
            {
                if (double.IsNaN(day)) day = Date(cell);
                continue;
            }

            double value = Time(cell, _columns[i].Scale, out bool ofDay);
            if (ofDay)
            {
                if (double.IsNaN(clock)) clock = value;
            }
            else if (!double.IsNaN(value))
            {
                return value;
            }
            else
            {
                WordTime(i);
            }
        }

        if (double.IsNaN(clock)) return double.NaN;
        if (!double.IsNaN(day)) return day + clock;
        return FromStart(clock);
    }

    private void WordTime(int column)
    {
        if (!_findings.CountedAgain("time-unreadable"))
            _findings.Warn("time-unreadable", _rows.Line, $"A time under '{_headings[column]}' can't be read.", "The row has no time; expected 2024-06-01T09:00:00Z, seconds, or a date and a time of day.");
    }

    private double Time(ReadOnlySpan<byte> cell, double scale, out bool ofDay)
    {
        ofDay = false;
        if (cell.Contains((byte)':'))
        {
            double iso = ByteTimes.FromIso(cell, out bool hasZone);
            if (!double.IsNaN(iso))
            {
                if (!hasZone && !_findings.CountedAgain("time-without-zone"))
                    _findings.Note("time-without-zone", _rows.Line, "Times carry neither Z nor an offset.", "Taken as UTC.");
                return iso;
            }

            int space = cell.IndexOfAny((byte)' ', (byte)'T');
            if (space > 0) return Date(cell[..space]) + ByteTimes.FromClock(cell[(space + 1)..].TrimEnd((byte)'Z'));
            ofDay = true;
            return ByteTimes.FromClock(cell.TrimEnd((byte)'Z'));
        }

        double number = Number(cell);
        if (double.IsNaN(number)) return double.NaN;
        if (scale == 1 && number >= EpochMillisecondsFrom) return number / 1000;
        number = scale == 0.001 ? number / 1000 : number * scale;
        return number >= EpochSecondsFrom ? number : FromStart(number);
    }

    private double FromStart(double seconds)
    {
        _relative = true;
        return (_options.StartUtc is { } start ? start.ToUnixTimeMilliseconds() / 1000.0 : 0) + seconds;
    }

    // 2024-06-01, 01.06.2024, 01/06/2024, 20240601.
    private double Date(ReadOnlySpan<byte> cell)
    {
        if (cell.Length == 8 && ByteNumbers.ToDigits(cell) is var all and > 0) return ByteTimes.FromDate(all / 10_000, all / 100 % 100, all % 100);
        int first = cell.IndexOfAny("-./"u8);
        int last = cell.LastIndexOfAny("-./"u8);
        if (first < 1 || last <= first) return double.NaN;
        int a = ByteNumbers.ToDigits(cell[..first]), b = ByteNumbers.ToDigits(cell[(first + 1)..last]), c = ByteNumbers.ToDigits(cell[(last + 1)..]);
        if (first == 4) return ByteTimes.FromDate(a, b, c);
        if (c is >= 0 and < 100) c += c >= 80 ? 1900 : 2000;
        if (b > 12) return ByteTimes.FromDate(c, a, b);
        if (a <= 12 && a != b && cell[first] == '/') _dayFirstUnknown = true;
        return ByteTimes.FromDate(c, b, a);
    }

    private double Number(ReadOnlySpan<byte> cell)
    {
        cell = cell.Trim(" \t"u8);
        int comma = cell.IndexOf((byte)',');
        if (comma < 0 || cell.Length > _number.Length) return ByteNumbers.ToDouble(cell);
        if (cell.Contains((byte)'.')) return double.NaN;
        cell.CopyTo(_number);
        _number[comma] = (byte)'.';
        return ByteNumbers.ToDouble(_number.AsSpan(0, cell.Length));
    }

    // 46.5, 46.5N, N46 30.0, 46°30'12.5"S: degrees, then minutes, then seconds; the letter or a minus gives the sign.
    private double Angle(ReadOnlySpan<byte> cell)
    {
        double plain = Number(cell);
        if (!double.IsNaN(plain)) return plain;
        double value = 0, unit = 1;
        bool negative = false, any = false;
        int at = 0;
        while (at < cell.Length)
        {
            byte b = cell[at];
            if (char.IsAsciiDigit((char)b))
            {
                int end = at;
                while (end < cell.Length && (char.IsAsciiDigit((char)cell[end]) || cell[end] is (byte)'.' or (byte)',')) end++;
                double part = Number(cell[at..end]);
                if (unit < 1e-4 || any && part >= 60) return double.NaN;
                value += part * unit;
                unit /= 60;
                any = true;
                at = end;
                continue;
            }

            if (b is (byte)'S' or (byte)'s' or (byte)'W' or (byte)'w' or (byte)'-') negative = true;
            else if (b < 0x80 && !" \t:'\"NnEe+"u8.Contains(b)) return double.NaN; // bytes above are signs such as ° and ′
            at++;
        }

        return !any ? double.NaN : negative ? -value : value;
    }

    private double Hook(ReadOnlySpan<byte> cell)
    {
        double number = Number(cell);
        if (!double.IsNaN(number)) return number != 0 ? 1 : 0;
        string word = Encoding.UTF8.GetString(cell).Trim().ToLowerInvariant();
        if (word.Contains("release", StringComparison.Ordinal) || word is "open" or "true" or "yes") return 1;
        return word is "closed" or "close" or "false" or "no" ? 0 : double.NaN;
    }

    private static ChannelKind? ChannelOf(CsvMeaning meaning) => meaning switch
    {
        CsvMeaning.Load => ChannelKind.LoadKg,
        CsvMeaning.Torque => ChannelKind.TorquePercent,
        CsvMeaning.Power => ChannelKind.PowerKw,
        CsvMeaning.Roll => ChannelKind.RollDeg,
        CsvMeaning.Pitch => ChannelKind.PitchDeg,
        CsvMeaning.Heading => ChannelKind.HeadingDeg,
        CsvMeaning.Hook => ChannelKind.HookOpen,
        _ => null,
    };

    /// <summary>How the aircraft moves at one row.</summary>
    private struct Moves()
    {
        private double _speed = double.NaN, _course = double.NaN, _north = double.NaN, _east = double.NaN;

        public double PressureAltitude { get; private set; } = double.NaN;

        public double Climb { get; private set; } = double.NaN;

        public readonly double GroundSpeed => double.IsNaN(_speed) ? Math.Sqrt(_north * _north + _east * _east) : _speed;

        public readonly double TrueCourse => double.IsNaN(_course) ? (Math.Atan2(_east, _north) * 180 / Math.PI + 360) % 360 : _course;

        public void Set(CsvMeaning meaning, double value)
        {
            switch (meaning)
            {
                case CsvMeaning.PressureAltitude: PressureAltitude = value; break;
                case CsvMeaning.GroundSpeed: _speed = value; break;
                case CsvMeaning.Course: _course = value; break;
                case CsvMeaning.VelocityNorth: _north = value; break;
                case CsvMeaning.VelocityEast: _east = value; break;
                case CsvMeaning.Climb: Climb = value; break;
            }
        }
    }
}
