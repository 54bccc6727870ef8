using System.Globalization;
using Stillhook.Recording;

namespace Stillhook.Files.Records.Csv;

/// <summary>Writes a table with units in its headings; a channel value between fixes has a row of its own without a position.</summary>
internal static class CsvWriter
{
    private const double SameInstantS = 0.0005;

    private static readonly (ChannelKind Kind, string Heading, string Format)[] s_channels =
    [
        (ChannelKind.LoadKg, "load_kg", "0.###"), (ChannelKind.TorquePercent, "torque_pct", "0.###"), (ChannelKind.PowerKw, "power_kw", "0.###"),
        (ChannelKind.RollDeg, "roll_deg", "0.####"), (ChannelKind.PitchDeg, "pitch_deg", "0.####"), (ChannelKind.HeadingDeg, "heading_deg", "0.####"),
        (ChannelKind.HookOpen, "hook_open", "0"),
    ];

    public static void Write(FlightRecord record, InvariantWriter text, FindingLog findings)
    {
        (double[] Column, string Heading)[] moves =
        [
            (record.PressureAltitudeM, "pressure_alt_m"), (record.GroundSpeedMs, "speed_mps"), (record.CourseDeg, "course_deg"), (record.ClimbMs, "climb_mps"),
        ];
        moves = [.. moves.Where(m => m.Column.Length > 0)];
        List<Cursor> cursors = [.. s_channels.Where(c => record.Find(c.Kind) is not null).Select(c => new Cursor(record.Find(c.Kind)!, c.Heading, c.Format))];
        text.Write("time_utc,lat_deg,lon_deg,alt_m");
        foreach ((_, string heading) in moves) text.Put($",{heading}");
        foreach (Cursor cursor in cursors) text.Put($",{cursor.Heading}");
        text.WriteLine();
        for (int i = 0; i < record.Count; i++)
        {
            WriteRowsBefore(record.TimeS[i] - SameInstantS, cursors, moves.Length, text);
            text.Put($"{Time(record.TimeS[i])},{record.LatitudeDeg[i]:0.0########},{record.LongitudeDeg[i]:0.0########},{Number(record.AltitudeM[i], "0.0##")}");
            foreach ((double[] column, _) in moves) text.Put($",{Number(column[i], "0.####")}");
            foreach (Cursor cursor in cursors) text.Put($",{Number(cursor.TakeAt(record.TimeS[i] + SameInstantS), cursor.Format)}");
            text.WriteLine();
        }

        WriteRowsBefore(double.PositiveInfinity, cursors, moves.Length, text);
        if (record.SegmentStarts.Length > 1)
            findings.Note("segments-not-kept", null, "The table has no segments.", "The record is one piece.", record.SegmentStarts.Length);
    }

    private static void WriteRowsBefore(double timeS, List<Cursor> cursors, int moves, InvariantWriter text)
    {
        while (true)
        {
            double first = double.PositiveInfinity;
            foreach (Cursor cursor in cursors) first = Math.Min(first, cursor.NextTime);
            if (!(first < timeS)) return;
            text.Put($"{Time(first)},,,{new string(',', moves)}");
            foreach (Cursor cursor in cursors) text.Put($",{Number(cursor.NextTime <= first + SameInstantS ? cursor.Take() : double.NaN, cursor.Format)}");
            text.WriteLine();
        }
    }

    private static string Time(double timeS) => InvariantWriter.Milliseconds(timeS) is { } time ? InvariantWriter.Iso(time) : "";

    private static string Number(double value, string format) => double.IsFinite(value) ? value.ToString(format, CultureInfo.InvariantCulture) : "";

    private sealed class Cursor
    {
        private readonly double[] _times, _values;
        private int _next;

        public Cursor(Channel channel, string heading, string format)
        {
            (Heading, Format) = (heading, format);
            _times = [.. channel.TimeS.Select(t => double.IsNaN(t) ? double.MaxValue : t)];
            _values = [.. channel.Value];
            Array.Sort(_times, _values);
        }

        public string Heading { get; }

        public string Format { get; }

        public double NextTime => _next < _times.Length ? _times[_next] : double.PositiveInfinity;

        public double Take() => _values[_next++];

        /// <summary>The value of this instant; an earlier one that is still there has a row of its own before.</summary>
        public double TakeAt(double latestS) => NextTime <= latestS ? Take() : double.NaN;
    }
}
