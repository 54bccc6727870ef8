using System.Globalization;
using System.Text;
using Stillhook.Files.Records;
using Stillhook.Files.Records.Csv;
using Stillhook.Files.Records.Nmea;
using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>Turns what arrives from one source into samples: NMEA sentences and table lines, by the decoders that read files.</summary>
/// <remarks>
/// A position is given when its sentences have stopped for <see cref="WaitS"/>. A value without a time, with a time that counts from the instrument's own start,
/// or more than 0.25 s after the instant it would belong to, is stamped by its arrival.
/// </remarks>
internal sealed class LiveDecoder : IRecordTarget
{
    // Common practice, no source: sentences of one instant leave a receiver in one burst; 0.4 s is less than half of a second.
    private const double ShortestWaitS = 0.05, LongestWaitS = 0.4, InstantEndsS = 0.25;
    private const int SparesUntilUsed = 5, NothingKnownBytes = 2048;

    private readonly LiveSourceSetting _setting;
    private readonly UtcOffset _offset;
    private readonly ISampleSink _sink;
    private readonly FindingLog _findings;
    private readonly LineSplitter _lines = new();
    private readonly NmeaDecoder _nmea;
    private readonly CsvRows _rows = new(null);
    private readonly CsvTable _table;
    private readonly List<FixSample> _spares = [];
    private double _arrived = double.NaN, _lineArrived = double.NaN, _positionArrived = double.NaN, _fixArrived = double.NaN, _spareTime = double.NaN;
    private long _rowsRead, _rowsBad, _unknownSince;
    private readonly List<Finding> _untold = [];
    private readonly Action<Finding> _found;
    private bool _anyFix, _usesSpares, _unknownSaid, _inSentence, _midLine;

    public LiveDecoder(LiveSourceSetting setting, UtcOffset offset, ISampleSink sink, Action<Finding> found)
    {
        (_setting, _offset, _sink) = (setting, offset, sink);
        _found = found;
        _findings = new FindingLog(Tell);
        _midLine = BeginsAnywhere;
        _nmea = new NmeaDecoder(this, _findings) { GivesUntimed = true };
        _table = new CsvTable(new RecordReadOptions(), _findings, _rows);
        if (setting.Columns.Count == 0) return;
        _table.TakeHeadings([.. setting.Columns], 0);
    }

    /// <summary>How long a position's sentences must have stopped before it is given, s. Grows when they turn out to come further apart.</summary>
    public double WaitS { get; private set; } = ShortestWaitS;

    /// <summary>When the position that is being gathered is due by the clock of arrival; NaN when there is none.</summary>
    public double DueS => _nmea.Gathers ? _positionArrived + WaitS : double.NaN;

    /// <summary>Sentences and table lines that could be read.</summary>
    public long Good => _nmea.Sentences + _rowsRead;

    /// <summary>Those that were damaged.</summary>
    public long Bad => _nmea.Damaged + _rowsBad;

    public long Fixes { get; private set; }

    public long Values { get; private set; }

    /// <summary>When the last good line arrived; NaN before.</summary>
    public double GoodArrivedS { get; private set; } = double.NaN;

    public IReadOnlyList<Finding> Findings => _findings.Findings;

    /// <summary>Takes what arrived at once.</summary>
    public void Take(ReadOnlySpan<byte> bytes, double arrivedS)
    {
        Quiet(arrivedS);
        _arrived = arrivedS;
        long good = Good, dropped = _lines.Dropped;
        _lines.Add(bytes);
        while (_lines.Next(out ReadOnlySpan<byte> line)) TakeLine(line);
        if (_lines.Dropped > dropped && !_findings.CountedAgain("line-too-long"))
            _findings.Warn("line-too-long", _lines.Number, "More than 1 MB came without a line end.", "Dropped up to the next line end; check what writes to this source.");
        CountUnknown(bytes.Length, Good > good);
    }

    /// <summary>Gives what has waited long enough.</summary>
    public void Quiet(double nowS)
    {
        if (!(nowS - _arrived >= WaitS) && !(DueS <= nowS)) return;
        TakeWholeSentence();
        if (_nmea.Gathers && !(DueS > nowS)) Flush();
    }

    /// <summary>The link was lost: half a line is dropped and the instant ended.</summary>
    public void LinkLost()
    {
        TakeWholeSentence();
        _midLine = BeginsAnywhere || _setting.Kind == LiveSourceKind.File && _lines.Rest.Length > 0; // a file goes on in the middle of its line
        _lines.Forget();
        Flush();
        _nmea.Close();
    }

    /// <summary>Some bytes are left out here: what comes next begins in the middle of a line.</summary>
    public void Cut()
    {
        _lines.Forget();
        _midLine = true;
    }

    /// <summary>Nothing more comes.</summary>
    public void End()
    {
        LinkLost();
        UseSpares();
    }

    public void Fix(in FixSample fix, double clockS)
    {
        _anyFix = true;
        _spares.Clear();
        GiveFix(fix, clockS, _inSentence ? _lineArrived : _arrived);
    }

