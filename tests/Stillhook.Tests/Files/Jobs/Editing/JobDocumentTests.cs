using CsCheck;
using Stillhook.Files.Jobs;
using Stillhook.Files.Jobs.Editing;
using Stillhook.Files.Pictures;

namespace Stillhook.Tests.Files.Jobs.Editing;

/// <summary>Expected values are common practice, no source: what the form promises.</summary>
public class JobDocumentTests
{
    [Fact]
    public void Set_FiguresWordsAndLists_AreReadBackByTheReader()
    {
        JobDocument job = JobDocument.New("Spring work");
        job.Set("date", "2026-06-01");
        job.Set("timeZone", "Europe/Vienna");
        string load = job.Add("loads");
        job.Set(load + ".number", "7");
        job.Set(load + ".mass", "1720 lb");
        job.Set(load + ".howKnown", "label");
        job.Set(load + ".after", "3, 4");
        job.Set(load + ".spins", "yes");
        job.Set(load + ".attachment.legs", "2");
        string site = job.Add("sites");
        job.Set(site + ".weather.time", "08:10");

        JobFile read = Read(job);

        Assert.Equal("Spring work", read.Request.Job);
        Assert.Equal(1720, read.Request.Loads[0].Mass.Pounds, 6);
        Assert.Contains("\"massLb\": 1720", job.Text, StringComparison.Ordinal);
        Assert.Equal(["3", "4"], read.Request.Loads[0].After);
        Assert.True(read.Request.Loads[0].Spins);
        Assert.Equal(2, read.Request.Loads[0].Attachment!.Legs);
        // Summer time of the site: two hours before UTC.
        Assert.Equal(new DateTimeOffset(2026, 6, 1, 6, 10, 0, TimeSpan.Zero), read.Request.Sites[0].Weather!.Time!.Value.ToUniversalTime());
        Assert.Equal("2026-06-01 08:10 +02:00", job.Typed(site + ".weather.time"));
    }

    [Theory]
    [InlineData("78,5", "'78,5' is no number. Type it with a decimal point, such as 78.5.")]
    [InlineData("1,260", "such as 1260; a decimal point stands before decimals.")]
    [InlineData("about 700", "'about 700' is no number.")]
    [InlineData("-3", "Expected 1 to 20000 kg.")]
    [InlineData("700 hours", "is no number.")]
    public void Set_WhatCannotBe_IsKeptAsTypedWithOneMistakeBesideTheField(string typed, string said)
    {
        JobDocument job = JobDocument.New("x");
        string load = job.Add("loads");
        job.Set(load + ".mass", typed);

        JobField field = JobForm.Of(job).Field(load + ".mass");

        Assert.Equal(typed, field.Typed);
        Assert.Contains(said, Assert.Single(field.Mistakes), StringComparison.Ordinal);
        job.Set(load + ".mass", "78.5");
        Assert.Empty(JobForm.Of(job).Field(load + ".mass").Mistakes);
    }

    // Common practice, no source: north and east are positive.
    [Theory]
    [InlineData("latitude", "47.0000 N", "47.0000")]
    [InlineData("latitude", "33.5° s", "-33.5")]
    [InlineData("longitude", "E 8.5", "8.5")]
    [InlineData("longitude", "8.5W", "-8.5")]
    public void Set_PositionWithItsLetter_SouthAndWestAreNegative(string member, string typed, string kept)
    {
        JobDocument job = JobDocument.New("x");
        string site = job.Add("sites");
        job.Set($"{site}.{member}", typed);
        Assert.Equal(kept, job.Typed($"{site}.{member}"));
        Assert.Empty(JobForm.Of(job).Field($"{site}.{member}").Mistakes);
    }

    [Theory]
    [InlineData("latitude", "8.5 E", "such as 47.0512 or 47.0512 N; south is negative")]
    [InlineData("latitude", "-47 S", "such as 47.0512 or 47.0512 N; south is negative")]
    [InlineData("longitude", "47 N", "such as 8.5034 or 8.5034 E; west is negative")]
    public void Set_PositionWithAWrongLetter_SaysHowToTypeIt(string member, string typed, string said)
    {
        JobDocument job = JobDocument.New("x");
        string site = job.Add("sites");
        job.Set($"{site}.{member}", typed);
        Assert.Equal(typed, job.Typed($"{site}.{member}"));
        Assert.Contains(said, Assert.Single(JobForm.Of(job).Field($"{site}.{member}").Mistakes), StringComparison.Ordinal);
    }

