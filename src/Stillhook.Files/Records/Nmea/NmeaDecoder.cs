using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Stillhook.Recording;

namespace Stillhook.Files.Records.Nmea;

/// <summary>Decodes NMEA 0183 sentences of any talker, line after line, with binary between them: the same code for files and for live links.</summary>
/// <remarks>
/// RMC, GGA and GNS of one time of day make one fix; the first position of that instant counts, altitude comes from GGA or GNS, speed and
/// course from RMC or VTG, the date from RMC or ZDA. GLL positions are given as spare ones, and only while none of the three was met.
/// An instant is given when the next one begins, or by <see cref="Flush"/>.
/// </remarks>
internal sealed class NmeaDecoder(IRecordTarget target, FindingLog findings)
{
    private const double KnotMs = 1852.0 / 3600;
    private const double HalfDayS = ByteTimes.DayS / 2;
    private const double StandardGravity = 9.80665;
    private const double ConflictDeg = 0.001; // about 100 m of latitude: receivers of one aircraft agree far better; common practice, no source

    private readonly IRecordTarget _target = target;
    private readonly FindingLog _findings = findings;
    private readonly List<(ChannelKind Kind, double Value)> _channels = [];
    private Instant _now = Instant.None;
    private double _day = double.NaN, _dayClock = double.NaN;
    private readonly Known _clock = new(), _date = new(), _place = new();
    private readonly int[] _fieldEnds = new int[40];
    private int _fieldCount;
    private long _line;
    private bool _complete, _anyFix;

    /// <summary>True when channels that belong to no instant are given too, with time NaN; a file's are left out.</summary>
    public bool GivesUntimed { get; init; }

    /// <summary>Sentences whose checksum fitted (or that had none).</summary>
    public long Sentences { get; private set; }

    /// <summary>Sentences left out because they were damaged or cut.</summary>
    public long Damaged { get; private set; }

    /// <summary>Sentences that told or completed a position.</summary>
    public long Positions { get; private set; }

    /// <summary>Positions that came for an instant that had been given already by <see cref="Flush"/>.</summary>
    public long Late { get; private set; }

    /// <summary>True while an instant is gathered that was not given yet.</summary>
    public bool Gathers => _now.Open && !_now.Given;

    /// <summary>Set when the instant that was given last is too long ago for a channel without a time to belong to it.</summary>
    public bool InstantIsOld { get; set; }

    /// <summary>Takes one line.</summary>
    /// <param name="line">Without its end.</param>
    /// <param name="number">For findings, from 1.</param>
    /// <param name="complete">False when the line was ended by the end of the input.</param>
    public void Take(ReadOnlySpan<byte> line, long number, bool complete)
    {
        (_line, _complete) = (number, complete);
        TakeLine(line);
    }

    /// <summary>Gives the open instant now. What comes later for the same instant makes no second fix; its channels are still given.</summary>
    public void Flush()
    {
        if (!Gathers) return;
        Give();
        _now.Given = true;
    }

