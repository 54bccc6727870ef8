using Stillhook.Recording;

namespace Stillhook.Files.Records.Gpx;

/// <summary>Turns the elements of a GPX document into fixes; both the byte scanner and the XML reader feed it.</summary>
/// <remarks>Elements are known by their local name, so a missing namespace or any prefix does no harm.</remarks>
internal sealed class GpxPoints(RecordBuilder record)
{
    private readonly byte[] _text = new byte[128];
    private int _textLength;
    private int _depth, _pointDepth, _segmentFixes;
    private bool _inWaypoint, _inSegment;
    private Wanted _wanted;
    private double _latitude, _longitude, _altitude, _time;
    private Fields _fields;

    /// <summary>True while text belongs to a value of a point, so that the caller need not hand over other text.</summary>
    public bool WantsText => _wanted != Wanted.None;

    /// <summary>True once the root element was seen to be <c>gpx</c>.</summary>
    public bool RootIsGpx { get; private set; }

    public bool RootSeen { get; private set; }

    public long EmptySegments { get; private set; }

    public long RoutePoints { get; private set; }

    public void Start(ReadOnlySpan<byte> name, ReadOnlySpan<byte> latitude, ReadOnlySpan<byte> longitude)
    {
        _depth++;
        _wanted = Wanted.None;
        if (_pointDepth > 0)
        {
            if (name.SequenceEqual("trkpt"u8))
            {
                StartInside(latitude, longitude);
                return;
            }

            _wanted = _inWaypoint ? Wanted.None : Match(name);
            _textLength = 0;
            return;
        }

        if (_depth == 1)
        {
            RootSeen = true;
            RootIsGpx = name.SequenceEqual("gpx"u8);
        }
        else if (name.SequenceEqual("trkpt"u8))
        {
            StartPoint(latitude, longitude);
        }
        else if (name.SequenceEqual("trkseg"u8))
        {
            record.BreakSegment();
            _inSegment = true;
            _segmentFixes = 0;
        }
        else if (name.SequenceEqual("wpt"u8))
        {
            _pointDepth = _depth;
            _inWaypoint = true;
            record.WaypointCount++;
        }
        else if (name.SequenceEqual("rtept"u8))
        {
            RoutePoints++;
        }
    }

    public void Text(ReadOnlySpan<byte> text)
    {
        if (text.Length > _text.Length - _textLength) text = text[..(_text.Length - _textLength)];
        text.CopyTo(_text.AsSpan(_textLength));
        _textLength += text.Length;
    }

    public void End(ReadOnlySpan<byte> name)
    {
        if (_wanted != Wanted.None)
        {
            Take(_wanted, ByteNumbers.Trim(_text.AsSpan(0, _textLength)));
            _wanted = Wanted.None;
        }

        if (_depth == _pointDepth) EndPoint();
        else if (_inSegment && _pointDepth == 0 && name.SequenceEqual("trkseg"u8)) EndSegment();
        _depth--;
    }

    /// <summary>Text that XML hides (a comment or character data): points in it are not read, and that is said.</summary>
    public void Hide(ReadOnlySpan<byte> text)
    {
        if (text.IndexOf("<trkpt"u8) < 0 || record.Findings.CountedAgain("points-hidden")) return;
        record.Findings.Warn("points-hidden", record.Line, "Track points stand inside a comment or character data.", "They were left out; look whether the mark that ends it is damaged.");
    }

    // The end of the point before is damaged: it is taken as ended.
    private void StartInside(ReadOnlySpan<byte> latitude, ReadOnlySpan<byte> longitude)
    {
        if (!record.Findings.CountedAgain("point-inside-point"))
            record.Findings.Warn("point-inside-point", record.Line, "A track point starts inside another: an end tag is damaged.", "Both were read as points of their own.");
        EndPoint();
        StartPoint(latitude, longitude);
    }

    private void StartPoint(ReadOnlySpan<byte> latitude, ReadOnlySpan<byte> longitude)
    {
        _pointDepth = _depth;
        _inWaypoint = false;
        _latitude = ByteNumbers.ToDouble(latitude);
        _longitude = ByteNumbers.ToDouble(longitude);
        _altitude = _time = double.NaN;
        _fields = Fields.Empty;
    }

    private void EndPoint()
    {
        _pointDepth = 0;
        if (_inWaypoint) return;
        _segmentFixes++;
        if (!record.AddFix(_time, _latitude, _longitude, _altitude) || !_fields.Any) return;
        record.SetGroundSpeed(_fields.Speed);
        record.SetCourse(_fields.Course);
        record.SetClimb(_fields.Climb);
        record.SetPressureAltitude(_fields.PressureAltitude);
        record.AddChannel(ChannelKind.LoadKg, _time, _fields.Load);
        record.AddChannel(ChannelKind.TorquePercent, _time, _fields.Torque);
        record.AddChannel(ChannelKind.PowerKw, _time, _fields.Power);
        record.AddChannel(ChannelKind.RollDeg, _time, _fields.Roll);
        record.AddChannel(ChannelKind.PitchDeg, _time, _fields.Pitch);
        record.AddChannel(ChannelKind.HeadingDeg, _time, _fields.Heading);
        record.AddChannel(ChannelKind.HookOpen, _time, _fields.Hook);
    }

