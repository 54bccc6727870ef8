using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Stillhook.Recording;

namespace Stillhook.Files.Records.Nmea;

/// <summary>Reads NMEA 0183 sentences of any talker, with binary between them.</summary>
/// <remarks>
/// RMC, GGA and GNS of one time of day make one fix; the first position of that instant counts, altitude comes from GGA or GNS, speed and
/// course from RMC or VTG, the date from RMC or ZDA. GLL positions are used only when the file has none of the three.
/// </remarks>
internal sealed class NmeaReader
{
    private const double KnotMs = 1852.0 / 3600;
    private const double HalfDayS = ByteTimes.DayS / 2;
    private const double StandardGravity = 9.80665;
    private const double Year1990S = 631_152_000;
    private const double ConflictDeg = 0.001; // about 100 m: receivers of one aircraft agree far better

    private readonly ByteLines _lines;
    private readonly FindingLog _findings;
    private readonly RecordBuilder _record;
    private readonly List<(ChannelKind Kind, double Value)> _channels = [];
    private readonly List<(double Time, double Latitude, double Longitude)> _spare = []; // from GLL
    private Instant _now = Instant.None;
    private double _day = double.NaN, _dayClock = double.NaN;
    private readonly Known _clock = new(), _date = new(), _place = new();
    private readonly int[] _fieldEnds = new int[40];
    private int _fieldCount;

    private NmeaReader(Stream stream, FindingLog findings, IProgress<long>? progress)
    {
        _lines = new ByteLines(stream, progress);
        _findings = findings;
        _record = new RecordBuilder(findings, () => _lines.Number);
    }

    public static FlightRecord Read(Stream stream, string name, FindingLog findings, IProgress<long>? progress)
    {
        var reader = new NmeaReader(stream, findings, progress);
        while (reader._lines.Next(out ReadOnlySpan<byte> line)) reader.TakeLine(line);
        reader.Close();
        reader.UseSpare();
        return reader._record.Build(name, "NMEA 0183");
    }

    private void TakeLine(ReadOnlySpan<byte> line)
    {
        while (true)
        {
            int start = line.IndexOf((byte)'$');
            if (start != 0) WordBetween(start < 0 ? line : line[..start]);
            if (start < 0) return;
            line = line[(start + 1)..];
            int next = line.IndexOf((byte)'$');
            TakeSentence(next < 0 ? line : line[..next]);
            if (next < 0) return;
            line = line[next..];
        }
    }

    // Text after the '$'.
    private void TakeSentence(ReadOnlySpan<byte> text)
    {
        int star = Split(text, out int computed);
        if (star < 0)
        {
            WordUnended(text);
            if (!_lines.Complete || !IsStandard(text)) return;
            if (!_findings.CountedAgain("checksum-missing"))
                _findings.Warn("checksum-missing", _lines.Number, "A sentence without a checksum.", "Read as it stands; expected *hh at the end.");
        }
        else
        {
            ReadOnlySpan<byte> sum = text[(star + 1)..];
            if (sum.Length < 2 || Hex(sum[0]) < 0 || Hex(sum[1]) < 0)
            {
                WordBroken();
                return;
            }

            text = text[..star];
            if (computed != Hex(sum[0]) * 16 + Hex(sum[1]))
            {
                if (!_findings.CountedAgain("checksum-mismatch"))
                    _findings.Warn("checksum-mismatch", _lines.Number, "A sentence whose checksum does not fit: it was damaged.", "The sentence was left out.");
                return;
            }
        }

        if (IsStandard(text)) TakeChecked(text);
    }

    private static bool IsStandard(ReadOnlySpan<byte> text) => text.Length > 6 && text[5] == ',' && text[0] != 'P';

