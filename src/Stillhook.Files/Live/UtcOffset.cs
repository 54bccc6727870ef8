namespace Stillhook.Files.Live;

/// <summary>How far UTC, as the position source tells it, is ahead of this machine's clock.</summary>
/// <remarks>
/// A position arrives some time after its instant, never before it, and the delay varies. offset = −(smallest of arrival − told time) over the last 30 to 60 s,
/// so that a value that is stamped arrival + offset is taken to have come with the quickest delay of the position source. What remains is the difference of
/// the two sources' shortest delays, usually 0.05 to 0.3 s (from memory). Nothing is said before told time and arrival have gone forward together
/// for 2 s: a source that hands over a backlog, or a clock that is set, starts the estimate anew.
/// </remarks>
internal sealed class UtcOffset
{
    // Common practice, no source.
    private const double WindowS = 30, KnownAfterS = 2, StrayS = 1.5, StrayedForS = 5, AbandonedS = 60;

    private string? _source;
    private double _firstArrived, _firstTold, _lastArrived, _windowStart, _smallest, _before, _lateSince;

    /// <summary>Seconds to add to this machine's clock; NaN until known.</summary>
    public double OffsetS { get; private set; } = double.NaN;

    /// <summary>UTC of something that arrived: by the position source's time where that is known, else by this machine's clock.</summary>
    public double Stamp(double arrivedS) => double.IsNaN(OffsetS) ? arrivedS : arrivedS + OffsetS;

    /// <summary>A position with its own time arrived. The first source that has positions counts, until it is quiet for a minute.</summary>
    public void Take(string source, double toldS, double arrivedS)
    {
        if (_source is not null && _source != source && arrivedS - _lastArrived < AbandonedS) return;
        double delay = arrivedS - toldS;
        bool ahead = (toldS - _firstTold) - (arrivedS - _firstArrived) > StrayS; // a backlog, or this machine's clock set back
        if (delay <= Smallest + StrayS) _lateSince = double.NaN;
        else if (double.IsNaN(_lateSince)) _lateSince = arrivedS;
        bool late = arrivedS - _lateSince > StrayedForS; // longer than a stalled link takes to catch up: a clock was set
        if (_source != source || ahead || late || arrivedS < _lastArrived - StrayS)
        {
            Restart(source, toldS, arrivedS, delay);
            return;
        }

        _lastArrived = arrivedS;
        if (arrivedS - _windowStart > WindowS) (_before, _smallest, _windowStart) = (_smallest, delay, arrivedS);
        _smallest = Math.Min(_smallest, delay);
        // The first pair is moved along, so that two clocks of slightly different rate never stray.
        if (arrivedS - _firstArrived > WindowS) (_firstArrived, _firstTold) = (arrivedS, toldS);
        if (!double.IsNaN(OffsetS) || arrivedS - _firstArrived >= KnownAfterS) OffsetS = -Smallest;
    }

    private double Smallest => Math.Min(_smallest, _before);

    private void Restart(string source, double toldS, double arrivedS, double delay)
    {
        _source = source;
        (_firstArrived, _firstTold, _lastArrived, _windowStart) = (arrivedS, toldS, arrivedS, arrivedS);
        (_smallest, _before) = (delay, double.PositiveInfinity);
        _lateSince = double.NaN;
        if (!(Math.Abs(OffsetS + delay) <= StrayS)) OffsetS = double.NaN;
    }
}
