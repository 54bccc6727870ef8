using Stillhook.Briefing;
using Stillhook.Planning;

namespace Stillhook.Tests.Briefing;

/// <summary>The job in the order of an issued brief. Expected values are closed form: the words and numbers that went in.</summary>
public class BriefedOrderTests
{
    private static readonly LiftRequest Example = BriefedJobs.Example;

    private static BriefedOrder Of(string said) => new([], new Dictionary<string, string> { ["path bend"] = said });

    // A load's words begin with those of load 1 for loads 10 to 19 too.
    [Theory]
    [InlineData("load 1 (stone bag)", "1")]
    [InlineData("load 13 (stone bag)", "13")]
    [InlineData("load 24 (timber, wet)", "24")]
    [InlineData("load 1", null)]
    [InlineData("the load", null)]
    public void LoadAt_WordsOfTheCard_AreThatLoad(string said, string? number) => Assert.Equal(number, Of(said).LoadAt(Example, "path bend"));

    [Fact]
    public void LoadAt_SiteWithoutACard_IsNone() => Assert.Null(Of("load 1 (stone bag)").LoadAt(Example, "elsewhere"));

    [Fact]
    public void InOrder_NumbersOfTheBrief_AreTheDaysOrderAndNoneChangesNothing()
    {
        Assert.Equal(["3", "1"], new BriefedOrder(["3", "1"], new Dictionary<string, string>()).InOrder(Example).Day!.Order);
        Assert.Same(Example, Of("load 1").InOrder(Example));
    }
}
