namespace Stillhook.Planning.Papers;

/// <summary>The one-page paper check: red items first, then amber, then green.</summary>
/// <param name="Items">Every paper looked at.</param>
public sealed record PapersReport(IReadOnlyList<CheckItem> Items)
{
    /// <summary>Said once over the whole list.</summary>
    public const string Caution = "Prompt, not legal advice.";

    /// <summary>Worst of the items.</summary>
    public CheckVerdict Verdict => CheckItem.Worst(Items);
}
