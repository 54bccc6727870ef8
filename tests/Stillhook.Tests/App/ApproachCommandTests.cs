using System.Text.Json;
using Json.Schema;

namespace Stillhook.Tests.App;

/// <summary>The approach as a user gets it from the example, for people and for machines, and the working of its figures.</summary>
public sealed class ApproachCommandTests : IDisposable
{
    private static readonly string Example = Repository.File("examples/path-repair.json");

    private readonly string folder = Directory.CreateTempSubdirectory("stillhook").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    /// <summary>The example with more of the approach set; with its course pinned one direction alone is searched.</summary>
    private string With(string more)
    {
        string path = Path.Combine(folder, "job.json");
        File.WriteAllText(path, File.ReadAllText(Example).Replace("\"approach\": { ", $"\"approach\": {{ {more}, ", StringComparison.Ordinal));
        return path;
    }

    [Fact]
    public void Approach_Example_PrintsMarksTurningPointsOutcomeAndDirections()
    {
        StartedProgram.Result approach = StartedProgram.Run("approach", Example);

        Assert.Equal(0, approach.ExitCode);
        Assert.Empty(approach.Errors);
        foreach (string part in new[] { "Advice only.", "Approach of load 9 (stone bag) to path bend", "start mark", "split boulder", "hay hut", "Power in:", "Reject:", "simulated flights", "Directions", "Empty way back", "set yours", "to the right of the nose" })
            Assert.Contains(part, approach.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", approach.Output, StringComparison.Ordinal);
        // Set in the example: not among what nobody set.
        Assert.DoesNotContain("approach.entrySpeed", approach.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Approach_Json_FitsItsSchemaAndNamesTheLoadAskedFor()
    {
        StartedProgram.Result approach = StartedProgram.Run("approach", With("\"courseDeg\": 330"), "--load", "4", "--json");
        Assert.Equal(0, approach.ExitCode);
        JsonSchema schema = JsonSchema.FromText(StartedProgram.Run("schema", "approach").Output);
        using JsonDocument document = JsonDocument.Parse(approach.Output);
        Assert.True(schema.Evaluate(document.RootElement).IsValid);
        Assert.Equal("4", document.RootElement.GetProperty("situation").GetProperty("loadNumber").GetString());
        Assert.True(document.RootElement.GetProperty("gates").GetArrayLength() > 4);
    }

    [Fact]
    public void Approach_Draw_WritesPicturesAndNumbersOrSaysWhyNot()
    {
        string pictures = Path.Combine(folder, "pictures"), job = With("\"courseDeg\": 330");
        Assert.Equal(0, StartedProgram.Run("approach", job, "--draw", pictures).ExitCode);
        Assert.Equal(["approach.csv", "plan.svg", "profile.svg", "scatter.svg", "side.svg"], Directory.GetFiles(pictures).Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal));
        Assert.All(Directory.GetFiles(pictures, "*.svg"), f => Assert.Contains("course 330", File.ReadAllText(f), StringComparison.Ordinal));

        // A file stands where the folder should: one line, and the exit code of bad input.
        StartedProgram.Result blocked = StartedProgram.Run("approach", job, "--draw", job);
        Assert.Equal(2, blocked.ExitCode);
        Assert.Contains("the pictures can't be written", Assert.Single(blocked.Errors.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    [Fact]
    public void Approach_DrawWithJson_OutputStaysOneDocumentWhetherPicturesCanBeWrittenOrNot()
    {
        string pictures = Path.Combine(folder, "deep", "pictures"), job = With("\"courseDeg\": 330");
        StartedProgram.Result drawn = StartedProgram.Run("approach", job, "--draw", pictures, "--json"), blocked = StartedProgram.Run("approach", job, "--draw", job, "--json");
        Assert.Equal((0, 2), (drawn.ExitCode, blocked.ExitCode));
        Assert.Equal(5, Directory.GetFiles(pictures).Length);
        Assert.Empty(drawn.Errors);
        Assert.Contains("the pictures can't be written", Assert.Single(blocked.Errors.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        foreach (string output in new[] { drawn.Output, blocked.Output })
        {
            using JsonDocument document = JsonDocument.Parse(output);
            Assert.True(document.RootElement.GetProperty("gates").GetArrayLength() > 4);
        }
    }

    [Fact]
    public void Approach_DrawWithWinds_ExitsTwoAndWritesNothing()
    {
        string pictures = Path.Combine(folder, "pictures");
        StartedProgram.Result both = StartedProgram.Run("approach", Example, "--draw", pictures, "--winds", "10kt");
        Assert.Equal(2, both.ExitCode);
        Assert.Empty(both.Output);
        Assert.Contains("or leave out --winds", Assert.Single(both.Errors.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        Assert.False(Directory.Exists(pictures));
    }

    // Simulated truth: the example's plan flown as planned, recorded with error, debriefed with the job written beside it: nothing to change. With a fault flown, it is named.
    [Fact]
    public void Simulate_PlanOfTheExample_DebriefedFindsItPerfectAndAFaultItsFault()
    {
        string flown = Path.Combine(folder, "flown");
        Assert.Equal(0, StartedProgram.Run("simulate", "-o", flown, "--plan", Example, "--flown", "none,none,none").ExitCode);
        StartedProgram.Result next = StartedProgram.Run("next", Path.Combine(flown, "day.gpx"), "--job", Path.Combine(flown, "job.json"));
        Assert.StartsWith("Same again.", next.Output, StringComparison.Ordinal);

        Assert.Equal(0, StartedProgram.Run("simulate", "-o", flown, "--plan", Example, "--flown", "overshoot,overshoot,overshoot").ExitCode);
        next = StartedProgram.Run("next", Path.Combine(flown, "day.gpx"), "--job", Path.Combine(flown, "job.json"));
        Assert.DoesNotContain("Same again.", next.Output, StringComparison.Ordinal);
        Assert.Contains("past the spot", next.Output, StringComparison.Ordinal);
    }

    // The same ranges as in the job file.
    [Theory]
    [InlineData("--line", "0m", "--line: found 0 m. Expected 3 to 150 m.")]
    [InlineData("--line", "200m", "--line: found 200 m. Expected 3 to 150 m.")]
    [InlineData("--start", "10m", "--start: found 10 m. Expected 50 to 5000 m.")]
    [InlineData("--glide", "45deg", "--glide: found 45 deg. Expected 2 to 30 deg.")]
    public void Approach_TypedOutOfRange_ExitsTwoAndSaysWhatIsPermitted(string option, string value, string says)
    {
        StartedProgram.Result approach = StartedProgram.Run("approach", Example, option, value);
        Assert.Equal(2, approach.ExitCode);
        Assert.Contains(says, Assert.Single(approach.Errors.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    // Alternatives for each wind with altitudes, fall zone and whom to reach: nobody has to invent one in the air. Eight winds, each with its own row.
    [Fact]
    public void Approach_Winds_PrintsAnAlternativeForEachWithTheContacts()
    {
        StartedProgram.Result winds = StartedProgram.Run("approach", Example, "--winds", "10kt", "--quick"); // the quick order leaves load 9 with power enough for a way out in every wind
        Assert.Equal(0, winds.ExitCode);
        string[] rows = [.. winds.Output.Split('\n').Where(l => System.Text.RegularExpressions.Regex.IsMatch(l, @"^ +\d{3}/10 "))];
        Assert.Equal(8, rows.Length);
        Assert.All(rows, r => Assert.Matches(@"\d{3}/10 +\d{3} +\d+ m +\d{4} ft +\d{4} ft, .* m ahead +\d+ m", r));
        foreach (string part in new[] { "Reset or reprint if either moves.", "hut keeper", "keeps walkers off the path", "+43 000 000 01", "valley grid control" })
            Assert.Contains(part, winds.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Approach_OnlyCourseDownwind_ExitsOneAndSaysWhy()
    {
        StartedProgram.Result approach = StartedProgram.Run("approach", With("\"courseDeg\": 70"));
        Assert.Equal(1, approach.ExitCode);
        Assert.Contains("NO APPROACH: No way in", approach.Output, StringComparison.Ordinal);
        Assert.Contains("downwind", approach.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--site", "nowhere", "There is no delivery site 'nowhere'. Sites: path bend.")]
    [InlineData("--load", "99", "There is no load '99'. Loads: 1, 2, 3")]
    public void Approach_UnknownSiteOrLoad_ExitsTwoAndNamesThoseThereAre(string option, string value, string says)
    {
        StartedProgram.Result approach = StartedProgram.Run("approach", Example, option, value, "--json");
        Assert.Equal(2, approach.ExitCode);
        Assert.Contains(says, approach.Errors, StringComparison.Ordinal);
        // As with plan --json: the findings stand in the document too.
        using JsonDocument document = JsonDocument.Parse(approach.Output);
        Assert.Contains(document.RootElement.GetProperty("findings").EnumerateArray(), f => f.GetProperty("what").GetString()!.Contains(value, StringComparison.Ordinal));
    }

    [Fact]
    public void Approach_MissingFigures_ExitsTwoAndNamesAllOfThem()
    {
        string path = Path.Combine(folder, "job.json");
        File.WriteAllText(path, """{ "sites": [ { "name": "spot", "use": "delivery", "latitudeDeg": 46, "longitudeDeg": 8 } ] }""");
        StartedProgram.Result approach = StartedProgram.Run("approach", path);
        Assert.Equal(2, approach.ExitCode);
        Assert.Empty(approach.Output);
        foreach (string missing in new[] { "sites[0].elevation", "line.length", "loads" })
            Assert.Contains(missing, approach.Errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--start", "500")]
    [InlineData("--wind", "240")]
    [InlineData("--line", "45")]
    public void Approach_QuantityWithoutUnit_ExitsTwoAndSaysWhatWasExpected(string option, string value)
    {
        StartedProgram.Result approach = StartedProgram.Run("approach", Example, option, value);
        Assert.Equal(2, approach.ExitCode);
        Assert.Empty(approach.Output);
        Assert.Contains($"{option} {value}: expected", approach.Errors, StringComparison.Ordinal);
    }

    // Closed form: R·T/(g·p) is 8.3 m for each hPa near 1017 hPa and 15 °C, so 4 hPa are 33.2 m or 109 ft, said to 10 ft.
    [Fact]
    public void Approach_OtherSetting_TellsWhatTheAltimeterReadsIfNotReset()
    {
        StartedProgram.Result approach = StartedProgram.Run("approach", With("\"courseDeg\": 330"), "--qnh", "1015hPa");
        Assert.Equal(0, approach.ExitCode);
        Assert.Contains("What moved", approach.Output, StringComparison.Ordinal);
        Assert.Contains("1019 -> 1015 hPa: the altimeter now reads about 110 ft high if not reset", approach.Output, StringComparison.Ordinal);
        Assert.Contains("Marks for 1015.0 hPa", approach.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Approach_TerrainFileMissing_ExitsTwoWithOneClearLine()
    {
        StartedProgram.Result asked = StartedProgram.Run("approach", Example, "--terrain", Path.Combine(folder, "N46E010.hgt"));
        Assert.Equal(2, asked.ExitCode);
        Assert.Empty(asked.Output);
        string line = Assert.Single(asked.Errors.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("N46E010.hgt: can't be read", line, StringComparison.Ordinal);

        // The job's own, which lies beside the job file.
        StartedProgram.Result own = StartedProgram.Run("why", With("\"terrain\": \"valley.asc\""), "approach.entry");
        Assert.Equal(2, own.ExitCode);
        Assert.Contains(Path.Combine(folder, "valley.asc"), Assert.Single(own.Errors.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    [Fact]
    public void Why_AFigureOfTheApproach_ShowsTheWholeWorking()
    {
        string job = With("\"courseDeg\": 330");
        int line = 1 + Array.FindIndex(File.ReadAllLines(job), l => l.Contains("entrySpeedKt", StringComparison.Ordinal));
        StartedProgram.Result why = StartedProgram.Run("why", job, "approach", "--load", "4");
        Assert.Equal(0, why.ExitCode);
        foreach (string part in new[] { "Height of the load at which hover power must be coming on:", "Height that stopping the sink takes:", "default, set yours: approach.reaction", $"job.json, line {line}, approach.entrySpeed)", "approach.slowDownLimit)", "source: LEISHMAN" })
            Assert.Contains(part, why.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("payload", why.Output, StringComparison.Ordinal);

        StartedProgram.Result unknown = StartedProgram.Run("why", job, "approach.power-inn");
        Assert.Equal(1, unknown.ExitCode);
        Assert.Contains("Did you mean 'approach.power-in'?", unknown.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Why_WithoutAFigure_ListsThoseOfPlanAndApproach()
    {
        StartedProgram.Result why = StartedProgram.Run("why", Example);
        Assert.Equal(0, why.ExitCode);
        HashSet<string> keys = [.. why.Output.Split('\n').Select(l => l.Split(' ')[0])];
        Assert.Superset(new HashSet<string> { "payload.7", "reserve", "approach.power-in", "approach.reject" }, keys);
    }
}
