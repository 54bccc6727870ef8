using System.Text.Json;
using Json.Schema;

namespace Stillhook.Tests.App;

/// <summary>The cards as a user gets them from the example.</summary>
public sealed class BriefCommandTests : IDisposable
{
    private static readonly string Example = Repository.File("examples/path-repair.json");

    private readonly string folder = Directory.CreateTempSubdirectory("stillhook").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static string[] Names(string folder) => [.. Directory.GetFiles(folder).Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal)];

    private string In(string name) => Path.Combine(folder, name);

    // The same input and moment give the same bytes; kept as issued; the next brief tells the changes; none of the old cards stays behind.
    [Fact]
    public void Brief_Example_WritesKeepsAndTellsWhatChanged()
    {
        string store = In("kept.db"), job = In("job.json");
        string text = File.ReadAllText(Example).Replace("\"approach\": { ", "\"approach\": { \"courseDeg\": 330, ", StringComparison.Ordinal);
        File.WriteAllText(job, text);
        string[] first = ["brief", job, "-o", In("a"), "--quick", "--issued", "2025-09-15T18:00:00Z", "--by", "planner A"];
        StartedProgram.Result written = StartedProgram.Run([.. first, "--store", store]);
        Assert.Equal((0, ""), (written.ExitCode, written.Errors));
        string[] sheets = ["brief", "cockpit-path-bend", "load-master-turning-place", "receiver-path-bend"];
        Assert.Equal([.. sheets.SelectMany(s => new[] { s + ".html", s + ".pdf" }).Append("brief.json").Order(StringComparer.Ordinal)], Names(In("a")));
        Assert.Equal(0, StartedProgram.Run([.. first.Select(a => a == In("a") ? In("b") : a)]).ExitCode);
        Assert.All(Names(In("a")), n => Assert.Equal(File.ReadAllBytes(Path.Combine(In("a"), n)), File.ReadAllBytes(Path.Combine(In("b"), n))));

        JsonSchema schema = JsonSchema.FromText(StartedProgram.Run("schema", "brief").Output);
        using (JsonDocument document = JsonDocument.Parse(File.ReadAllText(Path.Combine(In("a"), "brief.json"))))
            Assert.True(schema.Evaluate(document.RootElement).IsValid);

        File.WriteAllText(job, text.Replace("\"qnhHPa\": 1019, \"temperatureC\": 6.5", "\"qnhHPa\": 1016, \"temperatureC\": 6.5", StringComparison.Ordinal));
        StartedProgram.Result again = StartedProgram.Run("brief", job, "-o", In("a"), "--quick", "--issued", "2025-09-16T05:00:00Z", "--store", store);
        Assert.Equal((0, ""), (again.ExitCode, again.Errors));
        string rebrief = File.ReadAllText(Path.Combine(In("a"), "re-brief.html"));
        Assert.Contains("1019.0 hPa", rebrief, StringComparison.Ordinal);
        Assert.Contains("1016.0 hPa", rebrief, StringComparison.Ordinal);
        Assert.DoesNotContain("hut keeper", rebrief, StringComparison.Ordinal);

        // A brief on its own takes the re-brief of the one before away.
        Assert.Equal(0, StartedProgram.Run([.. first]).ExitCode);
        Assert.DoesNotContain("re-brief.html", Names(In("a")));
    }

    [Fact]
    public void Brief_NothingToWriteToOrBadInput_ExitsTwoInOneLine()
    {
        foreach (string[] arguments in new[] { new[] { "brief", Example }, ["brief", Example, "-o", In("x"), "--issued", "soon"], ["brief", Example, "-o", In("x"), "--since", In("nowhere")], ["brief", Example, "-o", In("x"), "--since", Example] })
        {
            StartedProgram.Result refused = StartedProgram.Run(arguments);
            Assert.Equal(2, refused.ExitCode);
            Assert.StartsWith("stillhook: ", Assert.Single(refused.Errors.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        }
        Assert.False(Directory.Exists(In("x")));
    }
}
