using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Briefing.Printing;
using Stillhook.Files.Cards;
using Stillhook.Files.Pictures;
using Stillhook.Files.Reports;
using Stillhook.Pdf;
using Stillhook.Planning;
using Stillhook.Tests.Approaching;
using Stillhook.Tests.Briefing;
using UnitsNet;

namespace Stillhook.Tests.Files.Cards;

/// <summary>The cockpit card as a pilot reads it, from PDF and page.</summary>
public partial class CockpitPrintTests
{
    private static PrintedCard Cockpit(Brief brief, DisplayUnits? units = null) => CardPrints.Of(brief, units ?? DisplayUnits.Feet).First(c => c.Name.StartsWith("cockpit", StringComparison.Ordinal));

    private static CardTable Marks(PrintedCard card) => card.Parts.OfType<CardTable>().First();

    // Published: the mark card. Closed form: 2 100 + 110 = 2 210, next mark 2 220; 0.5 NM x tan 8 deg = 427 ft, 2 637, next mark 2 640; 101.27 x 40 x tan 8 deg = 569, nearest 50 below is 550.
    // Pinned: the reject gate, own computation, as in the approach's own test.
    [Fact]
    public void Of_MarkCard_PrintsItsFourFiguresAndTheRejectGate()
    {
        PrintedCard card = Cockpit(BriefedJobs.MarkCardBrief);
        Assert.Equal(["1 start", "2640", "926", "40 air", "550"], Marks(card).Rows[0].Cells);
        CardFigure[] figures = [.. card.Parts.OfType<CardFigures>().SelectMany(f => f.Figures)];
        Assert.Equal("2220 ft", figures.Single(f => f.Label.StartsWith("Over the spot", StringComparison.Ordinal)).Value);
        Assert.Equal(("2240 ft", "50 m"), (figures.Single(f => f.Label.StartsWith("R  ", StringComparison.Ordinal)).Value, figures.Single(f => f.Label.StartsWith("R  ", StringComparison.Ordinal)).Under));

        string words = PdfText.Words(new PdfCardMaker().Make(card));
        Assert.StartsWith("Advice only. Flight manual, operations manual, local rules and the pilot decide.", words, StringComparison.Ordinal);
        foreach (string part in new[] { "2220 ft", "2640", "550", "40 air", "2240 ft", "1013.3 hPa", Cautions.Gates, "1 hPa is 27 ft" })
            Assert.Contains(part, words, StringComparison.Ordinal);
    }

    // The figures on the card are those of the approach, one by one.
    [Fact]
    public void Of_Example_FiguresAreThoseOfTheApproach()
    {
        CockpitCard card = BriefedJobs.ExampleBrief.Cockpit[0];
        ApproachPlan plan = ApproachPlanner.Plan(BriefedJobs.Example, Planner.Plan(BriefedJobs.Example, new()), ApproachJobs.Quick with { Load = "9" });
        Assert.True(card.Marks.Count >= 2, $"{card.Marks.Count} marks");
        Assert.Equal(plan.Gates.Take(card.Marks.Count).Select(g => (g.DistanceM, g.AltimeterFt, g.GroundMs, g.SinkMs)), card.Marks.Select(m => (m.DistanceM, m.AltimeterFt, m.GroundMs, m.SinkMs)));
        Assert.Equal(plan.Gates[^1].AltimeterFt, card.OverTheSpotFt);
        Assert.Equal(plan.Gate(ApproachGates.PowerInName)!.AltimeterFt, card.PowerIn!.Mark.AltimeterFt);
        Assert.Equal(plan.Gate(ApproachGates.RejectName)!.DistanceM, card.Reject!.Mark.DistanceM);
        Assert.Equal((plan.CourseDeg, plan.Situation!.PeriodS, plan.Situation.Hover!.LeftPercent), (card.CourseDeg, card.Period!.Value.HeldS, card.PowerLeftPercent));
    }

    // Nothing asks for eyes inside below the first gate: every mark of the table is above it and farther out.
    [Theory, InlineData(true), InlineData(false)]
    public void Of_Marks_EndAboveTheFirstGate(bool example)
    {
        CockpitCard card = (example ? BriefedJobs.ExampleBrief : BriefedJobs.MarkCardBrief).Cockpit[0];
        double gate = Math.Max(card.PowerIn!.Mark.DistanceM, card.Reject!.Mark.DistanceM);
        Assert.All(card.Marks, m => Assert.True(m.DistanceM > gate, $"{m.DistanceM} m inside the gate at {gate} m"));
        PrintedCard printed = Cockpit(example ? BriefedJobs.ExampleBrief : BriefedJobs.MarkCardBrief);
        Assert.Equal(card.Marks.Count, Marks(printed).Rows.Count);
        Assert.Contains(printed.Parts.OfType<CardText>(), t => t.Text == CardCautions.EyesOutside);
    }

    [Fact]
    public void Of_NoApproach_SaysWhatBlocksAndGivesNoMark()
    {
        Brief brief = BriefedJobs.Of(BriefedJobs.MarkCard with { Approach = new() { Start = Length.FromMeters(60) } });
        Assert.False(brief.AllFlyable);
        PrintedCard card = Cockpit(brief);
        Assert.DoesNotContain(card.Parts, p => p is CardTable or CardFigures or CardPicture);
        string words = PdfText.Words(new PdfCardMaker().Make(card));
        Assert.Contains("NO APPROACH", words, StringComparison.Ordinal);
        Assert.Contains(brief.Cockpit[0].Blocked!.Split(' ')[0], words, StringComparison.Ordinal);
        Assert.DoesNotContain("2640", words, StringComparison.Ordinal);
    }

