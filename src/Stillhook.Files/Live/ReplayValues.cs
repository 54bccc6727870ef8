using System.Globalization;
using Stillhook.Files.Records;
using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>The values of a record's channels in order of time, written as lines of a table with one value each.</summary>
internal sealed class ReplayValues
{
    private readonly ChannelKind[] _kinds;
    private readonly (double TimeS, int Column, double Value)[] _values;
    private int _next;

    public ReplayValues(FlightRecord record)
    {
        _kinds = [.. record.Channels.Select(c => c.Kind).Distinct()];
        _values = [.. record.Channels.SelectMany(c => c.TimeS.Select((t, i) => (t, Array.IndexOf(_kinds, c.Kind), c.Value[i])))
            .Where(v => InvariantWriter.Milliseconds(v.t) is not null && double.IsFinite(v.Item3)).OrderBy(v => v.t)];
    }

    /// <summary>When the next value is due; infinite when there is none.</summary>
    public double NextS => _next < _values.Length ? _values[_next].TimeS : double.PositiveInfinity;

    public void WriteHeading(InvariantWriter text)
    {
        if (_kinds.Length > 0) text.WriteLine("time_utc," + string.Join(',', _kinds.Select(Heading)));
    }

    public void WriteNext(InvariantWriter text)
    {
        (double time, int column, double value) = _values[_next++];
        text.Write(InvariantWriter.Iso(InvariantWriter.Milliseconds(time)!.Value));
        text.Write(new string(',', column + 1));
        text.Write(value.ToString("0.######", CultureInfo.InvariantCulture));
        text.WriteLine(new string(',', _kinds.Length - 1 - column));
    }

    private static string Heading(ChannelKind kind) => kind switch
    {
        ChannelKind.LoadKg => "load_kg",
        ChannelKind.TorquePercent => "torque_pct",
        ChannelKind.PowerKw => "power_kw",
        ChannelKind.RollDeg => "roll_deg",
        ChannelKind.PitchDeg => "pitch_deg",
        ChannelKind.HeadingDeg => "heading_deg",
        ChannelKind.HookOpen => "hook_open",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "A kind of channel."),
    };
}