    private void TakeChecked(ReadOnlySpan<byte> text)
    {
        int type = text[2] << 16 | text[3] << 8 | text[4];
        switch (type)
        {
            case 'R' << 16 | 'M' << 8 | 'C': TakeRmc(text); break;
            case 'G' << 16 | 'G' << 8 | 'A': TakeGga(text); break;
            case 'G' << 16 | 'N' << 8 | 'S': TakeGns(text); break;
            case 'V' << 16 | 'T' << 8 | 'G': TakeVtg(text); break;
            case 'Z' << 16 | 'D' << 8 | 'A': TakeZda(text); break;
            case 'G' << 16 | 'L' << 8 | 'L': TakeGll(text); break;
            case 'H' << 16 | 'D' << 8 | 'T': AddChannel(ChannelKind.HeadingDeg, Number(text, 1)); break;
            case 'X' << 16 | 'D' << 8 | 'R': TakeXdr(text); break;
        }
    }

    private void TakeRmc(ReadOnlySpan<byte> text)
    {
        double clock = Clock(Field(text, 1));
        double day = Day(Field(text, 9));
        if (!Field(text, 2).SequenceEqual("A"u8))
        {
            WordVoid();
            if (day < Year1990S && !_findings.CountedAgain("clock-not-set"))
                _findings.Note("clock-not-set", _lines.Number, "Dates before 1990 in void sentences: the receiver's clock was not set yet.", "Not used; dates of valid fixes count.");
            return;
        }

        Open(clock);
        if (!double.IsNaN(day)) _now.Day = day;
        TakePosition(text, 3);
        double speed = Number(text, 7) * KnotMs;
        if (!double.IsNaN(speed)) _now.Speed = speed;
        double course = Number(text, 8);
        if (!double.IsNaN(course)) _now.Course = course;
    }

    private void TakeGga(ReadOnlySpan<byte> text)
    {
        ReadOnlySpan<byte> quality = Field(text, 6);
        if (quality.Length == 0 || quality[0] == '0')
        {
            WordVoid();
            return;
        }

        Open(Clock(Field(text, 1)));
        TakePosition(text, 2);
        if (double.IsNaN(_now.Altitude)) _now.Altitude = Number(text, 9);
    }

    private void TakeGns(ReadOnlySpan<byte> text)
    {
        ReadOnlySpan<byte> mode = Field(text, 6);
        if (mode.IndexOfAnyExcept((byte)'N') < 0)
        {
            WordVoid();
            return;
        }

        Open(Clock(Field(text, 1)));
        TakePosition(text, 2);
        if (double.IsNaN(_now.Altitude)) _now.Altitude = Number(text, 9);
    }

    private void TakeVtg(ReadOnlySpan<byte> text)
    {
        if (!_now.Open) return;
        // The older form has no letters: course true, course magnetic, knots, km/h follow each other.
        bool letters = Field(text, 2).SequenceEqual("T"u8) || _fieldCount > 6;
        if (double.IsNaN(_now.Course)) _now.Course = Number(text, 1);
        if (double.IsNaN(_now.Speed)) _now.Speed = Number(text, letters ? 5 : 3) * KnotMs;
    }

    private void TakeZda(ReadOnlySpan<byte> text)
    {
        double clock = ByteTimes.FromCompactClock(Field(text, 1));
        double day = ByteTimes.FromDate(ByteNumbers.ToDigits(Field(text, 4)), ByteNumbers.ToDigits(Field(text, 3)), ByteNumbers.ToDigits(Field(text, 2)));
        if (double.IsNaN(clock) || double.IsNaN(day) || day < Year1990S) return;
        if (clock != _now.Clock) Close();
        if (_now.Open) _now.Day = day;
        (_day, _dayClock) = (day, clock);
    }

    private void TakeGll(ReadOnlySpan<byte> text)
    {
        if (Field(text, 6).SequenceEqual("V"u8) || _record.Count > 0) return;
        double clock = ByteTimes.FromCompactClock(Field(text, 5));
        if (!Position(text, 1, out double latitude, out double longitude)) return;
        double time = double.IsNaN(_day) ? double.NaN : DayOf(clock) + clock;
        if (_spare.Count == 0 || !(_spare[^1].Time == time)) _spare.Add((time, latitude, longitude));
    }