    // A load that the plan does not lift has no cockpit card to fly by, though a path could be drawn.
    [Fact]
    public void Of_LoadThatDoesNotLift_IsBlocked()
    {
        Brief brief = BriefedJobs.Of(BriefedJobs.MarkCard with { Loads = [BriefedJobs.MarkCard.Loads[0] with { Mass = Mass.FromKilograms(2500) }] });
        Assert.NotNull(brief.Cockpit[0].Blocked);
        Assert.Empty(brief.Cockpit[0].Marks);
    }

    [Fact]
    public void Make_TwiceAndUnderGermanCulture_SameBytes()
    {
        (byte[] Pdf, string Html) Make()
        {
            PrintedCard card = Cockpit(BriefedJobs.Of(BriefedJobs.Example));
            return (new PdfCardMaker().Make(card), CardHtml.Page(card));
        }
        CultureInfo before = CultureInfo.CurrentCulture;
        (byte[] Pdf, string Html) here = Make(), comma;
        try
        {
            CultureInfo.CurrentCulture = new("de-DE");
            comma = Make();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
        Assert.Equal(here.Html, comma.Html);
        Assert.Equal(here.Pdf, comma.Pdf);
        Assert.Contains("/CreationDate(D:20260601044000", Encoding.Latin1.GetString(here.Pdf), StringComparison.Ordinal);
    }

    // A setting of the forecast is not said to have been read.
    [Fact]
    public void Of_SettingOfTheForecast_IsNotSaidToBeRead()
    {
        LiftRequest job = BriefedJobs.MarkCard.WithSpot(s => s with
        {
            Weather = s.Weather! with { Time = new DateTimeOffset(2026, 6, 1, 6, 10, 0, TimeSpan.Zero) },
            Forecast = [new() { Hour = new TimeOnly(7, 0), Temperature = s.Weather.Temperature, Qnh = Pressure.FromHectopascals(1009) }, new() { Hour = new TimeOnly(9, 0), Temperature = s.Weather.Temperature, Qnh = Pressure.FromHectopascals(1009) }],
        });
        CockpitCard forecast = BriefedJobs.Of(job).Cockpit[0], read = BriefedJobs.Of(job.WithSpot(s => s with { Forecast = [] })).Cockpit[0];
        Assert.Equal(100_900, forecast.QnhPa!.Value, 1.0);
        Assert.Null(forecast.QnhAt);
        Assert.Equal(new TimeOnly(6, 10), read.QnhAt);
    }

    // Metres, km/h, m/s on one card and never beside ft, kt, ft/min; the altimeter alone stays in ft.
    [Fact]
    public void Of_Metres_MixesNoUnitsAndKeepsTheAltimeterInFeet()
    {
        string words = PdfText.Words(new PdfCardMaker().Make(Cockpit(BriefedJobs.ExampleBrief, DisplayUnits.Metres)));
        Assert.DoesNotMatch(Knots(), words);
        Assert.DoesNotContain("ft/min", words, StringComparison.Ordinal);
        Assert.DoesNotContain(" lb", words, StringComparison.Ordinal);
        Assert.Contains("km/h", words, StringComparison.Ordinal);
        Assert.Contains("Altimeter, ft", words, StringComparison.Ordinal);
        string pounds = PdfText.Words(new PdfCardMaker().Make(Cockpit(BriefedJobs.ExampleBrief, DisplayUnits.Pounds)));
        Assert.Contains("inHg", pounds, StringComparison.Ordinal);
        Assert.DoesNotMatch(KilogramsOrHectopascals(), pounds);
    }

    [Fact]
    public void Page_Example_IsWellFormedAndSaysWhatThePdfSays()
    {
        PrintedCard card = Cockpit(BriefedJobs.ExampleBrief);
        XElement page = XDocument.Parse(CardHtml.Page(card).Replace("<!DOCTYPE html>", "", StringComparison.Ordinal)).Root!;
        XNamespace x = "http://www.w3.org/1999/xhtml";
        Assert.Equal(Cautions.Plan, page.Descendants(x + "article").Single().Elements().First().Value);
        Assert.Equal(["h1", "h2", "h2", "h2"], page.Descendants().Where(e => e.Name.LocalName is ['h', >= '1' and <= '6']).Select(e => e.Name.LocalName));
        Assert.Contains("size: A5", CardHtml.Page(card), StringComparison.Ordinal);
        Assert.All(Marks(card).Rows.SelectMany(r => r.Cells), cell => Assert.Contains(page.Descendants(x + "td"), td => td.Value == cell));
    }

    // All that is read in flight stands on the front of one A5 sheet.
    [Fact]
    public void Make_Example_FitsTheFrontOfOneSheetDownToTheSketch()
    {
        IReadOnlyList<string> pages = PdfText.Pages(new PdfCardMaker().Make(Cockpit(BriefedJobs.ExampleBrief)));
        Assert.True(pages.Count <= 2, $"{pages.Count} pages");
        Assert.Contains("Land and re-brief when", pages[0], StringComparison.Ordinal);
        Assert.Contains("dashes: load", pages[0], StringComparison.Ordinal);
    }

    [GeneratedRegex(@"\d kt\b|\bkt\b", RegexOptions.CultureInvariant)]
    private static partial Regex Knots();

    [GeneratedRegex(@"\d kg\b|\d hPa\b", RegexOptions.CultureInvariant)]
    private static partial Regex KilogramsOrHectopascals();
}
