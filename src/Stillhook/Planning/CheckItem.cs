namespace Stillhook.Planning;

/// <summary>What came of a check. Rising: the worst of several is the largest.</summary>
public enum CheckVerdict
{
    /// <summary>In order as far as it was entered.</summary>
    Passes,

    /// <summary>Not known, or a person must look: nobody may read it as passed.</summary>
    ToConfirm,

    /// <summary>Against a rule or a limit.</summary>
    Fails,
}

/// <summary>Where an item stands in a list.</summary>
public enum CheckColour
{
    /// <summary>In order.</summary>
    Green,

    /// <summary>Not entered, or for a person to look at.</summary>
    Amber,

    /// <summary>Against a rule, or a missing entry that is too grave for amber.</summary>
    Red,
}

/// <summary>One thing looked at.</summary>
/// <param name="Verdict">What came of it.</param>
/// <param name="Code">Short stable name in kebab case.</param>
/// <param name="Path">Where in the request, such as <c>rigging[2].ratedLoad</c>.</param>
/// <param name="Subject">Person, part or wire it is about.</param>
/// <param name="Text">What was found, in a plain sentence; masses and lengths stand in figures, not here, so that units can be switched.</param>
/// <param name="Source">Key of the source in docs/sources.md, or 'common practice, no source'.</param>
/// <param name="Red">Stands among the red items of a list though it does not fail: a missing entry that is too grave for amber.</param>
public sealed record CheckItem(CheckVerdict Verdict, string Code, string Path, string Subject, string Text, string Source, bool Red = false)
{
    /// <summary>Source of what crews do and nobody wrote down.</summary>
    public const string CommonPractice = "common practice, no source";

    /// <summary>Where it stands in a list, red first.</summary>
    public CheckColour Colour => Red || Verdict == CheckVerdict.Fails ? CheckColour.Red : Verdict == CheckVerdict.ToConfirm ? CheckColour.Amber : CheckColour.Green;

    /// <summary>The worst of some items; passes when there are none.</summary>
    public static CheckVerdict Worst(IEnumerable<CheckItem> items) => items.Select(i => i.Verdict).DefaultIfEmpty().Max();
}
