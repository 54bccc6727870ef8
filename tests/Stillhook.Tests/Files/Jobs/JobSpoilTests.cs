using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using Stillhook.Files.Jobs;
using Stillhook.Planning;
using Stillhook.Planning.Checking;

namespace Stillhook.Tests.Files.Jobs;

/// <summary>Spoilt job files: never an exception, never a long wait.</summary>
public class JobSpoilTests
{
    // STILLHOOK_ITER multiplies the draws for a longer run.
    private static readonly int Times = int.TryParse(Environment.GetEnvironmentVariable("STILLHOOK_ITER"), NumberStyles.None, CultureInfo.InvariantCulture, out int times) ? times : 1;

    [Fact]
    public void Read_ExampleWithOneByteChanged_NeverThrows() =>
        Gen.Select(Gen.Int[0, JobExample.Bytes.Length - 1], Gen.Byte).Sample((at, value) =>
        {
            byte[] spoilt = [.. JobExample.Bytes];
            spoilt[at] = value;
            Use(JobFile.Read(new MemoryStream(spoilt)));
        }, iter: 3000 * Times);

    [Fact]
    public void Read_ExampleWithPiecesMoved_NeverThrows() =>
        Gen.Select(Gen.Int[0, JobExample.Bytes.Length - 1], Gen.Int[1, 300], Gen.Int[0, JobExample.Bytes.Length - 1]).Sample((from, length, to) =>
        {
            List<byte> spoilt = [.. JobExample.Bytes];
            spoilt.InsertRange(to, JobExample.Bytes.Skip(from).Take(length));
            Use(JobFile.Read(new MemoryStream([.. spoilt])));
        }, iter: 1500 * Times);

    [Fact]
    public void Read_ExampleWithValuesExchanged_NeverThrows()
    {
        string[] strange = ["null", "true", "-1", "1e300", "1e-300", "0", "99999999999999999999", "\"\"", "\"about 7\"", "[]", "{}", "[[[]]]", "[null]", "\"2026-13-45\"", "\"\\ud83d\"", "\"\\u0000\""];
        Gen.Select(Gen.Int[0, 10_000], Gen.Int[0, strange.Length - 1], Gen.Int[0, 10_000], Gen.Int[0, strange.Length - 1]).Sample((one, a, two, b) =>
        {
            string text = Exchange(Exchange(JobExample.Text, one, strange[a]), two, strange[b]);
            Use(JobExample.Read(text));
        }, iter: 1500 * Times);
    }

    [Fact]
    public void Read_ExampleCutShort_IsAnErrorWithItsLine()
    {
        int end = JobExample.Bytes.AsSpan().LastIndexOf((byte)'}');
        int step = Times > 1 ? 1 : 7;
        for (int length = 0; length <= end; length += step)
        {
            JobFile job = JobFile.Read(new MemoryStream(JobExample.Bytes, 0, length));
            Assert.False(job.IsUsable);
            Assert.NotNull(Assert.Single(job.Findings).Line);
        }
    }

    [Fact]
    public void Read_ShuffledKeys_GivesTheSameRequest()
    {
        string expected = JobExample.Dump(JobExample.Read(JobExample.Text).Request);
        Gen.Int.Sample(seed =>
        {
            Random random = new(seed);
            JobFile job = JobExample.Read(Shuffled(JobExample.Node(), random)!.ToJsonString());
            Assert.Empty(job.Findings);
            Assert.Equal(expected, JobExample.Dump(job.Request));
        }, iter: 20 * Times);
    }

