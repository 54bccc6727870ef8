using Stillhook.Recording;

namespace Stillhook.Files.Records.Igc;

/// <summary>Reads flight recorder files of the IGC format: one record a line, UTC, the date of the first fix in a header.</summary>
internal sealed class IgcReader
{
    private const double HalfDayS = ByteTimes.DayS / 2;
    private const int ShortestFix = 35; // bytes of a B record without extensions
    private const double ZeroIsNearM = 50; // a zero altitude this near to its neighbours may be a height, otherwise it means none

    private readonly ByteLines _lines;
    private readonly FindingLog _findings;
    private readonly RecordBuilder _record;
    private readonly IgcExtensions _fixExtensions = new(), _slowExtensions = new();
    private readonly List<byte> _valid = [];
    private double _day = double.NaN, _lastClock = double.NaN, _lastTime = double.NaN;
    private bool _pressureAltitudeSeen, _signs, _signed;

    private IgcReader(Stream stream, FindingLog findings, IProgress<long>? progress)
    {
        _lines = new ByteLines(stream, progress);
        _findings = findings;
        _record = new RecordBuilder(findings, () => _lines.Number);
    }

    public static FlightRecord Read(Stream stream, string name, FindingLog findings, IProgress<long>? progress)
    {
        var reader = new IgcReader(stream, findings, progress);
        while (reader._lines.Next(out ReadOnlySpan<byte> line)) reader.Take(line);
        reader.WordEnd();
        FlightRecord record = reader._record.Build(name, "IGC");
        return reader.WithoutMeaninglessZeros(record);
    }

    private void Take(ReadOnlySpan<byte> line)
    {
        if (line.Length > 0 && line[^1] is (byte)' ' or (byte)'\t' or 0x1a) line = line.TrimEnd(" \t\x1a"u8);
        if (line.Length == 0) return;
        if (line[0] != 'B' && line.Length > ShortestFix) WordHiddenFix(line);
        switch (line[0])
        {
            case (byte)'B': TakeFix(line); break;
            case (byte)'H': TakeHeader(line); break;
            case (byte)'I': TakeExtensions(line, _fixExtensions); break;
            case (byte)'J': TakeExtensions(line, _slowExtensions); break;
            case (byte)'K': TakeSlow(line); break;
            case (byte)'E': TakeEvent(line); break;
            case (byte)'A': _signs |= Signs(line); break;
            case (byte)'G': _signed = true; break;
            case (byte)'C' or (byte)'D' or (byte)'F' or (byte)'L' or (byte)'M' or (byte)'N': break;
            default: TakeUnknown(line); break;
        }
    }

    private void TakeHeader(ReadOnlySpan<byte> line)
    {
        // HFDTE160701 and HFDTEDATE:160701,01; the source letter after H varies.
        if (line.Length < 5 || !line.Slice(2, 3).SequenceEqual("DTE"u8)) return;
        int digit = line.IndexOfAnyInRange((byte)'0', (byte)'9');
        double day = digit > 0 && line.Length >= digit + 6 ? ByteTimes.FromCompactDate(line.Slice(digit, 6)) : double.NaN;
        if (double.IsNaN(day))
        {
            if (!_findings.CountedAgain("date-unreadable"))
                _findings.Warn("date-unreadable", _lines.Number, "The date header can't be read.", "Expected HFDTEddmmyy; the date before it, if any, stays in use.");
            return;
        }

        if (day < _day && !_findings.CountedAgain("dates-out-of-order"))
            _findings.Warn("dates-out-of-order", _lines.Number, "A later part of the file has an earlier date: several flights were put together out of order.",
                "All were read in the order of the file, each part as a segment.");
        if (!double.IsNaN(_day) && _record.Count > 0)
        {
            _record.BreakSegment();
            if (!_findings.CountedAgain("date-repeated"))
                _findings.Note("date-repeated", _lines.Number, "The file states a date again after fixes: several flights in one file.", "Each part is a segment of the record.");
        }

        _day = day;
        _lastClock = double.NaN;
    }

    private void TakeExtensions(ReadOnlySpan<byte> line, IgcExtensions extensions)
    {
        if (extensions.Parse(line)) return;
        if (!_findings.CountedAgain("extension-list-unreadable"))
            _findings.Warn("extension-list-unreadable", _lines.Number, "A list of extensions (I or J record) can't be read.", "Expected I, two digits, then start, end and code of each; extensions that could be read are used.");
    }

