using System.Text;
using CsCheck;
using Stillhook.Files.Jobs;
using Stillhook.Files.Jobs.Editing;

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
        job.Add("loads", copyLast: true);
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

    private static JobFile Read(JobDocument job) => JobFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(job.Text)));
}
