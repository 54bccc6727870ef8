using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Stillhook.Approaching;
using Stillhook.Files.Pictures;
using Stillhook.Files.Pictures.Approach;
using Stillhook.Physics.Earth;

namespace Stillhook.Tests.Files.Pictures.Approach;

public partial class ApproachPictureTests
{
    private static readonly ApproachPlan Plan = ExampleApproach.Offered;
    private static readonly Surroundings? Around = ExampleApproach.Around(Plan);

    public static TheoryData<string, string> Pictures => [.. new[] { "side.svg", "plan.svg", "profile.svg", "scatter.svg" }.SelectMany(name => new[] { "offered", "refused", "unplanned" }.Select(plan => (name, plan)))];

    private static ApproachPlan Named(string plan) => plan switch { "offered" => Plan, "refused" => ExampleApproach.Refused, _ => ExampleApproach.Unplanned };

    private static string Drawn(string name, string plan) => ApproachFiles.Of(Named(plan), ExampleApproach.Around(Named(plan)), DisplayUnits.Feet).Single(f => f.Name == name).Text;

    [Theory, MemberData(nameof(Pictures))]
    public void Of_AnyPlan_IsWellFormedWithStylesAndNumbersOnly(string name, string plan)
    {
        string svg = Drawn(name, plan);
        XElement root = XElement.Parse(svg);
        Assert.Equal("svg", root.Name.LocalName);
        Assert.Single(root.Elements(), e => e.Name.LocalName == "style");
        Assert.DoesNotContain("NaN", svg, StringComparison.Ordinal);
        Assert.DoesNotContain("Infinity", svg, StringComparison.Ordinal);
        Assert.DoesNotContain("∞", svg, StringComparison.Ordinal);
        Assert.All(root.Descendants().Where(e => e.Name.LocalName is "line" or "circle" or "rect" or "text").SelectMany(e => e.Attributes()).Where(a => a.Name.LocalName is "x" or "y" or "x1" or "x2" or "y1" or "y2" or "cx" or "cy" or "r" or "width" or "height"),
            a => Assert.True(double.TryParse(a.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double v) && double.IsFinite(v), a.ToString()));
    }

    // What is written stays inside the picture; a text's width by its count of letters, 0.57 of 13 px each.
    [Theory, MemberData(nameof(Pictures))]
    public void Of_AnyPlan_NoTextIsCutOff(string name, string plan)
    {
        XElement root = XElement.Parse(Drawn(name, plan));
        double[] box = [.. root.Attribute("viewBox")!.Value.Split(' ').Select(v => double.Parse(v, CultureInfo.InvariantCulture))];
        foreach (XElement text in root.Elements().Where(e => e.Name.LocalName == "text"))
        {
            double x = Number(text, "x"), y = Number(text, "y"), width = 0.57 * 13 * text.Value.Length;
            double left = text.Attribute("text-anchor")!.Value switch { "middle" => x - width / 2, "end" => x - width, _ => x };
            Assert.True(left >= -1 && left + width <= box[2] + 1 && y >= 10 && y <= box[3] - 3, $"'{text.Value}' at {left:0}..{left + width:0}, {y:0}");
        }
    }

