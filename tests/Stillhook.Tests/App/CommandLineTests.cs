using System.Diagnostics;
using System.Text.Json;

namespace Stillhook.Tests.App;

/// <summary>The program as a user starts it: exit codes, both outputs, and what is said about bad input.</summary>
public sealed class CommandLineTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("stillhook").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void Debrief_SimulatedDay_MeasuresEveryRotationInAllFourFormats()
    {
        Assert.Equal(0, StartedProgram.Run("simulate", "-o", folder, "--seed", "3", "--rotations", "3", "--faults", "Clean").ExitCode);
        // Simulated truth: three loads were flown.
        using JsonDocument truth = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "truth.json")));
        Assert.Equal(3, truth.RootElement.GetProperty("rotations").GetArrayLength());
        foreach (string format in new[] { "gpx", "igc", "nmea", "csv" })
        {
            StartedProgram.Result result = StartedProgram.Run("debrief", Path.Combine(folder, "day." + format), "--json");
            Assert.Equal(0, result.ExitCode);
            using JsonDocument debrief = JsonDocument.Parse(result.Output);
            JsonElement rotations = debrief.RootElement.GetProperty("rotations");
            Assert.Equal(3, rotations.GetArrayLength());
            foreach ((JsonElement found, JsonElement flown) in rotations.EnumerateArray().Zip(truth.RootElement.GetProperty("rotations").EnumerateArray()))
            {
                TimeSpan late = found.GetProperty("deliveryTime").GetDateTimeOffset() - flown.GetProperty("deliveryTime").GetDateTimeOffset();
                Assert.InRange(late.TotalSeconds, -10, 10);
            }
        }
    }

    [Fact]
    public void Debrief_Json_HoldsEveryKeyOfTheDocument()
    {
        StartedProgram.Run("demo", "-o", folder);
        string record = Directory.GetFiles(folder, "*.csv").Single(), job = Directory.GetFiles(folder, "*.json").Single();
        using JsonDocument debrief = JsonDocument.Parse(StartedProgram.Run("debrief", record, "--job", job, "--json").Output);

        JsonElement rotation = debrief.RootElement.GetProperty("rotations")[0];
        string[] keys =
        [
            "pickupTime", "deliveryTime", "releaseTime", "approachStartTime", "stopTime", "pickup", "delivery", "startHeightM", "startDistanceM", "glideDeg",
            "entrySpeedMs", "peakDecelMs2", "overshootM", "stopShortM", "lateralMissM", "hoverTimeS", "sinkLast15Ms", "cycleTimeS", "goArounds", "mainFault",
            .. from swing in new[] { "swing50mM", "swingAfterStopM", "swingContactM", "swingMaxM", "swingShownM" } from end in new[] { "", "Low", "High" } select swing + end,
        ];
        Assert.All(keys, k => Assert.True(rotation.TryGetProperty(k, out _), k));
        Assert.Equal("jobFile", debrief.RootElement.GetProperty("setup").GetProperty("lineM").GetProperty("from").GetString());
        Assert.NotEmpty(debrief.RootElement.GetProperty("next").GetProperty("line").GetString()!);
    }

    [Theory]
    [InlineData("day.gpx", "", "is empty")]
    [InlineData("day.txt", "shopping list\nmilk\n", "")]
    [InlineData("day.gpx", "<?xml version=\"1.0\"?><!DOCTYPE gpx [<!ENTITY a \"b\">]><gpx version=\"1.1\"><trk><trkseg/></trk></gpx>", "")]
    public void Debrief_UnusableRecord_ExitsTwoWithOneError(string name, string content, string says)
    {
        string path = Path.Combine(folder, name);
        File.WriteAllText(path, content);
        StartedProgram.Result result = StartedProgram.Run("debrief", path);
        Assert.Equal(2, result.ExitCode);
        Assert.Single(result.Errors.Split('\n'), line => line.StartsWith("error:", StringComparison.Ordinal));
        Assert.Contains(says, result.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Debrief_FolderOrMissingFileInsteadOfARecord_ExitsTwo()
    {
        Assert.Equal(2, StartedProgram.Run("debrief", folder).ExitCode);
        Assert.Equal(2, StartedProgram.Run("debrief", Path.Combine(folder, "nothing.gpx")).ExitCode);
    }

    // Real record: a boat's walk-pace track holds no delivery.
    [Fact]
    public void Debrief_BoatTrack_ExitsOneAndSaysWhy()
    {
        StartedProgram.Result result = StartedProgram.Run("debrief", Repository.File("tests/data/records/nmea/signalk_gps.log"));
        Assert.Equal(1, result.ExitCode);
        Assert.Contains("No deliveries:", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Debrief_RecordOfAnotherDayThanTheJob_IsReportedAndRead()
    {
        string job = Path.Combine(folder, "job.json");
        File.WriteAllText(job, """{ "date": "2031-01-01" }""");
        StartedProgram.Result result = StartedProgram.Run("debrief", Repository.File("tests/data/records/nmea/signalk_gps.log"), "--job", job);
        Assert.Equal(1, result.ExitCode);
        Assert.Contains("the job is for 2031-01-01", result.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("debrief", "x.gpx", "--load", "780")]
    [InlineData("debrief", "x.gpx", "--load", "78,5kg")]
    [InlineData("debrief", "x.gpx", "--lnie", "30m")]
    [InlineData("debrief")]
    [InlineData("simulate", "-o", "x", "--rotations", "0")]
    public void AnyCommand_MistypedArgument_ExitsTwoAndSaysWhatIsExpected(params string[] arguments)
    {
        StartedProgram.Result result = StartedProgram.Run(arguments);
        Assert.Equal(2, result.ExitCode);
        Assert.NotEmpty(result.Errors);
    }

    [Fact]
    public void CheckFile_GoodPartAndBadFiles_ExitZeroOneAndTwo()
    {
        string job = Path.Combine(folder, "job.json");
        File.WriteAllText(job, Stillhook.Tests.Files.Jobs.JobExample.Text);
        StartedProgram.Result good = StartedProgram.Run("check-file", job);
        Assert.Equal((0, "debrief: yes; plan: yes."), (good.ExitCode, good.Output.Trim()));

        File.WriteAllText(job, """{ "line": { "lengthM": 30 } }""");
        StartedProgram.Result part = StartedProgram.Run("check-file", job);
        Assert.Equal(1, part.ExitCode);
        Assert.Contains("note: job.json, line 1: A plan needs the equipped mass.", part.Output, StringComparison.Ordinal);
        Assert.Contains("debrief: yes; plan: no, because 13 things that it needs are missing:", part.Output, StringComparison.Ordinal);

        File.WriteAllText(job, "{ \"line\": {\n\"lengthM\": -1 } }");
        StartedProgram.Result bad = StartedProgram.Run("check-file", job, "--json");
        Assert.Equal(2, bad.ExitCode);
        using JsonDocument report = JsonDocument.Parse(bad.Output);
        JsonElement finding = report.RootElement.GetProperty("findings")[0];
        Assert.Equal(("job-negative", 2), (finding.GetProperty("code").GetString(), finding.GetProperty("line").GetInt32()));
        Assert.False(report.RootElement.GetProperty("debrief").GetBoolean());
        Assert.Equal(2, StartedProgram.Run("check-file", Path.Combine(folder, "none.json")).ExitCode);
    }

    [Fact]
    public void Demo_JobFile_HasNothingToReport()
    {
        StartedProgram.Run("demo", "-o", folder);
        StartedProgram.Result result = StartedProgram.Run("check-file", Directory.GetFiles(folder, "*.json").Single());
        Assert.Equal(0, result.ExitCode);
        Assert.DoesNotContain("error", result.Output, StringComparison.Ordinal);
        Assert.EndsWith("debrief: yes; plan: yes.", result.Output.TrimEnd(), StringComparison.Ordinal);
    }

    [Fact]
    public void Schema_Job_IsThePublishedOne()
    {
        StartedProgram.Result result = StartedProgram.Run("schema", "job");
        Assert.Equal((0, File.ReadAllText(Repository.File("docs/job-file.schema.json"))), (result.ExitCode, result.Output));
    }

    private sealed record Result(int ExitCode, string Output, string Errors);
}
