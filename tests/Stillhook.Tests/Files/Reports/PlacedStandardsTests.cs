using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Xml;
using System.Xml.Linq;
using System.Xml.Schema;
using Stillhook.Files.Reports;
using Stillhook.Reporting;
using Stillhook.Tests.Reporting;

namespace Stillhook.Tests.Files.Reports;

/// <summary>GPX held against the rules of its schema, GeoJSON against those of RFC 7946.</summary>
public class PlacedStandardsTests
{
    // Published: elements, order, types and ranges of the GPX 1.1 schema.
    private static readonly XmlSchemaSet Gpx = Schema();

    private static XmlSchemaSet Schema()
    {
        XmlSchemaSet set = new();
        set.Add("http://www.topografix.com/GPX/1/1", Repository.File("tests/reference/gpx-1.1-way-points.xsd"));
        set.Compile();
        return set;
    }

    /// <summary>Reports of every shape: small, large, without loads, with no name or position, at the edges of the map, with names that break careless writers.</summary>
    public static TheoryData<string> Reports => [.. Named.Keys];

    private static readonly Dictionary<string, Func<CustomerReport>> Named = new()
    {
        ["small"] = () => ReportedDays.SmallReport,
        ["large"] = () => ReportedDays.Large,
        ["no lift"] = () => CustomerReporter.Report([ReportedDays.Small with { Lifts = [] }]),
        ["no job"] = () => CustomerReporter.Report([ReportedDays.Small with { Job = null }]),
        ["no position"] = () => CustomerReporter.Report([ReportedDays.Small with { Lifts = [ReportedDays.Lift(1, null, null)] }]),
        ["edge of the map"] = () => At(-90, 179.9999999),
        ["other edge"] = () => At(90, -180),
        ["awkward"] = () => CustomerReporter.Report([ReportedDays.Small with { Lifts = [ReportedDays.Lift(1, "=<script>&\u0001\ud800", ReportedDays.At(8, 20), 600, at: ReportedDays.Spot(0, 0)) with { Family = "]]>" }] }]),
    };

    private static CustomerReport At(double latitude, double longitude) =>
        CustomerReporter.Report([ReportedDays.Small with { Lifts = [ReportedDays.Lift(1, "A1", ReportedDays.At(8, 20), at: new Place(latitude, longitude))] }]);

    private static string Written(Action<Stream, CustomerReport> writer, CustomerReport report)
    {
        using MemoryStream bytes = new();
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new("de-DE");
            writer(bytes, report);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    private static List<string> Faults(XDocument document)
    {
        List<string> faults = [];
        document.Validate(Gpx, (_, e) => faults.Add(e.Message));
        return faults;
    }

    [Theory]
    [MemberData(nameof(Reports))]
    public void Gpx_AnyReport_FitsTheSchema(string report) => Assert.Empty(Faults(XDocument.Parse(Written(PlacedGpx.Write, Named[report]()))));

    // The check itself: each of these breaks a rule of the schema and is refused.
    [Theory]
    [InlineData("lon", "180")]
    [InlineData("lat", "90.01")]
    [InlineData("lat", "46,9")]
    public void Gpx_SpoiltPoint_IsRefused(string attribute, string value)
    {
        XDocument document = XDocument.Parse(Written(PlacedGpx.Write, ReportedDays.SmallReport));
        document.Root!.Elements().Last().SetAttributeValue(attribute, value);
        Assert.NotEmpty(Faults(document));
    }

    [Fact]
    public void Gpx_ChildrenInAnotherOrder_AreRefused()
    {
        XDocument document = XDocument.Parse(Written(PlacedGpx.Write, ReportedDays.SmallReport));
        XElement point = document.Root!.Elements().ElementAt(1);
        point.ReplaceNodes(point.Elements().Reverse().ToArray());
        Assert.NotEmpty(Faults(document));
    }

    // From memory: RFC 7946 sections 1.4, 3.1.1, 3.1.2, 3.2, 3.3, 4 and 7.1: types, longitude first within its range, two or three numbers, geometry or null, properties, no 'crs', nothing of one type in another.
    [Theory]
    [MemberData(nameof(Reports))]
    public void GeoJson_AnyReport_KeepsTheRulesOfTheStandard(string report)
    {
        JsonObject all = JsonNode.Parse(Written(PlacedGeoJson.Write, Named[report]()), null, new() { AllowTrailingCommas = false, CommentHandling = JsonCommentHandling.Disallow })!.AsObject();
        Assert.Equal("FeatureCollection", all["type"]!.GetValue<string>());
        Assert.False(all.ContainsKey("crs") || all.ContainsKey("geometry") || all.ContainsKey("properties") || all.ContainsKey("coordinates"));
        foreach (JsonObject feature in all["features"]!.AsArray().Select(f => f!.AsObject()))
        {
            Assert.Equal("Feature", feature["type"]!.GetValue<string>());
            Assert.True(feature.ContainsKey("geometry") && feature["properties"] is JsonObject);
            Assert.False(feature.ContainsKey("features") || feature.ContainsKey("coordinates") || feature.ContainsKey("crs"));
            if (feature["geometry"] is not JsonObject geometry)
                continue;
            Assert.Equal("Point", geometry["type"]!.GetValue<string>());
            Assert.False(geometry.ContainsKey("features") || geometry.ContainsKey("properties") || geometry.ContainsKey("geometry"));
            double[] position = [.. geometry["coordinates"]!.AsArray().Select(c => c!.GetValue<double>())];
            Assert.InRange(position.Length, 2, 3);
            Assert.InRange(position[0], -180, 180);
            Assert.InRange(position[1], -90, 90);
        }
    }
}