    [Theory]
    [InlineData("de-DE")]
    [InlineData("tr-TR")]
    [InlineData("ar-SA")]
    public void Read_OtherCultures_GivesTheSameRequestAndWords(string culture)
    {
        const string bad = """{ "line": { "lengthM": -30.5 }, "load": { "massKg": "78,5" }, "aircraft": { "hookLimitLb": 0.5 }, "TIMEZONE": 1, "quote": { "LIFTS": 3 } }""";
        CultureInfo before = CultureInfo.CurrentCulture;
        JobFile here = JobExample.Read(JobExample.Text), badHere = JobExample.Read(bad);
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo(culture);
            Assert.Equal(JobExample.Dump(here.Request), JobExample.Dump(JobExample.Read(JobExample.Text).Request));
            Assert.Equal(badHere.Findings, JobExample.Read(bad).Findings);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Read_DeepNesting_IsAnErrorWithItsLine()
    {
        foreach (string open in new[] { "[", "{\"a\":", "{\"loads\":[" })
        {
            JobFile job = JobExample.Read(string.Concat(Enumerable.Repeat("\n" + open, 100_000)));
            Assert.Equal("job-too-deep", Assert.Single(job.Findings).Code);
            Assert.InRange(job.Findings[0].Line!.Value, 16, 34);
        }
    }

    [Fact]
    public void Read_TenMegabytes_IsRefusedWithoutReadingThemAll()
    {
        MemoryStream stream = new(Encoding.UTF8.GetBytes("{" + new string(' ', 10_000_000) + "}"));
        Assert.Equal("job-too-large", Assert.Single(JobFile.Read(stream).Findings).Code);
        Assert.InRange(stream.Position, 0, 5_000_000);
    }

    [Theory]
    [InlineData("{", "\"zz{0}\":1,", "}")]
    [InlineData("{", "\"a\":1,", "}")]
    [InlineData("{\"loads\":[", "{{}},", "]}")]
    [InlineData("{\"job\":\"", "person ", "\"}")]
    [InlineData("{\"load\":{\"massKg\":\"", "a 1 ", "\"}}")]
    [InlineData("{\"loads\":[{\"number\":\"1\",\"massKg\":1,\"howKnown\":\"label\",\"note\":\"", "person lift ", "\"}]}")]
    [InlineData("{\"aircraft\":{\"hoverTorque\":{\"torquePercent\":[[[", "\"x\",[[,", "]]]}}}")]
    public void Read_FourMegabytesOfAnything_EndsSoon(string head, string piece, string tail)
    {
        StringBuilder text = new(head);
        for (int i = 0; text.Length < 3_900_000; i++)
            text.AppendFormat(CultureInfo.InvariantCulture, piece, i);
        Stopwatch watch = Stopwatch.StartNew();
        Use(JobExample.Read(text.Append(tail).ToString()));
        // Measured 0.1 to 1.2 s; the limit only tells a growing curve from a straight one.
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, 15);
    }

    [Fact]
    public void Read_AsManyLoadsAsAreRead_EndsSoon()
    {
        const int count = JobReader.LongestList;
        string loads = string.Join(",", Enumerable.Range(0, count).Select(i => $$"""{"number":"load number {{i}}","massKg":100,"howKnown":"label","pickUp":"yrad {{i}}","delivery":"paht","after":["load number {{(i + 1) % count}}","x{{i}}"]}"""));
        string sites = string.Join(",", Enumerable.Range(0, count / 2).Select(i => $$"""{"name":"yard {{i}}","use":"pickUp","latitudeDeg":1,"longitudeDeg":1},{"name":"path {{i}}","use":"delivery","latitudeDeg":1,"longitudeDeg":1}"""));
        Stopwatch watch = Stopwatch.StartNew();
        JobFile job = JobExample.Read($$"""{"sites":[{{sites}}],"loads":[{{loads}}]}""");
        Assert.Contains(job.Findings, f => f.Code == "load-circle");
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, 15);
    }

    private static void Use(JobFile job)
    {
        Assert.All(job.Findings, f => Assert.False(f.What.Contains('\n', StringComparison.Ordinal) || f.Done.Length == 0 && f.What.Length == 0));
        Assert.InRange(job.Findings.Count, 0, 1000);
        RequestCheck.ForPlan(job.Request);
        job.LineOf("loads[1].mass");
    }

    // The n-th value behind a colon becomes another.
    private static string Exchange(string text, int n, string value)
    {
        int[] colons = [.. Enumerable.Range(0, text.Length).Where(i => text[i] == ':')];
        int start = colons[n % colons.Length] + 1;
        int end = text.AsSpan(start).IndexOfAny(",}\n") is >= 0 and int length ? start + length : text.Length;
        return text[..start] + value + text[end..];
    }

    private static JsonNode? Shuffled(JsonNode? node, Random random)
    {
        if (node is JsonArray list)
            return new JsonArray([.. list.Select(i => Shuffled(i, random))]);
        if (node is not JsonObject group)
            return node?.DeepClone();
        KeyValuePair<string, JsonNode?>[] entries = [.. group];
        random.Shuffle(entries);
        return new JsonObject(entries.Select(e => KeyValuePair.Create(e.Key, Shuffled(e.Value, random))));
    }
}