    private void TakeFix(ReadOnlySpan<byte> line)
    {
        double clock = line.Length >= ShortestFix ? ByteTimes.FromCompactClock(line.Slice(1, 6)) : double.NaN;
        if (double.IsNaN(clock)
            || !Angle(line.Slice(7, 8), 2, "NS"u8, out double latitude, out double south)
            || !Angle(line.Slice(15, 9), 3, "EW"u8, out double longitude, out double west)
            || line[24] is not ((byte)'A' or (byte)'V')
            || !ByteNumbers.ToSigned(line.Slice(25, 5), out int pressureAltitude)
            || !ByteNumbers.ToSigned(line.Slice(30, 5), out int altitude))
        {
            WordMalformed();
            return;
        }

        latitude += _fixExtensions.MinuteDecimals(line, IgcCode.Lad) / 60;
        longitude += _fixExtensions.MinuteDecimals(line, IgcCode.Lod) / 60;
        clock += _fixExtensions.Fraction(line, IgcCode.Tds);
        double time = TimeOf(clock);
        bool valid = line[24] == 'A';
        if (line.Length >= _fixExtensions.End + ShortestFix && !_findings.CountedAgain("lines-joined"))
            _findings.Warn("lines-joined", _lines.Number, "A fix is followed by more on its line than its extensions: line ends are missing.", "The first fix of the line was read; the rest of the line was left out.");
        if (!valid && !_findings.CountedAgain("fix-not-3d"))
            _findings.Note("fix-not-3d", _lines.Number, "Fixes marked V: no 3D position.", "Kept; a zero altitude of theirs is taken as none.");
        if (!_record.AddFix(time, latitude * south, longitude * west, altitude)) return;
        _valid.Add(valid ? (byte)1 : (byte)0);
        _pressureAltitudeSeen |= pressureAltitude != 0;
        _record.SetPressureAltitude(pressureAltitude);
        if (_fixExtensions.Any) TakeExtended(line, time);
    }

    private void TakeExtended(ReadOnlySpan<byte> line, double time)
    {
        _record.SetGroundSpeed(_fixExtensions.Decimal(line, IgcCode.Gsp) / 3.6);
        _record.SetCourse(_fixExtensions.Decimal(line, IgcCode.Trt));
        _record.SetClimb(_fixExtensions.Tenths(line, IgcCode.Xvs) / 10);
        TakeChannels(_fixExtensions, line, time);
    }

    private void TakeChannels(IgcExtensions extensions, ReadOnlySpan<byte> line, double time)
    {
        _record.AddChannel(ChannelKind.HeadingDeg, time, extensions.Decimal(line, IgcCode.Hdt));
        _record.AddChannel(ChannelKind.LoadKg, time, extensions.Tenths(line, IgcCode.Xld));
        _record.AddChannel(ChannelKind.TorquePercent, time, extensions.Tenths(line, IgcCode.Xtq));
        _record.AddChannel(ChannelKind.PowerKw, time, extensions.Tenths(line, IgcCode.Xpw));
        _record.AddChannel(ChannelKind.RollDeg, time, extensions.Tenths(line, IgcCode.Xrl) / 10);
        _record.AddChannel(ChannelKind.PitchDeg, time, extensions.Tenths(line, IgcCode.Xpt) / 10);
        _record.AddChannel(ChannelKind.HookOpen, time, extensions.Tenths(line, IgcCode.Xhk) * 10);
    }

    private void TakeSlow(ReadOnlySpan<byte> line)
    {
        double clock = line.Length >= 7 ? ByteTimes.FromCompactClock(line.Slice(1, 6)) : double.NaN;
        if (double.IsNaN(clock) || !_slowExtensions.Any) return;
        // A slow record stands among the fixes of its time; it takes their day without moving it.
        double time = double.IsNaN(_lastTime) ? _day + clock : _lastTime + Math.IEEERemainder(clock - _lastTime % ByteTimes.DayS, ByteTimes.DayS);
        TakeChannels(_slowExtensions, line, time);
    }

    private void TakeEvent(ReadOnlySpan<byte> line)
    {
        if (!_findings.CountedAgain("events"))
            _findings.Note("events", _lines.Number, "Event marks (E records).", "Their meaning is not fixed by the format; not used.");
    }

    private void TakeUnknown(ReadOnlySpan<byte> line)
    {
        if (line[0] is (byte)'$' or (byte)'<')
        {
            if (!_findings.CountedAgain("two-formats-in-one"))
                _findings.Warn("two-formats-in-one", _lines.Number, "Lines of another format stand in this IGC file.", "Only the IGC records were read; put the rest in a file of its own.");
            return;
        }

        WordMalformed();
    }

