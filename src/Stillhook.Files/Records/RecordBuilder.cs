using Stillhook.Recording;

namespace Stillhook.Files.Records;

/// <summary>Collects fixes and channel values in columns while a record is read, and words what the values themselves show.</summary>
/// <remarks>The present line of the reader is asked only when a finding needs it.</remarks>
internal sealed class RecordBuilder(FindingLog findings, Func<long?> line)
{
    private const double Year2100S = 4_102_444_800;

    private readonly Column _time = new(), _latitude = new(), _longitude = new(), _altitude = new();
    private readonly Column _pressureAltitude = new(), _groundSpeed = new(), _course = new(), _climb = new();
    private readonly ChannelColumn?[] _channels = new ChannelColumn?[Enum.GetValues<ChannelKind>().Length];
    private readonly List<int> _segmentStarts = [];
    private bool _segmentOpen;
    private double _lastTime = double.NaN;
    private long _backward, _repeated, _forward, _withoutTime, _clockNotSet, _withoutAltitude, _outOfRange, _maybeSwapped;
    private long? _backwardLine, _repeatedLine, _withoutTimeLine, _clockLine, _withoutAltitudeLine, _outOfRangeLine;

    public FindingLog Findings => findings;

    public int Count { get; private set; }

    public int WaypointCount { get; set; }

    public long? Line => line();

    /// <summary>The next fix starts a new segment.</summary>
    public void BreakSegment() => _segmentOpen = false;

    /// <summary>Adds a fix; the further values of the fix are set afterwards. A position that is no number is left out with a finding.</summary>
    public bool AddFix(double timeS, double latitudeDeg, double longitudeDeg, double altitudeM)
    {
        if (!double.IsFinite(latitudeDeg) || !double.IsFinite(longitudeDeg))
        {
            LeaveOut();
            return false;
        }

        if (!_segmentOpen) _segmentStarts.Add(Count);
        _segmentOpen = true;
        if (Math.Abs(latitudeDeg) > 90 || Math.Abs(longitudeDeg) > 180) NoteRange(latitudeDeg, longitudeDeg);
        NoteTime(timeS);
        if (!double.IsFinite(altitudeM))
        {
            altitudeM = double.NaN;
            if (_withoutAltitude++ == 0) _withoutAltitudeLine = line();
        }

        int index = Count++;
        _time.Set(index, timeS);
        _latitude.Set(index, latitudeDeg);
        _longitude.Set(index, longitudeDeg);
        _altitude.Set(index, altitudeM);
        return true;
    }

    /// <summary>Adds a fix with all its values.</summary>
    public void AddFix(in FixSample fix)
    {
        if (!AddFix(fix.TimeS, fix.LatitudeDeg, fix.LongitudeDeg, fix.AltitudeM)) return;
        SetPressureAltitude(fix.PressureAltitudeM);
        SetGroundSpeed(fix.GroundSpeedMs);
        SetCourse(fix.CourseDeg);
        SetClimb(fix.ClimbMs);
    }

    public void SetPressureAltitude(double metres) => _pressureAltitude.Set(Count - 1, metres);

    public void SetGroundSpeed(double metresPerSecond) => _groundSpeed.Set(Count - 1, metresPerSecond);

    public void SetCourse(double degrees) => _course.Set(Count - 1, degrees);

    public void SetClimb(double metresPerSecond) => _climb.Set(Count - 1, metresPerSecond);

    public void AddChannel(ChannelKind kind, double timeS, double value)
    {
        if (double.IsFinite(value)) (_channels[(int)kind] ??= new ChannelColumn()).Add(timeS, value);
    }

    private void LeaveOut()
    {
        if (findings.CountedAgain("position-unreadable")) return;
        findings.Warn("position-unreadable", line(), "Latitude or longitude is not a number.", "The point was left out; expected decimal degrees such as 46.51234.");
    }

    private void NoteRange(double latitudeDeg, double longitudeDeg)
    {
        if (_outOfRange++ == 0) _outOfRangeLine = line();
        if (Math.Abs(latitudeDeg) is > 90 and <= 180 && Math.Abs(longitudeDeg) <= 90) _maybeSwapped++;
    }

    private void NoteTime(double timeS)
    {
        if (double.IsNaN(timeS))
        {
            if (_withoutTime++ == 0) _withoutTimeLine = line();
            return;
        }

        if (timeS is < ByteTimes.Year1990S or > Year2100S && _clockNotSet++ == 0) _clockLine = line();
        double step = timeS - _lastTime; // NaN at the first
        _lastTime = timeS;
        if (step > 0) _forward++;
        else if (step < 0 && _backward++ == 0) _backwardLine = line();
        else if (step == 0 && _repeated++ == 0) _repeatedLine = line();
    }

