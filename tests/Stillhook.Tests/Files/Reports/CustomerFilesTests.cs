using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using System.Xml;
using System.Xml.Linq;
using Stillhook.Files.Jobs;
using Stillhook.Files.Records;
using Stillhook.Files.Reports;
using Stillhook.Planning;
using Stillhook.Recording;
using Stillhook.Reporting;
using Stillhook.Tests.Files.Jobs;
using Stillhook.Tests.Reporting;
using Stillhook.Tests.Reporting.Printing;
using UnitsNet;

namespace Stillhook.Tests.Files.Reports;

public class CustomerFilesTests
{
    private static readonly Dictionary<string, Action<Stream, CustomerReport>> Writers = new()
    {
        ["html"] = (s, r) => CustomerReportHtml.Write(s, r), ["placed"] = PlacedCsv.Write, ["invoice"] = InvoiceCsv.Write, ["geojson"] = PlacedGeoJson.Write, ["gpx"] = PlacedGpx.Write,
    };

    /// <summary>A report with names that break careless writers.</summary>
    private static CustomerReport Awkward => CustomerReporter.Report(
        [ReportedDays.Small with { Lifts = [ReportedDays.Lift(1, "=1+1,\"x\"", ReportedDays.At(8, 20), 600, at: ReportedDays.Spot(0, 0)) with { Family = "<b>&\u0001 'é \ud800" }], Job = ReportedDays.Small.Job! with { Job = "A & B <script>alert(1)</script>\n// x", Customer = "\"Quoted\"" } }]);

