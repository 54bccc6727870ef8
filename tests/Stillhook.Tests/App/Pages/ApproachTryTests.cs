using Stillhook.App.Commands;
using Stillhook.App.Pages.Approach;
using Stillhook.Approaching;
using Stillhook.Files.Jobs;
using Stillhook.Files.Pictures;
using Stillhook.Planning;
using UnitsNet;

namespace Stillhook.Tests.App.Pages;

/// <summary>What is typed on the approach page to try something else than planned, and what it may be worked out from.</summary>
public sealed class ApproachTryTests
{
    private static readonly JobFile Example = Read();

    private static readonly ApproachPlan Planned = ApproachCommand.Planned(Example.Request, Options());

    private static JobFile Read()
    {
        using FileStream file = File.OpenRead(Repository.File("examples/path-repair.json"));
        return JobFile.Read(file);
    }

    private static ApproachOptions Options() => ApproachCommand.Options(Example, null) with { Load = "4", Flights = 100, TrialFlights = 60 };

    private static ApproachTry Typed(DisplayUnits units, DisplayUnits typedIn, params (string Key, string Text)[] typed) =>
        ApproachTry.Read(Planned, units, typedIn, key => typed.Where(t => t.Key == key).Select(t => t.Text).FirstOrDefault());

    [Fact]
    public void Read_AsPlanned_TriesNothing()
    {
        ApproachTry asPlanned = Typed(DisplayUnits.Feet, DisplayUnits.Feet, ("wind-from", "250"), ("wind-speed", "5"), ("line", "30"), ("load-mass", "742"));

        Assert.True(asPlanned.Shift.IsEmpty);
        Assert.Empty(asPlanned.Mistakes);
    }

    [Fact]
    public void Read_OnlyTheDirectionTyped_KeepsThePlannedSpeed()
    {
        ApproachTry turned = Typed(DisplayUnits.Feet, DisplayUnits.Feet, ("wind-from", "200"));

        Assert.Equal(200, turned.Shift.Wind!.Value.FromDeg);
        // Closed form: the example's 5 kt.
        Assert.Equal(5, turned.Shift.Wind.Value.Speed.Knots, 1e-9);
        Assert.Equal("wind from 200 ° true (planned 250)", turned.Words);
    }

    [Theory]
    [InlineData("line", "35,5")]
    [InlineData("line", "2")]
    [InlineData("wind-speed", "fast")]
    [InlineData("load-mass", "")]
    [InlineData("temperature", "NaN")]
    [InlineData("wind-from", "1e2")]
    public void Read_CantBeUsed_SaysWhatToTypeAndTriesNothing(string key, string text)
    {
        ApproachTry tried = Typed(DisplayUnits.Feet, DisplayUnits.Feet, (key, text));

        Assert.Contains("Type a number from", tried.Mistakes[key], StringComparison.Ordinal);
        Assert.True(tried.Shift.IsEmpty);
    }

    [Fact]
    public void Read_TypedInPoundsShownInKilograms_IsTheSameLoad()
    {
        ApproachTry tried = Typed(DisplayUnits.Feet, DisplayUnits.Pounds, ("load-mass", "1543"));

        // Closed form: 1 543 lb × 0.45359237 kg/lb = 699.89 kg.
        Assert.Equal(699.89, tried.Shift.Load!.Mass.Kilograms, 0.01);
        Assert.Equal("4", tried.Shift.Load.Number);
        Assert.Equal("700", tried.Typed["load-mass"]);
    }

    [Fact]
    public void Applied_AnotherMass_ChangesThatLoadAloneAndCallsItAnEstimate()
    {
        ApproachShift shift = new(Load: new("4", Mass.FromKilograms(600)));

        var loads = shift.Applied(Example.Request).Loads;

        Assert.Equal(600, loads.Single(l => l.Number == "4").Mass.Kilograms, 1e-9);
        Assert.Equal(MassKnownBy.Estimated, loads.Single(l => l.Number == "4").HowKnown);
        Assert.Equal(Example.Request.Loads.Where(l => l.Number != "4"), loads.Where(l => l.Number != "4"));
    }

    // Closed form: the wind enters no part of the lift plan, so a plan made before it turned gives the same approach as one made after.
    [Fact]
    public void Plan_AnotherWindOverTheLiftPlanOfBefore_IsThatOfANewLiftPlan()
    {
        ApproachShift shift = new(Wind: new(200, Speed.FromKnots(12)));
        ApproachOptions options = Options() with { Shift = shift };

        ApproachPlan quick = ApproachPlanner.Plan(shift.Applied(Example.Request), Job.Plan(Example.Request, options.Plan), options), anew = ApproachCommand.Planned(shift.Applied(Example.Request), options);

        Assert.Equal(anew.CourseDeg, quick.CourseDeg);
        Assert.Equal(anew.Gates, quick.Gates);
        Assert.NotEqual(Planned.Gates, quick.Gates);
    }
}