    /// <summary>Ends the reading; the builder can't be used afterwards. Relative times count from the record's start, so their year says nothing.</summary>
    public FlightRecord Build(string name, string format, bool relativeTime = false)
    {
        var record = new FlightRecord
        {
            Name = name,
            Format = format,
            TimeS = _time.ToArray(Count, always: true),
            LatitudeDeg = _latitude.ToArray(Count, always: true),
            LongitudeDeg = _longitude.ToArray(Count, always: true),
            AltitudeM = _altitude.ToArray(Count, always: true),
            PressureAltitudeM = _pressureAltitude.ToArray(Count, always: false),
            GroundSpeedMs = _groundSpeed.ToArray(Count, always: false),
            CourseDeg = _course.ToArray(Count, always: false),
            ClimbMs = _climb.ToArray(Count, always: false),
            SegmentStarts = [.. _segmentStarts],
            Channels = BuildChannels(),
            WaypointCount = WaypointCount,
        };
        if (_outOfRange > 0) record = MendRange(record);
        WordTimes(record.Count, relativeTime);
        WordAltitudes(record.Count);
        RecordChecks.WordPlaces(record, findings);
        return record with { Findings = findings.Findings };
    }

    private List<Channel> BuildChannels()
    {
        var channels = new List<Channel>();
        for (int kind = 0; kind < _channels.Length; kind++)
            if (_channels[kind] is { } column) channels.Add(column.ToChannel((ChannelKind)kind));
        return channels;
    }

    private FlightRecord MendRange(FlightRecord record)
    {
        if (_maybeSwapped * 2 > Count)
        {
            findings.Warn("latitude-longitude-swapped", _outOfRangeLine, "Latitude is beyond 90 degrees while longitude fits a latitude: the two look swapped.",
                "Read with the two exchanged; check the place, and mend the recorder's export or the column mapping.", _maybeSwapped);
            record = record with { LatitudeDeg = record.LongitudeDeg, LongitudeDeg = record.LatitudeDeg };
        }

        return RecordChecks.WithoutImpossiblePlaces(record, findings, _outOfRangeLine);
    }

    private void WordTimes(int count, bool relativeTime)
    {
        if (count == 0) return;
        if (_withoutTime > 0)
            findings.Warn("time-missing", _withoutTimeLine, _withoutTime == Count ? "No fix has a time." : "Fixes without a time.",
                _withoutTime == Count ? "Nothing that needs speed or duration can be judged; export the record with times." : "Kept in place without a time.", _withoutTime);
        if (_clockNotSet > 0 && !relativeTime)
            findings.Warn("clock-not-set", _clockLine, "Dates before 1990 or after 2099: the recorder's clock was not set.",
                "Times kept as recorded; day and time of day can't be trusted.", _clockNotSet);
        if (_backward > 1 && _forward * 9 < _backward)
            findings.Note("newest-first", _backwardLine, "The record runs from the newest fix to the oldest.", "Kept as recorded; it is put in order of time before it is judged.", _backward);
        else if (_backward > 0)
            findings.Warn("time-backwards", _backwardLine, "Time steps backwards.", "Fixes kept in the order recorded; they are put in order of time before they are judged.", _backward);
        if (_repeated > 0)
            findings.Note("time-repeated", _repeatedLine, "Fixes repeat the time of the one before.", "Kept as recorded.", _repeated);
    }

    private void WordAltitudes(int count)
    {
        if (count == 0 || _withoutAltitude == 0) return;
        if (_withoutAltitude == Count && _pressureAltitude.Used)
            findings.Warn("satellite-altitude-missing", null, "No fix has a satellite altitude.", "The pressure altitude is there.", _withoutAltitude);
        else if (_withoutAltitude == Count)
            findings.Warn("altitude-missing", null, "No fix has an altitude.", "Heights, sink and glide can't be judged; export the record with altitudes.", _withoutAltitude);
        else
            findings.Note("altitude-missing", _withoutAltitudeLine, "Fixes without an altitude.", "Kept without one.", _withoutAltitude);
    }

    private sealed class ChannelColumn
    {
        private readonly Column _time = new(), _value = new();
        private int _count;

        public void Add(double timeS, double value)
        {
            _time.Set(_count, timeS);
            _value.Set(_count++, value);
        }

        public Channel ToChannel(ChannelKind kind) => new(kind, _time.ToArray(_count, always: true), _value.ToArray(_count, always: true));
    }
}
