using System.Text;
using System.Text.RegularExpressions;
using CsCheck;
using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Jobs;

public partial class JobFileTests
{
    private static JobFile Read(string json) => JobFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(json)));

    private static string ExampleOfTheDocument() => Example().Match(File.ReadAllText(Repository.File("docs/job-file.md"))).Groups[1].Value;

    [Fact]
    public void Read_TheExampleOfTheDocument_GivesEveryFigure()
    {
        JobFile job = Read(ExampleOfTheDocument());

        Assert.Empty(job.Findings);
        Assert.Equal(new DateOnly(2026, 6, 1), job.Date);
        LiftSetup s = job.Setup;
        Assert.Equal((30, Origin.JobFile), (s.Line.Value.Meters, s.Line.From));
        Assert.Equal(3, s.Rigging.Value.Meters);
        Assert.Equal(780, s.Load.Value.Kilograms);
        Assert.Equal(1.8, s.DragArea.Value.SquareMeters);
        Assert.Equal(34.2, s.ContactLengthM, 1e-9);
        Assert.Equal(33.6, s.SwingLengthM, 1e-9);
        Assert.Equal(240, s.Wind!.Value.Value.FromDeg);
        Assert.Equal([SiteUse.PickUp, SiteUse.Delivery], s.Sites.Select(x => x.Use));
        Assert.Equal(6420, s.Recon!.AltimeterReading.Feet, 1e-9);
        Assert.Equal(1018, s.Recon.QnhHPa);
        Assert.Single(s.People);
        // Closed form: 380 ft = 115.824 m, 40 kt = 20.57778 m/s, 500 ft/min = 2.54 m/s.
        PlanGate gate = Assert.Single(s.Gates);
        Assert.Equal(115.824, gate.HeightAboveTargetM, 1e-9);
        Assert.Equal(20.57778, gate.GroundSpeedMs, 1e-5);
        Assert.Equal(2.54, gate.SinkMs, 1e-9);
    }

    [Fact]
    public void Read_MistypedKey_IsReportedAndTheRestKept()
    {
        JobFile job = Read("""{ "line": { "lenghtM": 30, "riggingM": 4 } }""");

        Finding finding = Assert.Single(job.Findings);
        Assert.Equal("job-unknown-key", finding.Code);
        Assert.Contains("lenghtM", finding.What, StringComparison.Ordinal);
        Assert.True(job.IsUsable);
        Assert.Equal(Origin.Assumed, job.Setup.Line.From);
        Assert.Equal(4, job.Setup.Rigging.Value.Meters);
    }

    [Theory]
    [InlineData("""{ "line": { "lengthM": "30" } }""", "job-not-number")]
    [InlineData("""{ "line": [ 30 ] }""", "job-not-object")]
    [InlineData("""{ "line": { "lengthM": -30 } }""", "job-negative")]
    [InlineData("""{ "sites": { } }""", "job-not-list")]
    [InlineData("""{ "date": "1.6.2026" }""", "job-date")]
    [InlineData("""{ "sites": [ { "name": "a", "use": "drop", "latitudeDeg": 46, "longitudeDeg": 8 } ] }""", "job-site-use")]
    [InlineData("""{ "sites": [ { "name": "a", "use": "pickUp", "latitudeDeg": 146, "longitudeDeg": 8 } ] }""", "job-out-of-range")]
    [InlineData("""{ "sites": [ { "name": "a", "use": "delivery", "latitudeDeg": 46, "longitudeDeg": 8, "recon": { "altimeterFt": 900 } } ] }""", "job-recon-incomplete")]
    [InlineData("""{ "gates": [ { "distanceM": 400 } ] }""", "job-gate-incomplete")]
    [InlineData("""{ "job": "\ud83d" }""", "job-bad-escape")]
    [InlineData("""{ "\ud83d": 1 }""", "job-bad-escape")]
    [InlineData("not json", "job-not-json")]
    [InlineData("", "job-not-json")]
    [InlineData("[1, 2]", "job-not-object")]
    public void Read_WrongValue_IsAnErrorThatSaysHowToMend(string json, string code)
    {
        JobFile job = Read(json);

        Assert.False(job.IsUsable);
        Finding finding = Assert.Single(job.Findings, f => f.Code == code);
        Assert.NotEmpty(finding.Done);
    }

    [Fact]
    public void Read_BrokenJson_NamesTheLine()
    {
        JobFile job = Read("{\n  \"job\": \"a\"\n  \"date\": 1\n}");
        Assert.Equal(3, Assert.Single(job.Findings).Line);
    }

    [Fact]
    public void Read_ExampleWithOneByteChanged_NeverThrows()
    {
        byte[] good = Encoding.UTF8.GetBytes(ExampleOfTheDocument());
        Gen.Select(Gen.Int[0, good.Length - 1], Gen.Byte).Sample((at, value) =>
        {
            byte[] spoilt = [.. good];
            spoilt[at] = value;
            JobFile.Read(new MemoryStream(spoilt));
        }, iter: 3000);
    }

    [Fact]
    public void Read_ExampleCutShort_IsAnErrorWithItsLine()
    {
        byte[] good = Encoding.UTF8.GetBytes(ExampleOfTheDocument());
        int end = good.AsSpan().LastIndexOf((byte)'}');
        for (int length = 0; length <= end; length++)
        {
            JobFile job = JobFile.Read(new MemoryStream(good, 0, length));
            Assert.False(job.IsUsable);
            Assert.NotNull(Assert.Single(job.Findings).Line);
        }
    }

    [GeneratedRegex("```jsonc\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Example();
}
