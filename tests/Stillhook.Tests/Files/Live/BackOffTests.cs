using Stillhook.Files.Live;

namespace Stillhook.Tests.Files.Live;

public class BackOffTests
{
    // Closed form: 0.5 s doubled up to 30 s, each within a quarter.
    [Fact]
    public void Next_AgainAndAgain_DoublesUpToHalfAMinute()
    {
        var backOff = new BackOff(new Random(1));
        foreach (double expected in (double[])[0.5, 1, 2, 4, 8, 16, 30, 30])
            Assert.InRange(backOff.Next().TotalSeconds, expected * 0.75, Math.Min(expected * 1.25, 30));
        backOff.Reset();
        Assert.InRange(backOff.Next().TotalSeconds, 0.375, 0.625);
    }

    // Closed form: the same numbers give the same waits.
    [Fact]
    public void Next_SameSeed_SameWaits() => Assert.Equal(new BackOff(new Random(7)).Next(), new BackOff(new Random(7)).Next());
}
