using Stillhook.Approaching;
using Stillhook.Briefing;
using Stillhook.Files.Cards;
using Stillhook.Files.Pictures;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.Briefing;

/// <summary>What stands in more than one place is one figure. 2026-11-26: power left, swing, hook-on times and stand-off each differed between page, working and card.</summary>
public class OneFigureTests
{
    private static readonly LiftPlan Plan = Job.Plan(BriefedJobs.Example, new());
    private static readonly ApproachPlan Approach = BriefedApproaches.Of(BriefedJobs.Example, Plan, Stillhook.Tests.Approaching.ApproachJobs.Quick, []).First().Plan;
    private static readonly Brief Brief = Job.Brief(BriefedJobs.Example, Plan, [new(Approach.Situation!.Site.Name, Approach)], BriefedJobs.Issue);

    private static string Card(string title) => CardHtml.Page(CardPrints.Of(Brief, DisplayUnits.Feet).Single(c => c.Title.StartsWith(title, StringComparison.Ordinal)));

    // Closed form: the figure is 1 - 1/x of the x in its own working, rounded down, as on the card.
    [Fact]
    public void PowerLeft_WorkingAndCard_EndInTheSameFigure()
    {
        Figure left = Approach.Figures.Find("approach.hover")!;
        double percent = ((Ratio)left.Value.Quantity).Percent, x = left.Inputs.Single(i => i.Name == "x").Value.Quantity.As(UnitsNet.Units.ScalarUnit.Amount);
        Assert.Equal(Math.Floor(100 * (1 - 1 / x) + 1e-9), percent, 1e-9);
        Assert.Equal(Math.Floor(Approach.Situation!.Hover!.LeftPercent + 1e-9), percent, 1e-9);
        Assert.Contains(FormattableString.Invariant($"{percent:0} %"), Card("Cockpit"), StringComparison.Ordinal);
    }

    // Closed form: one text of both ends.
    [Fact]
    public void Swing_PageAndCard_SayTheSameRange()
    {
        string words = Approach.Situation!.SwingWords;
        Assert.Matches("^[0-9]+ to [0-9]+ s$", words);
        Assert.Contains(words, Card("Cockpit"), StringComparison.Ordinal);
        Assert.Contains(words, Approach.Figures.Find("approach.period")!.Note, StringComparison.Ordinal);
    }

    // Closed form: both ends in the same second are one figure.
    [Theory]
    [InlineData(9.2, 11.4, "9 to 11 s")]
    [InlineData(10.6, 11.4, "11 s")]
    public void SwingText_WholeSeconds_OneFigureOrARange(double free, double held, string text) => Assert.Equal(text, ApproachSituation.SwingText(free, held));

    // Closed form: the plan's own minute, written by the plan's own rule. 08:33:30 is 08:34 on the plan and was 08:33 on the card.
    [Fact]
    public void HookOn_PlanAndLoadMastersSheet_AreTheSameMinute()
    {
        string card = Card("Load master");
        foreach (LoadRow row in Brief.LoadMasters[0].Loads)
            Assert.Contains(ClockText.Of(row.HookOnMinute) + "</td>", card, StringComparison.Ordinal);
        Assert.Contains(Brief.LoadMasters[0].Loads, r => r.HookOnMinute % 1 > 0.01);
    }

    // Closed form: half past the minute is shown as the minute after; a limit as the minute before.
    [Theory]
    [InlineData(513.5, "08:34", "08:33")]
    [InlineData(513, "08:33", "08:33")]
    public void ClockText_WithinAMinute_EventsUpLimitsDown(double minute, string of, string limit) => Assert.Equal((of, limit), (ClockText.Of(minute), ClockText.Limit(minute)));

    // Common practice, no source: 10 m where nobody set a distance. Said to be a default only where it decides, not where the simulated flights come farther.
    [Fact]
    public void StandOff_SetByNobody_IsSaidToBeADefault()
    {
        Assert.Equal(Brief.Receivers[0].StandOffM == 10, Brief.Receivers[0].StandOffIsDefault);
        Assert.Contains(Plan.Defaults, d => d.Where == "approach.peopleClearance");
        Assert.Contains(Approach.Checks, c => c.Code == "stand-off-default");
        ReceiverSheet unset = Brief.Receivers[0] with { StandOffM = 10, StandOffIsDefault = true };
        Assert.Contains("A DEFAULT", CardHtml.Page(CardPrints.Of(Brief with { Receivers = [unset] }, DisplayUnits.Feet).Single(c => c.Title.StartsWith("Receiver", StringComparison.Ordinal))), StringComparison.Ordinal);
    }

    [Fact]
    public void StandOff_SetByTheOperator_IsNone()
    {
        LiftRequest set = BriefedJobs.Example with { Approach = BriefedJobs.Example.Approach! with { PeopleClearance = Length.FromMeters(12) } };
        Brief brief = BriefedJobs.Of(set);
        Assert.Equal((12, false), (brief.Receivers[0].StandOffM, brief.Receivers[0].StandOffIsDefault));
    }

    // Closed form: two readings are the same or not; two places within a metre are one.
    [Fact]
    public void Marks_OfTheSameReading_SayHowTheyDiffer()
    {
        foreach ((ApproachGate before, ApproachGate gate) in Approach.Gates.Zip(Approach.Gates.Skip(1)))
            Assert.Equal(before.AltimeterFt == gate.AltimeterFt, Approach.BesideReading(gate).Length > 0);
        Assert.Equal("same place", ApproachPlan.SameReading(6140, 90, 6140, 90));
        Assert.Equal("same height, further in", ApproachPlan.SameReading(6140, 90, 6140, 50));
        Assert.Equal("", ApproachPlan.SameReading(6160, 96, 6140, 90));
    }

    // Closed form: the hottest forecast hour, 19.5 °C at the bend and 21 °C at the turning place, and 5 °C [NWCG-PMS-510]. 30 and 40 °C were told on a card of that day.
    [Fact]
    public void Heat_FarFromTheDay_IsNoTrigger()
    {
        CockpitCard card = Brief.Cockpit[0];
        Assert.All(card.Triggers!.Heat, h => Assert.True(h.TemperatureC <= (h.Site == "path bend" ? 19.5 : 21) + 5, FormattableString.Invariant($"{h}")));
        LiftRequest light = BriefedJobs.Example with { Loads = [.. BriefedJobs.Example.Loads.Where(l => l.Family == "timber").Select(l => l with { After = [] })] };
        Brief cool = BriefedJobs.Of(light);
        Assert.Empty(cool.Cockpit[0].Triggers!.Heat);
    }
}
