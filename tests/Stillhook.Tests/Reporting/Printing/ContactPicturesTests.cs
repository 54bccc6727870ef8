using System.Globalization;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;

namespace Stillhook.Tests.Reporting.Printing;

public class ContactPicturesTests
{
    private static CustomerReport Report(params (double East, double North)[] loads) => CustomerReporter.Report(
        [ReportedDays.Small with { Lifts = [.. loads.Select((l, i) => ReportedDays.Lift(i + 1, string.Create(CultureInfo.InvariantCulture, $"C{i + 1}"), ReportedDays.At(8, 10 + i), 500, at: ReportedDays.Spot(l.East, l.North)))] }]);

    private static PrintedPicture[] Pictures(CustomerReport report) => [.. ContactPictures.Of(report).OfType<PrintedPicture>()];

    private static string[] Words(PrintedPicture picture) => [.. picture.Shapes.OfType<WordShape>().Select(w => w.Text)];

    // Closed form: 3 m east and 4 m north are 5 m off, 6 and 8 are 10; the scale bar of 5 m says how many points a metre is.
    [Fact]
    public void Of_KnownContacts_ToScaleRoundTheSpotNorthUp()
    {
        PrintedPicture picture = Assert.Single(Pictures(Report((0, 0), (3, 3.9), (-6, -7.9))));
        CircleShape[] dots = [.. picture.Shapes.OfType<CircleShape>().Where(c => c.Style == ShapeStyle.Solid)];
        LineShape bar = picture.Shapes.OfType<LineShape>().Single(l => l.Y1 == 190 && l.Y2 == 190);
        double perMetre = (bar.X2 - bar.X1) / 5;
        Assert.Equal([5, 10], picture.Shapes.OfType<CircleShape>().Where(c => c.Style == ShapeStyle.Ring).Select(c => Math.Round(c.Radius / perMetre, 6)).Order());
        // The spot's degrees are on a sphere, the map on the ellipsoid: 0.3 % apart.
        Assert.Equal(3, (dots[1].X - dots[0].X) / perMetre, 0.03);
        Assert.Equal(3.9, (dots[0].Y - dots[1].Y) / perMetre, 0.03);
        Assert.Equal(-6, (dots[2].X - dots[0].X) / perMetre, 0.03);
        string[] words = Words(picture);
        Assert.Contains("Circles: 5 m and 10 m from the spot.", words);
        Assert.Contains("2 of 3 loads touched within 5 m.", words);
        Assert.Contains("The farthest that is shown: 10 m.", words);
        Assert.Contains("C3", words);
    }

    [Fact]
    public void Of_OneFarOff_IsCountedAndNotDrawn()
    {
        PrintedPicture picture = Assert.Single(Pictures(Report([.. Enumerable.Range(0, 10).Select(i => (0.5 * i, 1.0)), (60, 0)])));
        Assert.Equal(10, picture.Shapes.OfType<CircleShape>().Count(c => c.Style == ShapeStyle.Solid));
        Assert.Contains("1 more than 25 m off: see the map.", Words(picture));
        Assert.Contains("10 of 11 loads touched within 5 m.", Words(picture));
    }

    // Loads along a wall are no misses of a spot: the map shows them.
    [Fact]
    public void Of_LoadsAlongAWall_NoPicture() => Assert.Empty(ContactPictures.Of(Report((30, 0), (36, 0), (42, 0), (1, 0))));

    // A site whose every load is in its own picture has no map of its own besides.
    [Fact]
    public void Of_AllAtTheSpot_OneMapOfTheSitesAndThePicture()
    {
        string[] titles = [.. CustomerPrint.Of(Report((0, 0), (2, 1))).Parts.OfType<PrintedPicture>().Select(p => p.Title)];
        Assert.Equal(3, titles.Length);
        Assert.StartsWith("Sites and placed loads", titles[0], StringComparison.Ordinal);
        Assert.Equal("Where the loads touched at spot, north up", titles[1]);
    }

    [Fact]
    public void Of_FortyOnOneSpot_NoNumberOverAnother()
    {
        PrintedPicture picture = Assert.Single(Pictures(Report([.. Enumerable.Range(0, 40).Select(i => (4 * Math.Sin(i), 4 * Math.Cos(1.7 * i)))])));
        WordShape[] numbers = [.. picture.Shapes.OfType<WordShape>().Where(w => w.Text is ['C', >= '0' and <= '9', ..])];
        foreach (WordShape a in numbers)
            Assert.Single(numbers, b => a.X < b.X + 4.1 * b.Text.Length && b.X < a.X + 4.1 * a.Text.Length && Math.Abs(a.Y - b.Y) < 6);
        Assert.Contains(Words(picture), w => w == string.Create(CultureInfo.InvariantCulture, $"{40 - numbers.Length} of 40 numbers left out for want of room."));
    }
}
