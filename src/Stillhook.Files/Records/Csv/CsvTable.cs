using System.Text;
using Stillhook.Recording;

namespace Stillhook.Files.Records.Csv;

/// <summary>What the columns of a table hold, and its rows turned into fixes and channel values: the same code for files and for live links.</summary>
internal sealed class CsvTable(RecordReadOptions options, FindingLog findings, CsvRows rows)
{
    private const double EpochSecondsFrom = 1e8; // 1973; smaller numbers count from the record's start; common practice, no source
    private const double EpochMillisecondsFrom = 1e11; // as seconds the year 5138; common practice, no source

    private readonly RecordReadOptions _options = options;
    private readonly FindingLog _findings = findings;
    private readonly CsvRows _rows = rows;
    private readonly byte[] _number = new byte[64];
    private string[] _headings = [];
    private CsvColumn[] _columns = [];
    private int[] _times = [];
    private (int Index, CsvMeaning Meaning, double Scale, ChannelKind? Channel)[] _values = [];
    private int _latitude = -1, _longitude = -1;

    /// <summary>Line of the headings.</summary>
    public long HeadingLine { get; private set; }

    /// <summary>Number of columns; 0 before the headings are known.</summary>
    public int Count => _headings.Length;

    /// <summary>True when both latitude and longitude have a column.</summary>
    public bool HasPosition => _latitude >= 0 && _longitude >= 0;

    /// <summary>True once a time counted from the record's start.</summary>
    public bool Relative { get; private set; }

    /// <summary>True once a date did not say which number is the day.</summary>
    public bool DayFirstUnknown { get; private set; }

    /// <summary>Takes the present row as headings.</summary>
    public void TakeHeadings()
    {
        var headings = new string[_rows.Count];
        for (int i = 0; i < headings.Length; i++) headings[i] = Encoding.UTF8.GetString(_rows.Cell(i)).Trim();
        TakeHeadings(headings, _rows.Line);
    }

    /// <summary>Takes headings that were given beforehand.</summary>
    public void TakeHeadings(string[] headings, long line)
    {
        var columns = new CsvColumn[headings.Length];
        for (int i = 0; i < headings.Length; i++)
            columns[i] = _options.Columns.TryGetValue(headings[i], out CsvColumn given) ? given : CsvHeadings.Match(headings[i]) ?? default;
        _latitude = Array.FindIndex(columns, c => c.Meaning == CsvMeaning.Latitude);
        _longitude = Array.FindIndex(columns, c => c.Meaning == CsvMeaning.Longitude);
        (_headings, _columns, HeadingLine) = (headings, columns, line);
        Sort();
    }

    // Columns of the time, and those of values beside time and position.
    private void Sort()
    {
        int[] all = [.. Enumerable.Range(0, _columns.Length)];
        _times = [.. all.Where(i => _columns[i].Meaning is CsvMeaning.Time or CsvMeaning.Date)];
        _values = [.. all.Where(i => _columns[i].Meaning is not (CsvMeaning.Ignored or CsvMeaning.Time or CsvMeaning.Date or CsvMeaning.Latitude or CsvMeaning.Longitude))
            .Select(i => (i, _columns[i].Meaning, _columns[i].Scale, ChannelOf(_columns[i].Meaning)))];
    }

    /// <summary>Words columns that are not used, and feet.</summary>
    public void NoteUnused()
    {
        for (int i = 0; i < _columns.Length; i++)
        {
            CsvColumn column = _columns[i];
            bool second = column.Meaning != CsvMeaning.Ignored && Array.FindIndex(_columns, c => c.Meaning == column.Meaning) < i
                && column.Meaning is not (CsvMeaning.Time or CsvMeaning.Date);
            if (second) _columns[i] = default;
            if (_columns[i].Meaning == CsvMeaning.Ignored && !_options.Columns.ContainsKey(_headings[i]) && !_findings.CountedAgain("column-not-used"))
                _findings.Note("column-not-used", HeadingLine, $"Headings that are not known or come twice, first '{FindingLog.Shown(_headings[i])}'.", "These columns were not used; name them in the mapping if they matter.");
            if (column.Scale == 0.3048 && !second && (column.Meaning is CsvMeaning.Altitude or CsvMeaning.PressureAltitude))
                _findings.Note("altitude-in-feet", HeadingLine, "Altitude is in feet, as the heading says.", "Turned into metres.");
        }

        Sort();
    }

