using Stillhook.Recording;

namespace Stillhook.Files.Live;

/// <summary>One source on its way into the sink: bytes are decoded, and a link that is lost, silent or back is told once. Live and from a journal by the same code.</summary>
internal sealed class SourceFeed(LiveSourceSetting setting, UtcOffset offset, ISampleSink sink, Action<Finding> found)
{
    private const double SilentS = 5, FileSilentS = 60; // receivers give 1 Hz or more, recorders write a file in blocks; common practice, no source

    private readonly double _silentAfterS = setting.Kind == LiveSourceKind.File ? FileSilentS : SilentS;
    private double _lastS = double.NaN;
    private bool _up;

    public LiveDecoder Decoder { get; } = new(setting, offset, sink, found);

    /// <summary>True when the link is lost or a source that gave positions is silent.</summary>
    public bool Lost { get; private set; }

    /// <summary>Bytes arrived.</summary>
    public void Take(ReadOnlySpan<byte> bytes, double arrivedS)
    {
        Tick(arrivedS);
        if (Lost) Back("data comes again", arrivedS);
        _up = true;
        _lastS = arrivedS;
        Decoder.Take(bytes, arrivedS);
    }

    /// <summary>Time has gone on and nothing arrived. A source that is only silent goes on where it stopped, be it in the middle of a line.</summary>
    public void Tick(double nowS)
    {
        Decoder.Quiet(nowS);
        if (Lost || Decoder.Fixes == 0 || !(nowS - _lastS > _silentAfterS)) return;
        Lose(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"nothing came for {_silentAfterS:0} s"), _lastS + _silentAfterS);
    }

    /// <summary>The link stands.</summary>
    public void Up(string how, double atS)
    {
        if (Lost && !_up) Back(how, atS);
        _up = true;
    }

    /// <summary>The link does not stand.</summary>
    public void Down(string why, double atS)
    {
        if (_up) Decoder.LinkLost();
        if (_up && !Lost) Lose(why, atS);
        _up = false;
    }

    private void Lose(string why, double atS)
    {
        Lost = true;
        sink.Link(setting.Name, up: false, why, atS);
    }

    private void Back(string how, double atS)
    {
        Lost = false;
        sink.Link(setting.Name, up: true, how, atS);
    }
}
