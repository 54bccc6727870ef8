using Stillhook.Files.Live;
using Stillhook.Recording;
using static Stillhook.Tests.Files.Live.Sentences;

namespace Stillhook.Tests.Files.Live;

/// <remarks>Expected values are simulated truth: what was handed over, and when. 1 MB a second for 5 s, and 32 MB, are common practice, no source.</remarks>
public class SourceIntakeTests
{
    private readonly SetClock _clock = new(DateTimeOffset.UnixEpoch.AddSeconds(Nine));
    private readonly List<Finding> _said = [];
    private readonly LiveIntakes _shared;
    private readonly SourceIntake _intake;

    public SourceIntakeTests()
    {
        _shared = new LiveIntakes(_clock, null, (_, f) => _said.Add(f));
        LiveSourceSetting setting = new() { Text = "udp:1", Name = "gps", Kind = LiveSourceKind.Udp };
        _intake = new SourceIntake(0, setting, new SourceFeed(setting, new UtcOffset(), new CollectingSink(), _said.Add), _shared);
    }

    [Theory]
    [InlineData(1_200_000, true)]
    [InlineData(900_000, false)]
    public void Take_OverAMegabyteASecondForFiveSeconds_IsSaidOnce(int bytesASecond, bool said)
    {
        byte[] bytes = new byte[bytesASecond / 4];
        for (int quarter = 0; quarter < 40; quarter++)
        {
            _intake.Take(bytes);
            while (_shared.Queue.Take(TimeSpan.Zero, out _)) { }
            _clock.Now += TimeSpan.FromSeconds(0.25);
        }

        Assert.Equal(said ? 1 : 0, _said.Count(f => f.Code == "flood"));
        Assert.Equal(bytesASecond, _intake.State(_shared.NowS).BytesPerSecond);
        Assert.Equal(bytesASecond * 10L, _intake.State(_shared.NowS).Bytes);
    }

    // What is not taken from the queue stops growing there; it is in the journal alone.
    [Fact]
    public void Take_NothingIsDecoded_QueueStaysBounded()
    {
        byte[] bytes = new byte[1 << 20];
        for (int i = 0; i < 100; i++) _intake.Take(bytes);
        Assert.Contains(_said, f => f.Code == "decoding-behind");
        var waiting = new List<ArrivalKind>();
        while (_shared.Queue.Take(TimeSpan.Zero, out Arrival arrival)) waiting.Add(arrival.Kind);
        Assert.Equal([.. Enumerable.Repeat(ArrivalKind.Bytes, 32), ArrivalKind.Gap], waiting); // Closed form: 32 MB
    }

    [Fact]
    public void State_UpAndDown_SaysSinceWhenAndWhy()
    {
        _intake.Down("nothing listens there");
        _clock.Now += TimeSpan.FromSeconds(3);
        _intake.Down("nothing listens there");
        SourceState down = _intake.State(_shared.NowS);
        Assert.Equal((false, Nine, "nothing listens there"), (down.Up, down.SinceS, down.Why));
        _intake.Up("connected");
        SourceState up = _intake.State(_shared.NowS + 2);
        Assert.Equal((true, Nine + 3, "connected"), (up.Up, up.SinceS, up.Why));
        Assert.True(double.IsNaN(up.LastByteAgeS));
    }
}
