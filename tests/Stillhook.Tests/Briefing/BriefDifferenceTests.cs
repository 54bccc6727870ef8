using Stillhook.Briefing;

namespace Stillhook.Tests.Briefing;

public class BriefDifferenceTests
{
    private static readonly BriefLine[] Before = [new("Weather", "yard", "1014 hPa"), new("Loads", "load 1", "600 kg"), new("Loads", "load 2", "700 kg"), new("Contacts", "hut", "1")];

    [Fact]
    public void Between_Same_IsEmpty() => Assert.Empty(BriefDifference.Between(Before, [.. Before]));

    [Fact]
    public void Between_ChangedNewAndGone_OnlyThoseWithWasAndNow()
    {
        BriefLine[] after = [new("Weather", "yard", "1011 hPa"), new("Loads", "load 1", "600 kg"), new("Loads", "load 3", "500 kg"), new("Contacts", "hut", "1")];
        Assert.Equal(
            [new BriefChange("Weather", "yard", "1014 hPa", "1011 hPa"), new BriefChange("Loads", "load 3", null, "500 kg"), new BriefChange("Loads", "load 2", "700 kg", null)],
            BriefDifference.Between(Before, after));
    }

    // Two lines of one name are one fact: told apart only when one of them changes.
    [Fact]
    public void Between_LinesOfOneName_AreHeldTogether()
    {
        BriefLine[] twice = [new("Hazards", "mast", "a"), new("Hazards", "mast", "b")];
        Assert.Empty(BriefDifference.Between(twice, [.. twice]));
        Assert.Equal(new BriefChange("Hazards", "mast", "a; b", "a"), Assert.Single(BriefDifference.Between(twice, [twice[0]])));
    }

    // Closed form: a turn of the compass is eight words of 45 degrees.
    [Theory, InlineData(0, "north"), InlineData(22.4, "north"), InlineData(22.6, "north-east"), InlineData(180, "south"), InlineData(300, "north-west"), InlineData(359, "north"), InlineData(-90, "west"), InlineData(720, "north")]
    public void Word_Bearing_IsTheNearestOfEight(double deg, string word) => Assert.Equal(word, Compass.Word(deg));

    [Fact]
    public void Word_NotANumber_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(() => Compass.Word(double.NaN));
}
