using System.Globalization;
using System.IO.Compression;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Json.Schema;
using Stillhook.Files.Days;
using Stillhook.Files.Records;
using Stillhook.Recording;
using Stillhook.Tests.Pdf;

namespace Stillhook.Tests.App;

/// <summary>The demo day imported once by the started program into a store, its day sheet printed, and a store with nothing in it: each test works on copies.</summary>
public sealed class ImportedDemoDay : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("stillhook").FullName;

    public ImportedDemoDay()
    {
        Demo = StartedProgram.Run("demo", "-o", In("demo"));
        Import = StartedProgram.Run("import", Record, "--job", Job, "--by", "pilot B", "--store", In("imported.db"));
        Day = StartedProgram.Run("day", "2025-09-16", "--store", In("imported.db"));
        HostedProgram.Run("day", "2025-09-16", "--store", In("empty.db"));
    }

    internal StartedProgram.Result Demo { get; }

    internal StartedProgram.Result Import { get; }

    internal StartedProgram.Result Day { get; }

    public string Record => Directory.GetFiles(In("demo"), "*.csv").Single();

    public string Job => Directory.GetFiles(In("demo"), "*.json").Single();

    /// <summary>Copies a store to where a test wants it.</summary>
    public void Copy(string name, string to)
    {
        foreach (string part in Directory.GetFiles(folder, name + "*"))
            File.Copy(part, to + Path.GetFileName(part)[name.Length..]);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string In(string name) => Path.Combine(folder, name);
}

