using Stillhook.Files.Jobs;

namespace Stillhook.Tests.Files.Jobs;

public class JobOrderTextTests
{
    private const string Plain = """
        {
          // what the day is
          "job": "ridge",
          "crew": [{ "name": "day", "role": "pilot" }],
          "day": { "start": "08:00", /* kept */ "latestEnd": "18:00" }
        }
        """;

    [Fact]
    public void With_NoOrderYet_PutsItInAndKeepsComments()
    {
        string text = JobOrderText.With(Plain, ["2", "1 \"b\""])!;
        Assert.Equal(["2", "1 \"b\""], Read(text).Request.Day!.Order);
        Assert.Contains("// what the day is", text);
        Assert.Contains("/* kept */", text);
        Assert.Equal(new TimeOnly(18, 0), Read(text).Request.Day!.LatestEnd);
    }

    [Fact]
    public void With_OrderThere_ReplacesItAndNoneTakesItOut()
    {
        string once = JobOrderText.With(Plain, ["2", "1"])!, twice = JobOrderText.With(once, ["3"])!;
        Assert.Equal(["3"], Read(twice).Request.Day!.Order);
        string gone = JobOrderText.With(twice, [])!;
        Assert.Empty(Read(gone).Request.Day!.Order);
        Assert.DoesNotContain("\"order\"", gone);
        Assert.Equal(new TimeOnly(8, 0), Read(gone).Request.Day!.Start);
    }

    [Fact]
    public void With_OrderLastInItsGroupOrAlone_StaysReadable()
    {
        string last = Plain.Replace("\"latestEnd\": \"18:00\"", "\"latestEnd\": \"18:00\", \"order\": [\"1\"]", StringComparison.Ordinal);
        Assert.Equal(new TimeOnly(18, 0), Read(JobOrderText.With(last, [])!).Request.Day!.LatestEnd);
        string alone = JobOrderText.With("""{ "day": {} }""", ["1"])!;
        Assert.Equal(["1"], Read(alone).Request.Day!.Order);
        Assert.Empty(Read(JobOrderText.With(alone, [])!).Request.Day!.Order);
    }

    [Fact]
    public void With_NoDay_IsNull() => Assert.Null(JobOrderText.With("""{ "job": "x", "crew": [] }""", ["1"]));

    private static JobFile Read(string text)
    {
        JobFile file = JobFile.Read(text);
        Assert.DoesNotContain(file.Findings, f => f.Code is "json" or "job-json");
        return file;
    }
}
