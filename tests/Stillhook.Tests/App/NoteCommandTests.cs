using Stillhook.App.Commands;
using Stillhook.Reporting;
using Stillhook.Store;

namespace Stillhook.Tests.App;

/// <summary>What people correct and write of a day, typed.</summary>
[Collection(ImportedDayTests.Name)]
public sealed class NoteCommandTests : IDisposable
{
    private static readonly WorkDay Day = new(new(2025, 9, 16));

    private readonly string folder = Directory.CreateTempSubdirectory("stillhook").FullName;
    private readonly string store;

    public NoteCommandTests(ImportedDay day) => store = day.Store(folder);

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private StartedProgram.Result Run(params string[] arguments) => ProgramHere.Run([.. arguments, "--store", store]);

    private DayWork Kept() => WorkStore.Open(store, StoreOption.Options).Days.Read(Day);

    [Fact]
    public void Correct_ALift_ShownOnTheDaySheetWithOldAndNewAndPutBack()
    {
        StartedProgram.Result mass = Run("correct", "2025-09-16", "3", "--mass", "640.5kg", "--by", "load master C", "--why", "weighed again");
        Assert.Equal(0, mass.ExitCode);
        Assert.Matches(@"lift 3: mass: \d+(\.\d+)? kg -> 640.5 kg, by load master C, .*: weighed again", mass.Output);
        Assert.Equal(1, Run("correct", "2025-09-16", "3", "--mass", "640.5kg").ExitCode);
        string day = Run("day", "2025-09-16").Output;
        Assert.Matches(@"Corrected\s+lift 3, mass: \d+(\.\d+)? kg -> 640.5 kg, by load master C", day);

        Assert.Contains("counts as: a lift -> no lift of a load", Run("correct", "2025-09-16", "4", "--no-lift").Output, StringComparison.Ordinal);
        Assert.Equal(1, Kept().Lifts.Count(l => l.StruckOut));
        Assert.Contains("no lift of a load -> a lift", Run("correct", "2025-09-16", "4", "--withdraw").Output, StringComparison.Ordinal);
        Assert.DoesNotContain(Kept().Lifts, l => l.StruckOut);
        Assert.Contains("added by hand: lift of 10:05, load 12", Run("correct", "2025-09-16", "new", "--delivered", "10:05", "--load-number", "12").Output, StringComparison.Ordinal);
        Assert.Matches(@"(?m)^ +25 +10:05 +12 .*added by hand", Run("correct", "2025-09-16").Output);
    }

    [Fact]
    public void Note_EveryKind_KeptListedAndWithdrawn()
    {
        string[] waiting = ["note", "2025-09-16", "--waiting", "customer", "--from", "10:15", "--to", "10:25", "--by", "pilot B"];
        Assert.Contains("kept: customer 10:15 to 10:25, by pilot B.", Run(waiting).Output, StringComparison.Ordinal);
        Assert.Equal(1, Run(waiting).ExitCode);
        foreach (string entry in new[] { "--event snag --at 11:20 --text choker", "--delivery --at 08:36 --load-number 1 --mass 651kg", "--gauge 300kg --uplift 100kg --at 8:20", "--duty pilot-B --from 7:00 --to 12:00" })
            Assert.Equal(0, Run(["note", "2025-09-16", .. entry.Split(' ')]).ExitCode);

        // Closed form: 11:20 of Central European summer time is 09:20 UTC.
        DayWork work = Kept();
        double At(int hour, int minute) => new DateTimeOffset(2025, 9, 16, hour, minute, 0, TimeSpan.FromHours(2)).ToUnixTimeSeconds();
        Assert.Equal(new EventMark(At(11, 20), EventKind.Snag, "choker"), Assert.Single(work.Events));
        Assert.Equal(new TimeMark(new(At(10, 15), At(10, 25)), TimeUse.WaitingOnCustomer, null), Assert.Single(work.TimeMarks));
        Assert.Equal(new TallyEntry(1, At(8, 36), "1", 651, null), Assert.Single(work.Tally));
        Assert.Equal(new FuelEntry(At(8, 20), 300, 100), Assert.Single(work.Fuel));
        Assert.Equal(new DutySpell("pilot-B", new(At(7, 0), At(12, 0)), null), Assert.Single(work.Duty));

        Assert.Equal(0, Run("note", "2025-09-16", "--withdraw", "2", "--by", "pilot B", "--why", "another day").ExitCode);
        Assert.Empty(Kept().Events);
        string[] list = Run("note", "2025-09-16").Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(5, list.Length);
        Assert.Contains("snag at 11:20 (choker), by ", list[1], StringComparison.Ordinal);
        Assert.EndsWith("WITHDRAWN by pilot B: another day", list[1].TrimEnd(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("note 2025-09-16 --waiting weather --from 10:25 --to 10:05", "--from 10:05 --to 10:25")]
    [InlineData("note 2025-09-16 --waiting lunch --from 10:05 --to 10:25", "lunch")]
    [InlineData("note 2025-09-16 --event snag", "--at 10:05")]
    [InlineData("note 2025-09-16 --break --event snag --at 10:05", "one entry a call")]
    [InlineData("note 2025-09-16 --withdraw 1", "no entry '1'")]
    [InlineData("note today --event snag --at 10:05", "Write it as 2026-06-01")]
    [InlineData("correct 2025-09-17 3 --mass 640kg", "no lift of 2025-09-17 is kept")]
    [InlineData("correct 2025-09-16 99 --mass 640kg", "Lifts: 1 to 24")]
    [InlineData("correct 2025-09-16 1 --site hut", "the job has no site 'hut'")]
    public void NoteAndCorrect_WhatCantBeUsed_OneClearLineAndExitTwo(string command, string says)
    {
        StartedProgram.Result result = Run(command.Split(' '));
        Assert.Equal(2, result.ExitCode);
        Assert.Contains(says, result.Errors, StringComparison.Ordinal);
    }
}