    /// <summary>Turns the present row into a fix and channel values; false when it has no position.</summary>
    public bool TakeRow(IRecordTarget target)
    {
        double time = RowTime();
        var moves = new Moves();
        double altitude = double.NaN;
        foreach ((int i, CsvMeaning meaning, double scale, ChannelKind? channel) in _values)
        {
            ReadOnlySpan<byte> cell = _rows.Cell(i);
            if (cell.Length == 0) continue;
            double value = meaning == CsvMeaning.Hook ? Hook(cell) : Number(cell) * scale;
            if (double.IsNaN(value))
            {
                WordCell(cell, i);
                continue;
            }

            if (meaning == CsvMeaning.Altitude) altitude = value;
            else if (channel is { } kind) target.Channel(kind, time, double.NaN, value);
            else moves.Set(meaning, value);
        }

        if (!HasPosition) return false;
        ReadOnlySpan<byte> latitudeCell = _rows.Cell(_latitude), longitudeCell = _rows.Cell(_longitude);
        double latitude = Angle(latitudeCell) * _columns[_latitude].Scale, longitude = Angle(longitudeCell) * _columns[_longitude].Scale;
        if (double.IsNaN(latitude) && double.IsNaN(longitude) && IsBlank(latitudeCell) && IsBlank(longitudeCell)) return false;
        target.Fix(new FixSample(time, latitude, longitude, altitude, moves.GroundSpeed, moves.TrueCourse, moves.Climb, moves.PressureAltitude), double.NaN);
        return true;
    }

    private static bool IsBlank(ReadOnlySpan<byte> cell) => cell.IndexOfAnyExcept(" \t"u8) < 0;

    private void WordCell(ReadOnlySpan<byte> cell, int column)
    {
        cell = cell.Trim(" \t"u8);
        if (cell.Length == 0 || cell.SequenceEqual("-"u8) || _columns[column].Meaning == CsvMeaning.Hook) return;
        if (Ascii.EqualsIgnoreCase(cell, "nan"u8) || Ascii.EqualsIgnoreCase(cell, "null"u8) || Ascii.EqualsIgnoreCase(cell, "n/a"u8))
        {
            if (!_findings.CountedAgain("value-nan"))
                _findings.Note("value-nan", _rows.Line, $"Cells that say 'not a number', first under '{FindingLog.Shown(_headings[column])}'.", "Taken as empty.");
            return;
        }

        if (!_findings.CountedAgain("value-unreadable"))
            _findings.Warn("value-unreadable", _rows.Line, $"A cell under '{FindingLog.Shown(_headings[column])}' is no number.", "Taken as empty; expected a plain number.");
    }

    private double RowTime()
    {
        double day = double.NaN, clock = double.NaN;
        foreach (int i in _times)
        {
            CsvMeaning meaning = _columns[i].Meaning;
            ReadOnlySpan<byte> cell = _rows.Cell(i);
            if (cell.Length > 0 && (cell[0] <= ' ' || cell[^1] <= ' ')) cell = cell.Trim(" \t"u8);
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
            _findings.Warn("time-unreadable", _rows.Line, $"A time under '{FindingLog.Shown(_headings[column])}' can't be read.", "The row has no time; expected 2024-06-01T09:00:00Z, seconds, or a date and a time of day.");
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
        Relative = true;
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
        if (a <= 12 && a != b && cell[first] == '/') DayFirstUnknown = true;
        return ByteTimes.FromDate(c, b, a);
    }

    private double Number(ReadOnlySpan<byte> cell)
    {
        double plain = ByteNumbers.ToDouble(cell);
        if (!double.IsNaN(plain)) return plain;
        cell = cell.Trim(" \t"u8);
        int comma = cell.IndexOf((byte)',');
        if (comma < 0 || cell.Length > _number.Length || cell.Contains((byte)'.')) return double.NaN;
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