    private static string Text(string writer, CustomerReport report)
    {
        using MemoryStream bytes = new();
        Writers[writer](bytes, report);
        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    /// <summary>Rows of an RFC 4180 file, read apart from the writer.</summary>
    private static List<string[]> Csv(string text)
    {
        List<string[]> rows = [];
        List<string> row = [];
        StringBuilder field = new();
        bool quoted = false;
        for (int i = 0; i < text.Length; i++)
            switch (text[i])
            {
                case '"' when quoted && i + 1 < text.Length && text[i + 1] == '"': field.Append('"'); i++; break;
                case '"': quoted = !quoted; break;
                case ',' when !quoted: row.Add(field.ToString()); field.Clear(); break;
                case '\r' when !quoted && text[i + 1] == '\n': row.Add(field.ToString()); field.Clear(); rows.Add([.. row]); row.Clear(); i++; break;
                default: field.Append(text[i]); break;
            }
        Assert.True(field.Length == 0 && row.Count == 0, "The file ends with CR LF.");
        return rows;
    }

    [Fact]
    public void Placed_SmallDay_ReadsBack()
    {
        List<string[]> rows = Csv(Text("placed", ReportedDays.SmallReport));
        Assert.Equal(["load", "name", "mass_kg", "mass_known_by", "placed_at_local", "site", "latitude_deg", "longitude_deg", "on_load_list"], rows[0]);
        Assert.Equal(["A1", "stone bag", "612.0", "load cell", "2026-06-01T08:20:00+02:00", "spot", "46.900000", "10.100000", "yes"], rows[1]);
        Assert.Equal(5, rows.Count);
    }

    [Fact]
    public void Invoice_SmallDay_ReadsBackAndAddsUp()
    {
        List<string[]> rows = Csv(Text("invoice", ReportedDays.SmallReport));
        Assert.Equal("amount_EUR", rows[0][5]);
        // Closed form: 3000 + 360 + 500; waiting has no price.
        Assert.Equal(3860m, rows.Skip(1).Sum(r => r[5].Length == 0 ? 0 : decimal.Parse(r[5], CultureInfo.InvariantCulture)));
        Assert.Equal(["4", "Waiting for the customer", "0.33", "h", "", ""], rows[4]);
    }

    // A spreadsheet must not run what somebody typed as a load's number; quotes and commas come back.
    [Fact]
    public void Placed_AwkwardNames_QuotedAndNoFormula()
    {
        List<string[]> rows = Csv(Text("placed", Awkward));
        Assert.Equal("'=1+1,\"x\"", rows[1][0]);
        Assert.Equal(9, rows[1].Length);
    }

    [Fact]
    public void GeoJson_SmallDay_PointsLongitudeFirst()
    {
        JsonArray features = JsonNode.Parse(Text("geojson", ReportedDays.SmallReport))!["features"]!.AsArray();
        Assert.Equal(4 + 2, features.Count);
        JsonNode second = features[1]!;
        // Closed form: 30 m east over 76 170 m a degree.
        Assert.Equal(10.1 + 30 / 76_170.0, second["geometry"]!["coordinates"]![0]!.GetValue<double>(), 1e-6);
        Assert.Equal(46.9, second["geometry"]!["coordinates"]![1]!.GetValue<double>(), 1e-6);
        Assert.Equal(("A2", 650, "label"), (second["properties"]!["load"]!.GetValue<string>(), second["properties"]!["massKg"]!.GetValue<double>(), second["properties"]!["massKnownBy"]!.GetValue<string>()));
        Assert.Equal("pickUp", features[4]!["properties"]!["use"]!.GetValue<string>());
    }

    [Fact]
    public void GeoJson_NoPosition_GeometryIsNull()
    {
        CustomerReport report = CustomerReporter.Report([ReportedDays.Small with { Lifts = [ReportedDays.Lift(1, "A1", ReportedDays.At(8, 20))] }]);
        JsonObject load = JsonNode.Parse(Text("geojson", report))!["features"]![0]!.AsObject();
        Assert.True(load.ContainsKey("geometry") && load["geometry"] is null);
    }

    // From memory: GPX 1.1 has the children of wpt in the order ele, time, magvar, geoidheight, name, cmt, desc, src, link, sym, type.
    [Fact]
    public void Gpx_SmallDay_OwnReaderCountsThemAndOrderIsTheSchemas()
    {
        string text = Text("gpx", ReportedDays.SmallReport);
        FlightRecord read = RecordReader.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "placed.gpx");
        Assert.Equal(6, read.WaypointCount);
        Assert.DoesNotContain(read.Findings, f => f.Code.StartsWith("xml", StringComparison.Ordinal) || f.Code is "not-gpx" or "file-cut");
        string[] order = ["ele", "time", "magvar", "geoidheight", "name", "cmt", "desc", "src", "link", "sym", "type"];
        XNamespace gpx = "http://www.topografix.com/GPX/1/1";
        XElement[] points = [.. XDocument.Parse(text).Root!.Elements(gpx + "wpt")];
        Assert.All(points, p => Assert.Equal(p.Elements().Select(e => Array.IndexOf(order, e.Name.LocalName)).Order(), p.Elements().Select(e => Array.IndexOf(order, e.Name.LocalName))));
        Assert.Equal(("46.900000", "10.100394", "2026-06-01T06:40:40Z", "A2"), (points[1].Attribute("lat")!.Value, points[1].Attribute("lon")!.Value, points[1].Element(gpx + "time")!.Value, points[1].Element(gpx + "name")!.Value));
    }

    private static XDocument Html(string text)
    {
        using XmlReader reader = XmlReader.Create(new StringReader(text), new() { DtdProcessing = DtdProcessing.Ignore });
        return XDocument.Load(reader);
    }

    [Fact]
    public void Html_SmallDay_WellFormedWithMapsAndTables()
    {
        XDocument page = Html(Text("html", ReportedDays.SmallReport));
        XNamespace html = "http://www.w3.org/1999/xhtml", svg = "http://www.w3.org/2000/svg";
        Assert.Equal(3, page.Descendants(svg + "svg").Count()); // two maps and the hours
        Assert.Contains("Road not closed yet.", page.Root!.Value, StringComparison.Ordinal);
        Assert.Contains(page.Descendants(html + "td"), td => td.Value == "3860.00");
        // Nothing is fetched from elsewhere.
        Assert.DoesNotContain(page.Descendants().Attributes(), a => a.Name.LocalName is "src" or "href");
    }