    [Theory]
    [InlineData("de-DE")]
    [InlineData("tr-TR")]
    public void Of_AnyCulture_IsTheSame(string culture)
    {
        (string, string)[] expected = [.. ApproachFiles.Of(Plan, Around, DisplayUnits.Metres)];
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new(culture);
            Assert.Equal(expected, ApproachFiles.Of(Plan, Around, DisplayUnits.Metres));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    // Closed form: two points of the path that lie apart both ways must come back from the drawing with one scale. Drawn to 0.1 px.
    [Fact]
    public void SideView_HasOneScaleBothWays()
    {
        XElement svg = XElement.Parse(ApproachSideView.Draw(Plan, Around, DisplayUnits.Feet));
        (double X, double Y)[] load = Points(svg, "load-path");
        LoadPath path = Plan.Way!.Path;
        int from = Array.FindIndex(path.DistanceM, d => d <= 300), to = Array.FindIndex(path.DistanceM, d => d <= 60);
        (double X, double Y) a = AtDistance(from), b = AtDistance(to);
        double acrossPx = (b.X - a.X) / (path.DistanceM[from] - path.DistanceM[to]), upPx = (b.Y - a.Y) / (path.LoadHeightM[from] - path.LoadHeightM[to]);
        Assert.Equal(Number(svg, "data-per-metre"), acrossPx, 0.002 * acrossPx);
        Assert.Equal(acrossPx, upPx, 0.01 * acrossPx);

        // The drawn point that is nearest to a distance, moved along the line to it.
        (double X, double Y) AtDistance(int i)
        {
            double x = Number(svg, "data-x0") - path.DistanceM[i] * Number(svg, "data-per-metre");
            int next = Array.FindIndex(load, p => p.X >= x);
            double share = (x - load[next - 1].X) / (load[next].X - load[next - 1].X);
            return (x, load[next - 1].Y + share * (load[next].Y - load[next - 1].Y));
        }
    }

    [Fact]
    public void SideView_EveryMarkStandsAtItsPlaceWithItsAltimeter()
    {
        XElement svg = XElement.Parse(ApproachSideView.Draw(Plan, Around, DisplayUnits.Feet));
        double x0 = Number(svg, "data-x0"), y0 = Number(svg, "data-y0"), perMetre = Number(svg, "data-per-metre");
        string[] texts = [.. svg.Elements().Where(e => e.Name.LocalName == "text").Select(e => e.Value)];
        Assert.True(Plan.Gates.Count >= 5);
        foreach (IGrouping<double, ApproachGate> same in Plan.Gates.GroupBy(g => g.AltimeterFt))
            Assert.Equal(same.Count(), texts.Count(t => t == string.Create(CultureInfo.InvariantCulture, $"{same.Key:0} ft")));
        Assert.Contains("power in", texts);
        Assert.Contains("reject", texts);

        ApproachGate reject = Plan.Gate(ApproachGates.RejectName)!;
        XElement circle = svg.Elements().First(e => e.Name.LocalName == "circle" && e.Attribute("class")!.Value == "reject");
        // Closed form: the mark's distance and height by the picture's scale.
        Assert.Equal(x0 - reject.DistanceM * perMetre, Number(circle, "cx"), 0.06);
        Assert.Equal(y0 - reject.HookHeightM * perMetre, Number(circle, "cy"), 0.06);
    }

    [Fact]
    public void SideView_ObstaclesAndWiresBesideTheWay_AreNamedWithHeight()
    {
        string[] texts = [.. XElement.Parse(ApproachSideView.Draw(Plan, Around, DisplayUnits.Metres)).Elements().Select(e => e.Value)];
        Assert.Contains("spruce <3 & more", texts);
        Assert.Contains(texts, t => t.StartsWith("12 m", StringComparison.Ordinal));
        Assert.Contains("hut line", texts);
    }

    // Closed form: on ground that rises 0.1 m a metre to the north, a course of c degrees sees −0.1·cos(c) m a metre before the spot.
    [Fact]
    public void SideView_Slope_GroundRisesAsItDoes()
    {
        XElement svg = XElement.Parse(ApproachSideView.Draw(Plan, ExampleApproach.OnASlope(0.1), DisplayUnits.Metres));
        double x0 = Number(svg, "data-x0"), y0 = Number(svg, "data-y0"), perMetre = Number(svg, "data-per-metre");
        (double X, double Y) first = Points(svg, "ground")[0];
        double before = (x0 - first.X) / perMetre;
        Assert.InRange(before, 300, 600);
        Assert.Equal(-0.1 * Math.Cos(double.DegreesToRadians(Plan.CourseDeg)) * before, (y0 - first.Y) / perMetre, 0.2);
    }

    [Fact]
    public void PlanView_MarksLieOnTheCourseAtTheirDistance()
    {
        XElement svg = XElement.Parse(ApproachPlanView.Draw(Plan, Around, DisplayUnits.Feet));
        double x0 = Number(svg, "data-x0"), y0 = Number(svg, "data-y0"), perMetre = Number(svg, "data-per-metre");
        string d = svg.Elements().First(e => e.Attribute("class")?.Value == "mark").Attribute("d")!.Value;
        (double X, double Y) top = Parsed(d)[0];
        (double sin, double cos) = Math.SinCos(double.DegreesToRadians(Plan.CourseDeg));
        double east = (top.X - x0) / perMetre, north = (y0 - (top.Y + 8)) / perMetre;
        // Closed form: the start mark lies its distance behind the spot on the course. The hook is drawn within a metre of the course there.
        Assert.Equal(Plan.Gates[0].DistanceM, -(east * sin + north * cos), 0.5);
        Assert.InRange(east * cos - north * sin, -2, 2);
    }

    [Fact]
    public void PlanView_EveryDirectionIsDrawnAsFoundAndSaidWhy()
    {
        XElement svg = XElement.Parse(ApproachPlanView.Draw(Plan, Around, DisplayUnits.Feet));
        // One of each is the sample of the key: a path in the ring, a rectangle in the key.
        Assert.Equal(Plan.Sectors.Count(s => s.Allowed), svg.Elements().Count(e => e.Name.LocalName == "path" && e.Attribute("class")!.Value == "flyable"));
        Assert.Equal(Plan.Sectors.Count(s => !s.Allowed), svg.Elements().Count(e => e.Name.LocalName == "path" && e.Attribute("class")!.Value == "ruled-out"));
        Assert.Equal(1, svg.Elements().Count(e => e.Value.StartsWith("downwind, courses ", StringComparison.Ordinal)));
    }

    [Fact]
    public void Runs_SameAnswerOverNorth_IsOneRun()
    {
        PathBlock wind = new("downwind", "", 1), ground = new("terrain", "", 1);
        SectorCheck[] sectors = [new(0, null, wind, 0, 0), new(90, null, ground, 0, 0), new(180, null, ground, 0, 0), new(270, null, wind, 0, 0)];
        IReadOnlyList<List<SectorCheck>> runs = SectorRing.Runs(sectors);
        Assert.Equal([[270.0, 0], [90, 180]], runs.Select(r => r.Select(s => s.CourseDeg)));
    }

    // The whole fall zone lies inside the ring of directions, whose inner radius is 240 px: nothing of it is hidden.
    [Fact]
    public void PlanView_FallZone_IsShownWhole()
    {
        XElement svg = XElement.Parse(ApproachPlanView.Draw(Plan, Around, DisplayUnits.Feet));
        (double X, double Y)[] zone = Points(svg, "fall-zone");
        double x0 = Number(svg, "data-x0"), y0 = Number(svg, "data-y0"), perMetre = Number(svg, "data-per-metre");
        Assert.All(zone, p => Assert.InRange(Math.Sqrt((p.X - x0) * (p.X - x0) + (p.Y - y0) * (p.Y - y0)), 0, 240));
        Assert.Equal(zone[0], zone[^1]);
        // Closed form: the way is drawn from before the start mark on and people keep more than 5 m, so the zone reaches farther back than mark and 5 m.
        ApproachGate start = Plan.Gates[0];
        (double sin, double cos) = Math.SinCos(double.DegreesToRadians(Plan.CourseDeg));
        double farthest = zone.Max(p => -((p.X - x0) * sin + (y0 - p.Y) * cos) / perMetre);
        Assert.True(farthest > start.DistanceM + 5, $"{farthest} m");
    }

    [Fact]
    public void Of_Offered_EveryPictureSaysWhatItIsOfAndTheJobsName()
    {
        foreach (string name in new[] { "side.svg", "plan.svg", "profile.svg", "scatter.svg" })
        {
            string[] texts = [.. XElement.Parse(Drawn(name, "offered")).Elements().Where(e => e.Name.LocalName == "text").Select(e => e.Value)];
            Assert.Contains(texts, t => t.StartsWith("Load 9 (stone bag) to path bend; ", StringComparison.Ordinal) && t.EndsWith("(invented, not for flight)", StringComparison.Ordinal));
            Assert.Contains(texts, t => t.Contains("wind 250° 5 kt", StringComparison.Ordinal));
        }
    }

    // Closed form: with the wind from ahead a load at even speed trails, one that slows down at the end of the way swings ahead of the hook's place.
    [Fact]
    public void Profile_ShowsWhereTheLoadHangsFromUnderTheHook()
    {
        XElement svg = XElement.Parse(ApproachProfile.Draw(Plan, DisplayUnits.Feet));
        XElement title = svg.Elements().Single(e => e.Value == "Load from under the hook, m");
        double top = Number(title, "y") + 8, bottom = top + 98;
        string[] curves = [.. svg.Elements().Where(e => e.Name.LocalName == "path" && e.Attribute("class")!.Value == "track").Select(e => e.Attribute("d")!.Value)];
        (double X, double Y)[] ahead = Parsed(curves[^1]);
        Assert.All(ahead, p => Assert.InRange(p.Y, top - 0.1, bottom + 0.1));
        double zero = Number(svg.Elements().Last(e => e.Name.LocalName == "line" && e.Attribute("class")!.Value == "ground" && Number(e, "y1") == Number(e, "y2")), "y1");
        Assert.True(ahead[0].Y > zero + 5, "trails at the start");
        Assert.True(ahead.Min(p => p.Y) < zero - 5, "ahead while slowing down");
        Assert.Equal(zero, ahead[^1].Y, 8.0);
    }

    // A wire's name finds room along the wire; nothing that is written lies on something else that is written.
    [Fact]
    public void PlanView_NoTextLiesOnAnother()
    {
        XElement svg = XElement.Parse(ApproachPlanView.Draw(Plan, Around, DisplayUnits.Feet));
        (string Text, double Left, double Top, double Right)[] boxes = [.. svg.Elements().Where(e => e.Name.LocalName == "text").Select(e =>
        {
            double x = Number(e, "x"), width = 0.5 * 13 * e.Value.Length;
            double left = e.Attribute("text-anchor")!.Value switch { "middle" => x - width / 2, "end" => x - width, _ => x };
            return (e.Value, left, Number(e, "y") - 10, left + width);
        })];
        for (int i = 0; i < boxes.Length; i++)
            for (int k = 0; k < i; k++)
                Assert.False(boxes[i].Left < boxes[k].Right && boxes[k].Left < boxes[i].Right && Math.Abs(boxes[i].Top - boxes[k].Top) < 11, $"'{boxes[i].Text}' on '{boxes[k].Text}'");
    }

    // A load let go anywhere on the way lands inside the outline with the whole margin round it.
    [Fact]
    public void FallOutline_HoldsEveryLandingWithItsMargin()
    {
        const double margin = 10;
        WayIn way = Plan.Way!;
        CourseFrame course = new(way.CourseDeg);
        IReadOnlyList<(double East, double North)> outline = FallOutline.Of(way, margin, 1000, null);
        Enu wind = course.ToEnu(new(way.Path.Hanging.WindAlongMs, way.Path.Hanging.WindRightMs, 0));
        for (int i = 0; i < way.Path.Count; i += 10)
        {
            Enu under = course.ToEnu(way.Path.Load[i]), velocity = course.ToEnu(new(way.Path.SpeedMs[i], 0, 0));
            double fall = Math.Sqrt(2 * way.Path.LoadHeightM[i] / 9.80665);
            // In still air, with the whole wind, and with a share of it.
            foreach (Enu place in new[] { under, under + fall * velocity, under + fall * (velocity + wind), under + fall * (velocity + 0.4 * wind) })
                Assert.InRange(Inside(outline, place), margin - 1e-6, double.PositiveInfinity);
        }
    }

    // Least distance of a place to the sides of an anticlockwise outline, positive inside.
    private static double Inside(IReadOnlyList<(double East, double North)> outline, Enu place)
    {
        double least = double.PositiveInfinity;
        for (int i = 0; i < outline.Count; i++)
        {
            (double East, double North) a = outline[i], b = outline[(i + 1) % outline.Count];
            double east = b.East - a.East, north = b.North - a.North;
            least = Math.Min(least, (east * (place.North - a.North) - north * (place.East - a.East)) / Math.Sqrt(east * east + north * north));
        }
        return least;
    }

    [Fact]
    public void Scatter_RingsAreAsWideAsTheyAreSaidToBe()
    {
        XElement svg = XElement.Parse(ApproachScatter.Draw(Plan, Around, DisplayUnits.Feet));
        double perMetre = Number(svg, "data-per-metre");
        XElement Ring(string css) => svg.Elements().Single(e => e.Name.LocalName == "circle" && e.Attribute("class")!.Value == css);
        Assert.Equal(Plan.Robustness!.MissM.Half, Number(Ring("half"), "r") / perMetre, 0.06 / perMetre);
        Assert.Equal(Plan.Robustness.MissM.NinetyFive, Number(Ring("ninety-five"), "r") / perMetre, 0.06 / perMetre);
        Assert.InRange(svg.Elements().Count(e => e.Attribute("class")?.Value == "place"), 900, ApproachScatter.MostDots);
    }

    [Fact]
    public void Profile_HasAStripForEachAndTheHundredPerCentLine()
    {
        string[] texts = [.. XElement.Parse(ApproachProfile.Draw(Plan, DisplayUnits.Feet)).Elements().Select(e => e.Value)];
        foreach (string text in new[] { "Speed, kt", "Sink, ft/min", "Power expected, % torque", "Load over the spot's ground, ft", "through the air", "limit", "100 %" })
            Assert.Contains(text, texts);
        Assert.DoesNotContain(XElement.Parse(ApproachProfile.Draw(Plan with { Power = null }, DisplayUnits.Feet)).Elements(), e => e.Value.StartsWith("Power expected", StringComparison.Ordinal));
    }

    [Fact]
    public void Draw_Refused_SaysWhyAndShowsTheDirections()
    {
        ApproachPlan refused = ExampleApproach.Refused;
        Assert.False(refused.IsOffered);
        Assert.NotNull(refused.Refused);
        string said = string.Join(' ', XElement.Parse(ApproachSideView.Draw(refused, ExampleApproach.Around(refused), DisplayUnits.Feet)).Elements().Where(e => e.Name.LocalName == "text").Select(e => e.Value));
        Assert.Contains(refused.Refused, said, StringComparison.Ordinal);
        Assert.Equal(refused.Sectors.Count, XElement.Parse(ApproachPlanView.Draw(refused, ExampleApproach.Around(refused), DisplayUnits.Feet)).Elements().Count(e => e.Name.LocalName == "path" && e.Attribute("class")!.Value == "ruled-out"));
        Assert.Null(ExampleApproach.Unplanned.Situation);
    }

    [Fact]
    public void WithStyles_NotAPicture_Throws() => Assert.Throws<ArgumentException>(() => StandaloneSvg.WithStyles("<p>no</p>"));

    private static (double X, double Y)[] Points(XElement svg, string css) =>
        Parsed(svg.Elements().First(e => e.Name.LocalName == "path" && e.Attribute("class")!.Value == css).Attribute("d")!.Value);

    private static (double X, double Y)[] Parsed(string d) =>
        [.. PointInPath().Matches(d).Select(m => (double.Parse(m.Groups[1].ValueSpan, CultureInfo.InvariantCulture), double.Parse(m.Groups[2].ValueSpan, CultureInfo.InvariantCulture)))];

    private static double Number(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"[ML](-?[\d.]+) (-?[\d.]+)")]
    private static partial Regex PointInPath();
}
