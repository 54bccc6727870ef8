using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using System.Xml;
using System.Xml.Linq;
using Json.Schema;
using Stillhook.App.Commands;
using Stillhook.Files.Reports;
using Stillhook.Pdf;
using Stillhook.Reporting;
using Stillhook.Reporting.Printing;
using Stillhook.Tests.Pdf;
using Stillhook.Tests.Reporting;

namespace Stillhook.Tests.Files.Reports;

/// <summary>The day sheet as HTML, PDF and JSON: the figures of the text sheet, safe with any name, the same bytes each time.</summary>
public partial class DaySheetFilesTests
{
    private static readonly XNamespace Html = "http://www.w3.org/1999/xhtml", Svg = "http://www.w3.org/2000/svg";

    private static byte[] Bytes(Action<Stream> write)
    {
        using MemoryStream bytes = new();
        write(bytes);
        return bytes.ToArray();
    }

    private static string Page(DaySheet sheet) => Encoding.UTF8.GetString(Bytes(s => DaySheetHtml.Write(s, sheet)));

    private static string Json(DaySheet sheet) => Encoding.UTF8.GetString(Bytes(s => DaySheetDocuments.Write(s, sheet)));

    private static XDocument Read(string html)
    {
        using XmlReader reader = XmlReader.Create(new StringReader(html), new() { DtdProcessing = DtdProcessing.Ignore });
        return XDocument.Load(reader);
    }

    private static string TextSheet(DaySheet sheet)
    {
        using StringWriter text = new(CultureInfo.InvariantCulture);
        new DaySheetText(text, sheet).Write();
        return text.ToString();
    }

