using System.Globalization;
using System.Xml.Linq;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using Stillhook.Files.Pictures.Plan;
using Stillhook.Planning;
using Stillhook.Tests.Planning;
using UnitsNet;
using static Stillhook.Tests.Planning.Jobs;

namespace Stillhook.Tests.Files.Pictures.Plan;

/// <summary>Pictures of the lift plan: one of each part, in order as XML, saying what the plan says.</summary>
public class PlanPictureTests
{
    private static readonly LiftPlan Made = Planner.Plan(Request(), new());

    private static LiftRequest Request()
    {
        RiggingPart sling = new() { Name = "two-leg sling", Kind = PartKind.WireRopeSling, RatedLoad = Kg(1500), Mass = Kg(10), InspectionDue = new DateOnly(2027, 1, 1) };
        LiftRequest request = Job(Aircraft(FlatChart(2600)), [Site("yard", SiteUse.PickUp, 500, 15), Site("ridge", SiteUse.Delivery, 900, 12, latitude: 46.91)],
            Load("1", 600) with { Name = "frame <A> & co", Attachment = new() { Legs = 2, LegAngle = Angle.FromDegrees(60), Sling = sling } }, Load("2", 700), Load("3", 4500));
        return request with { Rigging = [.. request.Rigging, new() { Name = "old shackle", Kind = PartKind.Shackle, Mass = Kg(1) }] };
    }

    private static LiftPlan Marked() => Planner.Plan(Request() with { Rigging = [.. Request().Rigging.SkipLast(1)] }, new());

    [Theory]
    [InlineData("loads.svg")]
    [InlineData("rigging.1.svg")]
    [InlineData("rigging.2.svg")]
    [InlineData("order.svg")]
    public void Of_EveryPicture_IsReadableXmlWithATitleAndItsLooks(string name)
    {
        foreach (DisplayUnits units in new[] { DisplayUnits.Feet, DisplayUnits.Pounds })
        {
            XElement svg = XElement.Parse(PlanFiles.Of(Marked(), name, units)!);
            Assert.Equal("img", svg.Attribute("role")?.Value);
            Assert.NotEmpty(svg.Elements().First(e => e.Name.LocalName == "title").Value);
            Assert.Contains(svg.Elements(), e => e.Name.LocalName == "style");
            Assert.DoesNotContain("NaN", svg.ToString());
        }
    }

    [Fact]
    public void Rigging_PartWithoutAMark_IsSaidToFail()
    {
        string picture = RiggingPicture.Draw(Made.Loads[1], DisplayUnits.Feet);
        Assert.Contains("no mark: may not be used", picture);
        Assert.Single(XElement.Parse(picture).Descendants(), e => e.Value.Contains("weakest part", StringComparison.Ordinal) && e.Name.LocalName == "text");
    }

    [Fact]
    public void Rigging_TwoLegs_ShowsAngleAndTension()
    {
        string picture = RiggingPicture.Draw(Marked().Loads[0], DisplayUnits.Feet);
        string words = XElement.Parse(picture).Value;
        Assert.Contains("2 legs at 60° to the horizontal", words);
        // Closed form: 600 kg over two legs at 60°: 600 / (2 sin 60°) = 346.4 kg.
        Assert.Contains("hardest-pulled leg 346 kg", words);
        Assert.Equal(2, XElement.Parse(picture).Descendants().Count(e => e.Attribute("class")?.Value == "leg"));
    }

    [Fact]
    public void Bars_LoadTooHeavy_IsHatchedAndSaysSo()
    {
        LoadPlan heavy = Marked().Loads[2];
        string picture = LoadBars.Draw(heavy, 5000, DisplayUnits.Feet);
        Assert.Contains("DOES NOT LIFT", picture);
        Assert.Contains("class=\"over\"", picture);
        Assert.Contains("class=\"hatch\"", picture);
        Assert.DoesNotContain("class=\"over\"", LoadBars.Draw(Marked().Loads[0], 5000, DisplayUnits.Feet));
    }

    [Fact]
    public void Order_EveryLift_IsABlockWithItsNumberAndEveryStepARow()
    {
        LiftPlan plan = Marked();
        XElement picture = XElement.Parse(OrderPicture.Draw(plan.Order!.Timeline, PlanFiles.ReserveKg(plan), DisplayUnits.Feet, ["2"]));
        string[] numbers = [.. picture.Descendants().Where(e => e.Attribute("class")?.Value == "block-number").Select(e => e.Value)];
        Assert.Equal(plan.Order.Lifts.Select(l => l.Number), numbers);
        Assert.Single(picture.Descendants(), e => e.Attribute("class")?.Value == "block broken");
        Assert.Equal(plan.Order.Timeline.Steps.Count + 1, OrderPicture.Csv(plan.Order.Timeline, plan.OrderSites).Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length);
    }

    [Fact]
    public void Of_CommaDecimalCulture_IsTheSame()
    {
        string[] names = ["loads.svg", "loads.csv", "order.svg", "order.csv", "rigging.1.svg", "rigging.1.csv"];
        LiftPlan plan = Marked();
        string?[] before = [.. names.Select(n => PlanFiles.Of(plan, n, DisplayUnits.Feet))];
        CultureInfo culture = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(before.AsEnumerable(), names.Select(n => PlanFiles.Of(plan, n, DisplayUnits.Feet)));
        }
        finally
        {
            CultureInfo.CurrentCulture = culture;
        }
        Assert.All(before, Assert.NotNull);
        Assert.Null(PlanFiles.Of(plan, "rigging.9.svg", DisplayUnits.Feet));
    }
}
