using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Stillhook.Approaching;
using Stillhook.Files.Jobs;
using Stillhook.Files.Reports;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.Files.Reports;

/// <summary>The approach for machines: fits its published schema, says what the plan says, and never a number that is none.</summary>
public sealed class ApproachDocumentTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(ApproachDocuments.Schema());
    private static readonly JobFile Example = Read(File.ReadAllText(Repository.File("examples/path-repair.json")));

    // One course and few flights: the document is looked at here, not the search. Course 330 is about the one the example is offered.
    private static readonly LiftRequest OneCourse = Pinned(330);
    private static readonly Lazy<LiftPlan> Lift = new(() => Job.Plan(OneCourse, new()));
    private static readonly Lazy<ApproachPlan> Offered = new(() => Planned(OneCourse, Options));
    private static readonly Lazy<JsonElement> Written = new(() => Json(OneCourse, Offered.Value));

    private static ApproachOptions Options => new() { Flights = 400 };

    private static JobFile Read(string text)
    {
        using MemoryStream stream = new(Encoding.UTF8.GetBytes(text));
        return JobFile.Read(stream);
    }

    private static LiftRequest Pinned(double courseDeg) => Example.Request with { Approach = (Example.Request.Approach ?? new()) with { Course = Angle.FromDegrees(courseDeg) } };

    private static ApproachPlan Planned(LiftRequest request, ApproachOptions options) => Job.Approach(request, Lift.Value, options);

    private static string Text(LiftRequest request, ApproachPlan plan, IReadOnlyList<string>? changes = null)
    {
        using MemoryStream stream = new();
        ApproachDocuments.Write(stream, request, plan, changes, Example.LineOf);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static JsonElement Json(LiftRequest request, ApproachPlan plan, IReadOnlyList<string>? changes = null)
    {
        using JsonDocument document = JsonDocument.Parse(Text(request, plan, changes));
        Assert.True(Schema.Evaluate(document.RootElement).IsValid);
        return document.RootElement.Clone();
    }

    private static double Number(JsonElement element, string key) => element.GetProperty(key).GetDouble();

    private static bool IsNull(JsonElement element, string key) => element.GetProperty(key).ValueKind == JsonValueKind.Null;

    [Fact]
    public void Write_OfferedApproach_FitsItsSchemaAndASpoiltOneDoesNot()
    {
        Assert.Equal("stillhook-approach", Written.Value.GetProperty("schema").GetString());
        Assert.Equal(ApproachDocuments.Version, Written.Value.GetProperty("version").GetInt32());
        Assert.True(Written.Value.GetProperty("offered").GetBoolean());

        foreach (Action<JsonNode> spoil in new Action<JsonNode>[] { n => n["gates"]![0]!["altimeterFt"] = "high", n => n["path"]![3]!["timeS"] = null, n => n.AsObject().Remove("sectors"), n => n["powerIn"]!["markM"] = true })
        {
            JsonNode spoilt = JsonNode.Parse(Written.Value.GetRawText())!;
            spoil(spoilt);
            using JsonDocument refused = JsonDocument.Parse(spoilt.ToJsonString());
            Assert.False(Schema.Evaluate(refused.RootElement).IsValid);
        }
    }

    [Fact]
    public void Schema_DescribesWhatItAllows()
    {
        using JsonDocument schema = JsonDocument.Parse(ApproachDocuments.Schema());
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", schema.RootElement.GetProperty("$schema").GetString());
        JsonElement gate = schema.RootElement.GetProperty("properties").GetProperty("gates").GetProperty("items").GetProperty("properties");
        Assert.Equal("Altimeter reading, rounded up to 20 ft.", gate.GetProperty("altimeterFt").GetProperty("description").GetString());
        Assert.Equal("number", gate.GetProperty("altimeterFt").GetProperty("type").GetString());
        Assert.Equal(["number", "null"], gate.GetProperty("airSpeedKt").GetProperty("type").EnumerateArray().Select(t => t.GetString()));
    }

    // Closed form: each number is the plan's own, rounded to the digits that are written; tolerances are half of the last digit.
    [Fact]
    public void Of_Gates_AreThePlans()
    {
        ApproachPlan plan = Offered.Value;
        JsonElement[] gates = [.. Written.Value.GetProperty("gates").EnumerateArray()];
        Assert.Equal(plan.Gates.Count, gates.Length);
        Assert.True(gates.Length > 4);
        foreach ((ApproachGate expected, JsonElement gate) in plan.Gates.Zip(gates))
        {
            Assert.Equal(expected.Name.Length == 0 ? null : expected.Name, gate.GetProperty("name").GetString());
            Assert.Equal(expected.Landmark, gate.GetProperty("landmark").GetString());
            Assert.Equal(expected.DistanceM, Number(gate, "distanceM"), 0.05);
            Assert.Equal(expected.AltimeterFt, Number(gate, "altimeterFt"));
            Assert.Equal(expected.UnroundedFt, Number(gate, "unroundedFt"), 0.0501);
            Assert.Equal(expected.LoadHeightM, Number(gate, "loadHeightM"), 0.0501);
            Assert.Equal(expected.HookHeightM, Number(gate, "hookHeightM"), 0.0501);
            Assert.Equal(expected.GroundKt, Number(gate, "groundSpeedKt"));
            Assert.Equal(expected.SinkFtPerMin, Number(gate, "sinkFtPerMin"));
            Assert.Equal(expected.AirKt is null, IsNull(gate, "airSpeedKt"));
            Assert.Equal(expected.Broken is null, IsNull(gate, "offShare"));
            Assert.Equal(expected.TorquePercent!.Value, Number(gate, "torquePercent"), 0.0501);
            // From the job: the setting observed at the site.
            Assert.Equal(1019, Number(gate, "qnhHPa"));
        }
        Assert.Contains(plan.Gates, g => g.Landmark == "split boulder");
    }

    [Fact]
    public void Of_TurningPointsAndOutcome_AreThePlans()
    {
        ApproachPlan plan = Offered.Value;
        JsonElement powerIn = Written.Value.GetProperty("powerIn"), reject = Written.Value.GetProperty("reject"), robustness = Written.Value.GetProperty("robustness"), empty = Written.Value.GetProperty("emptyLine");
        Assert.Equal(plan.PowerIn!.DistanceM, Number(powerIn, "distanceM"), 0.0501);
        Assert.Equal(plan.PowerIn.LoadHeightM, Number(powerIn, "loadHeightM"), 0.0501);
        Assert.Equal(plan.Gate(ApproachGates.PowerInName)!.AltimeterFt, Number(powerIn, "altimeterFt"));
        // Rounded to the safe side: never above what can be stopped, and by less than one step.
        double most = plan.LargestSinkAtPowerInMs!.Value / 0.3048 * 60;
        Assert.InRange(Number(powerIn, "largestSinkFtPerMin"), most - 50, most);
        Assert.Equal(plan.Reject!.TurnDeg, Number(reject, "turnDeg"));
        Assert.Equal(plan.Gate(ApproachGates.RejectName)!.DistanceM, Number(reject, "markM"));
        Assert.Equal(plan.FallReachM, Number(Written.Value, "fallReachM"), 0.0501);
        Assert.Equal(plan.Situation!.PeriodS, Number(Written.Value, "swingPeriodS"), 0.00501);
        Assert.Equal(400, robustness.GetProperty("flights").GetInt32());
        Assert.Equal(plan.Robustness!.MissM.NinetyFive, Number(robustness, "miss95M"), 0.00501);
        Assert.Equal(plan.Robustness.SwingM.Half, Number(robustness, "swingHalfM"), 0.00501);
        Assert.Equal(plan.Robustness.Causes.Select(c => c.Cause), robustness.GetProperty("causes").EnumerateArray().Select(c => c.GetProperty("cause").GetString()!));
        Assert.InRange(Number(empty, "largestSpeedKt"), plan.Empty!.LargestSpeedMs!.Value * 3600 / 1852 - 5, plan.Empty.LargestSpeedMs.Value * 3600 / 1852);
        Assert.Equal("9", Written.Value.GetProperty("situation").GetProperty("loadNumber").GetString());
        Assert.Equal(plan.Checks.Count, Written.Value.GetProperty("checks").GetArrayLength());
        Assert.Contains(Written.Value.GetProperty("checks").EnumerateArray(), c => c.GetProperty("colour").GetString() == "red" && c.GetProperty("code").GetString() == "reject-planned");
    }

    // Closed form: a grid of half seconds in which time 0 is the start mark, and contact last.
    [Fact]
    public void Of_Path_IsSampledEachHalfSecondUntilContact()
    {
        LoadPath path = Offered.Value.Way!.Path;
        JsonElement[] samples = [.. Written.Value.GetProperty("path").EnumerateArray()];
        Assert.Equal(-LoadPath.LeadS, Number(samples[0], "timeS"));
        for (int i = 1; i < samples.Length - 1; i++)
            Assert.Equal(0.5, Number(samples[i], "timeS") - Number(samples[i - 1], "timeS"), 1e-9);
        Assert.InRange(Number(samples[^1], "timeS") - Number(samples[^2], "timeS"), 0.001, 0.5);
        JsonElement start = samples.Single(s => Number(s, "timeS") == 0);
        Assert.Equal(path.Shape.StartM, Number(start, "distanceM"), 0.00501);
        Assert.Equal(path.Shape.EntryMs, Number(start, "groundSpeedMs"), 0.000501);
        Assert.Equal(path.Hook[path.StartIndex].Up, Number(start, "hookUpM"), 0.00501);
        Assert.Equal(path.Hook[path.StartIndex].East, Number(start, "hookAlongM"), 0.00501);
        Assert.Equal(100 * Offered.Value.Power!.RequiredShare[path.StartIndex], Number(start, "powerPercent"), 0.0501);
        Assert.Equal(0, Number(samples[^1], "distanceM"), 0.00501);
        Assert.Equal(path.LoadHeightM[^1], Number(samples[^1], "loadHeightM"), 0.00501);
        Assert.Equal(path.Shape.TouchDownSinkMs, Number(samples[^1], "sinkMs"), 0.01);
    }

    // Every input that is said to stand in the job file stands on the line named, and every source named is in the list of sources or a page of docs/method.
    [Fact]
    public void Of_Figures_PointToTheirLinesAndSources()
    {
        string sources = File.ReadAllText(Repository.File("docs/sources.md"));
        string[] lines = File.ReadAllLines(Repository.File("examples/path-repair.json"));
        JsonElement[] figures = [.. Written.Value.GetProperty("figures").EnumerateArray()];
        HashSet<string> keys = [.. figures.Select(f => f.GetProperty("key").GetString()!)];
        Assert.Superset(new HashSet<string> { "approach.power-in", "approach.reject", "approach.entry", "approach.period" }, keys);
        foreach (JsonElement figure in figures)
        {
            string source = figure.GetProperty("source").GetString()!;
            Assert.True(source == "common practice, no source" || (source.StartsWith("docs/method/", StringComparison.Ordinal) && File.Exists(Repository.File(source))) || sources.Contains($"- [{source}] ", StringComparison.Ordinal), $"{figure.GetProperty("key")}: {source}");
            foreach (JsonElement input in figure.GetProperty("inputs").EnumerateArray())
                if (input.GetProperty("from").GetString() == "jobFile")
                    Assert.Contains(input.GetProperty("where").GetString()!.Split('.')[^1], lines[input.GetProperty("line").GetInt32() - 1], StringComparison.Ordinal);
                else if (input.GetProperty("from").GetString() == "figure")
                    Assert.Contains(input.GetProperty("where").GetString()!, keys);
        }
    }

    // The sectors of a job with every direction, and what moved, as a planner gives them: courses rising, those ruled out with code and sentence.
    [Fact]
    public void Of_SectorsAndChanges_AreThePlans()
    {
        ApproachPlan plan = Offered.Value with
        {
            Sectors = [new(0, null, new("downwind", "downwind by 8 kt.", 2), -8 * 1852 / 3600.0, 0), new(330, Offered.Value.Way, null, 0.001, -2 * 1852 / 3600.0)],
        };
        JsonElement document = Json(OneCourse, plan, ["STOP: course 330 -> 300: re-brief the direction of the way in."]);
        JsonElement[] sectors = [.. document.GetProperty("sectors").EnumerateArray()];
        Assert.Equal((false, "downwind", "downwind by 8 kt.", -8.0), (sectors[0].GetProperty("allowed").GetBoolean(), sectors[0].GetProperty("code").GetString(), sectors[0].GetProperty("why").GetString(), Number(sectors[0], "headwindKt")));
        Assert.True(sectors[1].GetProperty("allowed").GetBoolean() && IsNull(sectors[1], "code"));
        Assert.Equal(-2, Number(sectors[1], "crosswindKt"));
        Assert.StartsWith("STOP: course 330", document.GetProperty("changes")[0].GetString(), StringComparison.Ordinal);
        Assert.True(IsNull(Written.Value, "changes"));
    }

    [Fact]
    public void Of_RefusedApproach_SaysWhyAndGivesNoMarks()
    {
        LiftRequest downwind = Pinned(70);
        ApproachPlan plan = Planned(downwind, Options);
        JsonElement document = Json(downwind, plan);
        Assert.False(document.GetProperty("offered").GetBoolean());
        Assert.Equal(plan.Refused, document.GetProperty("refused").GetString());
        Assert.Contains("downwind", document.GetProperty("refused").GetString(), StringComparison.Ordinal);
        Assert.Equal("downwind", document.GetProperty("sectors")[0].GetProperty("code").GetString());
        Assert.True(IsNull(document, "way") && IsNull(document, "powerIn") && IsNull(document, "robustness") && IsNull(document, "fallReachM"));
        Assert.Equal(0, document.GetProperty("gates").GetArrayLength() + document.GetProperty("path").GetArrayLength());
        Assert.Equal("path bend", document.GetProperty("situation").GetProperty("site").GetString());
    }

    [Fact]
    public void Of_NothingToPlanFrom_HoldsTheFindings()
    {
        LiftRequest request = Read("""{ "job": "no line", "sites": [ { "name": "spot", "use": "delivery", "latitudeDeg": 46, "longitudeDeg": 8, "elevationM": 1500 } ], "loads": [ { "number": "1", "massKg": 500, "howKnown": "weighed" } ] }""").Request;
        JsonElement document = Json(request, Job.Approach(request, null, Options));
        Assert.False(document.GetProperty("offered").GetBoolean());
        Assert.True(IsNull(document, "situation") && IsNull(document, "swingPeriodS"));
        Assert.Contains(document.GetProperty("findings").EnumerateArray(), f => f.GetProperty("severity").GetString() == "error" && f.GetProperty("path").GetString() == "line.length");
    }

    // A job without aircraft, wind and setting has no power, no marks for them and no reading for any setting: null, never a number.
    [Fact]
    public void Of_LittleKnown_WritesNullAndNeverNaN()
    {
        LiftRequest request = Read("""{ "sites": [ { "name": "spot", "use": "delivery", "latitudeDeg": 46, "longitudeDeg": 8, "elevationM": 1500 } ], "line": { "lengthM": 30 }, "loads": [ { "number": "1", "massKg": 500, "howKnown": "weighed" } ], "approach": { "courseDeg": 90 } }""").Request;
        ApproachPlan plan = Job.Approach(request, null, Options);
        string text = Text(request, plan);
        JsonElement document = Json(request, plan);
        Assert.True(document.GetProperty("offered").GetBoolean());
        Assert.True(IsNull(document, "powerIn") && IsNull(document, "reject"));
        Assert.All(document.GetProperty("gates").EnumerateArray(), g => Assert.True(IsNull(g, "powerPercent") && IsNull(g, "torquePercent") && IsNull(g, "qnhHPa")));
        Assert.All(document.GetProperty("path").EnumerateArray(), p => Assert.True(IsNull(p, "powerPercent")));
        foreach (string none in new[] { "NaN", "Infinity", "∞", ": -0," })
        {
            Assert.DoesNotContain(none, text, StringComparison.Ordinal);
            Assert.DoesNotContain(none, Written.Value.GetRawText(), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("de-DE")]
    [InlineData("tr-TR")]
    public void Write_AnyCulture_IsTheSame(string culture)
    {
        string expected = Text(OneCourse, Offered.Value), schema = ApproachDocuments.Schema();
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new(culture);
            Assert.Equal(expected, Text(OneCourse, Planned(OneCourse, Options)));
            Assert.Equal(schema, ApproachDocuments.Schema());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
