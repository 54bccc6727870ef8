using Stillhook.Files.Live;
using static Stillhook.Tests.Files.Live.Sentences;

namespace Stillhook.Tests.Files.Live;

/// <remarks>Expected values are simulated truth: what was done to the link. The 5 s and 60 s of silence are common practice, no source.</remarks>
public class SourceFeedTests
{
    private readonly CollectingSink _sink = new();

    [Fact]
    public void Tick_PositionsStopForFiveSeconds_LinkIsToldLostOnce()
    {
        SourceFeed feed = Feed(LiveSourceKind.Udp);
        feed.Up("listening", 99);
        feed.Take(Bytes(Rmc(0)), 100);
        for (double now = 100; now < 110; now += 0.25) feed.Tick(now);
        feed.Down("the cable is out", 111);
        Assert.Equal([(false, "nothing came for 5 s")], _sink.Links.Select(l => (l.Up, l.Why)));
        feed.Up("listening", 120);
        Assert.Equal([false, true], _sink.Links.Select(l => l.Up));
    }

    [Fact]
    public void Take_AfterSilence_LinkIsToldBackBeforeThePosition()
    {
        SourceFeed feed = Feed(LiveSourceKind.Udp);
        feed.Take(Bytes(Rmc(0)), 100);
        feed.Take(Bytes(Rmc(100)), 110); // without a tick between, as from a journal
        feed.Tick(111);
        Assert.Equal([false, true], _sink.Links.Select(l => l.Up));
        Assert.Equal(2, _sink.Fixes.Count);
    }

    // A recorder that writes in blocks, a connection that pauses: the line goes on where it stopped.
    [Theory]
    [InlineData(LiveSourceKind.File)]
    [InlineData(LiveSourceKind.TcpClient)]
    public void Take_SilenceInTheMiddleOfALine_LosesNothing(LiveSourceKind kind)
    {
        SourceFeed feed = Feed(kind);
        feed.Take(Bytes("\n", Rmc(0), Rmc(1)[..30]), 100);
        feed.Tick(170);
        feed.Take(Bytes(Rmc(1)[30..]), 171);
        feed.Tick(172);
        Assert.Equal([false, true], _sink.Links.Select(l => l.Up));
        Assert.Equal([TimeS(0), TimeS(1)], _sink.Fixes.Select(f => f.Fix.TimeS));
        Assert.Equal(0, feed.Decoder.Bad);
    }

    [Fact]
    public void Down_AfterSilenceInTheMiddleOfALine_HalfIsNotJoinedToTheNextLink()
    {
        SourceFeed feed = Feed(LiveSourceKind.Udp);
        feed.Take(Bytes(Rmc(0), Rmc(1)[..30]), 100);
        feed.Tick(106);
        feed.Down("the cable is out", 107);
        feed.Take(Bytes(Rmc(2)), 108);
        feed.Tick(109);
        Assert.Equal([TimeS(0), TimeS(2)], _sink.Fixes.Select(f => f.Fix.TimeS));
        Assert.Equal(0, feed.Decoder.Bad);
    }

    // A hook that tells its releases only, or a file written in blocks, is not lost for being quiet.
    [Theory]
    [InlineData(LiveSourceKind.Udp, false)]
    [InlineData(LiveSourceKind.File, true)]
    public void Tick_QuietByItsNature_IsNotLost(LiveSourceKind kind, bool positions)
    {
        SourceFeed feed = Feed(kind);
        feed.Take(Bytes(positions ? Rmc(0) : Load(700)), 100);
        feed.Tick(150);
        Assert.Empty(_sink.Links);
    }

    [Fact]
    public void Down_BeforeAnythingCame_IsNoLostLink()
    {
        SourceFeed feed = Feed(LiveSourceKind.TcpClient);
        feed.Down("nothing listens there", 100);
        feed.Up("connected", 101);
        Assert.Empty(_sink.Links);
    }

    private SourceFeed Feed(LiveSourceKind kind) => new(new() { Text = "x", Name = "x", Kind = kind }, new UtcOffset(), _sink, _ => { });
}
