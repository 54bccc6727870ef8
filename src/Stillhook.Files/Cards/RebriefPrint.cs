using Stillhook.Briefing;
using Stillhook.Briefing.Printing;

namespace Stillhook.Files.Cards;

/// <summary>The re-brief: only what changed since the last one, was and now side by side.</summary>
internal static class RebriefPrint
{
    public static PrintedCard Of(Brief brief, EarlierBrief since, IReadOnlyList<BriefChange> changes) =>
        CardPrints.Card(brief, "re-brief", "Re-brief: what changed", "Since the brief of " + CardPrints.Moment(since.IssuedAt), Parts(changes));

    private static IEnumerable<CardPart> Parts(IReadOnlyList<BriefChange> changes)
    {
        if (changes.Count == 0)
        {
            yield return new CardText("Nothing changed.", CardSize.Large, Strong: true);
            yield break;
        }
        yield return new CardText("All else stands as briefed. Old cards of what stands here are taken back.", Strong: true, Boxed: true);
        foreach (IGrouping<string, BriefChange> topic in changes.GroupBy(c => c.Topic))
        {
            yield return new CardHeading(topic.Key);
            yield return new CardTable(topic.Key, [new("What", 26), new("Was", 35), new("Now", 39, Strong: true)], [.. topic.Select(c => new CardRow(c.Name, c.Was ?? "new", c.Now ?? "GONE"))]);
        }
        yield return new CardBlank("Heard and understood", 2);
    }
}