    [Fact]
    public void Html_AwkwardNames_AreWordsAndNothingElse()
    {
        string text = Text("html", Awkward);
        XDocument page = Html(text);
        Assert.DoesNotContain("<script", text, StringComparison.Ordinal);
        Assert.DoesNotContain(page.Descendants(), e => e.Name.LocalName is "script" or "b");
        Assert.Contains("<script>alert(1)</script>", page.Root!.Value, StringComparison.Ordinal);
        Assert.NotNull(XDocument.Parse(Text("gpx", Awkward)).Root);
        Assert.NotNull(JsonNode.Parse(Text("geojson", Awkward)));
    }

    [Theory]
    [InlineData("html")]
    [InlineData("placed")]
    [InlineData("invoice")]
    [InlineData("geojson")]
    [InlineData("gpx")]
    public void Write_AnyFile_SameUnderEveryCultureAndNothingPrivate(string writer)
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        string here = Text(writer, ReportedDays.Large), comma;
        try
        {
            CultureInfo.CurrentCulture = new("de-DE");
            comma = Text(writer, ReportedDays.Large);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
        Assert.Equal(here, comma);
        string content = writer == "html" ? Html(here).Root!.Elements().Last().Value : here;
        Assert.All(CustomerPrintTests.Private, word => Assert.DoesNotContain(word, content, StringComparison.OrdinalIgnoreCase));
    }

    // A site file starts the next job without a finding; what was of the day is gone, the measured time is there.
    [Fact]
    public void SiteFile_ExampleJob_ReadsBackWithoutFindings()
    {
        LiftRequest job = JobExample.Read(JobExample.Text).Request;
        KeptLift[] lifts = [.. new double?[] { 83, 95, 107, 83, 107 }.Select(c => new KeptLift { Number = 1, PickUpSite = "yard", DeliverySite = "spot", Measures = new() { CycleTimeS = c } })];
        using MemoryStream bytes = new();
        SiteFile.Write(bytes, job with { Job = "Path\u2028repair\n\"x\"" }, lifts);
        JobFile read = JobFile.Read(new MemoryStream(bytes.ToArray()));
        Assert.Empty(read.Findings);
        // Closed form: mean 95 s, spread 12 s, of five.
        Assert.Equal((95, 12, 5), (read.Request.Quote!.Cycle!.Value.Seconds, read.Request.Quote.CycleSpread!.Value.Seconds, read.Request.Quote.MeasuredOn!.Value));
        Assert.Equal(job.Sites.Select(s => (s.Name, s.Use)), read.Request.Sites.Select(s => (s.Name, s.Use)));
        Assert.Equal(JobExample.Dump(job.Sites.Select(s => s.Landmarks).ToList()), JobExample.Dump(read.Request.Sites.Select(s => s.Landmarks).ToList()));
        Assert.Contains(job.Sites, s => s.Weather is not null || s.Recon is not null);
        Assert.All(read.Request.Sites, s => Assert.True(s is { Weather: null, Recon: null, Forecast.Count: 0, People.Count: 0 }));
    }

    // A wire that was dead yesterday is live until its owner says otherwise again.
    [Fact]
    public void SiteFile_DeadWire_IsNotDeadAnyMore()
    {
        LiftRequest job = ReportedDays.Small.Job!;
        job = job with { Sites = [job.Sites[0] with { Wires = [new() { Name = "valley line", Voltage = ElectricPotential.FromKilovolts(20), Dead = true, ClosestPlanned = Length.FromMeters(9), Height = Length.FromMeters(14) }] }] };
        using MemoryStream bytes = new();
        SiteFile.Write(bytes, job, []);
        Wire wire = JobFile.Read(new MemoryStream(bytes.ToArray())).Request.Sites[0].Wires[0];
        Assert.Equal((null, null, 14.0), (wire.Dead, wire.ClosestPlanned, wire.Height!.Value.Meters));
    }

    // All that the example job holds goes through the writer and comes back as it was.
    [Fact]
    public void JobWriter_WholeExample_ReadsBackTheSame()
    {
        LiftRequest job = JobExample.Read(JobExample.Text).Request;
        JobFile read = JobExample.Read(JobWriter.Text(job));
        Assert.Empty(read.Findings);
        Assert.Equal(JobWriter.Text(job), JobWriter.Text(read.Request));
    }
}
