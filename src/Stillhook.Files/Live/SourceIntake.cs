using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>Where a source hands over what it received: first to the journal, then to the queue.</summary>
internal sealed class SourceIntake(int number, LiveSourceSetting setting, SourceFeed feed, LiveIntakes shared) : ILiveReceiver
{
    private const long FloodBytes = 1 << 20; // a second; with the next line common practice, no source
    private const int FloodSeconds = 5;

    private long _bytes, _second = long.MinValue, _thisSecond, _lastSecond;
    private int _floodSeconds;
    private bool _up, _behind;
    private double _sinceS = double.NaN, _byteS = double.NaN;
    private string _why = "not begun";

    public SourceFeed Feed => feed;

    public void Take(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length == 0) return;
        double now;
        bool behind;
        lock (shared.Gate)
        {
            now = shared.NowS;
            shared.Journal?.Append(number, bytes, now);
            behind = !shared.Queue.Add(number, bytes, now);
            if (behind && !_behind) shared.Queue.Add(number, ArrivalKind.Gap, "", now);
            _behind = behind;
            _bytes += bytes.Length;
            _byteS = now;
            if (!_up) SetUp("data comes", now);
        }

        Count(bytes.Length);
        if (behind)
            Say(new Finding(Severity.Warning, "decoding-behind", null, 1, $"{setting.Text}: more comes than can be followed.", "It is recorded; part of it is not followed."));
    }

    public void Up(string how)
    {
        lock (shared.Gate)
        {
            double now = shared.NowS;
            SetUp(how, now);
            shared.Journal?.MarkLink(number, up: true, now);
            shared.Queue.Add(number, ArrivalKind.Up, how, now);
        }
    }

    public void Down(string why)
    {
        lock (shared.Gate)
        {
            double now = shared.NowS;
            if (_up) shared.Journal?.MarkLink(number, up: false, now);
            shared.Queue.Add(number, ArrivalKind.Down, why, now);
            if (_up || double.IsNaN(_sinceS)) _sinceS = now;
            (_up, _why) = (false, why);
        }
    }

    public void Say(Finding finding) => shared.Say(setting.Name, finding);

    public SourceState State(double nowS)
    {
        lock (shared.Gate)
        {
            long second = (long)Math.Floor(nowS);
            long rate = second == _second ? _lastSecond : second == _second + 1 ? _thisSecond : 0;
            bool silent = _up && feed.Lost;
            LiveDecoder decoder = feed.Decoder;
            return new SourceState(setting.Name, setting.Text, _up && !silent, silent ? _byteS : _sinceS, silent ? "nothing comes" : _why, _bytes, rate,
                decoder.Good, decoder.Bad, decoder.Fixes, decoder.Values, nowS - _byteS, nowS - decoder.GoodArrivedS);
        }
    }

    private void SetUp(string how, double now)
    {
        if (!_up) _sinceS = now;
        (_up, _why) = (true, how);
    }

    private void Count(int bytes)
    {
        bool flood = false;
        lock (shared.Gate)
        {
            long second = (long)Math.Floor(_byteS);
            if (second != _second)
            {
                _floodSeconds = second == _second + 1 && _thisSecond > FloodBytes ? _floodSeconds + 1 : 0;
                flood = _floodSeconds == FloodSeconds;
                (_lastSecond, _thisSecond, _second) = (second == _second + 1 ? _thisSecond : 0, 0, second);
            }

            _thisSecond += bytes;
        }

        if (flood)
            Say(new Finding(Severity.Warning, "flood", null, 1, $"{setting.Text}: more than 1 MB a second came for {FloodSeconds} s; positions and loads are a few kB.",
                "It is recorded; check what sends to this source, and the room on the disk."));
    }
}

/// <summary>What the intakes of all sources share. The gate makes time of arrival, journal and queue one order.</summary>
internal sealed class LiveIntakes(TimeProvider clock, LiveJournal? journal, Action<string, Finding> say)
{
    public object Gate { get; } = new();

    public ArrivalQueue Queue { get; } = new();

    public LiveJournal? Journal => journal;

    public double NowS => ArrivalTime.Now(clock);

    public void Say(string source, Finding finding) => say(source, finding);
}
