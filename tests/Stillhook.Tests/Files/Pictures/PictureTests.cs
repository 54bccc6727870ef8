using System.Globalization;
using System.Xml.Linq;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;

namespace Stillhook.Tests.Files.Pictures;

public class PictureTests
{
    private static readonly Debrief Day = HandMadeDebrief.WithDeliveries(3);

    private static DeliveryPath Path(int number) => DeliveryPath.Of(Day, Day.Rotations[number - 1])!;

    [Fact]
    public void Path_StraightApproach_IsLaidOutAlongItsCourse()
    {
        DeliveryPath path = Path(2);
        int at = Array.FindIndex(path.TimeS, t => t >= path.ContactTimeS - 50);

        // Closed form: 40 s of 80 s left to slow down evenly from 400 m, so 400·(40/80)² = 100 m to go, height 30 + 5 + 85/4 m.
        // Tolerance: the 0.5 s knots carry no acceleration.
        Assert.Equal(100, path.AlongM[at], 0.5);
        Assert.Equal(0, path.AcrossM[at], 0.05);
        Assert.Equal(56.25, path.HeightM[at], 0.1);
        // Closed form: v = 2·400·40/80² = 5 m/s; sink = 2·85·40/80² = 1.0625 m/s.
        Assert.Equal(5, path.SpeedMs[at], 0.05);
        Assert.Equal(1.0625, path.SinkMs[at], 0.02);
        // Closed form: rotation 2 touches 2 m past and 2 m right of the target on a course of 45°.
        Assert.Equal(2 * Math.Sqrt(2), path.Contact.East, 1e-9);
        Assert.Equal(0, path.Contact.North, 1e-9);
    }

    [Fact]
    public void LastPassages_DistanceFallsAllTheWay()
    {
        DeliveryPath path = Path(1);
        double[] toGo = [.. path.LastPassages().Select(i => path.ToGoM[i])];
        Assert.True(toGo.Length > 100);
        Assert.All(Enumerable.Range(1, toGo.Length - 1), i => Assert.True(toGo[i] < toGo[i - 1]));
    }

    [Fact]
    public void Path_RotationWithoutContact_IsNull() =>
        Assert.Null(DeliveryPath.Of(Day, Day.Rotations[0] with { DeliveryTimeS = null }));

    [Fact]
    public void PlanView_ContactIsWhereTheScaleSays()
    {
        XElement svg = XElement.Parse(PlanView.Draw([Path(1)], Day, DisplayUnits.Feet, 40));
        double perMetre = Number(svg, "data-per-metre");
        XElement contact = svg.Descendants().Single(e => e.Attribute("class")?.Value == "contact r0");
        // Closed form: 240 pixels for 40 m; contact √2 m east of the target in the middle (320, 240), drawn as a square of 10.
        Assert.Equal(6, perMetre, 1e-9);
        Assert.Equal(320 + 6 * Math.Sqrt(2) - 5, Number(contact, "x"), 0.06);
        Assert.Equal(240 - 5, Number(contact, "y"), 0.06);
    }

    [Fact]
    public void SideView_HasOneScaleBothWays()
    {
        DeliveryPath path = Path(1);
        XElement svg = XElement.Parse(SideView.Draw([path], Day.Setup, DisplayUnits.Metres));
        double perMetre = Number(svg, "data-per-metre"), x0 = Number(svg, "data-x0"), y0 = Number(svg, "data-y0");
        string track = svg.Descendants().Single(e => e.Attribute("class")?.Value == "track r0").Attribute("d")!.Value;
        double[] first = [.. track[1..track.IndexOf('L', StringComparison.Ordinal)].Split(' ').Select(v => double.Parse(v, CultureInfo.InvariantCulture))];
        // Closed form: the approach starts 400 m out, 120 m up.
        Assert.Equal(400, (x0 - first[0]) / perMetre, 0.2);
        Assert.Equal(120, (y0 - first[1]) / perMetre, 0.2);
    }

    [Theory]
    [InlineData("de-DE")]
    [InlineData("tr-TR")]
    public void Pictures_AnyCulture_AreTheSame(string culture)
    {
        string plan = PlanView.Draw([Path(1), Path(2)], Day, DisplayUnits.Feet), side = SideView.Draw([Path(1)], Day.Setup, DisplayUnits.Feet, 90);
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new(culture);
            Assert.Equal(plan, PlanView.Draw([Path(1), Path(2)], Day, DisplayUnits.Feet));
            Assert.Equal(side, SideView.Draw([Path(1)], Day.Setup, DisplayUnits.Feet, 90));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void PlanView_NameWithMarkup_StaysText()
    {
        Debrief day = Day with { Setup = Day.Setup with { People = [new("<script>alert(1)</script>&", 46.0001, 8.0002)] } };
        string svg = PlanView.Draw([Path(1)], day, DisplayUnits.Feet, 40);
        Assert.DoesNotContain("<script", svg, StringComparison.OrdinalIgnoreCase);
        Assert.Contains(XElement.Parse(svg).Descendants(), e => e.Value == "<script>alert(1)</script>&");
    }

    private static double Number(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