    // Groups of type, value, unit, name.
    private void TakeXdr(ReadOnlySpan<byte> text)
    {
        for (int i = 1; i + 3 <= _fieldCount; i += 4)
        {
            double value = Number(text, i + 1);
            ReadOnlySpan<byte> type = Field(text, i), unit = Field(text, i + 2), name = Field(text, i + 3);
            if (double.IsNaN(value) || type.Length != 1) continue;
            if (type[0] == 'N' && unit.SequenceEqual("N"u8)) AddChannel(ChannelKind.LoadKg, value / StandardGravity);
            else if (name.SequenceEqual("TORQUE"u8)) AddChannel(ChannelKind.TorquePercent, value);
            else if (name.SequenceEqual("POWERKW"u8)) AddChannel(ChannelKind.PowerKw, value);
            else if (type[0] == 'A' && (name.SequenceEqual("ROLL"u8) || name.SequenceEqual("HEEL"u8))) AddChannel(ChannelKind.RollDeg, value);
            else if (type[0] == 'A' && (name.SequenceEqual("PITCH"u8) || name.SequenceEqual("PTCH"u8) || name.SequenceEqual("TRIM"u8))) AddChannel(ChannelKind.PitchDeg, value);
            else if (type[0] == 'S' && name.SequenceEqual("HOOK"u8)) AddChannel(ChannelKind.HookOpen, value);
            else if (name.SequenceEqual("CLIMB"u8)) _now.Climb = value;
            else if (name.SequenceEqual("BAROALT"u8)) _now.PressureAltitude = value;
        }
    }

    private void AddChannel(ChannelKind kind, double value)
    {
        if (_now.Open && !double.IsNaN(value)) _channels.Add((kind, value));
    }

    private void TakePosition(ReadOnlySpan<byte> text, int first)
    {
        ReadOnlySpan<byte> place = Fields(text, first, 4);
        if (!double.IsNaN(_now.Latitude) && _place.IsSame(place)) return;
        if (!Position(text, first, out double latitude, out double longitude))
        {
            if (!_findings.CountedAgain("position-unreadable"))
                _findings.Warn("position-unreadable", _lines.Number, "A valid sentence without a readable position.", "Left out; expected ddmm.mmmm,N,dddmm.mmmm,E.");
            return;
        }

        if (double.IsNaN(_now.Latitude))
        {
            (_now.Latitude, _now.Longitude) = (latitude, longitude);
            _place.Keep(place);
            return;
        }

        if (Math.Abs(latitude - _now.Latitude) < ConflictDeg && Math.Abs(longitude - _now.Longitude) < ConflictDeg) return;
        if (!_findings.CountedAgain("position-conflict"))
            _findings.Warn("position-conflict", _lines.Number, "Two sentences of one instant give places more than 100 m apart.", "The first one counts.");
    }

    private bool Position(ReadOnlySpan<byte> text, int first, out double latitude, out double longitude)
    {
        latitude = Angle(Field(text, first), Field(text, first + 1), (byte)'N', (byte)'S');
        longitude = Angle(Field(text, first + 2), Field(text, first + 3), (byte)'E', (byte)'W');
        return !double.IsNaN(latitude) && !double.IsNaN(longitude);
    }

    private static double Angle(ReadOnlySpan<byte> text, ReadOnlySpan<byte> side, byte positive, byte negative)
    {
        int point = text.IndexOf((byte)'.');
        int degreeDigits = (point < 0 ? text.Length : point) - 2;
        if (degreeDigits < 1 || side.Length != 1 || (side[0] != positive && side[0] != negative)) return double.NaN;
        int degrees = ByteNumbers.ToDigits(text[..degreeDigits]);
        double minutes = ByteNumbers.ToDouble(text[degreeDigits..]);
        if (degrees < 0 || !(minutes is >= 0 and <= 60)) return double.NaN;
        double value = degrees + minutes / 60;
        return side[0] == negative ? -value : value;
    }

    // Sentences of one instant repeat the same bytes for time, date and place: they are read once.
    private double Clock(ReadOnlySpan<byte> text)
    {
        if (_clock.IsSame(text)) return _clock.Value;
        _clock.Keep(text);
        return _clock.Value = ByteTimes.FromCompactClock(text);
    }