    public void Spare(double timeS, double clockS, double latitudeDeg, double longitudeDeg)
    {
        double time = Stamp(timeS, clockS, _arrived);
        if (time == _spareTime) return;
        _spareTime = time;
        var fix = new FixSample(time, latitudeDeg, longitudeDeg, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN);
        if (_usesSpares)
        {
            GiveFix(fix, clockS, _arrived);
            return;
        }

        _spares.Add(fix);
        if (_spares.Count == SparesUntilUsed) UseSpares();
    }

    public void Channel(ChannelKind kind, double timeS, double clockS, double value)
    {
        Values++;
        double arrived = _inSentence && _nmea.Gathers ? _lineArrived : _arrived;
        _sink.Take(_setting.Name, new ChannelSample(kind, Stamp(timeS, clockS, arrived), value), arrived);
    }

    // The first ones are held back until it is clear that nothing better comes.
    private void UseSpares()
    {
        if (_anyFix || _spares.Count == 0) return;
        _usesSpares = true;
        _findings.Note("positions-from-gll", _lines.Number, "The source has positions in GLL sentences only.", "These are used; they have no altitude.");
        foreach (FixSample fix in _spares) GiveFix(fix, double.NaN, _arrived);
        _spares.Clear();
    }

    private void TakeLine(ReadOnlySpan<byte> line)
    {
        int dollar = line.IndexOf((byte)'$');
        bool rest = _midLine;
        _midLine = false;
        if (dollar < 0 && IsText(line) && TakeRow(line, rest) || dollar < 0 && rest) return;
        if (rest) line = line[dollar..];
        _nmea.InstantIsOld = _arrived - _fixArrived > InstantEndsS;
        if (!_nmea.Gathers) _lineArrived = _arrived; // an instant that begins and ends in this line, where a line end was lost, arrived with it
        long positions = _nmea.Positions, late = _nmea.Late, good = _nmea.Sentences;
        _inSentence = true;
        _nmea.Take(line, _lines.Number, complete: true);
        _inSentence = false;
        _lineArrived = _arrived;
        if (_nmea.Positions > positions) _positionArrived = _arrived;
        if (_nmea.Late > late) WaitS = Math.Min(WaitS * 2, LongestWaitS);
        if (_nmea.Sentences > good) GoodArrivedS = _arrived;
    }

    // A sentence that came without its line end (some senders put one in a datagram and leave the end away).
    private void TakeWholeSentence()
    {
        ReadOnlySpan<byte> rest = _lines.Rest;
        if (rest.Length > 4 && rest[^3] == '*' && rest.Contains((byte)'$')) TakeLine(_lines.TakeRest());
    }

    private void Flush()
    {
        _inSentence = true;
        _nmea.Flush();
        _inSentence = false;
    }

    // Where a link may begin in the middle of a line, the rest of that line is no line: half a number would be a wrong number.
    private bool BeginsAnywhere => _setting.Kind is LiveSourceKind.Serial or LiveSourceKind.TcpClient or LiveSourceKind.TcpServer || _setting.FromEnd;

    // What is wrong before the first good line is told with it: until then one finding says that nothing is understood.
    private void Tell(Finding finding)
    {
        if (Good > 0 || finding.Code is "baud-wrong" or "data-unknown" or "columns-unknown" or "line-too-long") _found(finding);
        else _untold.Add(finding);
    }

    // False when the line is no row and no heading of a table.
    private bool TakeRow(ReadOnlySpan<byte> line, bool headingOnly)
    {
        if (CsvRows.IsBlankOrComment(line)) return true;
        if (line.Length > 3 && line[^3] == '*') return false; // a sentence that lost its '$'
        _rows.Take(line, _lines.Number);
        _rows.Split();
        if (_rows.Count != _table.Count)
        {
            if (_table.Count == 1) _rows.Delimiter = 0; // one value a line: a comma in it is its decimal sign
            else _rows.FindDelimiter();
            _rows.Split();
        }

        if (IsHeading())
        {
            if (_setting.Columns.Count == 0) TakeHeading();
            return true;
        }

        if (headingOnly) return true;
        if (_table.Count == 0) return WordUnnamed();
        if (_rows.Count == _table.Count && !_rows.QuoteUnclosed)
        {
            _rowsRead++;
            GoodArrivedS = _arrived;
            _table.TakeRow(this);
            return true;
        }

        _rowsBad++;
        if (!_findings.CountedAgain("row-column-count"))
            _findings.Warn("row-column-count", _lines.Number, $"A line of {_rows.Count} columns, the headings have {_table.Count}.", "The line was left out.");
        return true;
    }

    private void TakeHeading()
    {
        _rowsRead++;
        _table.TakeHeadings();
        _table.NoteUnused();
    }

