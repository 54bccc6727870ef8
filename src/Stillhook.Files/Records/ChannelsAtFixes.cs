using Stillhook.Recording;

namespace Stillhook.Files.Records;

/// <summary>Gives each fix the newest value of a channel since the fix before.</summary>
internal sealed class ChannelsAtFixes
{
    private readonly Cursor?[] _cursors = new Cursor?[Enum.GetValues<ChannelKind>().Length];

    public ChannelsAtFixes(FlightRecord record)
    {
        foreach (Channel channel in record.Channels) _cursors[(int)channel.Kind] ??= new Cursor(channel);
    }

    public bool Has(ChannelKind kind) => _cursors[(int)kind] is not null;

    /// <summary>The value for a fix; fixes must be asked in their order. NaN when there is none.</summary>
    public double At(ChannelKind kind, double timeS) => _cursors[(int)kind]?.UpTo(timeS, kind == ChannelKind.HookOpen) ?? double.NaN;

    /// <summary>Says which values did not get a fix of their own.</summary>
    public void WordThinned(FindingLog findings)
    {
        long unused = _cursors.Sum(c => c?.Unused ?? 0);
        if (unused > 0)
            findings.Note("channels-at-fixes", null, "The format carries channels at the fixes only.", "Values between fixes were left out; write CSV to keep them all.", unused);
    }

    private sealed class Cursor
    {
        private const double SameInstantS = 0.0005;
        private readonly double[] _times, _values;
        private int _next;
        private long _taken;

        public Cursor(Channel channel)
        {
            _times = [.. channel.TimeS];
            _values = [.. channel.Value];
            Array.Sort(_times, _values);
        }

        public long Unused => _times.Length - _taken;

        public double UpTo(double timeS, bool largest)
        {
            double value = double.NaN;
            while (_next < _times.Length && _times[_next] <= timeS + SameInstantS)
            {
                value = largest && value > _values[_next] ? value : _values[_next];
                _next++;
            }

            if (!double.IsNaN(value)) _taken++;
            return value;
        }
    }
}
