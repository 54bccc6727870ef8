using Stillhook.Debriefing;
using Stillhook.Files.Jobs;
using Stillhook.Planning;
using Stillhook.Planning.Checking;
using Stillhook.Recording;

namespace Stillhook.Tests.Files.Jobs;

public class JobFileTests
{
    private static JobFile Read(string json) => JobExample.Read(json);

    // Pinned: what the example of the document says, read by eye.
    [Fact]
    public void Read_TheExampleOfTheDocument_GivesEveryFigure()
    {
        JobFile job = Read(JobExample.Text);

        Assert.Empty(job.Findings);
        LiftRequest r = job.Request;
        Assert.Equal(new DateOnly(2026, 6, 1), r.Date);
        Assert.Equal(new DateTimeOffset(2026, 5, 31, 18, 20, 0, TimeSpan.FromHours(2)), r.EnteredAt);
        Assert.Equal(1240, r.Aircraft!.EquippedMass!.Value.Kilograms);
        Assert.Equal(2280, r.Aircraft.HoverOutOfGroundEffect!.Mass[2][1]!.Value.Kilograms);
        // Closed form: 8000 ft = 2438.4 m.
        Assert.Equal(2438.4, r.Aircraft.HoverOutOfGroundEffect.PressureAltitude[2].Meters, 1e-9);
        Assert.Equal(97, r.Aircraft.HoverTorque!.Torque[1][1][2]!.Value.Percent, 1e-9);
        Assert.Equal(3, r.Aircraft.Rotor!.Blades);
        Assert.Equal([CrewRole.Pilot, CrewRole.LoadMaster, CrewRole.Signaller], r.Crew.Select(c => c.Role));
        Assert.Equal(160, r.Crew[0].SlingTimeLastYear!.Value.Hours, 1e-9);
        Assert.Equal(new TimeOnly(11, 0), r.Sites[1].Forecast[1].Hour);
        Assert.Equal(20, r.Sites[1].Wires[0].Voltage!.Value.Kilovolts, 1e-9);
        Assert.Equal(MassKnownBy.Estimated, r.Loads[1].HowKnown);
        Assert.Equal(["1"], r.Loads[1].After);
        Assert.Equal(2000, r.Loads[0].Attachment!.Sling!.RatedLoad!.Value.Kilograms);
        Assert.Equal(20, r.Policy!.Reserve!.Value.Minutes, 1e-9);
        Assert.Equal(2400, r.Quote!.PricePerHour);
        Assert.Empty(RequestCheck.ForPlan(r));
    }

    // Closed form: 1720 lb x 0.45359237 = 780.1788764 kg; 29.92 inHg x 33.8638866667 = 1013.2074890 hPa; 50 °F = 10 °C; 1 NM = 1852 m; 9 °F of difference = 5 °C.
    [Fact]
    public void Read_OtherUnits_AreTheSameQuantities()
    {
        JobFile job = Read("""
            {
              "load": { "massLb": 1720 },
              "sites": [ { "name": "a", "use": "base", "latitudeDeg": 1, "longitudeDeg": 2, "weather": { "qnhInHg": 29.92, "temperatureF": 50, "wind": { "fromDeg": 1, "speedKmh": 36, "gustMs": 20 } } } ],
              "gates": [ { "distanceNm": 1, "heightAboveTargetM": 100, "groundSpeedKt": 40, "sinkFtPerMin": 500 } ],
              "flyEnteredGates": true,
              "policy": { "replanTemperatureF": 9, "reserveH": 0.5 },
            }
            """);
        Assert.Empty(job.Findings);
        Assert.Equal(780.1788764, job.Request.Load!.Mass!.Value.Kilograms, 1e-6);
        WeatherNow weather = job.Request.Sites[0].Weather!;
        Assert.Equal(1013.2075, weather.Qnh.Hectopascals, 1e-3);
        Assert.Equal(10, weather.Temperature.DegreesCelsius, 1e-9);
        Assert.Equal((10, 20), (Math.Round(weather.Wind!.Speed.MetersPerSecond, 9), weather.Wind.Gust!.Value.MetersPerSecond));
        Assert.Equal(1852, job.Request.Gates[0].Distance.Meters, 1e-9);
        Assert.Equal(5, job.Request.Policy!.ReplanTemperature!.Value.DegreesCelsius, 1e-9);
        Assert.Equal(30, job.Request.Policy.Reserve!.Value.Minutes, 1e-9);
    }