    private double Day(ReadOnlySpan<byte> text)
    {
        if (_date.IsSame(text)) return _date.Value;
        _date.Keep(text);
        return _date.Value = ByteTimes.FromCompactDate(text);
    }

    private void Open(double clock)
    {
        if (_now.Open && (clock == _now.Clock || double.IsNaN(clock) && double.IsNaN(_now.Clock))) return;
        Close();
        _now = Instant.None;
        _now.Open = true;
        _now.Clock = clock;
    }

    private void Close()
    {
        if (!_now.Open) return;
        if (!double.IsNaN(_now.Day)) (_day, _dayClock) = (_now.Day, _now.Clock);
        double time = DayOf(_now.Clock) + _now.Clock;
        if (!double.IsNaN(_now.Latitude) && _record.AddFix(time, _now.Latitude, _now.Longitude, _now.Altitude))
        {
            _record.SetGroundSpeed(_now.Speed);
            _record.SetCourse(_now.Course);
            _record.SetClimb(_now.Climb);
            _record.SetPressureAltitude(_now.PressureAltitude);
        }

        foreach ((ChannelKind kind, double value) in _channels) _record.AddChannel(kind, time, value);
        _channels.Clear();
        _now = Instant.None;
    }

    // The day of a time of day, from the last date met and half a day to each side of it.
    private double DayOf(double clock)
    {
        if (double.IsNaN(_day) || double.IsNaN(clock)) return double.NaN;
        if (clock < _dayClock - HalfDayS) _day += ByteTimes.DayS;
        else if (clock > _dayClock + HalfDayS) _day -= ByteTimes.DayS;
        _dayClock = clock;
        return _day;
    }

    private void UseSpare()
    {
        if (_record.Count > 0 || _spare.Count == 0) return;
        _findings.Note("positions-from-gll", null, "The file has positions in GLL sentences only.", "These were used; they have no altitude.", _spare.Count);
        foreach ((double time, double latitude, double longitude) in _spare) _record.AddFix(time, latitude, longitude, double.NaN);
    }

    private void WordVoid()
    {
        if (!_findings.CountedAgain("fix-void"))
            _findings.Note("fix-void", _lines.Number, "Sentences that say themselves that they have no fix.", "Left out.");
    }

    private void WordUnended(ReadOnlySpan<byte> text)
    {
        if (_lines.Complete && !text.Contains((byte)0) && text.Length > 5 && text[0] == 'P') return; // makers' own sentences often have no checksum
        if (!_lines.Complete)
        {
            _findings.Warn("file-cut", _lines.Number, "The file ends in the middle of a sentence: it was cut.", "That sentence was left out.");
            return;
        }

        if (!IsStandard(text)) WordBroken();
    }

    private void WordBroken()
    {
        if (!_lines.Complete)
            _findings.Warn("file-cut", _lines.Number, "The file ends in the middle of a sentence: it was cut.", "That sentence was left out.");
        else if (!_findings.CountedAgain("sentence-broken"))
            _findings.Warn("sentence-broken", _lines.Number, "A sentence that is cut or has bytes missing.", "Left out.");
    }

    private void WordBetween(ReadOnlySpan<byte> text)
    {
        text = text.Trim(" \t\0"u8);
        if (text.Length == 0 || text[0] is (byte)'#' or (byte)'!') return;
        if ((text.Length >= 35 && text[0] == 'B' && ByteNumbers.ToDigits(text.Slice(1, 6)) >= 0) || text.StartsWith("<?xml"u8) || text.StartsWith("<gpx"u8) || text.StartsWith("<trkpt"u8))
        {
            if (!_findings.CountedAgain("two-formats-in-one"))
                _findings.Warn("two-formats-in-one", _lines.Number, "Lines of another record format stand among the sentences.", "Only the sentences were read; put the rest in a file of its own.");
            return;
        }

        if (text.Count((byte)',') >= 4 && text.LastIndexOf((byte)'*') >= text.Length - 4)
        {
            WordBroken(); // its '$' was lost
            return;
        }

        if (!_findings.CountedAgain("bytes-between-sentences"))
            _findings.Note("bytes-between-sentences", _lines.Number, "Text or binary data between the sentences.", "Passed over.");
    }

