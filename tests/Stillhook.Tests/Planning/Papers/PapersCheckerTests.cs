using Stillhook.Planning;
using Stillhook.Planning.Papers;
using UnitsNet;

namespace Stillhook.Tests.Planning.Papers;

public class PapersCheckerTests
{
    private static readonly DateOnly Day = new(2026, 6, 1);

    // Published: [SPO-HESLO] recurrent every two years, flight part waived with 20 h in 12 months.
    [Fact]
    public void Check_TwentyHoursAtTheTwoYearPoint_NeedsNoExtraFlightTraining()
    {
        CheckItem item = FlightPart(hours: 20, lastCheck: Day.AddYears(-2));
        Assert.Equal(CheckColour.Green, item.Colour);
        Assert.Contains("No extra flight training needed at the two-year point", item.Text, StringComparison.Ordinal);
        Assert.Equal("SPO-HESLO", item.Source);
    }

    [Theory]
    [InlineData(19.9, "19.9 h")]
    [InlineData(19.99, "19.9 h")]
    [InlineData(0, "0 h")]
    public void Check_UnderTwentyHoursAtTheTwoYearPoint_FlightTrainingIsDue(double hours, string shown)
    {
        CheckItem item = FlightPart(hours, Day.AddYears(-2));
        Assert.Equal(CheckColour.Red, item.Colour);
        Assert.Contains("Flight training due since 2026-06-01: " + shown, item.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_UnderTwentyHoursADayBeforeThePoint_SaysWhenItWillBeDue()
    {
        CheckItem item = FlightPart(12, Day.AddYears(-2).AddDays(1));
        Assert.Equal(CheckColour.Green, item.Colour);
        Assert.Contains("Flight training due at the two-year point on 2026-06-02", item.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2024-06-01", CheckColour.Green)]
    [InlineData("2024-05-31", CheckColour.Red)]
    public void Check_RecurrentTraining_HoldsTwoYears(string last, CheckColour expected) =>
        Assert.Equal(expected, Pick(Check(Pilot(p => p with { LastSlingCheck = DateOnly.ParseExact(last, "yyyy-MM-dd") })), "papers-recurrent").Colour);

    // Published: [SPO-HESLO] level 1 under 20 m, level 2 from 20 m.
    [Theory]
    [InlineData(1, 19.9, null, CheckColour.Green)]
    [InlineData(1, 20.0, null, CheckColour.Red)]
    [InlineData(2, 45.0, null, CheckColour.Green)]
    [InlineData(2, 10.0, 3, CheckColour.Red)]
    [InlineData(4, 10.0, 3, CheckColour.Green)]
    [InlineData(null, 30.0, null, CheckColour.Amber)]
    [InlineData(1, null, null, CheckColour.Red)]
    public void Check_SlingLevel_IsHeldAgainstTheLineOrTheOperatorsWord(int? held, double? lineM, int? asked, CheckColour expected)
    {
        LiftRequest request = Pilot(p => p with { SlingLevel = held }) with
        {
            Line = new() { Length = lineM is { } m ? Length.FromMeters(m) : null },
            Policy = new() { SlingLevel = asked },
        };
        Assert.Equal(expected, Pick(Check(request), "papers-sling-level").Colour);
    }

    [Fact]
    public void Check_ConstructionWork_StaysAtTheOperatorsWord()
    {
        LiftRequest request = Pilot() with { Loads = [new() { Number = "1", Mass = Mass.FromKilograms(400), HowKnown = MassKnownBy.Weighed, Construction = true }] };
        Assert.Equal(CheckColour.Amber, Pick(Check(request), "papers-construction").Colour);
        Assert.DoesNotContain(Check(request with { Policy = new() { SlingLevel = 4 } }).Items, i => i.Code == "papers-construction");
    }

    // Published: [SPO-HESLO] 20 h in the intended environment.
    [Theory]
    [InlineData(20.0, CheckColour.Green)]
    [InlineData(19.0, CheckColour.Red)]
    [InlineData(null, CheckColour.Amber)]
    public void Check_TerrainHours_AreHeldAgainstTwenty(double? hours, CheckColour expected) =>
        Assert.Equal(expected, Pick(Check(Pilot(p => p with { TimeInThisTerrain = hours is { } h ? Duration.FromHours(h) : null })), "papers-terrain").Colour);

    [Theory]
    [InlineData(0, CheckColour.Green)]
    [InlineData(-1, CheckColour.Red)]
    public void Check_LicenceAndMedical_HoldThroughTheirLastDay(int daysLeft, CheckColour expected)
    {
        PapersReport report = Check(Pilot(p => p with { LicenceUntil = Day.AddDays(daysLeft), MedicalUntil = Day.AddDays(daysLeft) }));
        Assert.Equal(expected, Pick(report, "papers-licence").Colour);
        Assert.Equal(expected, Pick(report, "papers-medical").Colour);
    }

    [Theory]
    [InlineData(12.0, 12.0, CheckColour.Green)]
    [InlineData(12.0, 12.1, CheckColour.Red)]
    [InlineData(12.0, null, CheckColour.Amber)]
    [InlineData(-1.0, null, CheckColour.Red)]
    public void Check_HoursLeft_AreHeldAgainstThisJob(double left, double? used, CheckColour expected)
    {
        LiftRequest request = Pilot() with { Aircraft = new() { Due = [new() { Name = "100 h inspection", Left = left, ThisJob = used }] } };
        Assert.Equal(expected, Pick(Check(request), "papers-aircraft-left").Colour);
        Assert.DoesNotContain(Check(request).Items, i => i.Code == "papers-aircraft-due");
    }

    [Fact]
    public void Check_AircraftPaperRunOut_IsRed()
    {
        LiftRequest request = Pilot() with { Aircraft = new() { Due = [new() { Name = "Insurance", Until = Day.AddDays(-1) }, new() { Name = "Radio check" }] } };
        CheckItem[] items = [.. Check(request).Items.Where(i => i.Code == "papers-aircraft-due")];
        Assert.Equal([("Insurance", CheckColour.Red), ("Radio check", CheckColour.Amber)], items.Select(i => (i.Subject, i.Colour)));
    }

    [Fact]
    public void Check_GroundCrewTraining_RunsOut()
    {
        LiftRequest request = Pilot();
        request = request with { Crew = [.. request.Crew, new() { Name = "Noa", Role = CrewRole.HookUp, TaskTrainingUntil = Day.AddDays(-3) }, new() { Name = "Ari", Role = CrewRole.Signaller }] };
        CheckItem[] items = [.. Check(request).Items.Where(i => i.Code == "papers-task-training")];
        Assert.Equal([("Noa", CheckColour.Red, "crew[1].taskTrainingUntil"), ("Ari", CheckColour.Amber, "crew[2].taskTrainingUntil")], items.Select(i => (i.Subject, i.Colour, i.Path)));
    }

    [Fact]
    public void Check_RiggingInspections_AreListedOncePerPart()
    {
        RiggingPart sling = new() { Name = "chain 4", Kind = PartKind.ChainSling, InspectionDue = Day.AddDays(-1) };
        PlannedLoad Load(string number) => new() { Number = number, Mass = Mass.FromKilograms(400), HowKnown = MassKnownBy.Weighed, Attachment = new() { Legs = 2, Sling = sling with { } } };
        LiftRequest request = Pilot() with { Rigging = [new() { Name = "line", Kind = PartKind.Line }], Loads = [Load("1"), Load("2")] };
        CheckItem[] items = [.. Check(request).Items.Where(i => i.Code.StartsWith("rigging-inspection", StringComparison.Ordinal))];
        Assert.Equal([("line", "rigging[0].inspectionDue"), ("chain 4", "loads[0].attachment.sling.inspectionDue")], items.Select(i => (i.Subject, i.Path)));
        Assert.All(items, i => Assert.Equal(CheckColour.Red, i.Colour));
    }

    [Fact]
    public void Check_Everything_IsSortedRedAmberGreen()
    {
        PapersReport report = Check(Pilot(p => p with { MedicalUntil = Day.AddDays(-1), TimeInThisTerrain = null }));
        Assert.Equal(report.Items.OrderByDescending(i => (int)i.Colour).Select(i => i.Code), report.Items.Select(i => i.Code));
        Assert.Equal("papers-medical", report.Items[0].Code);
        Assert.Equal([CheckColour.Red, CheckColour.Amber, CheckColour.Green], report.Items.Select(i => i.Colour).Distinct());
        Assert.Equal("Prompt, not legal advice.", PapersReport.Caution);
    }

    [Fact]
    public void Check_NothingEntered_IsAmberAllOver()
    {
        PapersReport report = Check(new());
        Assert.Equal(["papers-day", "papers-no-pilot", "papers-no-ground-crew", "papers-aircraft-due"], report.Items.Select(i => i.Code));
        Assert.All(report.Items, i => Assert.Equal(CheckColour.Amber, i.Colour));
        PapersReport bare = Check(new() { Crew = [new() { Name = "Kim", Role = CrewRole.Pilot }] });
        Assert.All(bare.Items, i => Assert.Equal(CheckColour.Amber, i.Colour));
        Assert.All(bare.Items.Where(i => i.Subject == "Kim"), i => Assert.Contains("not entered", i.Text, StringComparison.Ordinal));
        Assert.Equal(6, bare.Items.Count(i => i.Subject == "Kim"));
    }

    [Fact]
    public void Check_NoDayOfTheJob_JudgesNoDate()
    {
        PapersReport report = Check(Pilot() with { Date = null });
        Assert.Equal(CheckColour.Amber, Pick(report, "papers-licence").Colour);
        Assert.Equal(CheckColour.Amber, Pick(report, "papers-recurrent").Colour);
    }

    private static PapersReport Check(LiftRequest request) => PapersChecker.Check(request);

    private static CheckItem Pick(PapersReport report, string code) => Assert.Single(report.Items, i => i.Code == code);

    private static CheckItem FlightPart(double hours, DateOnly lastCheck) =>
        Pick(Check(Pilot(p => p with { SlingTimeLastYear = Duration.FromHours(hours), LastSlingCheck = lastCheck })), "papers-recurrent-flight");

    private static LiftRequest Pilot(Func<CrewMember, CrewMember>? change = null)
    {
        CrewMember pilot = new()
        {
            Name = "Kim", Role = CrewRole.Pilot, LicenceUntil = new(2027, 1, 31), MedicalUntil = new(2026, 12, 31), SlingLevel = 2, LastSlingCheck = new(2025, 3, 1),
            SlingTimeLastYear = Duration.FromHours(140), TimeInThisTerrain = Duration.FromHours(600),
        };
        return new() { Date = Day, Line = new() { Length = Length.FromMeters(30) }, Crew = [change is null ? pilot : change(pilot)] };
    }
}