    // A heading has a known word for a value or a position, and no cell that is empty or begins with a digit.
    private bool IsHeading()
    {
        bool known = false;
        for (int i = 0; i < _rows.Count; i++)
        {
            ReadOnlySpan<byte> cell = _rows.Cell(i).Trim(" \t"u8);
            if (!double.IsNaN(ByteNumbers.ToDouble(cell)) || cell.Length is 0 or > 60 || char.IsAsciiDigit((char)cell[0])) return false;
            if (known || !char.IsAsciiLetter((char)cell[0])) continue;
            known = CsvHeadings.Match(Encoding.UTF8.GetString(cell)) is { Meaning: not CsvMeaning.Time and not CsvMeaning.Date } column
                && (column.Meaning != CsvMeaning.Hook || _table.Count == 0); // 'release' in a table is a value
        }

        return known;
    }

    private bool WordUnnamed()
    {
        for (int i = 0; i < _rows.Count; i++)
            if (double.IsNaN(ByteNumbers.ToDouble(_rows.Cell(i))) && _rows.Cell(i).IndexOfAnyExceptInRange((byte)' ', (byte)':') >= 0) return false;
        _rowsBad++;
        if (!_findings.CountedAgain("columns-unknown"))
            _findings.Warn("columns-unknown", _lines.Number, $"Lines of {_rows.Count} numbers came without a heading that says what they are.",
                "Not used; name the columns behind the source, such as 'columns=time,load_kg' or 'columns=load_kg'.");
        return true;
    }

    private static bool IsText(ReadOnlySpan<byte> line) => line.Length is > 0 and < 4096 && line.IndexOfAnyInRange((byte)0, (byte)8) < 0;

    private void GiveFix(in FixSample fix, double clockS, double arrivedS)
    {
        double longitude = Math.Abs(fix.LongitudeDeg) is > 180 and <= 360 ? fix.LongitudeDeg - 360 * Math.Sign(fix.LongitudeDeg) : fix.LongitudeDeg;
        if (!(Math.Abs(fix.LatitudeDeg) <= 90 && Math.Abs(longitude) <= 180))
        {
            if (!_findings.CountedAgain("position-out-of-range"))
                _findings.Warn("position-out-of-range", _lines.Number, "A position that is no place on earth.", "Left out; expected degrees, north and east positive.");
            return;
        }

        double told = fix.TimeS >= ByteTimes.Year1990S ? fix.TimeS : double.NaN;
        double time = Stamp(told, clockS, arrivedS);
        if (!double.IsNaN(told) || !double.IsNaN(clockS)) TakeTold(time, arrivedS);
        Fixes++;
        _fixArrived = _arrived;
        _sink.Take(_setting.Name, fix with { TimeS = time, LongitudeDeg = longitude }, arrivedS);
    }

    private void TakeTold(double toldS, double arrivedS)
    {
        _offset.Take(_setting.Name, toldS, arrivedS);
        if (!(Math.Abs(toldS - arrivedS) > ByteTimes.DayS) || _setting.Kind == LiveSourceKind.File || _findings.CountedAgain("date-differs")) return;
        _findings.Warn("date-differs", _lines.Number, string.Create(CultureInfo.InvariantCulture, $"The source tells a date {Math.Abs(toldS - arrivedS) / ByteTimes.DayS:0} days {(toldS > arrivedS ? "after" : "before")} this machine's."),
            "The source's date is used; check both clocks (an old receiver may be off by 1024 weeks).");
    }

    // Its own time, else its time of day on the nearest day, else by arrival.
    private double Stamp(double timeS, double clockS, double arrivedS)
    {
        if (timeS >= ByteTimes.Year1990S) return timeS; // smaller ones count from an instrument's start
        double now = _offset.Stamp(arrivedS);
        return double.IsNaN(clockS) ? now : now + Math.IEEERemainder(clockS - now, ByteTimes.DayS);
    }

    private void CountUnknown(int count, bool good)
    {
        if (good)
        {
            (_unknownSince, _unknownSaid) = (0, false);
            foreach (Finding finding in _untold) _found(finding);
            _untold.Clear();
            return;
        }

        _unknownSince += count;
        if (_unknownSaid || _unknownSince < NothingKnownBytes || _findings.Has("columns-unknown")) return;
        _unknownSaid = true;
        bool serial = _setting.Kind == LiveSourceKind.Serial;
        string code = serial ? "baud-wrong" : "data-unknown";
        if (_findings.CountedAgain(code)) return;
        if (serial)
            _findings.Warn(code, _lines.Number, $"{_setting.Text}: {_unknownSince} bytes came and not one sentence in them: most likely the speed is not {_setting.Baud} baud.",
                "Recorded, not used; set the speed the instrument has, usually 4800, 9600, 38400 or 115200.");
        else
            _findings.Warn(code, _lines.Number, $"{_setting.Text}: {_unknownSince} bytes came that are neither NMEA 0183 sentences nor a table: another program's data?",
                "Recorded, not used; check the port or file, and that the instrument writes NMEA 0183 or CSV.");
    }
}
