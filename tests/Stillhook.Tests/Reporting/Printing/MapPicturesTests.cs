using Stillhook.Reporting;
using Stillhook.Reporting.Printing;

namespace Stillhook.Tests.Reporting.Printing;

public class MapPicturesTests
{
    private static PrintedPicture[] Maps(CustomerReport report) => [.. MapPictures.Of(report).OfType<PrintedPicture>()];

    // Closed form: loads 30 m east and 40 m north of one another on the sphere of the spots; a scale bar of 20 m says how many points a metre is.
    [Fact]
    public void Of_KnownSpots_DistancesToScaleAndNorthUp()
    {
        PrintedPicture near = Maps(ReportedDays.SmallReport)[^1];
        CircleShape[] dots = [.. near.Shapes.OfType<CircleShape>().Where(c => c.Style == ShapeStyle.Solid)];
        WordShape scale = near.Shapes.OfType<WordShape>().Single(w => w.Text.EndsWith(" m", StringComparison.Ordinal));
        double metres = double.Parse(scale.Text[..^2], System.Globalization.CultureInfo.InvariantCulture);
        LineShape bar = near.Shapes.OfType<LineShape>().Where(l => l.Style == ShapeStyle.Line && l.Y1 == l.Y2).Single();
        double perMetre = (bar.X2 - bar.X1) / metres;
        Assert.Equal(30, (dots[1].X - dots[0].X) / perMetre, 0.15);
        Assert.Equal(40, (dots[1].Y - dots[2].Y) / perMetre, 0.15);
        Assert.Equal(dots[1].Y, dots[0].Y, 0.2);
    }

    [Fact]
    public void Of_PickUpFarOff_OverviewAndACloseMapWithNumbers()
    {
        PrintedPicture[] maps = Maps(ReportedDays.SmallReport);
        Assert.Equal(2, maps.Length);
        Assert.Contains(maps[0].Shapes.OfType<WordShape>(), w => w.Text == "yard");
        Assert.DoesNotContain(maps[0].Shapes.OfType<WordShape>(), w => w.Text == "A1");
        Assert.Equal(["A1", "A2", "A3", "B9"], maps[1].Shapes.OfType<WordShape>().Select(w => w.Text).Where(t => t is ['A' or 'B', _]));
    }

    [Fact]
    public void Of_ManyLoads_NoWordOverAWordOrAMark()
    {
        foreach (PrintedPicture map in Maps(ReportedDays.Large))
        {
            (double L, double T, double R, double B)[] words = [.. map.Shapes.OfType<WordShape>().Where(w => w.Anchor == WordAnchor.Start).Select(w => (w.X, w.Y - 0.8 * w.Size, w.X + 0.55 * w.Size * w.Text.Length, w.Y))];
            foreach ((double L, double T, double R, double B) in words)
            {
                Assert.InRange(L, 0, map.Width);
                Assert.Single(words, w => L < w.R && w.L < R && T < w.B && w.T < B);
                Assert.DoesNotContain(map.Shapes.OfType<CircleShape>(), c => c.X > L && c.X < R && c.Y > T && c.Y < B);
            }
        }
    }

    // Forty loads on one spot can't all be numbered: the rest is said.
    [Fact]
    public void Of_LoadsOnOneHeap_SaysHowManyNumbersAreLeftOut()
    {
        DayWork day = ReportedDays.Small with { Lifts = [.. Enumerable.Range(1, 40).Select(i => ReportedDays.Lift(i, "H" + i.ToString(System.Globalization.CultureInfo.InvariantCulture), ReportedDays.At(8, i), 500, at: ReportedDays.Spot(0.01 * i, 0)))] };
        PrintedPicture near = Maps(CustomerReporter.Report([day]))[^1];
        int shown = near.Shapes.OfType<WordShape>().Count(w => w.Text.StartsWith('H'));
        Assert.InRange(shown, 1, 39);
        Assert.Contains(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{40 - shown} of 40 numbers left out"), near.Title, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_NoPosition_NoMap() => Assert.Empty(MapPictures.Of(ReportedDays.SmallReport with { Placed = [] }));
}