    [Fact]
    public void Read_MistypedKey_IsReportedAndTheRestKept()
    {
        JobFile job = Read("""{ "line": { "lenghtM": 30, "riggingM": 4 } }""");

        Finding finding = Assert.Single(job.Findings, f => f.Code == "job-unknown-key");
        Assert.Contains("lenghtM", finding.What, StringComparison.Ordinal);
        Assert.Contains("'lengthM'", finding.Done, StringComparison.Ordinal);
        Assert.True(job.IsUsable);
        LiftSetup setup = LiftSetup.From(job.Request);
        Assert.Equal(Origin.Assumed, setup.Line.From);
        Assert.Equal(4, setup.Rigging.Value.Meters);
    }

    [Theory]
    [InlineData("""{ "line": { "lengthMt": 30, "riggingM": 1 } }""", "write lengthM.")]
    [InlineData("""{ "load": { "mass": 700 } }""", "write massKg or massLb.")]
    [InlineData("""{ "load": { "massKG": 700 } }""", "write massKg.")]
    [InlineData("""{ "load": { "mass_kg": 700 } }""", "write massKg.")]
    [InlineData("""{ "load": { "massM": 700 } }""", "write massKg or massLb.")]
    [InlineData("""{ "equippedMassKg": 700 }""", "belongs in 'aircraft'")]
    [InlineData("""{ "wether": 700 }""", "belongs in|docs/job-file.md")]
    [InlineData("""{ "aircaft": { } }""", "'aircraft'")]
    [InlineData("""{ "zzzzzzzz": 1 }""", "docs/job-file.md")]
    public void Read_UnknownKey_SaysWhichWasProbablyMeant(string json, string says)
    {
        Finding finding = Assert.Single(Read(json).Findings, f => f.Code == "job-unknown-key");
        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Contains(says.Split('|'), s => finding.Done.Contains(s, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("""{ "line": { "lengthM": "30" } }""", "job-not-number", "Write 30 without quotes.")]
    [InlineData("""{ "line": { "lengthM": "30,5" } }""", "job-not-number", "Write 30.5 without quotes, with a decimal point.")]
    [InlineData("""{ "load": { "massKg": "780 kg" } }""", "job-not-number", "The unit is in the key: write \"massKg\": 780.")]
    [InlineData("""{ "load": { "massKg": "1720 lbs" } }""", "job-not-number", "The unit is in the key: write \"massLb\": 1720.")]
    [InlineData("""{ "load": { "dragAreaM2": "1.8 m2" } }""", "job-not-number", "The unit is in the key: write \"dragAreaM2\": 1.8.")]
    [InlineData("""{ "load": { "massKg": "about 700" } }""", "job-not-number", "Write 700 without quotes and without words.")]
    [InlineData("""{ "load": { "massKg": "heavy" } }""", "job-not-number", "Leave the key out when it is not known.")]
    [InlineData("""{ "load": { "massKg": true } }""", "job-not-number", "Write a number without quotes")]
    [InlineData("""{ "loads": [ { "number": "1", "massKg": "about 700", "howKnown": "weighed" } ] }""", "job-not-number", "Write \"massKg\": 700 with \"howKnown\": \"estimated\", and \"uncertaintyKg\"")]
    [InlineData("""{ "loads": [ { "number": "1", "massKg": null, "howKnown": "weighed" } ] }""", "job-null", "This one is needed")]
    [InlineData("""{ "loads": [ { "number": "1", "massKg": 700 } ] }""", "job-missing-key", "How the mass is known")]
    [InlineData("""{ "loads": [ { "number": " ", "massKg": 700, "howKnown": "label" } ] }""", "job-blank", "needed")]
    [InlineData("""{ "loads": [ null ] }""", "job-null", "take it out of the list")]
    [InlineData("""{ "loads": [ { "number": 1, "massKg": 700, "howKnown": "label" } ] }""", "job-not-text", "in quotes")]
    [InlineData("""{ "loads": [ { "number": "1", "massKg": 700, "howKnown": "wieghed" } ] }""", "job-unknown-word", "Did you mean \"weighed\"?")]
    [InlineData("""{ "loads": [ { "number": "1", "massKg": 700, "howKnown": "label", "class": "b" } ] }""", "job-unknown-word", "A, B, C, D")]
    [InlineData("""{ "loads": [ { "number": "1", "massKg": 700, "howKnown": "label", "spins": "no" } ] }""", "job-not-flag", "true or false")]
    [InlineData("""{ "quote": { "lifts": 2.5 } }""", "job-not-whole", "whole number")]
    [InlineData("""{ "line": [ 30 ] }""", "job-not-object", "{ \"key\"")]
    [InlineData("""{ "line": { "lengthM": -30 } }""", "job-negative", "3 to 150 m")]
    [InlineData("""{ "line": { "lengthM": 1e999 } }""", "job-out-of-range", "figure that can be")]
    [InlineData("""{ "load": { "massLb": 100000 } }""", "job-out-of-range", "0 to 44100 lb")]
    [InlineData("""{ "sites": { } }""", "job-not-list", "[ ... ]")]
    [InlineData("""{ "date": "1.6.2026" }""", "job-date", "2026-06-01")]
    [InlineData("""{ "date": "2026-02-30" }""", "job-date", "2026-06-01")]
    [InlineData("""{ "enteredAt": "2026-06-01T08:00:00" }""", "job-time", "offset")]
    [InlineData("""{ "day": { "start": "7:30" } }""", "job-time", "14:00")]
    [InlineData("""{ "timeZone": "Europe/Zurch" }""", "job-time-zone", "Europe/Zurich")]
    [InlineData("""{ "timeZone": "../../etc/passwd" }""", "job-time-zone", "IANA")]
    [InlineData("""{ "timeZone": "Europe" }""", "job-time-zone", "")]
    [InlineData("""{ "sites": [ { "name": "a", "use": "drop", "latitudeDeg": 46, "longitudeDeg": 8 } ] }""", "job-unknown-word", "pickUp, delivery, base")]
    [InlineData("""{ "sites": [ { "name": "a", "use": "pickUp", "latitudeDeg": 146, "longitudeDeg": 8 } ] }""", "job-out-of-range", "swapped")]
    [InlineData("""{ "sites": [ { "name": "a", "use": "pickUp", "longitudeDeg": 8 } ] }""", "job-missing-key", "North positive")]
    [InlineData("""{ "load": { "massKg": 1, "massKg": 2 } }""", "job-duplicate-key", "Leave one")]
    [InlineData("""{ "load": { "massKg": 1, "massLb": 2 } }""", "job-two-units", "Leave one")]
    [InlineData("""{ "job": "\ud83d" }""", "job-bad-escape", "")]
    [InlineData("""{ "\ud83d": 1 }""", "job-bad-escape", "")]
    [InlineData("not json", "job-not-json", "")]
    [InlineData("", "job-not-json", "")]
    [InlineData("{} {}", "job-not-json", "")]
    [InlineData("[1, 2]", "job-not-object", "")]
    [InlineData("null", "job-not-object", "")]
    public void Read_WrongValue_IsOneErrorThatSaysHowToMend(string json, string code, string mend)
    {
        JobFile job = Read(json);

        Assert.False(job.IsUsable);
        Finding finding = Assert.Single(job.Findings, f => f.Severity == Severity.Error);
        Assert.Equal(code, finding.Code);
        Assert.Equal(1, finding.Line);
        Assert.NotEmpty(finding.What);
        Assert.Contains(mend, finding.Done, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_IncompleteReconAndGate_AreErrorsForEachMissingFigure()
    {
        JobFile job = Read("""{ "sites": [ { "name": "a", "use": "delivery", "latitudeDeg": 46, "longitudeDeg": 8, "recon": { "altimeterFt": 900 } } ], "gates": [ { "distanceM": 400 } ] }""");
        Assert.Equal(5, job.Findings.Count);
        Assert.All(job.Findings, f => Assert.Equal("job-missing-key", f.Code));
    }

    [Fact]
    public void Read_EightMistakes_ReportsAllWithTheirLines()
    {
        JobFile job = Read("""
            {
              "date": "1.6.2026",
              "aircraft": {
                "equippedMass": 1240,
                "hookLimitKg": "1100 kg"
              },
              "sites": [
                { "name": "yard", "use": "pickup", "latitudeDeg": 46.1, "longitudeDeg": 8.1 },
                { "name": "path", "use": "delivery", "latitudeDeg": 146.1, "longitudeDeg": 8.1 }
              ],
              "loads": [
                { "number": "1", "massKg": 700, "howKnown": "weighed", "delivery": "paht" },
                { "number": "1", "massKg": 700, "howKnown": "weighed" },
                { "number": "2", "howKnown": "weighed" }
              ]
            }
            """);
        Assert.Equal([(2, "job-date"), (4, "job-unknown-key"), (5, "job-not-number"), (8, "job-unknown-word"), (9, "job-out-of-range"),
            (12, "load-site-unknown"), (13, "load-number-twice"), (14, "job-missing-key")], job.Findings.Select(f => ((int)f.Line!, f.Code)));
    }

    [Fact]
    public void Read_DuplicateKeyAndTwoUnits_NameBothLines()
    {
        JobFile job = Read("{\n\"job\": \"a\",\n\"load\": {\n\"massKg\": 700,\n\"massLb\": 1500 },\n\"job\": \"b\" }");
        Assert.Contains("line 4", job.Findings.Single(f => f.Code == "job-two-units").What, StringComparison.Ordinal);
        Assert.Contains("line 5", job.Findings.Single(f => f.Code == "job-two-units").What, StringComparison.Ordinal);
        Finding twice = job.Findings.Single(f => f.Code == "job-duplicate-key");
        Assert.Contains("line 2", twice.What, StringComparison.Ordinal);
        Assert.Equal(6, twice.Line);
    }

    [Fact]
    public void Read_MixedUnits_IsOneWarningWithTheFirstLineOfEach()
    {
        JobFile job = Read("{\n\"aircraft\": {\n\"equippedMassKg\": 1200,\n\"hookLimitLb\": 2400,\n\"grossLimitLb\": 5000 } }");
        Finding mixed = Assert.Single(job.Findings);
        Assert.Equal(("job-mixed-units", Severity.Warning, 4L), (mixed.Code, mixed.Severity, mixed.Line));
        Assert.Contains("equippedMassKg on line 3, hookLimitLb on line 4", mixed.What, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_BrokenJson_NamesTheLine() =>
        Assert.Equal(3, Assert.Single(Read("{\n  \"job\": \"a\"\n  \"date\": 1\n}").Findings).Line);

    [Fact]
    public void Read_NotUtf8_NamesTheLine()
    {
        JobFile job = JobFile.Read(new MemoryStream([.. "{\n\"job\": \"H"u8, 0xFC, .. "tte\" }"u8]));
        Finding finding = Assert.Single(job.Findings);
        Assert.Equal(("job-not-utf8", 2L), (finding.Code, finding.Line));
    }

    [Fact]
    public void Read_ByteOrderMarkCommentsAndCarriageReturns_AreRead()
    {
        JobFile job = JobFile.Read(new MemoryStream([.. "\uFEFF"u8, .. "// a\r\n/* b */ { \"$schema\": \"x\", \"//\": 1, \"// note\": [2],\r\n\"job\": \"ü\\ud83d\\ude81\", }"u8]));
        Assert.Empty(job.Findings);
        Assert.Equal("ü\U0001F681", job.Request.Job);
    }

    [Fact]
    public void Read_NullForWhatMayBeLeftOut_IsAsIfLeftOut()
    {
        JobFile job = Read("""{ "aircraft": null, "loads": null, "line": { "lengthM": 30, "riggingM": null } }""");
        Assert.Empty(job.Findings);
        Assert.Equal((null, 0), (job.Request.Aircraft, job.Request.Loads.Count));
    }

    [Fact]
    public void Read_ManyOfAKind_AreTwentyAndACount()
    {
        JobFile job = Read("{" + string.Join(",\n", Enumerable.Range(0, 1000).Select(i => $"\"zz{i}\": 1")) + "}");
        Assert.Equal(21, job.Findings.Count);
        Assert.Contains("980 more", job.Findings[^1].What, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_SpoiltCell_IsNotReportedAgainAsAFigure()
    {
        JobFile job = JobExample.With(j => j["aircraft"]!["hoverOutOfGroundEffect"]!["massKg"]![1]![1] = "?");
        Assert.Equal("job-not-number", Assert.Single(job.Findings).Code);
    }

    [Theory]
    [InlineData("date", "\"date\"")]
    [InlineData("aircraft.hoverOutOfGroundEffect.mass[2][1]", "[2380, 2280, 2150]")]
    [InlineData("aircraft.fuel.tank", "\"tankKg\"")]
    [InlineData("loads[1].mass", "larch beams")]
    [InlineData("loads[1].attachment.sling", "\"legAngleDeg\"")]
    [InlineData("loads[7]", "\"loads\"")]
    [InlineData("sites[0].recon.qnh", "    {")]
    [InlineData("", "{")]
    public void LineOf_Path_IsTheLineOfTheValueOrOfTheGroupAround(string path, string holds)
    {
        long line = JobExample.Read(JobExample.Text).LineOf(path)!.Value;
        Assert.Contains(holds.Split('|'), h => JobExample.Text.Split('\n')[line - 1].Contains(h, StringComparison.Ordinal));
    }

    [Fact]
    public void LineOf_FileThatIsNoJson_IsNull() => Assert.Null(Read("?").LineOf("loads"));

    [Fact]
    public void Read_Range_IsHeldInEveryUnit()
    {
        foreach ((string key, double most) in new[] { ("hookLimitKg", 20_000.0), ("hookLimitLb", 44_100) })
        {
            Assert.True(Read($$"""{ "aircraft": { "{{key}}": {{most}} } }""").IsUsable);
            Assert.False(Read($$"""{ "aircraft": { "{{key}}": {{most + 1}} } }""").IsUsable);
        }
    }
}