/// <summary>The demo day from record and job file to day sheet, customer report, backup and archive, as a user gets there.</summary>
public sealed partial class StoreCommandTests(ImportedDemoDay demo) : IClassFixture<ImportedDemoDay>, IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("stillhook").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string In(string name) => Path.Combine(folder, name);

    private StartedProgram.Result Run(params string[] arguments) => HostedProgram.Run([.. arguments, "--store", In("work.db")]);

    private void Imported() => demo.Copy("imported.db", In("work.db"));

    [Fact]
    public void ImportDayReport_OfTheDemoDay_EndToEnd()
    {
        Assert.Equal((0, 0), (demo.Demo.ExitCode, demo.Import.ExitCode));
        Assert.Contains("kept.", demo.Import.Output, StringComparison.Ordinal);
        Imported();
        Assert.Contains("was there already.", Run("import", demo.Record, "--job", demo.Job).Output, StringComparison.Ordinal);

        StartedProgram.Result day = Run("day", "2025-09-16");
        Assert.Equal(demo.Day.Output, day.Output);
        Assert.Equal((1, 1), (demo.Day.ExitCode, day.ExitCode));
        // Simulated truth: the demo day flies 24 loads, some with torque over its limit; every part of the rigging counts each lift once, though the record was handed in twice.
        foreach (string part in new[] { "may be wrong; correct them here", "24 lifts, 15.9 t", "WRITE UP: Torque 107", "Write up; maintenance decides.", "Plan 24, crew tally 0, record 24", "flown: " })
            Assert.Contains(part, day.Output, StringComparison.Ordinal);
        Assert.Matches(@"line 30-2 +0 +24 +24 ", day.Output);

        Assert.Equal(0, Run("report", "path repair", "-o", In("report")).ExitCode);
        Assert.Equal(["invoice.csv", "next-job.json", "placed.csv", "placed.geojson", "placed.gpx", "report.html", "report.pdf"], Directory.GetFiles(In("report")).Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal));
        Assert.Equal("%PDF-", System.Text.Encoding.ASCII.GetString(File.ReadAllBytes(In("report/report.pdf")), 0, 5));
        // Simulated truth: 24 loads and the two sites.
        Assert.Equal(26, XDocument.Load(In("report/placed.gpx")).Descendants().Count(e => e.Name.LocalName == "wpt"));
        // A start for the next job: readable, and what is of its own day is left to be filled in.
        Assert.NotEqual(2, HostedProgram.Run("check-file", In("report/next-job.json")).ExitCode);
    }

    // Closed form: one degree of latitude is 111 km; the same day flown 5 degrees farther north is 556 km off.
    [Fact]
    public void Import_RecordFarFromTheJob_IsRefusedAndCountsNowhere()
    {
        FlightRecord record = RecordReader.ReadFile(demo.Record);
        using (FileStream file = File.Create(In("far.csv")))
            RecordWriter.Write(record with { LatitudeDeg = [.. record.LatitudeDeg.Select(l => l + 5)] }, RecordFormat.Csv, file);
        StartedProgram.Result far = Run("import", In("far.csv"), "--job", demo.Job);
        Assert.Equal(2, far.ExitCode);
        Assert.Matches("comes no nearer to any site of the job '.*' than 55[0-9] km.*take it in without --job", far.Errors);
        Assert.DoesNotMatch("line 30-2", Run("day", "2025-09-16").Output);
        Assert.Equal(0, Run("import", In("far.csv")).ExitCode);
    }

    // The sheet on paper tells every number and clock time of the one in the terminal, on one to three pages, and is the same bytes when written again.
    [Fact]
    public void Day_IntoAFolder_HtmlAndPdfWithTheFiguresOfTheText()
    {
        Imported();
        StartedProgram.Result written = Run("day", "2025-09-16", "-o", In("a"));
        Assert.Equal(1, written.ExitCode);
        Assert.Equal(["a/day-2025-09-16.html", "a/day-2025-09-16.pdf"], written.Output.Replace('\\', '/').Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries));
        Run("day", "2025-09-16", "-o", In("b"));
        foreach (string file in new[] { "day-2025-09-16.html", "day-2025-09-16.pdf" })
            Assert.Equal(File.ReadAllBytes(In("a/" + file)), File.ReadAllBytes(In("b/" + file)));
        string paper = PdfMakerTests.ReadBack(File.ReadAllBytes(In("a/day-2025-09-16.pdf")));
        Assert.Empty(Figure().Matches(demo.Day.Output).Select(m => m.Value).Except(Figure().Matches(paper).Select(m => m.Value)));
        Assert.InRange(paper.Count(c => c == '\f'), 1, 3);
    }

    [Fact]
    public void DayAndReport_Json_FitTheSchemasThatTheProgramPrints()
    {
        Imported();
        foreach ((string schema, string[] command, int exitCode) in new[] { ("day", new[] { "day", "2025-09-16", "--json" }, 1), ("report", ["report", "path repair", "--json"], 0) })
        {
            StartedProgram.Result result = StartedProgram.Run([.. command, "--store", In("work.db")]);
            Assert.Equal(exitCode, result.ExitCode);
            using JsonDocument document = JsonDocument.Parse(result.Output);
            Assert.Equal("stillhook-" + schema, document.RootElement.GetProperty("schema").GetString());
            Assert.True(JsonSchema.FromText(HostedProgram.Run("schema", schema).Output).Evaluate(document.RootElement).IsValid);
        }
        Assert.NotEqual(0, Run("report", "path repair").ExitCode);
    }

    // The crew's own lines: each once, however often the sheet is handed in; a bad line is named and the rest kept.
    [Fact]
    public void Import_CrewSheet_IsTakenOnceAndReconciled()
    {
        Imported();
        File.WriteAllText(In("crew.csv"), CrewSheet.Heading + "\ndelivery,08:36,,1,,,\ndelivery,08:39,,2,,,\nweather,09:27,09:36,,,,cloud\ngauge,08:20,,,,300,\nnonsense,1,,,,,\n");
        StartedProgram.Result first = Run("import", "--job", demo.Job, "--crew-sheet", In("crew.csv"));
        Assert.Equal(1, first.ExitCode);
        Assert.Contains("crew.csv, line 6", first.Errors, StringComparison.Ordinal);
        Assert.Contains("crew.csv: 4 lines of the crew kept.", first.Output, StringComparison.Ordinal);
        Assert.Contains("crew.csv: 0 lines of the crew kept.", Run("import", "--job", demo.Job, "--crew-sheet", In("crew.csv")).Output, StringComparison.Ordinal);
        string day = Run("day", "2025-09-16").Output;
        Assert.Contains("Plan 24, crew tally 2, record 24", day, StringComparison.Ordinal);
        Assert.DoesNotContain("odd: load 1,", day, StringComparison.Ordinal);
        Assert.Contains("weather: ", day, StringComparison.Ordinal);
    }

    // Simulated truth: the demo day twice over, all torque of the second 4 % up. The simulated aircraft burns no fuel, so the gauges stand still.
    [Fact]
    public void SecondDay_FourPercentMoreTorque_IsToldAgainstTheFirst()
    {
        Imported();
        (string record, string job) = (demo.Record, demo.Job);
        File.WriteAllText(In("crew.csv"), CrewSheet.Heading + "\ngauge,08:20,,,,181,\ngauge,12:20,,,,180,\n");
        Assert.Contains("by the plan, of ", demo.Import.Output, StringComparison.Ordinal);
        // Handed in again with the crew's sheet the fuel of the kept hovers is read.
        Assert.Matches(@"(\d\d) hovers kept for the aircraft's baseline; fuel on board of \1 by gauge readings, of 0 by the plan, of 0 assumed", Run("import", record, "--job", job, "--crew-sheet", In("crew.csv")).Output);
        Assert.Contains("No hover baseline yet: 0 hovers", Run("day", "2025-09-16").Output, StringComparison.Ordinal);

        File.WriteAllLines(In("next.csv"), File.ReadLines(record).Select((line, i) => i == 0 ? line : Later(line)));
        string nextJob = File.ReadAllText(job).Replace("2025-09-16", "2025-09-17", StringComparison.Ordinal).Replace("\"measuredOn\": 41,", "", StringComparison.Ordinal);
        File.WriteAllText(In("next.json"), nextJob.Replace("\"policy\": {", "\"policy\": { \"hoverShiftPercent\": 3,", StringComparison.Ordinal));
        Assert.Equal(0, Run("import", In("next.csv"), "--job", In("next.json"), "--crew-sheet", In("crew.csv")).ExitCode);
        Assert.Matches(@"WRITE UP: Hover torque today is (3\.[6-9]|4\.[0-4]) % above baseline at the same mass and air .* Write up; maintenance decides\.", Run("day", "2025-09-17").Output);

        // The flown rotation feeds the quote, with its origin; the plan says what the aircraft was measured to take.
        StartedProgram.Result plan = Run("plan", In("next.json"), "--quick");
        Assert.Matches(@"The rotation is as flown: \d+ s, spread \d+ s, \d+ rotations on 2 days", plan.Output);
        Assert.Matches(@"was measured \d+\.\d % (above|below) the chart at the same mass and air .* Limits stay those of the chart", plan.Output);

        // Deliveries beside the pilot's own, only when that pilot is named.
        string debrief = Run("debrief", In("next.csv"), "--job", In("next.json")).Output, own = Run("debrief", In("next.csv"), "--job", In("next.json"), "--pilot", "pilot B").Output;
        Assert.Matches(@"Hover torque today is (3\.[6-9]|4\.[0-4]) % above baseline", debrief);
        Assert.DoesNotContain("usual for", debrief, StringComparison.Ordinal);
        Assert.Contains("Beside what is usual for pilot B, who alone reads this:", own, StringComparison.Ordinal);
        Assert.Matches(@"half of \d+ deliveries lie between", own);
    }

    private static string Later(string line)
    {
        string[] cells = line.Replace("2025-09-16", "2025-09-17", StringComparison.Ordinal).Split(',');
        if (double.TryParse(cells[^1], System.Globalization.CultureInfo.InvariantCulture, out double torque))
            cells[^1] = (1.04 * torque).ToString("0.0", System.Globalization.CultureInfo.InvariantCulture);
        return string.Join(',', cells);
    }

    [Theory]
    [InlineData("plan")]
    [InlineData("why")]
    public void Store_NotThere_SaidAndNotMade(string command)
    {
        StartedProgram.Result result = Run(command, Repository.File("examples/path-repair.json"));
        Assert.Equal(2, result.ExitCode);
        Assert.Contains("there is no such store", result.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists(In("work.db")));
    }

    [Fact]
    public void BackupAndExport_BroughtElsewhere_GiveTheSameDay()
    {
        Imported();
        string day = demo.Day.Output;

        Assert.Equal(0, Run("backup", In("backup.db")).ExitCode);
        Assert.Equal(0, HostedProgram.Run("restore", In("backup.db"), "--store", In("restored.db")).ExitCode);
        Assert.Equal(day, HostedProgram.Run("day", "2025-09-16", "--store", In("restored.db")).Output);

        Assert.Equal(0, Run("export", "Path repair", "-o", In("job.zip")).ExitCode);
        using (ZipArchive zip = ZipFile.OpenRead(In("job.zip")))
            Assert.NotNull(zip.GetEntry("manifest.json"));
        Assert.Equal(0, HostedProgram.Run("import", In("job.zip"), "--store", In("other.db")).ExitCode);
        Assert.Equal(day, HostedProgram.Run("day", "2025-09-16", "--store", In("other.db")).Output);
    }

    [Theory]
    [InlineData("import", "2", "nothing to take in")]
    [InlineData("day 16.09.2025", "2", "Write it as 2026-06-01")]
    [InlineData("day 2025-09-16", "2", "nothing is kept of 2025-09-16")]
    [InlineData("report nothing -o out", "1", "no job 'nothing' is kept")]
    [InlineData("export nothing -o out.zip", "1", "no job 'nothing' is kept")]
    [InlineData("restore missing.db", "2", "missing.db")]
    [InlineData("import missing.gpx", "2", "missing.gpx")]
    [InlineData("import job.json", "2", "give it with --job")]
    public void Commands_NothingThere_OneClearLine(string command, string exitCode, string says)
    {
        if (!command.StartsWith("restore", StringComparison.Ordinal))
            demo.Copy("empty.db", In("work.db"));
        StartedProgram.Result result = Run(command.Split(' ').Select(a => a is "out" or "out.zip" or "missing.db" or "missing.gpx" ? In(a) : a is "job.json" ? Repository.File("examples/path-repair.json") : a).ToArray());
        Assert.Equal(exitCode, result.ExitCode.ToString(CultureInfo.InvariantCulture));
        Assert.Contains(says, Assert.Single(result.Errors.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    [GeneratedRegex(@"\d{4}-\d\d-\d\d|\d\d:\d\d(?::\d\d)?|\d+(?:\.\d+)?", RegexOptions.CultureInvariant)]
    private static partial Regex Figure();
}