    // A lost line end can put a fix behind a record of another kind.
    private void WordHiddenFix(ReadOnlySpan<byte> line)
    {
        for (int at = line[1..].IndexOf((byte)'B') + 1; at > 0 && line.Length - at >= ShortestFix; )
        {
            ReadOnlySpan<byte> rest = line[at..];
            if (ByteNumbers.ToDigits(rest.Slice(1, 6)) >= 0 && ByteNumbers.ToDigits(rest.Slice(7, 7)) >= 0 && ByteNumbers.ToDigits(rest.Slice(15, 8)) >= 0 && rest[24] is (byte)'A' or (byte)'V')
            {
                if (!_findings.CountedAgain("fix-behind-record"))
                    _findings.Warn("fix-behind-record", _lines.Number, "A fix stands behind another record on the same line: a line end is missing.", "That fix was left out.");
                return;
            }

            int next = rest[1..].IndexOf((byte)'B');
            at = next < 0 ? 0 : at + 1 + next;
        }
    }

    // Recorders with a maker's code end their file with a G record; codes that begin with X are of recorders that don't sign.
    private static bool Signs(ReadOnlySpan<byte> line) => line.Length >= 4 && line[1] != 'X' && line.Slice(1, 3).IndexOfAnyExceptInRange((byte)'A', (byte)'Z') < 0;

    private void WordEnd()
    {
        if (!_lines.Complete && _record.Count > 0)
            _findings.Note("last-line-open", _lines.Number, "The last line has no line end: the file may have been cut in it.", "Read as it stands.");
        if (_signs && !_signed && _record.Count > 0)
            _findings.Note("end-mark-missing", _lines.Number, "The file has no G record, with which a recorder of this maker ends it.", "Read as it stands; it may have been cut at a line's end, so compare its last time with the flight.");
    }

    private void WordMalformed()
    {
        if (_findings.CountedAgain("line-malformed")) return;
        _findings.Warn("line-malformed", _lines.Number, _lines.Complete ? "A line that is no IGC record." : "The file ends in the middle of a line: it was cut.",
            "The line was left out; expected B hhmmss ddmmmmmN dddmmmmmE A ppppp ggggg without spaces.");
    }

    private double TimeOf(double clock)
    {
        if (double.IsNaN(_day))
        {
            if (!_findings.CountedAgain("date-missing"))
                _findings.Warn("date-missing", _lines.Number, "Fixes come before any date header (HFDTE).", "They have no time; add the line HFDTEddmmyy at the top.");
            return double.NaN;
        }

        // Later days are implied when the time of day falls; a fall of less than half a day is a step back on the same day.
        if (clock < _lastClock - HalfDayS) _day += ByteTimes.DayS;
        _lastClock = clock;
        return _lastTime = _day + clock;
    }

    private static bool Angle(ReadOnlySpan<byte> text, int degreeDigits, ReadOnlySpan<byte> letters, out double degrees, out double sign)
    {
        int whole = ByteNumbers.ToDigits(text[..degreeDigits]), minutes = ByteNumbers.ToDigits(text.Slice(degreeDigits, 5));
        sign = text[^1] == letters[1] ? -1 : 1;
        degrees = whole + minutes / 60_000.0;
        return whole >= 0 && minutes is >= 0 and < 60_000 && (text[^1] == letters[0] || text[^1] == letters[1]);
    }

    // The format writes zero for 'no altitude'. A zero is kept only where the heights beside it show that it can be one.
    private FlightRecord WithoutMeaninglessZeros(FlightRecord record)
    {
        if (record.PressureAltitudeM.Length > 0 && !_pressureAltitudeSeen)
        {
            _findings.Note("pressure-altitude-zero", null, "Pressure altitude is zero throughout.", "Taken as not measured.", record.Count);
            record = record with { PressureAltitudeM = [] };
        }

        double[] altitude = record.AltitudeM;
        long zeros = 0;
        for (int i = 0; i < altitude.Length; i++)
        {
            if (altitude[i] != 0) continue;
            int end = i;
            while (end < altitude.Length && altitude[end] == 0) end++;
            bool near = (i > 0 || end < altitude.Length)
                && (i == 0 || !(Math.Abs(altitude[i - 1]) > ZeroIsNearM)) && (end == altitude.Length || !(Math.Abs(altitude[end]) > ZeroIsNearM));
            for (; i < end; i++)
            {
                if (near && (i >= _valid.Count || _valid[i] == 1)) continue;
                altitude[i] = double.NaN;
                zeros++;
            }
        }

        if (zeros > 0)
            _findings.Warn("altitude-zero", null, "The satellite altitude is zero, which this format writes for 'none'.", "These fixes have no satellite altitude.", zeros);
        return record with { Findings = _findings.Findings };
    }
}
