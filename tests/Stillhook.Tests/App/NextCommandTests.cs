using Stillhook.Adjusting;
using Stillhook.App.Commands;
using Stillhook.App.Serving;
using Stillhook.Store;

namespace Stillhook.Tests.App;

/// <summary>The next approach as a pilot asks for it between loads, from the store and from a record, with readings of now.</summary>
[Collection(ImportedDayTests.Name)]
public sealed class NextCommandTests(ImportedDay day) : IDisposable
{
    private static readonly DateTimeOffset CardAt = new(2025, 9, 16, 9, 12, 0, TimeSpan.FromHours(2));

    private readonly string folder = Directory.CreateTempSubdirectory("stillhook").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private StartedProgram.Result Run(string store, params string[] arguments) => ProgramHere.Run([.. arguments, "--store", store]);

    // Simulated truth: the demo day flies 24 loads to one site, 14 of them after 09:12.
    [Fact]
    public void Of_TwoFlightsACardAndCorrections_CountsWhatWasFlownToTheCard()
    {
        WorkStore store = WorkStore.Open(day.Store(folder), StoreOption.Options);
        KeptJob job = Assert.Single(store.Jobs.List());
        SiteNext all = Assert.Single(KeptNext.Of(store, job).Sites);
        Assert.Equal(("path bend", "from 24 deliveries since the start of the day, as no card was issued, held against the planned approach"), (all.Card.Site, all.Rests));

        store.Jobs.IssueCard(job.Key, "pilot card.pdf", "application/pdf", [1], CardAt);
        // A later revision of the job is not the card's: 45 m of line there takes nothing away from what was flown to the card with 30 m.
        string longer = job.Text.Replace("\"lengthM\": 30", "\"lengthM\": 45", StringComparison.Ordinal);
        Assert.NotEqual(job.Text, longer);
        job = store.Jobs.Save(new(job.Name, longer, job.Day, job.TimeZone, job.Aircraft), "planner A", TimeProvider.System.GetUtcNow(), job.Key);
        SiteNext card = Assert.Single(KeptNext.Of(store, job).Sites);
        Assert.Equal("from 14 deliveries since the card of 09:12", card.Rests);
        Assert.Empty(card.LeftOut);
        // Against the card's approach; without a card against the planned one.
        Assert.Equal(("card of 09:12", "planned approach"), (card.Card.Setup.Marks.Words, all.Card.Setup.Marks.Words));
        Assert.True(card.Card.Setup.Approach is not null && all.Card.Setup.Approach is not null);

        CorrectedLift last = store.Lifts.OfFlight(store.Days.Read(new(job.Day!.Value)).Flights[^1].Id)[^1];
        store.Lifts.Correct(last.Lift, last.Lift with { StruckOut = true }, "pilot B", CardAt);
        SiteNext corrected = Assert.Single(KeptNext.Of(store, job).Sites);
        Assert.Equal((13, "10:10: struck out."), (corrected.Deliveries, Assert.Single(corrected.LeftOut)));
    }

    // Closed form: 3 hPa near 1017 hPa at 3 °C are 8.1 m each, 24 m or 80 ft.
    [Fact]
    public void Next_SettingTyped_AltimeterLineNewMarksAndWhatWasNotRead()
    {
        StartedProgram.Result next = Run(day.Store(folder), "next", "--job", "path repair", "--qnh", "1016hPa");
        Assert.Equal(0, next.ExitCode);
        foreach (string part in new[]
        {
            "path bend: ", "(from 24 deliveries since the start of the day, as no card was issued, held against the planned approach)", "QNH 1019 -> 1016 hPa: altimeter now reads about 80 ft high if not reset.", "Marks for 1016.0 hPa",
            "Not read now at path bend, taken from before: temperature ", "wind 250/5 kt as observed on 2025-09-16 at 08:10",
        })
            Assert.Contains(part, next.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Next_WindBehindTheApproach_SaysReBriefAndNothingElseFirst()
    {
        StartedProgram.Result next = Run(day.Store(folder), "next", "--wind", "70/9kt");
        Assert.Equal(1, next.ExitCode);
        Assert.StartsWith("Conditions moved. Land and re-brief.", next.Output, StringComparison.Ordinal);
        Assert.Contains("downwind by", next.Output, StringComparison.Ordinal);
        Assert.Contains("QNH 1019 hPa as observed", next.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("Same again", next.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Next_RecordAndItsJob_TellsTheSettingToo()
    {
        StartedProgram.Result next = ProgramHere.Run("next", day.Record, "--job", day.Job, "--qnh", "1016hPa");
        Assert.Contains("about 80 ft high", next.Output, StringComparison.Ordinal);
        Assert.Equal(2, ProgramHere.Run("next", day.Record, "--qnh", "1016hPa").ExitCode);
    }

    [Theory]
    [InlineData("next --job nothing", "no job 'nothing' with a date is kept")]
    [InlineData("next --line 30m", "--line: without a record the figures are those of the kept job")]
    [InlineData("next --qnh 1011", "expected")]
    public void Next_NothingToGoBy_OneClearLine(string command, string says)
    {
        StartedProgram.Result result = Run(Path.Combine(folder, "empty.db"), command.Split(' '));
        Assert.Equal(2, result.ExitCode);
        Assert.Contains(says, result.Errors, StringComparison.Ordinal);
    }

    private static KeptJob Kept(string name, int? dayOfJune) => new() { Key = Guid.NewGuid(), Name = name, Day = dayOfJune is { } d ? new DateOnly(2026, 6, d) : null, Text = "", Revision = 1 };

    [Theory]
    [InlineData(null, 10, "today")]
    [InlineData(null, 12, "today")]
    [InlineData(null, 1, "early")]
    [InlineData("LATE", 10, "late one")]
    [InlineData("early", 10, "early")]
    public void Choose_ByNameElseByDay_TakesTheOneMeant(string? name, int today, string chosen) =>
        Assert.Equal(chosen, KeptNext.Choose([Kept("undated", null), Kept("late one", 20), Kept("today", 10), Kept("early", 3)], name, new(2026, 6, today), out _)?.Name);

    [Fact]
    public void Choose_TwoJobsOfTheDay_AsksWhich()
    {
        Assert.Null(KeptNext.Choose([Kept("a", 10), Kept("b", 10)], null, new(2026, 6, 10), out string problem));
        Assert.Equal("more than one job of 2026-06-10 is kept; say which with --job: a; b", problem);
    }
}