    [Fact]
    public void Field_ElevationOfAPersonWhoReadsFeet_BeginsInFeetAndAnOtherUnitSaysWhatItIs()
    {
        JobDocument job = JobDocument.Read("""{ "sites": [ { "name": "a", "elevationM": 1640 }, { "name": "b" } ] }""", DisplayUnits.Feet)!;
        // Closed form: 1640 m are 5380.6 ft.
        Assert.Equal("m = 5381 ft", JobForm.Of(job).Field("sites[0].elevation").Unit);
        job.Set("sites[1].elevation", "5200");
        Assert.Equal("ft", JobForm.Of(job).Field("sites[1].elevation").Unit);
        Assert.Equal(5200, Read(job).Request.Sites[1].Elevation!.Value.Feet, 9);
        Assert.Equal("m", JobForm.Of(JobDocument.Read(job.Text, DisplayUnits.Metres)!).Field("sites[0].elevation").Unit);
    }

    // Common practice, no source: the defaults that the plan names.
    [Fact]
    public void Field_RuleLeftEmpty_SaysWhichDefaultIsTaken()
    {
        JobDocument job = JobDocument.New("x");
        Assert.Equal("10 m", JobForm.Of(job).Field("approach.peopleClearance").Default);
        Assert.Equal("40 kt", JobForm.Of(job).Field("approach.entrySpeed").Default);
        Assert.Equal("8 %", JobForm.Of(job).Field("approach.slowDownLimit").Default);
        Assert.Equal("20 min", JobForm.Of(job).Field("policy.reserve").Default);
        Assert.Equal("", JobForm.Of(job).Field("approach.start").Default);
    }

    [Fact]
    public void Field_GustBelowTheMeanWind_IsAFindingBesideIt()
    {
        JobDocument job = JobDocument.New("x");
        string site = job.Add("sites");
        foreach ((string member, string typed) in new[] { ("name", "a"), ("use", "delivery"), ("latitude", "47"), ("longitude", "8"), ("weather.qnh", "1013"), ("weather.temperature", "10"), ("weather.wind.from", "250"), ("weather.wind.speed", "12"), ("weather.wind.gust", "8") })
            job.Set($"{site}.{member}", typed);
        Assert.Equal("The gust of 8 kt is below the mean wind of 12 kt. Write the strongest gust, or leave it out where none is told.", Assert.Single(JobForm.Of(job).Field(site + ".weather.wind.gust").Mistakes));
        job.Set(site + ".weather.wind.gust", "12");
        Assert.Empty(JobForm.Of(job).Field(site + ".weather.wind.gust").Mistakes);
    }

    [Fact]
    public void Set_UnderTheComma_IsTheSameNumberAndIsShownByEitherMark()
    {
        DisplayUnits comma = DisplayUnits.Metres.With(DecimalMark.Comma);
        JobDocument job = JobDocument.Read("""{ "job": "x", "loads": [ {} ], "sites": [ {} ] }""", comma)!;
        job.Set("loads[0].mass", "78,5");
        job.Set("sites[0].latitude", "47,05 N");
        job.Set("line.length", "98,5 ft"); // Closed form: 30.02 m
        Assert.Contains("\"massKg\": 78.5", job.Text, StringComparison.Ordinal);
        Assert.Contains("\"lengthFt\": 98.5", job.Text, StringComparison.Ordinal);
        Assert.Equal(("78,5", "47,05"), (job.Typed("loads[0].mass"), job.Typed("sites[0].latitude")));
        Assert.Equal("ft = 30 m", JobForm.Of(job).Field("line.length").Unit);
        Assert.Equal("78.5", JobDocument.Read(job.Text)!.Typed("loads[0].mass"));
    }

    [Theory]
    [InlineData("1.260", "'1.260' is no number. Type it without marks between the thousands, such as 1260; a decimal comma stands before decimals.", "1,260")]
    [InlineData("78.5", "'78.5' is no number. Type it with a decimal comma, such as 78,5.", "78,5")]
    public void Set_PointUnderTheComma_IsRefusedAndKeptAsTyped(string typed, string said, string underThePoint)
    {
        JobDocument job = JobDocument.Read("""{ "job": "x", "loads": [ {} ] }""", DisplayUnits.Feet.With(DecimalMark.Comma))!;
        job.Set("loads[0].mass", typed);
        JobField field = JobForm.Of(job).Field("loads[0].mass");
        Assert.Equal(typed, field.Typed);
        Assert.StartsWith(said, Assert.Single(field.Mistakes), StringComparison.Ordinal);
        // For a person with the point it is no number either: nobody reads another number than was typed.
        JobField other = JobForm.Of(JobDocument.Read(job.Text)!).Field("loads[0].mass");
        Assert.Equal(underThePoint, other.Typed);
        Assert.Single(other.Mistakes);
    }

