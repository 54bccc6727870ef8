using Stillhook.App.Pages;
using Stillhook.Debriefing;
using Stillhook.Files.Pictures;
using UnitsNet;

namespace Stillhook.Tests.App.Pages;

public class CrewFiguresTests
{
    [Fact]
    public void Apply_TypedFigures_ReplaceAndAreMarkedTyped()
    {
        LiftSetup given = new() { Load = new(Mass.FromKilograms(500), Origin.JobFile) };
        LiftSetup setup = CrewFigures.Apply(given, new Dictionary<string, string> { ["line"] = "100ft", ["wind"] = "240/10kt", ["rigging"] = "" });
        // Closed form: 1 ft = 0.3048 m, 1 kt = 1852/3600 m/s.
        Assert.Equal(30.48, setup.Line.Value.Meters, 1e-9);
        Assert.Equal(10 * 1852 / 3600.0, setup.Wind!.Value.Value.Speed.MetersPerSecond, 1e-9);
        Assert.Equal((Origin.Typed, Origin.JobFile, Origin.Assumed), (setup.Line.From, setup.Load.From, setup.Rigging.From));
    }

    [Theory]
    [InlineData("line", "30", "30m")]
    [InlineData("line", "30,5m", "30m")]
    [InlineData("load", "heavy", "780kg")]
    [InlineData("line", "300m", "3 to 150 m")]
    [InlineData("load", "1kg", "5 to 15000 kg")]
    [InlineData("wind", "400/10kt", "240/12kt")]
    [InlineData("wind", "240/200kt", "0 to 50 m/s")]
    public void Mistake_TextThatCannotBeUsed_SaysWhatIsExpected(string key, string text, string expected) =>
        Assert.Contains(expected, CrewFigures.Mistake(key, text), StringComparison.Ordinal);

    [Fact]
    public void Mistake_EveryExampleOfTheForm_IsUnderstood() =>
        Assert.All(CrewFigures.All, figure => Assert.All(figure.Example.Split(" or "), example => Assert.Null(CrewFigures.Mistake(figure.Key, example))));

    [Fact]
    public void Held_NothingGiven_IsSaidToBeAssumed() =>
        Assert.All(CrewFigures.All, figure => Assert.Equal(Origin.Assumed, CrewFigures.Held(new(), figure.Key, DisplayUnits.Feet).From));
}
