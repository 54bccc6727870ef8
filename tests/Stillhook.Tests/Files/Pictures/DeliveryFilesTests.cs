using System.Globalization;
using System.Xml.Linq;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;

namespace Stillhook.Tests.Files.Pictures;

public class DeliveryFilesTests
{
    private static readonly Debrief Day = HandMadeDebrief.WithDeliveries(3);

    private static readonly DeliveryPath Second = DeliveryPath.Of(Day, Day.Rotations[1])!;

    // Closed form: 50 s before contact 100 m to go along the course and 56.25 m = 184.55 ft up (see PictureTests); band 1.645·0.4 m on any course. Tolerance: the 0.5 s knots carry no acceleration.
    [Fact]
    public void Side_FiftySecondsOut_HookAndBandInTheReadersUnits()
    {
        string[] lines = DeliveryTable.Side([Second], DisplayUnits.Feet).Split("\r\n");
        Assert.Equal("delivery,timeUtc,toContactS,hookToGoM,hookHeightFt,loadToGoM,loadHeightFt,loadToGoBandM", lines[0]);
        double[] row = Numbers(lines.Skip(1).First(l => l.Split(',')[2] is { } t && double.Parse(t, CultureInfo.InvariantCulture) <= 50));
        Assert.Equal(2, row[0]);
        Assert.Equal(100, row[3], 0.5);
        Assert.Equal(184.55, row[4], 0.4);
        Assert.Equal(0.66, row[7], 1e-9);
    }

    [Fact]
    public void Plan_AfterContact_ClaimsNoPlaceOfTheLoad()
    {
        string[] rows = DeliveryTable.Plan([Second]).TrimEnd().Split("\r\n");
        Assert.EndsWith(",,,,", rows[^1], StringComparison.Ordinal);
        Assert.DoesNotContain(",,", rows[100], StringComparison.Ordinal);
    }

    // Closed form: 5 m/s = 18 km/h at 50 s before contact.
    [Fact]
    public void Speed_Metres_HeadingAndValueInKilometresAnHour()
    {
        string[] lines = DeliveryTable.Speed([Second], DisplayUnits.Metres).Split("\r\n");
        Assert.Equal("delivery,timeUtc,toContactS,toGoM,groundSpeedKmh", lines[0]);
        Assert.Equal(18, Numbers(lines.Skip(1).First(l => double.Parse(l.Split(',')[2], CultureInfo.InvariantCulture) <= 50))[4], 0.2);
    }

    [Fact]
    public void Tables_CommaCulture_AreTheSame()
    {
        string plain = DeliveryTable.Plan([Second]) + DeliveryTable.Swing([Second], Day.Swings, sideways: true) + DeliveryTable.Sink([Second], DisplayUnits.Feet);
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new("de-DE");
            Assert.Equal(plain, DeliveryTable.Plan([Second]) + DeliveryTable.Swing([Second], Day.Swings, sideways: true) + DeliveryTable.Sink([Second], DisplayUnits.Feet));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Path_RecordThatCantShowSwing_HasNoLoadAnywhere()
    {
        Debrief coarse = Day with { Quality = Day.Quality with { CanJudgeSwing = false } };
        DeliveryPath path = DeliveryPath.Of(coarse, coarse.Rotations[1])!;
        Assert.False(path.HasSwing);
        Assert.All(path.LoadAlongBandM, b => Assert.True(double.IsNaN(b)));
        Assert.Null(SwingCurves.Of(path, coarse.Swings[2]));
    }

    // Closed form: plot area 64 to 736 by 44 to 308 pixels; 10 of 10.4 (4 % of room above) up at the left, 0 at the right.
    [Fact]
    public void Plot_FallingDistance_FarthestIsLeft()
    {
        XElement svg = XElement.Parse(PlotPicture.Draw("Speed", "m to go", [new(7, [100, 0], [10, 0])], falling: true));
        XElement track = svg.Descendants().First(e => e.Name.LocalName == "path" && e.Attribute("class")?.Value == "track r0");
        Assert.Equal("M64 54.2L736 308", track.Attribute("d")!.Value);
    }

    [Fact]
    public void Plot_ValueThatIsNotKnown_BreaksTheLine()
    {
        XElement svg = XElement.Parse(PlotPicture.Draw("Torque", "m to go", [new(7, [3, 2, 1, 0], [10, double.NaN, 10, 10])], falling: true));
        string drawn = svg.Descendants().First(e => e.Name.LocalName == "path" && e.Attribute("class")?.Value == "track r0").Attribute("d")!.Value;
        Assert.Equal(2, drawn.Count(c => c == 'M'));
    }

    [Fact]
    public void Sheet_Picture_KeepsItWholeBetweenItsWords()
    {
        string picture = SideView.Draw([Second], Day.Setup, DisplayUnits.Feet);
        XElement sheet = XElement.Parse(DeliverySheet.With(picture, ["day & night.csv", "Delivery 2"], ["For planning and debriefing only."]));
        XElement inner = Assert.Single(sheet.Elements(), e => e.Name.LocalName == "svg");
        Assert.Equal(XElement.Parse(picture).Descendants().Count(), inner.Descendants().Count());
        Assert.Contains("day & night.csv", sheet.Value, StringComparison.Ordinal);
        Assert.Contains("For planning and debriefing only.", sheet.Value, StringComparison.Ordinal);
        double[] whole = Numbers(sheet.Attribute("viewBox")!.Value.Replace(' ', ',')), part = Numbers(inner.Attribute("viewBox")!.Value.Replace(' ', ','));
        // Closed form: two lines above, one below, 22 each, and 12 at both edges.
        Assert.Equal(part[3] + 3 * 22 + 2 * 12, whole[3], 0.11);
        Assert.Throws<ArgumentException>(() => DeliverySheet.With("<p></p>", [], []));
    }

    private static double[] Numbers(string row) => [.. row.Split(',').Select(v => double.TryParse(v, CultureInfo.InvariantCulture, out double number) ? number : double.NaN)];
}