    // Pinned: the range that the file's own type gives.
    [Fact]
    public void Field_RangeUnderTheComma_IsSaidWithIt()
    {
        JobDocument job = JobDocument.Read("""{ "job": "x" }""", DisplayUnits.Feet.With(DecimalMark.Comma))!;
        job.Set("policy.designFactor", "0,5");
        JobField field = JobForm.Of(job).Field("policy.designFactor");
        Assert.Contains("3,75 to 20", field.Hint, StringComparison.Ordinal);
        Assert.Contains("found 0,5. Expected 3,75 to 20.", "found " + Assert.Single(field.Mistakes).Split("ound ")[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Set_LastFieldOfAGroupCleared_TakesTheGroupOut()
    {
        JobDocument job = JobDocument.New("x");
        string site = job.Add("sites");
        job.Set(site + ".recon.altimeter", "6100");
        Assert.Contains("altimeterFt", job.Text, StringComparison.Ordinal);
        Assert.True(JobForm.Of(job).Field(site + ".recon.qnh").IsNeeded);

        job.Set(site + ".recon.altimeter", "");

        Assert.DoesNotContain("recon", job.Text, StringComparison.Ordinal);
        Assert.False(JobForm.Of(job).Field(site + ".recon.qnh").IsNeeded);
    }

    [Fact]
    public void Field_TypedInAnotherUnit_SaysWhatThatIsInTheUsualOne()
    {
        JobDocument job = JobDocument.New("x");
        job.Set("line.length", "98 ft");
        // Closed form: 98 ft are 29.87 m, and 30 ft 9.14 m.
        Assert.Equal("ft = 29.9 m", JobForm.Of(job).Field("line.length").Unit);
        job.Set("line.length", "30");
        Assert.Equal("ft = 9.1 m", JobForm.Of(job).Field("line.length").Unit);
        job.Set("line.length", "30 m");
        Assert.Equal("m", JobForm.Of(job).Field("line.length").Unit);
    }

    [Fact]
    public void AddMoveRemove_Items_KeepTheOthers()
    {
        JobDocument job = JobDocument.New("x");
        string first = job.Add("loads");
        job.Set(first + ".number", "B-09");
        job.Set(first + ".mass", "700");
        job.Set(first + ".howKnown", "weighed");
        job.Add("loads", copyLast: true);
        Assert.Equal("", job.Typed("loads[1].howKnown"));
        Assert.Equal("B-10", job.Typed("loads[1].number"));
        Assert.Equal("700", job.Typed("loads[1].mass"));

        job.Move("loads[1]", -1);
        Assert.Equal("B-10", job.Typed("loads[0].number"));
        job.Remove("loads[0]");

        Assert.Equal(1, job.Count("loads"));
        Assert.Equal("B-09", job.Typed("loads[0].number"));
    }

    [Theory]
    [InlineData("loads[0].weight")]
    [InlineData("loads[3].mass")]
    [InlineData("loads.mass")]
    [InlineData("job.name")]
    [InlineData("../secret")]
    [InlineData("")]
    public void Set_PathThatIsNotThere_IsRefused(string path) => Assert.Throws<ArgumentException>(() => JobDocument.New("x").Set(path, "1"));

    [Fact]
    public void Read_ExampleJob_EveryFieldCanBeTypedBackUnchanged()
    {
        JobDocument job = JobDocument.Read(File.ReadAllText(Repository.File("examples/path-repair.json")))!;
        JobFile before = Read(job);
        string text = job.Text;
        foreach (string path in Paths(job).ToList())
            job.Set(path, job.Typed(path));

        Assert.DoesNotContain(before.Findings, f => f.Severity == Stillhook.Recording.Severity.Error);
        Assert.Equal(text, job.Text);
    }

    [Fact]
    public void Set_AnyText_IsNeverLostAndNeverThrows() => Gen.String[0, 60].Sample(typed =>
    {
        JobDocument job = JobDocument.New("x");
        foreach (string path in new[] { "customer", "date", "line.length", "policy.reserve", "quote.lifts" })
            job.Set(path, typed);
        _ = JobForm.Of(job).Fields("line", ["length", "rigging"]);
        Assert.Equal(typed.Trim(), JobDocument.Read(job.Text)!.Typed("customer"));
    }, iter: 300);

    private static IEnumerable<string> Paths(JobDocument job)
    {
        foreach (string member in new[] { "job", "date", "timeZone", "customer", "enteredAt", "aircraft.name", "aircraft.equippedMass", "aircraft.fuel.tank", "line.length", "day.start", "policy.massMargin" })
            yield return member;
        for (int i = 0; i < job.Count("sites"); i++)
            foreach (string member in new[] { "name", "use", "latitude", "longitude", "elevation", "recon.altimeter", "recon.time", "weather.qnh", "weather.wind.from", "crewClearSide" })
                yield return FormattableString.Invariant($"sites[{i}].{member}");
        for (int i = 0; i < job.Count("loads"); i++)
            foreach (string member in new[] { "number", "mass", "howKnown", "uncertainty", "after", "spins", "attachment.legs", "attachment.sling.ratedLoad", "attachment.sling.inspected" })
                yield return FormattableString.Invariant($"loads[{i}].{member}");
    }

    private static JobFile Read(JobDocument job) => JobFile.Read(job.Text);
}