    private void EndSegment()
    {
        _inSegment = false;
        if (_segmentFixes > 0) return;
        EmptySegments++;
        if (!record.Findings.CountedAgain("segment-empty"))
            record.Findings.Note("segment-empty", record.Line, "A track segment without points.", "Nothing to read in it.");
    }

    private Wanted Match(ReadOnlySpan<byte> name)
    {
        return name.Length switch
        {
            3 when _depth == _pointDepth + 1 && name.SequenceEqual("ele"u8) => Wanted.Altitude,
            4 when _depth == _pointDepth + 1 && name.SequenceEqual("time"u8) => Wanted.Time,
            5 when name.SequenceEqual("speed"u8) => Wanted.Speed,
            6 when name.SequenceEqual("course"u8) => Wanted.Course,
            6 when name.SequenceEqual("loadKg"u8) => Wanted.Load,
            13 when name.SequenceEqual("torquePercent"u8) => Wanted.Torque,
            7 when name.SequenceEqual("powerKw"u8) => Wanted.Power,
            7 when name.SequenceEqual("rollDeg"u8) => Wanted.Roll,
            8 when name.SequenceEqual("pitchDeg"u8) => Wanted.Pitch,
            10 when name.SequenceEqual("headingDeg"u8) => Wanted.Heading,
            8 when name.SequenceEqual("hookOpen"u8) => Wanted.Hook,
            7 when name.SequenceEqual("climbMs"u8) => Wanted.Climb,
            17 when name.SequenceEqual("pressureAltitudeM"u8) => Wanted.PressureAltitude,
            _ => Wanted.None,
        };
    }

    private void Take(Wanted wanted, ReadOnlySpan<byte> text)
    {
        if (text.Length == 0) return;
        double value = wanted == Wanted.Time ? TakeTime(text) : ByteNumbers.ToDouble(text);
        if (double.IsNaN(value)) NoteUnreadable(wanted);
        if (wanted == Wanted.Altitude) _altitude = value;
        else if (wanted == Wanted.Time) _time = value;
        else _fields.Set(wanted, value);
    }

    private double TakeTime(ReadOnlySpan<byte> text)
    {
        double time = ByteTimes.FromIso(text, out bool hasZone);
        if (!hasZone && !double.IsNaN(time) && !record.Findings.CountedAgain("time-without-zone"))
            record.Findings.Note("time-without-zone", record.Line, "Times carry neither Z nor an offset.", "Taken as UTC, as the format says.");
        return time;
    }

    private void NoteUnreadable(Wanted wanted)
    {
        if (record.Findings.CountedAgain("value-unreadable")) return;
        record.Findings.Warn("value-unreadable", record.Line, $"A point's {wanted.ToString().ToLowerInvariant()} can't be read.",
            wanted == Wanted.Time ? "The point was kept without it; expected a time such as 2024-06-01T09:00:00Z." : "The point was kept without it; expected a plain number.");
    }

    private enum Wanted : byte
    {
        None, Altitude, Time, Speed, Course, Climb, PressureAltitude, Load, Torque, Power, Roll, Pitch, Heading, Hook,
    }

    private struct Fields
    {
        public double Speed, Course, Climb, PressureAltitude, Load, Torque, Power, Roll, Pitch, Heading, Hook;
        public bool Any;

        public static Fields Empty => new()
        {
            Speed = double.NaN, Course = double.NaN, Climb = double.NaN, PressureAltitude = double.NaN, Load = double.NaN,
            Torque = double.NaN, Power = double.NaN, Roll = double.NaN, Pitch = double.NaN, Heading = double.NaN, Hook = double.NaN,
        };

        public void Set(Wanted wanted, double value)
        {
            Any = true;
            switch (wanted)
            {
                case Wanted.Speed: Speed = value; break;
                case Wanted.Course: Course = value; break;
                case Wanted.Climb: Climb = value; break;
                case Wanted.PressureAltitude: PressureAltitude = value; break;
                case Wanted.Load: Load = value; break;
                case Wanted.Torque: Torque = value; break;
                case Wanted.Power: Power = value; break;
                case Wanted.Roll: Roll = value; break;
                case Wanted.Pitch: Pitch = value; break;
                case Wanted.Heading: Heading = value; break;
                case Wanted.Hook: Hook = value; break;
            }
        }
    }
}