    /// <summary>Ends the instant: what comes next belongs to another one.</summary>
    public void Close()
    {
        if (Gathers) Give();
        _now = Instant.None;
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
            if (!_complete || !IsStandard(text)) return;
            if (!_findings.CountedAgain("checksum-missing"))
                _findings.Warn("checksum-missing", _line, "A sentence without a checksum.", "Read as it stands; expected *hh at the end.");
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
                Damaged++;
                if (!_findings.CountedAgain("checksum-mismatch"))
                    _findings.Warn("checksum-mismatch", _line, "A sentence whose checksum does not fit: it was damaged.", "The sentence was left out.");
                return;
            }
        }

        if (IsStandard(text)) TakeChecked(text);
    }

    private static bool IsStandard(ReadOnlySpan<byte> text) => text.Length > 6 && text[5] == ',' && text[0] != 'P';

    private void TakeChecked(ReadOnlySpan<byte> text)
    {
        Sentences++;
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
            if (day < ByteTimes.Year1990S && !_findings.CountedAgain("clock-not-set"))
                _findings.Note("clock-not-set", _line, "Dates before 1990 in void sentences: the receiver's clock was not set yet.", "Not used; dates of valid fixes count.");
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
        Positions++;
        // The older form has no letters: course true, course magnetic, knots, km/h follow each other.
        bool letters = Field(text, 2).SequenceEqual("T"u8) || _fieldCount > 6;
        if (double.IsNaN(_now.Course)) _now.Course = Number(text, 1);
        if (double.IsNaN(_now.Speed)) _now.Speed = Number(text, letters ? 5 : 3) * KnotMs;
    }

    private void TakeZda(ReadOnlySpan<byte> text)
    {
        double clock = ByteTimes.FromCompactClock(Field(text, 1));
        double day = ByteTimes.FromDate(ByteNumbers.ToDigits(Field(text, 4)), ByteNumbers.ToDigits(Field(text, 3)), ByteNumbers.ToDigits(Field(text, 2)));
        if (double.IsNaN(clock) || double.IsNaN(day) || day < ByteTimes.Year1990S) return;
        if (clock != _now.Clock) Close();
        if (_now.Open) _now.Day = day;
        (_day, _dayClock) = (day, clock);
    }

    private void TakeGll(ReadOnlySpan<byte> text)
    {
        if (Field(text, 6).SequenceEqual("V"u8) || _anyFix) return;
        double clock = ByteTimes.FromCompactClock(Field(text, 5));
        if (!Position(text, 1, out double latitude, out double longitude)) return;
        double time = double.IsNaN(_day) ? double.NaN : DayOf(clock) + clock;
        _target.Spare(time, clock, latitude, longitude);
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
        if (double.IsNaN(value)) return;
        if (!_now.Open || _now.Given && InstantIsOld)
        {
            if (GivesUntimed) _target.Channel(kind, double.NaN, double.NaN, value);
        }
        else if (_now.Given)
        {
            _target.Channel(kind, _now.Time, _now.Clock, value);
        }
        else
        {
            _channels.Add((kind, value));
        }
    }

    private void TakePosition(ReadOnlySpan<byte> text, int first)
    {
        ReadOnlySpan<byte> place = Fields(text, first, 4);
        if (!double.IsNaN(_now.Latitude) && _place.IsSame(place)) return;
        if (!Position(text, first, out double latitude, out double longitude))
        {
            if (!_findings.CountedAgain("position-unreadable"))
                _findings.Warn("position-unreadable", _line, "A valid sentence without a readable position.", "Left out; expected ddmm.mmmm,N,dddmm.mmmm,E.");
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
            _findings.Warn("position-conflict", _line, "Two sentences of one instant give places more than 100 m apart.", "The first one counts.");
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
        Positions++;
        if (_now.Open && (clock == _now.Clock || double.IsNaN(clock) && double.IsNaN(_now.Clock)))
        {
            if (_now.Given) Late++;
            return;
        }

        Close();
        _now.Open = true;
        _now.Clock = clock;
    }

    private void Give()
    {
        if (!double.IsNaN(_now.Day)) (_day, _dayClock) = (_now.Day, _now.Clock);
        double time = _now.Time = DayOf(_now.Clock) + _now.Clock;
        if (!double.IsNaN(_now.Latitude))
        {
            _anyFix = true;
            _target.Fix(new FixSample(time, _now.Latitude, _now.Longitude, _now.Altitude, _now.Speed, _now.Course, _now.Climb, _now.PressureAltitude), _now.Clock);
        }

        foreach ((ChannelKind kind, double value) in _channels) _target.Channel(kind, time, _now.Clock, value);
        _channels.Clear();
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

    private void WordVoid()
    {
        if (!_findings.CountedAgain("fix-void"))
            _findings.Note("fix-void", _line, "Sentences that say themselves that they have no fix.", "Left out.");
    }

    private void WordUnended(ReadOnlySpan<byte> text)
    {
        if (_complete && !text.Contains((byte)0) && text.Length > 5 && text[0] == 'P') return; // makers' own sentences often have no checksum
        if (!_complete)
        {
            _findings.Warn("file-cut", _line, "The file ends in the middle of a sentence: it was cut.", "That sentence was left out.");
            return;
        }

        if (!IsStandard(text)) WordBroken();
    }

    private void WordBroken()
    {
        Damaged++;
        if (!_complete)
            _findings.Warn("file-cut", _line, "The file ends in the middle of a sentence: it was cut.", "That sentence was left out.");
        else if (!_findings.CountedAgain("sentence-broken"))
            _findings.Warn("sentence-broken", _line, "A sentence that is cut or has bytes missing.", "Left out.");
    }

    private void WordBetween(ReadOnlySpan<byte> text)
    {
        text = text.Trim(" \t\0"u8);
        if (text.Length == 0 || text[0] is (byte)'#' or (byte)'!') return;
        if ((text.Length >= 35 && text[0] == 'B' && ByteNumbers.ToDigits(text.Slice(1, 6)) >= 0) || text.StartsWith("<?xml"u8) || text.StartsWith("<gpx"u8) || text.StartsWith("<trkpt"u8))
        {
            if (!_findings.CountedAgain("two-formats-in-one"))
                _findings.Warn("two-formats-in-one", _line, "Lines of another record format stand among the sentences.", "Only the sentences were read; put the rest in a file of its own.");
            return;
        }

        if (text.Count((byte)',') >= 4 && text.LastIndexOf((byte)'*') >= text.Length - 4)
        {
            WordBroken(); // its '$' was lost
            return;
        }

        if (!_findings.CountedAgain("bytes-between-sentences"))
            _findings.Note("bytes-between-sentences", _line, "Text or binary data between the sentences.", "Passed over.");
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
        public bool Open, Given;
        public double Clock, Day, Time, Latitude, Longitude, Altitude, Speed, Course, Climb, PressureAltitude;

        public static Instant None => new()
        {
            Clock = double.NaN, Day = double.NaN, Time = double.NaN, Latitude = double.NaN, Longitude = double.NaN, Altitude = double.NaN,
            Speed = double.NaN, Course = double.NaN, Climb = double.NaN, PressureAltitude = double.NaN,
        };
    }
}
