using Stillhook.Files.Live;
using static Stillhook.Tests.Files.Live.Sentences;

namespace Stillhook.Tests.Files.Live;

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