    private static int Hex(byte b) => b switch
    {
        >= (byte)'0' and <= (byte)'9' => b - '0',
        >= (byte)'A' and <= (byte)'F' => b - 'A' + 10,
        >= (byte)'a' and <= (byte)'f' => b - 'a' + 10,
        _ => -1,
    };

    // One pass, sixteen bytes at a time: where the fields end and the exclusive-or of all bytes, up to the '*'. Gives the place of the '*', or -1.
    private int Split(ReadOnlySpan<byte> text, out int sum)
    {
        int star = text.IndexOf((byte)'*');
        ReadOnlySpan<byte> body = star < 0 ? text : text[..star];
        _fieldCount = 0;
        Vector128<byte> all = default;
        int at = 0;
        for (; at + Vector128<byte>.Count <= body.Length; at += Vector128<byte>.Count)
        {
            Vector128<byte> piece = Vector128.Create(body[at..]);
            all ^= piece;
            NoteCommas(piece, at);
        }

        Span<byte> rest = stackalloc byte[Vector128<byte>.Count];
        rest.Clear();
        body[at..].CopyTo(rest);
        Vector128<byte> last = Vector128.Create((ReadOnlySpan<byte>)rest);
        all ^= last;
        NoteCommas(last, at);
        _fieldEnds[_fieldCount++] = body.Length;
        ulong wide = all.AsUInt64()[0] ^ all.AsUInt64()[1];
        wide ^= wide >> 32;
        wide ^= wide >> 16;
        sum = (int)((wide ^ wide >> 8) & 0xFF);
        return star;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void NoteCommas(Vector128<byte> piece, int at)
    {
        int[] ends = _fieldEnds;
        for (uint commas = Vector128.Equals(piece, Vector128.Create((byte)',')).ExtractMostSignificantBits(); commas != 0; commas &= commas - 1)
            if (_fieldCount < ends.Length - 1) ends[_fieldCount++] = at + BitOperations.TrailingZeroCount(commas);
    }

    private ReadOnlySpan<byte> Field(ReadOnlySpan<byte> text, int index)
    {
        if (index >= _fieldCount) return default;
        int start = index == 0 ? 0 : _fieldEnds[index - 1] + 1;
        return text[start.._fieldEnds[index]];
    }

    private ReadOnlySpan<byte> Fields(ReadOnlySpan<byte> text, int index, int count)
    {
        if (index + count > _fieldCount) return default;
        return text[(_fieldEnds[index - 1] + 1).._fieldEnds[index + count - 1]];
    }

    private double Number(ReadOnlySpan<byte> text, int index) => ByteNumbers.ToDouble(Field(text, index));

    /// <summary>Bytes met before and the number they stand for.</summary>
    private sealed class Known
    {
        private readonly byte[] _text = new byte[64];
        private int _length = -1;

        public double Value { get; set; }

        public bool IsSame(ReadOnlySpan<byte> text) => text.Length == _length && text.SequenceEqual(_text.AsSpan(0, _length));

        public void Keep(ReadOnlySpan<byte> text)
        {
            _length = text.Length <= _text.Length ? text.Length : -1;
            if (_length > 0) text.CopyTo(_text);
        }
    }

    /// <summary>What the sentences of one time of day said so far.</summary>
    private struct Instant
    {
        public bool Open;
        public double Clock, Day, Latitude, Longitude, Altitude, Speed, Course, Climb, PressureAltitude;

        public static Instant None => new()
        {
            Clock = double.NaN, Day = double.NaN, Latitude = double.NaN, Longitude = double.NaN, Altitude = double.NaN,
            Speed = double.NaN, Course = double.NaN, Climb = double.NaN, PressureAltitude = double.NaN,
        };
    }
}
