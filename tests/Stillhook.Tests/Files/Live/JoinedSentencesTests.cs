using Stillhook.Files.Live;
using Stillhook.Recording;
using static Stillhook.Tests.Files.Live.Sentences;

namespace Stillhook.Tests.Files.Live;

/// <remarks>Every expected value is simulated truth: what was sent, and when.</remarks>
public class JoinedSentencesTests
{
    // The first line ever, and the first one after ten quiet minutes, hold two instants: its line end was lost on the way.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Take_TwoInstantsInOneLine_BothArrivedWithIt(bool afterQuiet)
    {
        var sink = new CollectingSink();
        var decoder = new LiveDecoder(new LiveSourceSetting { Text = "a", Name = "a", Kind = LiveSourceKind.Udp }, new UtcOffset(), sink, _ => { });
        int first = afterQuiet ? 6000 : 0;
        if (afterQuiet)
        {
            decoder.Take(Bytes(Rmc(0)), Nine);
            decoder.Quiet(Nine + 1);
        }

        decoder.Take(Bytes(Rmc(first).TrimEnd(), Rmc(first + 1)), TimeS(first + 2));
        decoder.End();
        Assert.Equal([(TimeS(first), TimeS(first + 2)), (TimeS(first + 1), TimeS(first + 2))], sink.Fixes.TakeLast(2).Select(f => (f.Fix.TimeS, f.ArrivedS)));
    }
}
