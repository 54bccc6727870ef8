using System.IO.Compression;
using System.Xml.Linq;
using Stillhook.Files.Days;

namespace Stillhook.Tests.App;

/// <summary>The demo day from record and job file to day sheet, customer report, backup and archive, as a user gets there.</summary>
public sealed class StoreCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("stillhook").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string In(string name) => Path.Combine(folder, name);

    private StartedProgram.Result Run(params string[] arguments) => StartedProgram.Run([.. arguments, "--store", In("work.db")]);

    private (string Record, string Job) Demo()
    {
        Assert.Equal(0, StartedProgram.Run("demo", "-o", In("demo")).ExitCode);
        return (Directory.GetFiles(In("demo"), "*.csv").Single(), Directory.GetFiles(In("demo"), "*.json").Single());
    }

    [Fact]
    public void ImportDayReport_OfTheDemoDay_EndToEnd()
    {
        (string record, string job) = Demo();
        StartedProgram.Result import = Run("import", record, "--job", job, "--by", "pilot B");
        Assert.Equal(0, import.ExitCode);
        Assert.Contains("kept.", import.Output, StringComparison.Ordinal);
        Assert.Contains("was there already.", Run("import", record, "--job", job).Output, StringComparison.Ordinal);

        StartedProgram.Result day = Run("day", "2025-09-16");
        Assert.Equal(1, day.ExitCode);
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
        Assert.NotEqual(2, StartedProgram.Run("check-file", In("report/next-job.json")).ExitCode);
    }

    // The crew's own lines: each once, however often the sheet is handed in; a bad line is named and the rest kept.
    [Fact]
    public void Import_CrewSheet_IsTakenOnceAndReconciled()
    {
        (string record, string job) = Demo();
        File.WriteAllText(In("crew.csv"), CrewSheet.Heading + "\ndelivery,08:36,,1,,,\ndelivery,08:39,,2,,,\nweather,09:27,09:36,,,,cloud\ngauge,08:20,,,,300,\nnonsense,1,,,,,\n");
        StartedProgram.Result first = Run("import", record, "--job", job, "--crew-sheet", In("crew.csv"));
        Assert.Equal(1, first.ExitCode);
        Assert.Contains("crew.csv, line 6", first.Errors, StringComparison.Ordinal);
        Assert.Contains("crew.csv: 4 lines of the crew kept.", first.Output, StringComparison.Ordinal);
        Assert.Contains("crew.csv: 0 lines of the crew kept.", Run("import", "--job", job, "--crew-sheet", In("crew.csv")).Output, StringComparison.Ordinal);
        string day = Run("day", "2025-09-16").Output;
        Assert.Contains("Plan 24, crew tally 2, record 24", day, StringComparison.Ordinal);
        Assert.DoesNotContain("odd: load 1,", day, StringComparison.Ordinal);
        Assert.Contains("weather: ", day, StringComparison.Ordinal);
    }

    [Fact]
    public void BackupAndExport_BroughtElsewhere_GiveTheSameDay()
    {
        (string record, string job) = Demo();
        Run("import", record, "--job", job);
        string day = Run("day", "2025-09-16").Output;

        Assert.Equal(0, Run("backup", In("backup.db")).ExitCode);
        Assert.Equal(0, StartedProgram.Run("restore", In("backup.db"), "--store", In("restored.db")).ExitCode);
        Assert.Equal(day, StartedProgram.Run("day", "2025-09-16", "--store", In("restored.db")).Output);

        Assert.Equal(0, Run("export", "Path repair", "-o", In("job.zip")).ExitCode);
        using (ZipArchive zip = ZipFile.OpenRead(In("job.zip")))
            Assert.NotNull(zip.GetEntry("manifest.json"));
        Assert.Equal(0, StartedProgram.Run("import", In("job.zip"), "--store", In("other.db")).ExitCode);
        Assert.Equal(day, StartedProgram.Run("day", "2025-09-16", "--store", In("other.db")).Output);
    }

    [Theory]
    [InlineData("import", "2", "nothing to take in")]
    [InlineData("day 16.09.2025", "2", "Write it as 2026-06-01")]
    [InlineData("day 2025-09-16", "2", "nothing is kept of 2025-09-16")]
    [InlineData("report nothing -o out", "1", "no job 'nothing' is kept")]
    [InlineData("export nothing -o out.zip", "1", "no job 'nothing' is kept")]
    [InlineData("restore missing.db", "2", "missing.db")]
    [InlineData("import missing.gpx", "2", "missing.gpx")]
    public void Commands_NothingThere_OneClearLine(string command, string exitCode, string says)
    {
        StartedProgram.Result result = Run(command.Split(' ').Select(a => a is "out" or "out.zip" or "missing.db" or "missing.gpx" ? In(a) : a).ToArray());
        Assert.Equal(exitCode, result.ExitCode.ToString(System.Globalization.CultureInfo.InvariantCulture));
        Assert.Contains(says, Assert.Single(result.Errors.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }
}
