using Stillhook.Files.Pictures.Approach;

namespace Stillhook.Tests.Files.Pictures.Approach;

public class MarkLabelsTests
{
    [Fact]
    public void Spread_RoomEnough_StaysWhereWanted() => Assert.Equal([50.0, 150, 300], MarkLabels.Spread([50, 150, 300], [80, 80, 80], 0, 400));

    // Closed form: three of width 40 wanted at one place stand side by side about it.
    [Fact]
    public void Spread_SamePlace_StandsSideBySide() => Assert.Equal([160.0, 200, 240], MarkLabels.Spread([200, 200, 200], [40, 40, 40], 0, 400));

    // Closed form: at the right edge the last ends there and the one before it makes room.
    [Fact]
    public void Spread_AtTheEdge_MovesInside() => Assert.Equal([320.0, 370], MarkLabels.Spread([390, 395], [40, 60], 0, 400));

    [Fact]
    public void Spread_Any_KeepsOrderWithoutOverlap()
    {
        double[] wanted = [10, 30, 35, 36, 200, 205, 390], widths = [50, 40, 60, 30, 70, 20, 40], placed = MarkLabels.Spread(wanted, widths, 0, 400);
        for (int i = 1; i < placed.Length; i++)
            Assert.True(placed[i] - widths[i] / 2 >= placed[i - 1] + widths[i - 1] / 2 - 1e-6);
        Assert.InRange(placed[0] - widths[0] / 2, -1e-6, 400);
        Assert.InRange(placed[^1] + widths[^1] / 2, 0, 400 + 1e-6);
    }
}