    [Fact]
    public void Html_HostileNames_AreWordsAndNothingElse()
    {
        string text = Page(EverythingDay.Sheet);
        XDocument page = Read(text);
        Assert.DoesNotContain("<script", text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain(page.Descendants(), e => e.Name.LocalName is "script" or "img" or "link");
        Assert.DoesNotContain(page.Descendants().Attributes(), a => a.Name.LocalName is "src" or "href" or "style");
        // Job, pilot, family, note of the mark, event and correction: all of them stand there as typed.
        Assert.True(Regex.Count(page.Root!.Value, Regex.Escape(EverythingDay.Hostile)) >= 6);
    }

    [Fact]
    public void Html_Sheet_HeadingsTablesAndPicturesAreForEverybody()
    {
        XDocument page = Read(Page(EverythingDay.Sheet));
        Assert.Single(page.Descendants(Html + "h1"));
        Assert.Equal(["Write up", "For a person to look at", "What may have to be reported", "Lifts per hour", "How the time went", "Duty and breaks", "Plan, tally, record", "Counts for maintenance", "Lifts", "Put right by people", "About the figures"],
            page.Descendants(Html + "h2").Select(h => h.Value));
        Assert.All(page.Descendants(Html + "th"), th => Assert.True(th.Attribute("scope") is not null && th.Value.Length > 0));
        Assert.Equal(2, page.Descendants(Svg + "svg").Count());
        Assert.All(page.Descendants(Svg + "svg"), svg => Assert.True(svg.Attribute("role")?.Value == "img" && svg.Element(Svg + "title")?.Value.Length > 10));
    }

    // For the page of the day: what stands between the frame's title and foot, headings one lower where they are asked so, and nothing of the frame.
    [Fact]
    public void Inner_Sheet_IsOneElementWithoutAFrame()
    {
        string inner = DaySheetHtml.Inner(EverythingDay.Sheet, headingLevel: 3);
        XElement element = XElement.Parse(inner);
        Assert.Equal(("div", "printed"), (element.Name.LocalName, element.Attribute("class")!.Value));
        Assert.DoesNotContain(element.Descendants(), e => e.Name.LocalName is "h1" or "h2" or "style" or "html" or "main");
        Assert.Equal(11, element.Elements("h3").Count());
        Assert.Equal(Read(Page(EverythingDay.Sheet)).Descendants(Html + "td").Select(d => d.Value), element.Descendants("td").Select(d => d.Value));
        Assert.Throws<ArgumentOutOfRangeException>(() => DaySheetHtml.Inner(EverythingDay.Sheet, 4));
        Assert.All(LooksRule().Matches(PrintedHtml.Looks).Where(m => !m.Value.StartsWith('@')), m => Assert.All(m.Groups[1].Value.Split(','), s => Assert.StartsWith(".printed", s.Trim(), StringComparison.Ordinal)));
    }

    [Fact]
    public void Files_WrittenTwiceAndUnderACommaCulture_AreTheSameBytes()
    {
        byte[][] first = [.. All()], comma;
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new("de-DE");
            comma = [.. All()];
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
        Assert.Equal(first, comma);

        static IEnumerable<byte[]> All()
        {
            DaySheet sheet = EverythingDay.Sheet;
            return [Bytes(s => DaySheetHtml.Write(s, sheet)), new PdfMaker().Make(DayPrint.Of(sheet)), Bytes(s => DaySheetDocuments.Write(s, sheet)), Encoding.UTF8.GetBytes(TextSheet(sheet))];
        }
    }

    // Every number and clock time that the text sheet tells stands on paper and in the page too.
    [Fact]
    public void PdfAndHtml_Sheet_TellEveryFigureOfTheText()
    {
        DaySheet sheet = EverythingDay.Sheet;
        string text = TextSheet(sheet), paper = PdfMakerTests.ReadBack(new PdfMaker().Make(DayPrint.Of(sheet))), page = Read(Page(sheet)).Root!.Value;
        HashSet<string> onPaper = [.. Figure().Matches(paper).Select(m => m.Value)], onPage = [.. Figure().Matches(page.Replace("min", " min", StringComparison.Ordinal)).Select(m => m.Value)];
        string[] told = [.. Figure().Matches(text).Select(m => m.Value).Distinct()];
        Assert.True(told.Length > 60, $"{told.Length} figures in the text");
        Assert.Empty(told.Except(onPaper));
        Assert.Empty(told.Except(onPage.Concat(Figure().Matches(Page(sheet)).Select(m => m.Value))));
        Assert.InRange(paper.Count(c => c == '\f'), 1, 4);
    }

    // Closed form: 29 of 30 lifts and one by hand count; masses 701 to 730 without those of 9 and of 25, which is struck out: 21 465 - 709 - 725 = 20 031 kg; 84 + 60 = 144 min in the air; 12.5 an hour; fuel 280 + 200 - 270 + 270 - 90 = 390 kg, 4 980 + 30 = 5 010 lifts of the hook.
    [Fact]
    public void Json_Sheet_FiguresByHand()
    {
        JsonNode sheet = JsonNode.Parse(Json(EverythingDay.Sheet))!;
        Assert.Equal(("stillhook-day", 1), (sheet["schema"]!.GetValue<string>(), sheet["version"]!.GetValue<int>()));
        JsonNode totals = sheet["totals"]!;
        Assert.Equal((30, 20_031.0, 8640.0, 12.5), (totals["lifts"]!.GetValue<int>(), totals["carriedKg"]!.GetValue<double>(), totals["flownS"]!.GetValue<double>(), totals["liftsPerHourFlown"]!.GetValue<double>()));
        Assert.Equal(390, sheet["fuel"]!["usedKg"]!.GetValue<double>());
        Assert.Equal((5_010, "fails"), (sheet["parts"]![0]!["liftsToDate"]!.GetValue<int>(), sheet["parts"]![0]!["rules"]![0]!["verdict"]!.GetValue<string>()));
        Assert.Equal("2026-06-01T08:50:00+02:00", sheet["writeUps"]![0]!["at"]!.GetValue<string>());
        JsonNode minutes = sheet["time"]!["minutes"]!;
        // Closed form: 330 min from reporting to off: 144 flown, 31 for the customer, 19 weather, 8 fuel, the rest other.
        Assert.Equal([144, 31, 19, 8, 0, 128], new[] { "flownMin", "waitingOnCustomerMin", "weatherMin", "fuelMin", "defectMin", "otherMin" }.Select(k => minutes[k]!.GetValue<int>()));
        Assert.Equal(31, sheet["lifts"]!.AsArray().Count);
        Assert.Equal("703 kg", sheet["corrections"]![0]!["is"]!.GetValue<string>());
    }

    [Fact]
    public void Json_Sheets_FitTheSchemaAndASpoiltOneDoesNot()
    {
        JsonSchema schema = JsonSchema.FromText(DaySheetDocuments.Schema());
        foreach (DayWork work in new[] { EverythingDay.Work, EverythingDay.Empty, ReportedDays.Small })
        {
            using JsonDocument document = JsonDocument.Parse(Json(Job.Day(work)));
            Assert.True(schema.Evaluate(document.RootElement).IsValid);
        }
        JsonNode spoilt = JsonNode.Parse(Json(EverythingDay.Sheet))!;
        spoilt["totals"]!["lifts"] = "thirty";
        using JsonDocument refused = JsonDocument.Parse(spoilt.ToJsonString());
        Assert.False(schema.Evaluate(refused.RootElement).IsValid);
    }

    // An empty day makes a sheet too, and nothing is made up in it.
    [Fact]
    public void Files_EmptyDay_AreWritten()
    {
        DaySheet sheet = Job.Day(EverythingDay.Empty);
        Assert.Contains("No lift is kept.", Read(Page(sheet)).Root!.Value, StringComparison.Ordinal);
        Assert.Contains("Page 1 of 1", PdfMakerTests.ReadBack(new PdfMaker().Make(DayPrint.Of(sheet))), StringComparison.Ordinal);
    }

    [Fact]
    public void CustomerJson_Reports_FitTheirSchemaAndTellNothingPrivate()
    {
        JsonSchema schema = JsonSchema.FromText(CustomerReportDocuments.Schema());
        foreach (CustomerReport report in new[] { ReportedDays.SmallReport, ReportedDays.Large, CustomerReporter.Report([EverythingDay.Empty]) })
        {
            string json = Encoding.UTF8.GetString(Bytes(s => CustomerReportDocuments.Write(s, report)));
            using JsonDocument document = JsonDocument.Parse(json);
            Assert.True(schema.Evaluate(document.RootElement).IsValid);
            Assert.All(Stillhook.Tests.Reporting.Printing.CustomerPrintTests.Private, word => Assert.DoesNotContain(word, json, StringComparison.OrdinalIgnoreCase));
        }
        JsonNode small = JsonNode.Parse(Encoding.UTF8.GetString(Bytes(s => CustomerReportDocuments.Write(s, ReportedDays.SmallReport))))!;
        // Closed form: 612 + 650 + 700 + 300 kg; 3000 + 360 + 500 in money.
        Assert.Equal((2262.0, 3860m), (small["totals"]!["massKg"]!.GetValue<double>(), small["invoice"]!["total"]!.GetValue<decimal>()));
        Assert.Equal("2026-06-01T08:40:40+02:00", small["placed"]![1]!["placedAt"]!.GetValue<string>());
    }

    [GeneratedRegex(@"\d{4}-\d\d-\d\d|\d\d:\d\d(?::\d\d)?|\d+(?:\.\d+)?", RegexOptions.CultureInvariant)]
    private static partial Regex Figure();

    [GeneratedRegex(@"^\s*([^{}@]+?)\s*\{", RegexOptions.CultureInvariant | RegexOptions.Multiline)]
    private static partial Regex LooksRule();
}
